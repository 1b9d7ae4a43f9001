package layout

import (
	"fmt"
	"slices"

	"tieover/score/source"
)

// Excerpt keeps the bars numbered from..to and the named parts (all when nil)
// of a sheet. What reaches over its edges is cut: ties, brackets, hairpins and
// beams end with it, and a repeat of which one sign is left. The first bar states
// meter, key and tempo again, and each voice its dynamic.
func Excerpt(s *Sheet, from, to int, parts []string) (*Sheet, source.Problems) {
	var problems source.Problems
	out := *s
	out.Parts, out.Bars = nil, 0
	for _, name := range parts {
		if !slices.ContainsFunc(s.Parts, func(p Part) bool { return p.Name == name || slices.Contains(p.Layers, name) }) {
			problems.Add(source.Pos{}, fmt.Sprintf("there is no part %q to excerpt", name), "name parts or layers of the spec")
		}
	}
	for i := range s.Parts {
		p := s.Parts[i]
		if parts != nil && !slices.Contains(parts, p.Name) &&
			!slices.ContainsFunc(p.Layers, func(l string) bool { return slices.Contains(parts, l) }) {
			continue
		}
		cut := excerptOf(p, from, to, len(out.Parts) == 0 && i > 0, &s.Parts[0])
		bars := 0
		for range cut.Bars() {
			bars++
		}
		out.Bars = max(out.Bars, bars)
		out.Parts = append(out.Parts, cut)
	}
	if out.Bars == 0 && len(problems) == 0 {
		problems.Add(source.Pos{}, fmt.Sprintf("bars %d to %d are not in the piece, which has %d", from, to, s.Bars), "choose bars of the piece")
	}
	if len(problems) > 0 {
		return nil, problems
	}
	return &out, nil
}

// excerptOf cuts one part. When it becomes the top part, the signs for
// everybody are taken from the part that was on top.
func excerptOf(p Part, from, to int, becomesTop bool, top *Part) Part {
	parts := []Part{p}
	if becomesTop {
		parts = append(parts, *top)
	}
	kept := repeatsWithin(&p, from, to)
	return NewPart(p, func(yield func(*Bar) bool) {
		cut := cutter{open: map[int]map[MarkKind]bool{}}
		var force standing
		for row := range Together(parts) {
			bar := row[0]
			if bar.Number > to {
				break
			}
			b := *bar
			b.Marks = slices.Clone(bar.Marks)
			if becomesTop {
				b.Marks = append(systemMarksOf(row[1]), b.Marks...)
			}
			if bar.Number < from {
				force.hear(b.Marks)
				cut.before(&b, from)
				continue
			}
			cut.rest(&b, to)
			cut.system(&b, to)
			if !kept[b.Number] {
				b.withoutRepeat()
			}
			cut.left(&b)
			cut.right(&b, to)
			force.restate(&b)
			slices.SortStableFunc(b.Marks, func(a, b Mark) int { return order(&a, &b) })
			if !yield(&b) {
				return
			}
		}
	})
}

// repeatsWithin lists the bars with a repeat sign whose other one is in the
// excerpt as well.
func repeatsWithin(p *Part, from, to int) map[int]bool {
	kept := map[int]bool{}
	start := -1
	for b := range p.Bars() {
		if b.Left == RepeatStart {
			start = b.Number
		}
		if b.Barline != RepeatEnd {
			continue
		}
		if start >= from && b.Number <= to {
			kept[start], kept[b.Number] = true, true
		}
	}
	return kept
}

// withoutRepeat takes the repeat signs off a bar.
func (b *Bar) withoutRepeat() {
	if b.Left == RepeatStart {
		b.Left = Plain
	}
	if b.Barline == RepeatEnd {
		b.Barline, b.Times = Double, 0
	}
}

// systemMarksOf copies the signs for everybody, moved to where a bar has an
// event for certain: the offset counts from its start.
func systemMarksOf(b *Bar) []Mark {
	var marks []Mark
	for _, m := range b.Marks {
		switch m.Kind {
		case Rehearsal, Boxed, TempoMark, Words, ChordSymbol, ScoreBar:
			events := b.Measure.Voices[m.Voice].Events
			at := b.Measure.Length
			if m.Before < len(events) {
				at = events[m.Before].At()
			}
			m.Offset += at
			m.Voice, m.Before = 0, 0
			marks = append(marks, m)
		}
	}
	return marks
}

// cutter cuts what leads over the edges of an excerpt.
type cutter struct {
	open    map[int]map[MarkKind]bool // by voice
	started bool
	bars    int // so far
	resting int // bars of the excerpt's start that lie in a gathered rest begun before
}

// before counts how far a gathered rest of the bars left out reaches in.
func (c *cutter) before(b *Bar, from int) {
	if b.Rest > 0 {
		c.resting = max(0, b.Number+b.Rest-from)
	}
}

// rest keeps gathered rests inside the excerpt.
func (c *cutter) rest(b *Bar, to int) {
	if !c.started && c.resting > 0 {
		b.Rest = c.resting
	}
	if b.Rest = min(b.Rest, to-b.Number+1); b.Rest < 2 {
		b.Rest = 0
	}
}

// system gives up a break that would leave a single bar at either end.
func (c *cutter) system(b *Bar, to int) {
	if c.bars < 2 || b.Number == to {
		b.Break = NoBreak
	}
	c.bars++
}

// opening and closing pair the marks that have two ends.
var closing = map[MarkKind]MarkKind{CycleStart: CycleStop, HairpinStart: HairpinStop}

func (c *cutter) left(b *Bar) {
	if !c.started {
		c.started = true
		b.NewMeter, b.NewKey = true, true
		b.Measure = withoutTies(b.Measure, true)
	}
	kept := b.Marks[:0]
	for _, m := range b.Marks {
		open := c.open[m.Voice]
		if open == nil {
			open = map[MarkKind]bool{}
			c.open[m.Voice] = open
		}
		if _, opens := closing[m.Kind]; opens {
			open[closing[m.Kind]] = true
		}
		if m.Kind == CycleStop || m.Kind == HairpinStop {
			if !open[m.Kind] {
				continue
			}
			delete(open, m.Kind)
		}
		kept = append(kept, m)
	}
	b.Marks = kept
}

func (c *cutter) right(b *Bar, to int) {
	if b.Number != to {
		return
	}
	b.Measure = withoutTies(b.Measure, false)
	for v := range b.Measure.Voices {
		for _, kind := range []MarkKind{CycleStop, HairpinStop} {
			if c.open[v][kind] {
				b.Marks = append(b.Marks, Mark{Kind: kind, Voice: v, Before: len(b.Measure.Voices[v].Events) - 1})
			}
		}
	}
}

// withoutTies copies a measure without the ties and beams over its left edge,
// or its right one. What was tied in shows its accidental.
func withoutTies(m *Measure, left bool) *Measure {
	out := *m
	out.Voices = slices.Clone(m.Voices)
	for i := range out.Voices {
		v := &out.Voices[i]
		v.Events = slices.Clone(v.Events)
		at := len(v.Events) - 1
		if left {
			at = 0
		}
		n, ok := v.Events[at].(*Note)
		if !ok {
			continue
		}
		edge := *n
		edge.Heads, edge.Beams = slices.Clone(n.Heads), slices.Clone(n.Beams)
		if left && n.TieIn {
			edge.TieIn = false
			for h := range edge.Heads {
				if head := &edge.Heads[h]; head.Step != 0 && head.Alter != keyAlter(m.Key, head.Step) && head.Accidental == NoSign {
					head.Accidental = signOf(head.Alter)
				}
			}
		}
		if left && n.BeamIn {
			edge.BeamIn = false
			edge.Beams[0] = map[Beam]Beam{BeamContinue: BeamBegin, BeamEnd: NoBeam}[edge.Beams[0]]
		}
		if !left && n.TieOut {
			edge.TieOut = false
		}
		if !left && n.BeamOut {
			edge.BeamOut = false
			edge.Beams[0] = map[Beam]Beam{BeamContinue: BeamEnd, BeamBegin: NoBeam}[edge.Beams[0]]
		}
		if len(edge.Beams) > 0 && edge.Beams[0] == NoBeam {
			edge.Beams = nil
		}
		v.Events[at] = &edge
	}
	return &out
}
