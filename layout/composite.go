package layout

import (
	"cmp"
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/layout/staves"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/peek"
	"tieover/score/source"
)

// Composite is a part for one player made of the attacks of several layers:
// each sounds until the next of any, and what is struck together is a chord.
// It is spelled and beamed by the meter.
type Composite struct {
	Name       string                 // "" for "Composite"
	Layers     []string               // nil for all
	Instrument *instrument.Instrument // nil to find one
}

// LayComposite writes a composite as a part of its own.
func LayComposite(p *score.Piece, o Options, c Composite) (*sheet.Sheet, source.Problems) {
	o.Barring = Barring{}
	pt, problems := c.part(p, o)
	if len(problems) > 0 {
		return nil, problems
	}
	return proven(p, o, []*part{pt}, true)
}

// part plans the composite.
func (c Composite) part(p *score.Piece, o Options) (*part, source.Problems) {
	var problems source.Problems
	layers := c.layers(p, &problems)
	if len(problems) > 0 {
		return nil, problems
	}
	ins := c.instrument(layers, &problems)
	if len(problems) > 0 {
		return nil, problems
	}
	name := cmp.Or(c.Name, "Composite")
	player := score.Player{Name: name, Short: "Comp.", Instrument: ins, Layers: make([][]int, len(p.Sections))}
	together := *layers[0]
	together.Name, together.Series = name, nil
	for _, l := range layers {
		together.Series = append(together.Series, l.Series...)
	}
	plan := &partPlan{player: player, wanted: bar.NewTransposer(ins, o.Concert), feeds: []feed{compositeFeed(p, c.Layers, ins)}}
	plan.Plan = staves.ForLayer(&together, ins, plan.wanted)
	o.Beams = BeamMeter
	pt := newPart(p, o, []*partPlan{plan}, lookups(p, &o))
	pt.top, pt.alone, pt.chords = true, true, plan.Pitched
	return pt, nil
}

// instrument is the one asked for, else that of the first layer if all have
// pitches or all are sounds of one drum set, else a plain line.
func (c Composite) instrument(layers []*score.Layer, problems *source.Problems) *instrument.Instrument {
	ins := layers[0].Instrument
	for _, l := range layers {
		if l.Instrument.IsUnpitched() != ins.IsUnpitched() || ins.IsUnpitched() && l.Instrument != ins {
			ins = instrument.Rhythm
		}
		if c.Instrument != nil && !c.Instrument.IsUnpitched() && l.Instrument.IsUnpitched() {
			problems.Add(l.Pos, fmt.Sprintf("layer %q has no pitches that a %s could play in the composite", l.Name, c.Instrument.InWords()),
				"leave it out, or choose an unpitched instrument")
		}
	}
	return cmp.Or(c.Instrument, ins)
}

// layers lists the layers that take part, in order of first appearance.
func (c Composite) layers(p *score.Piece, problems *source.Problems) []*score.Layer {
	var layers []*score.Layer
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if (c.Layers == nil || slices.Contains(c.Layers, l.Name)) && !hasLayer(layers, l.Name) {
				layers = append(layers, l)
			}
		}
	}
	for _, name := range c.Layers {
		if !hasLayer(layers, name) {
			problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q for the composite", name), "name layers of the spec")
		}
	}
	return layers
}

func hasLayer(layers []*score.Layer, name string) bool {
	return slices.ContainsFunc(layers, func(l *score.Layer) bool { return l.Name == name })
}

// compositeFeed reads the named layers of a section as one voice, each attack a
// cycle of its own.
func compositeFeed(p *score.Piece, names []string, ins *instrument.Instrument) feed {
	return func(section int) *cursor {
		s := p.Sections[section]
		var layers []int
		for i, l := range s.Layers {
			if names == nil || slices.Contains(names, l.Name) {
				layers = append(layers, i)
			}
		}
		if len(layers) == 0 {
			return nil
		}
		own := &score.Layer{Name: "Composite", Instrument: ins, Pulse: s.Pulse, Unit: 1, Enters: s.Opening(), Leaves: s.Extent(), Pos: s.Layers[layers[0]].Pos}
		own.Pulse.Actual, own.Pulse.Normal = 1, 1
		return &cursor{layer: own, plainVoice: true, cycles: peek.From(newMerger(s, layers, ins).next)}
	}
}

// merger reads the attacks of several layers as one rhythm, each a cycle of its
// own that lasts to the next.
type merger struct {
	s       *score.Section
	ins     *instrument.Instrument
	moments *score.MomentReader
	held    score.Cycle // until it is known when the next one begins
	more    bool        // there is one
	chord   score.Chord // being made
	chords  slab[score.Tone]
	attacks slab[score.Attack]
}

func newMerger(s *score.Section, layers []int, ins *instrument.Instrument) *merger {
	m := &merger{s: s, ins: ins, moments: s.ReadMoments(layers)}
	m.held, m.more = m.cycle()
	return m
}

func (m *merger) next() (c score.Cycle, ok bool) {
	if !m.more {
		return score.Cycle{}, false
	}
	c = m.held
	m.held, m.more = m.cycle()
	length := c.Attacks[0].Length
	switch {
	case m.more:
		length = m.held.Start - c.Start
	case c.Start < m.s.Length:
		length = m.s.Length - c.Start
	}
	c.Length, c.Sounds, c.Attacks[0].Length = length, length, length
	return c, true
}

// cycle makes a cycle of the next moment, not yet as long as it will be.
func (m *merger) cycle() (c score.Cycle, ok bool) {
	now, ok := m.moments.Next()
	if !ok {
		return score.Cycle{}, false
	}
	a := score.Attack{Length: 1, Group: -1}
	m.chord = m.chord[:0]
	for i, struck := range now.Attacks {
		a.Accent = a.Accent || struck.Accent
		a.Length = max(a.Length, struck.Length)
		for _, t := range tonesFor(m.ins, m.s.Layers[now.Layers[i]].Instrument, struck.Tones) {
			if slices.Contains(m.chord, t) {
				continue // most are known, which needs no search
			}
			if place, known := slices.BinarySearchFunc(m.chord, t, lowestFirst); !known {
				m.chord = slices.Insert(m.chord, place, t)
			}
		}
	}
	a.Tones = m.chords.keep(m.chord...)
	return score.Cycle{Start: now.Time, Attacks: m.attacks.keep(a)}, true
}

// slab keeps short lists in long arrays, for there are many.
type slab[T any] struct{ room []T }

func (s *slab[T]) keep(list ...T) []T {
	n := len(list)
	if n > len(s.room) {
		s.room = make([]T, max(n, 128))
	}
	kept := s.room[:n:n]
	copy(kept, list)
	s.room = s.room[n:]
	return kept
}

// tonesFor returns the tones that an instrument can write: sounds of another
// drum set have no place on it.
func tonesFor(ins, from *instrument.Instrument, tones score.Chord) score.Chord {
	if ins.IsUnpitched() != from.IsUnpitched() || ins.IsUnpitched() && ins != from {
		return nil
	}
	return tones
}

func lowestFirst(a, b score.Tone) int {
	if a.IsPitched() && b.IsPitched() {
		return cmp.Or(a.Key()-b.Key(), int(a.Octave)-int(b.Octave), int(a.Step)-int(b.Step))
	}
	return int(a.Drum) - int(b.Drum)
}
