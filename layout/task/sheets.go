package task

import (
	"iter"

	"tieover/layout"
	"tieover/score/beat"
)

// change makes a sheet whose bars are altered copies of another's. change may
// return false to leave a bar out.
func change(sheet *layout.Sheet, alter func(part int, b *layout.Bar) bool) *layout.Sheet {
	if sheet == nil {
		return nil
	}
	out := *sheet
	out.Parts = nil
	out.Bars = 0
	for i := range sheet.Parts {
		part := sheet.Parts[i]
		walk := func(yield func(*layout.Bar) bool) {
			for b := range part.Bars() {
				c := *b
				if alter(i, &c) && !yield(&c) {
					return
				}
			}
		}
		out.Parts = append(out.Parts, layout.NewPart(part, walk))
		out.Bars = max(out.Bars, count(walk))
	}
	return &out
}

func count(walk iter.Seq[*layout.Bar]) int {
	n := 0
	for range walk {
		n++
	}
	return n
}

// window shows only bars from to to, closed by a final barline.
func window(sheet *layout.Sheet, from, to int) *layout.Sheet {
	return change(sheet, func(_ int, b *layout.Bar) bool {
		if b.Number < from || b.Number > to {
			return false
		}
		if b.Number == from {
			b.NewMeter, b.NewKey, b.Break = true, true, layout.NoBreak
		}
		b.Barline = layout.Plain
		if b.Number == to {
			b.Barline = layout.Final
		}
		return true
	})
}

// hidden takes away what would tell the answer: every mark but the tempo, and
// double bars.
func hidden(sheet *layout.Sheet) *layout.Sheet {
	return change(sheet, func(_ int, b *layout.Bar) bool {
		var kept []layout.Mark
		for _, m := range b.Marks {
			if m.Kind == layout.TempoMark {
				kept = append(kept, m)
			}
		}
		b.Marks, b.Break = kept, layout.NoBreak
		if b.Barline == layout.Double {
			b.Barline = layout.Plain
		}
		return true
	})
}

// blank empties the bars that which names: the staff stays, nothing stands in
// it.
func blank(sheet *layout.Sheet, which func(part int, b *layout.Bar) bool) *layout.Sheet {
	return change(sheet, func(part int, b *layout.Bar) bool {
		if which(part, b) {
			m := *b.Measure
			m.Voices = empty(m.Length)
			b.Measure, b.Marks = &m, nil
		}
		return true
	})
}

// empty is a bar of which nothing is printed.
func empty(length beat.Time) []layout.Voice {
	return []layout.Voice{{Staff: 1, Number: 1, Events: []layout.Event{
		&layout.Rest{Length: length, Whole: true, Hidden: true}}}}
}

// unbeamed takes the beams off all notes.
func unbeamed(sheet *layout.Sheet) *layout.Sheet {
	type key struct {
		part int
		m    *layout.Measure
	}
	done := map[key]*layout.Measure{}
	return change(sheet, func(part int, b *layout.Bar) bool {
		k := key{part, b.Measure}
		if done[k] == nil {
			done[k] = withoutBeams(b.Measure)
		}
		b.Measure = done[k]
		return true
	})
}

func withoutBeams(m *layout.Measure) *layout.Measure {
	out := *m
	out.Voices = nil
	for _, v := range m.Voices {
		events := make([]layout.Event, len(v.Events))
		for i, e := range v.Events {
			events[i] = e
			if n, ok := e.(*layout.Note); ok {
				c := *n
				c.Beams, c.Group = nil, 0
				events[i] = &c
			}
		}
		v.Events = events
		out.Voices = append(out.Voices, v)
	}
	return &out
}

// join puts the parts of a second sheet under those of the first.
func join(upper, lower *layout.Sheet) *layout.Sheet {
	if upper == nil || lower == nil {
		return nil
	}
	out := *upper
	out.Parts = append(append([]layout.Part(nil), upper.Parts...), lower.Parts...)
	out.Bars = max(upper.Bars, lower.Bars)
	return &out
}
