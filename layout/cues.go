package layout

import (
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/layout/staves"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// longRest is how many bars of rest call for a cue before the entry.
const longRest = 6

// cuer prepares the entries of a part that is printed alone.
type cuer struct {
	w     *partWalk
	heard map[int]*latest // by layer of the current section
	in    int             // the section
	voice *cursor         // of the layer that is written in small notes
}

// latest follows the cycles of another player's layer up to a moment.
type latest struct {
	cycles *peek.Peeker[score.Cycle]
	start  beat.Time // of the last of them; -1 before the first
}

func newCuer(w *partWalk) *cuer { return &cuer{w: w, heard: map[int]*latest{}, in: -1} }

// guide finds whom to listen to before the moment an entry comes in: the other
// player's layer that last began a cycle before it, the first in the score of
// several; and when. Calls come in time order within a section.
func (q *cuer) guide(section int, entry beat.Time) (layer int, start beat.Time, ok bool) {
	if section != q.in {
		q.in, q.heard, q.voice = section, map[int]*latest{}, nil
	}
	s := q.w.p.Sections[section]
	for i, l := range s.Layers {
		if l.Line != nil || l.Player == q.w.plan.player.Name || l.Name == q.w.plan.player.Name {
			continue
		}
		f := q.heard[i]
		if f == nil {
			f = &latest{peek.From(s.ReadCycles(i).Next), -1}
			q.heard[i] = f
		}
		for c := range f.cycles.While(func(c score.Cycle) bool { return c.Start < entry }) {
			f.start = c.Start
		}
		if f.start >= 0 && l.Leaves > f.start && (!ok || f.start > start) {
			layer, start, ok = i, f.start, true
		}
	}
	return layer, start, ok
}

// words writes the cue for an entry at the given moment of the piece.
func (q *cuer) words(entry *sheet.Bar) (m sheet.Mark, layer int, ok bool) {
	section := entry.Section
	s := q.w.p.Sections[section]
	layer, start, ok := q.guide(section, entry.Start-s.Start)
	if !ok {
		return sheet.Mark{}, 0, false
	}
	text := fmt.Sprintf("%s at bar %d", s.Layers[layer].Short, s.BarAt(start).Number)
	return sheet.Mark{Kind: sheet.Cue, Text: text}, layer, true
}

// whose is the words before the first small note: whose notes they are, and in what octave
// they sound if that is not where they are written. ok is false in a bar without any.
func (q *cuer) whose(b *sheet.Bar, layer int) (m sheet.Mark, ok bool) {
	last := len(b.Measure.Voices) - 1
	v := &b.Measure.Voices[last]
	first := slices.IndexFunc(v.Events, func(e sheet.Event) bool { _, note := e.(*sheet.Note); return note })
	if !v.Small || first < 0 {
		return sheet.Mark{}, false
	}
	l := q.w.p.Sections[b.Section].Layers[layer]
	text := l.Short
	if up := q.octaves(l); up != 0 {
		octaves, where := "an octave", "higher"
		if up < 0 {
			up, where = -up, "lower"
		}
		if up > 1 {
			octaves = fmt.Sprint(up, " octaves")
		}
		text += ", sounds " + octaves + " " + where
	}
	return sheet.Mark{Kind: sheet.Cue, Voice: last, Before: first, Text: text}, true
}

// notes writes a bar of rest again with a layer's rhythm in small notes over
// it. Bars come in time order within a section.
func (q *cuer) notes(b *sheet.Bar, layer int) *sheet.Measure {
	s := q.w.p.Sections[b.Section]
	if q.voice == nil || q.voice.layer != s.Layers[layer] {
		q.voice = newCursor(s, layer)
	}
	from := b.Start - s.Start
	to := from + b.Measure.Length
	c := q.voice
	c.read(from, to)
	if q.w.plan.Pitched && s.Layers[layer].Instrument.IsUnpitched() {
		return b.Measure // a drum has no place on this staff: the words must do
	}
	own := q.w.plan.Voices[0]
	small := &bar.VoicePlan{Layer: s.Layers[layer].Name, Staff: own.Staff, Number: 4*(own.Staff-1) + len(q.w.plan.Voices) + 1,
		Stem: sheet.StemUp, Small: true, Bare: !q.w.plan.Pitched}
	in := bar.Input{Signature: b.Measure.Signature, MetricGrid: bar.NewMetricGrid(b.Measure.Signature, q.w.p.Grid).After(b.Measure.Skipped), Key: b.Measure.Key, Numbers: true}
	in.Voices = make([]bar.VoiceInput, 1)
	in.Voices[0].Voice = small
	c.fill(&in.Voices[0], from, to)
	for i := range in.Voices[0].Segments {
		sl := &in.Voices[0].Segments[i]
		sl.Tones = slices.Clone(sl.Tones)
		for k := range sl.Tones {
			sl.Tones[k].Octave -= int8(q.octaves(s.Layers[layer]))
		}
	}
	in.Voices[0].ByGroup = q.w.o.spellsByGroup(c.layer, in.Signature)
	m, _, err := q.w.writer.Write(&in)
	if err != nil {
		return b.Measure // a rhythm that has no notation here is no help to the player
	}
	cue := *b.Measure
	cue.Voices = append(append([]sheet.Voice(nil), b.Measure.Voices...), m.Voices...)
	for i := range b.Measure.Voices {
		cue.Voices[i].Stem = sheet.StemDown // the player's own rest is below
	}
	plain(&cue.Voices[len(cue.Voices)-1])
	return &cue
}

// octaves is how many octaves higher a layer sounds than its cue is written,
// so that the cue's median is at most one ledger line off the player's staff.
func (q *cuer) octaves(l *score.Layer) int {
	plan := q.w.plan
	median, ok := staves.MedianPlace(q.w.writer.Wanted, l)
	if !ok || !plan.Pitched {
		return 0
	}
	clef, up := plan.Staves[plan.Voices[0].Staff-1].Clef, 0
	for staves.Distance(clef, median) > 6 {
		step := 1
		if staves.Distance(clef, median+7) < staves.Distance(clef, median) {
			step = -1
		}
		median, up = median-7*step, up+step
	}
	return up
}

// plain takes from a cue what only its own player needs: accents, touches,
// grace notes, slurs, syllables, and ties that lead out of the cue.
func plain(v *sheet.Voice) {
	for i, e := range v.Events {
		n, ok := e.(*sheet.Note)
		if !ok {
			continue
		}
		n.Accent, n.Touch, n.Graces, n.Lyrics, n.Slur, n.Group = false, score.Plain, nil, nil, score.Slur{}, 0
		for k := range n.Heads {
			n.Heads[k].Ghost = false
		}
		if i == 0 {
			n.TieIn = false
		}
		if i == len(v.Events)-1 {
			n.TieOut = false
		}
	}
}
