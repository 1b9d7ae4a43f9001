package layout

import (
	"cmp"
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/composite"
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
	return proven(p, o, []*part{pt}, problems, true)
}

// Unplayable lists where a composite asks too much of one player (see
// composite.Unplayable). These are warnings: the part is written all the same.
func (c Composite) Unplayable(p *score.Piece) source.Problems {
	layers, problems := c.of(p)
	if len(problems) > 0 {
		return problems
	}
	for _, s := range p.Sections {
		if own := c.indexes(s); len(own) > 0 {
			problems = append(problems, composite.Unplayable(s, own, c.instrument(layers))...)
		}
	}
	return problems
}

// part plans the composite.
func (c Composite) part(p *score.Piece, o Options) (*part, source.Problems) {
	layers, problems := c.of(p)
	if len(problems) > 0 {
		return nil, problems
	}
	ins := c.instrument(layers)
	player := score.Player{Name: cmp.Or(c.Name, "Composite"), Short: "Comp.", Instrument: ins, Layers: make([][]int, len(p.Sections))}
	all := *layers[0]
	all.Name, all.Series = player.Name, nil
	for _, l := range layers {
		all.Series = append(all.Series, l.Series...)
	}
	plan := &partPlan{player: player, wanted: bar.NewTransposer(ins, o.Concert)}
	plan.Plan = staves.ForLayer(&all, ins, plan.wanted)
	plan.feeds = []feed{func(section int) *cursor { return c.cursor(p.Sections[section], ins) }}
	o.Beams = BeamMeter
	pt := newPart(p, o, []*partPlan{plan}, lookups(p, &o))
	pt.top, pt.alone, pt.chords = true, true, plan.Pitched
	return pt, nil
}

// of lists the layers that take part, the first of each name, in order of appearance.
func (c Composite) of(p *score.Piece) (layers []*score.Layer, problems source.Problems) {
	known := map[string]bool{}
	for _, s := range p.Sections {
		for _, j := range c.indexes(s) {
			if l := s.Layers[j]; !known[l.Name] {
				known[l.Name] = true
				layers = append(layers, l)
			}
		}
	}
	for _, name := range c.Layers {
		if !known[name] {
			problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q for the composite", name), "name layers of the spec")
		}
	}
	for _, l := range layers {
		if c.Instrument != nil && !c.Instrument.IsUnpitched() && l.Instrument.IsUnpitched() {
			problems.Add(l.Pos, fmt.Sprintf("layer %q has no pitches that a %s could play in the composite", l.Name, c.Instrument.InWords()),
				"leave it out, or choose an unpitched instrument")
		}
	}
	return layers, problems
}

// indexes are those of the layers that take part in a section.
func (c Composite) indexes(s *score.Section) (all []int) {
	for i, l := range s.Layers {
		if c.Layers == nil || slices.Contains(c.Layers, l.Name) {
			all = append(all, i)
		}
	}
	return all
}

// instrument is the one asked for, else that of the first layer if all have
// pitches or all are sounds of one drum set, else a plain line.
func (c Composite) instrument(layers []*score.Layer) *instrument.Instrument {
	if c.Instrument != nil {
		return c.Instrument
	}
	first := layers[0].Instrument
	for _, l := range layers {
		if l.Instrument.IsUnpitched() != first.IsUnpitched() || first.IsUnpitched() && l.Instrument != first {
			return instrument.Rhythm
		}
	}
	return first
}

// cursor reads the layers of a section as one voice; nil where none is in it.
func (c Composite) cursor(s *score.Section, ins *instrument.Instrument) *cursor {
	layers := c.indexes(s)
	if len(layers) == 0 {
		return nil
	}
	own := &score.Layer{Name: "Composite", Instrument: ins, Pulse: s.Pulse, Unit: 1, Enters: s.Opening(), Leaves: s.Extent(), Pos: s.Layers[layers[0]].Pos}
	own.Pulse.Actual, own.Pulse.Normal = 1, 1
	for _, i := range layers {
		own.Of = append(own.Of, s.Layers[i])
	}
	return &cursor{layer: own, plainVoice: true, cycles: peek.From(composite.NewReader(s, layers, ins).Next)}
}
