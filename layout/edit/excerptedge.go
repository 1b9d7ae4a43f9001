package edit

import (
	"slices"

	"tieover/layout/sheet"
)

// cutter cuts what leads over the edges of an excerpt.
type cutter struct {
	open    map[line]bool
	slurs   openSlurs
	started bool
	bars    int    // so far
	resting int    // bars of the excerpt's start that lie in a gathered rest begun before
	lost    [2]int // by staff: equal bars before the excerpt, of those that go on
}

// line is a bracket, hairpin or line of dashes: its voice, and the mark that ends it.
type line struct {
	voice int
	stop  sheet.MarkKind
}

// repeats writes out the notes of the first bar, and counts equal bars from there.
func (c *cutter) repeats(b *sheet.Bar) {
	b.Marks = slices.DeleteFunc(b.Marks, func(m sheet.Mark) bool { return m.Kind == sheet.RepeatCount })
	for k, n := range b.Repeats {
		switch {
		case n == 0:
			c.lost[k] = 0
			continue
		case !c.started:
			c.lost[k], b.Repeats[k] = n-1, 0
			continue
		}
		if n -= c.lost[k]; n%4 == 0 {
			b.Marks = append(b.Marks, sheet.Mark{Kind: sheet.RepeatCount, Voice: sheet.FirstVoice(b.Measure, k+1), N: n})
		}
		b.Repeats[k] = n
	}
}

// before counts how far a gathered rest of the bars left out reaches in.
func (c *cutter) before(b *sheet.Bar, from int) {
	if b.Rest > 0 {
		c.resting = max(0, b.Number+b.Rest-from)
	}
}

// rest keeps gathered rests inside the excerpt.
func (c *cutter) rest(b *sheet.Bar, to int) {
	if !c.started && c.resting > 0 {
		b.Rest = c.resting
	}
	if b.Rest = min(b.Rest, to-b.Number+1); b.Rest < 2 {
		b.Rest = 0
	}
}

// system gives up a break that would leave a single bar at either end.
func (c *cutter) system(b *sheet.Bar, to int) {
	if c.bars < 2 || b.Number == to {
		b.Break = sheet.NoBreak
	}
	c.bars++
}

// closing has, for a mark that begins a line, the one that ends it.
var closing = map[sheet.MarkKind]sheet.MarkKind{sheet.CycleStart: sheet.CycleStop, sheet.HairpinStart: sheet.HairpinStop, sheet.GradualStart: sheet.GradualStop}

// closings lists the marks that end lines.
var closings = []sheet.MarkKind{sheet.CycleStop, sheet.HairpinStop, sheet.GradualStop}

func (c *cutter) left(b *sheet.Bar) {
	if !c.started {
		c.started = true
		b.NewMeter, b.NewKey = true, true
		b.Measure = withoutTies(b.Measure, true, c.slurs)
		clear(c.slurs)
	}
	c.slurs.read(b.Measure)
	kept := b.Marks[:0]
	for _, m := range b.Marks {
		if stop, opens := closing[m.Kind]; opens {
			c.open[line{m.Voice, stop}] = true
		}
		if slices.Contains(closings, m.Kind) {
			if !c.open[line{m.Voice, m.Kind}] {
				continue
			}
			delete(c.open, line{m.Voice, m.Kind})
		}
		kept = append(kept, m)
	}
	b.Marks = kept
}

func (c *cutter) right(b *sheet.Bar, to int) {
	if b.Number != to {
		return
	}
	b.Measure = withoutTies(b.Measure, false, c.slurs)
	for v := range b.Measure.Voices {
		for _, kind := range closings {
			if c.open[line{v, kind}] {
				b.Marks = append(b.Marks, sheet.Mark{Kind: kind, Voice: v, Before: lastPlace(b, v)})
			}
		}
	}
}

// lastPlace is where a line of voice v ends with the bar: over its last event, or
// behind that if the line begins inside it.
func lastPlace(b *sheet.Bar, v int) int {
	last := len(b.Measure.Voices[v].Events) - 1
	for _, m := range b.Marks {
		if _, opens := closing[m.Kind]; opens && m.Voice == v && m.Before == last && m.Offset > 0 {
			return last + 1
		}
	}
	return last
}

// openSlurs are the voices, by number, in which a slur is open.
type openSlurs map[int]bool

// read follows the slurs of one bar.
func (o openSlurs) read(m *sheet.Measure) {
	for i := range m.Voices {
		v := &m.Voices[i]
		for _, e := range v.Events {
			if n, ok := e.(*sheet.Note); ok && n.Slur.Starts {
				o[v.Number] = true
			} else if ok && n.Slur.Stops {
				delete(o, v.Number)
			}
		}
	}
}

// cutSlur makes a slur that leads over the edge begin or end with the note there,
// which is a copy; one that would have no other note is left out.
func cutSlur(v *sheet.Voice, edge *sheet.Note, left bool) {
	switch {
	case !left && edge.Slur.Starts:
		edge.Slur.Starts = false
	case !left:
		edge.Slur.Stops = true
	default:
		last, at := edge, 0
		for last.TieOut && at+1 < len(v.Events) {
			at++
			next := *v.Events[at].(*sheet.Note)
			last, v.Events[at] = &next, &next
		}
		edge.Slur.Starts = !last.Slur.Stops
		last.Slur.Stops = false
	}
}

// What the first level of a beam becomes that begins at an edge, and that ends there.
var (
	withoutBefore = map[sheet.Beam]sheet.Beam{sheet.BeamContinue: sheet.BeamBegin, sheet.BeamEnd: sheet.NoBeam}
	withoutAfter  = map[sheet.Beam]sheet.Beam{sheet.BeamContinue: sheet.BeamEnd, sheet.BeamBegin: sheet.NoBeam}
)

// withoutTies copies a measure without the ties, beams and open slurs over its left
// edge, or its right one. What was tied in shows its accidental.
func withoutTies(m *sheet.Measure, left bool, slurs openSlurs) *sheet.Measure {
	out := *m
	out.Voices = slices.Clone(m.Voices)
	for i := range out.Voices {
		v := &out.Voices[i]
		v.Events = slices.Clone(v.Events)
		at := len(v.Events) - 1
		if left {
			at = 0
		}
		n, ok := v.Events[at].(*sheet.Note)
		if !ok {
			continue
		}
		edge := *n
		edge.Heads, edge.Beams = slices.Clone(n.Heads), slices.Clone(n.Beams)
		if left && n.TieIn {
			edge.TieIn = false
			for h := range edge.Heads {
				if head := &edge.Heads[h]; head.Step != 0 && head.Alter != sheet.KeyAlter(m.Key, head.Step) && head.Accidental == sheet.NoSign {
					head.Accidental = sheet.SignOf(head.Alter)
				}
			}
		}
		if left && n.BeamIn {
			edge.BeamIn = false
			edge.Beams[0] = withoutBefore[edge.Beams[0]]
		}
		if !left {
			edge.TieOut = false
		}
		if !left && n.BeamOut {
			edge.BeamOut = false
			edge.Beams[0] = withoutAfter[edge.Beams[0]]
		}
		if len(edge.Beams) > 0 && edge.Beams[0] == sheet.NoBeam {
			edge.Beams = nil
		}
		v.Events[at] = &edge
		if slurs[v.Number] {
			cutSlur(v, &edge, left)
		}
	}
	return &out
}
