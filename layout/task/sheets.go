package task

import (
	"iter"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// mapBars makes a sheet whose bars are altered copies of another's. alter returns
// false to leave a bar out.
func mapBars(laid *sheet.Sheet, alter func(part int, b *sheet.Bar) bool) *sheet.Sheet {
	if laid == nil {
		return nil
	}
	out := *laid
	out.Parts = nil
	out.Bars = 0
	for i := range laid.Parts {
		part := laid.Parts[i]
		walk := func(yield func(*sheet.Bar) bool) {
			for b := range part.Bars() {
				c := *b
				if alter(i, &c) && !yield(&c) {
					return
				}
			}
		}
		out.Parts = append(out.Parts, sheet.NewPart(part, walk))
		out.Bars = max(out.Bars, count(walk))
	}
	return &out
}

func count(walk iter.Seq[*sheet.Bar]) int {
	n := 0
	for range walk {
		n++
	}
	return n
}

// window shows only bars from to to, closed by a final barline.
func window(laid *sheet.Sheet, from, to int) *sheet.Sheet {
	return mapBars(laid, func(_ int, b *sheet.Bar) bool {
		if b.Number < from || b.Number > to {
			return false
		}
		if b.Number == from {
			b.NewMeter, b.NewKey, b.Break = true, true, sheet.NoBreak
		}
		b.Barline = sheet.Plain
		if b.Number == to {
			b.Barline = sheet.Final
		}
		return true
	})
}

// withoutHints takes away what would give the answer away: every mark but the tempo, and
// double bars.
func withoutHints(laid *sheet.Sheet) *sheet.Sheet {
	return mapBars(laid, func(_ int, b *sheet.Bar) bool {
		var kept []sheet.Mark
		for _, m := range b.Marks {
			if m.Kind == sheet.TempoMark {
				kept = append(kept, m)
			}
		}
		b.Marks, b.Break = kept, sheet.NoBreak
		if b.Barline == sheet.Double {
			b.Barline = sheet.Plain
		}
		return true
	})
}

// withBlankBars empties the bars that which names: the staff stays, nothing is in
// it.
func withBlankBars(laid *sheet.Sheet, which func(part int, b *sheet.Bar) bool) *sheet.Sheet {
	return mapBars(laid, func(part int, b *sheet.Bar) bool {
		if which(part, b) {
			m := *b.Measure
			m.Voices = blankVoices(m.Length)
			b.Measure, b.Marks = &m, nil
		}
		return true
	})
}

// blankVoices are the voices of a bar in which nothing is printed.
func blankVoices(length beat.Time) []sheet.Voice {
	return []sheet.Voice{{Staff: 1, Number: 1, Events: []sheet.Event{
		&sheet.Rest{Length: length, Whole: true, Hidden: true}}}}
}

// unbeamed takes the beams off all notes.
func unbeamed(laid *sheet.Sheet) *sheet.Sheet {
	type key struct {
		part int
		m    *sheet.Measure
	}
	done := map[key]*sheet.Measure{}
	return mapBars(laid, func(part int, b *sheet.Bar) bool {
		k := key{part, b.Measure}
		if done[k] == nil {
			done[k] = withoutBeams(b.Measure)
		}
		b.Measure = done[k]
		return true
	})
}

func withoutBeams(m *sheet.Measure) *sheet.Measure {
	out := *m
	out.Voices = nil
	for _, v := range m.Voices {
		events := make([]sheet.Event, len(v.Events))
		for i, e := range v.Events {
			events[i] = e
			if n, ok := e.(*sheet.Note); ok {
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

// stacked puts the parts of a second sheet under those of the first.
func stacked(upper, lower *sheet.Sheet) *sheet.Sheet {
	if upper == nil || lower == nil {
		return nil
	}
	out := *upper
	out.Parts = append(append([]sheet.Part(nil), upper.Parts...), lower.Parts...)
	out.Bars = max(upper.Bars, lower.Bars)
	return &out
}
