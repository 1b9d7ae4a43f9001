package edit

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
)

// standing follows what holds until it is replaced, so that an excerpt can say
// it again: the tempo, and the dynamics of each voice.
type standing struct {
	tempo    *score.Tempo
	dynamics []string // by voice
	due      []bool   // by voice: to be said at the next note
	begun    bool     // the excerpt has
}

// hear takes in the marks of a bar before the excerpt.
func (st *standing) hear(marks []sheet.Mark) {
	for i := range marks {
		switch m := &marks[i]; m.Kind {
		case sheet.TempoMark:
			st.tempo = m.Tempo
		case sheet.DynamicMark:
			st.grow(m.Voice + 1)
			st.dynamics[m.Voice] = m.Text
		}
	}
}

func (st *standing) grow(voices int) {
	for len(st.dynamics) < voices {
		st.dynamics = append(st.dynamics, "")
	}
}

// restate says the tempo at the excerpt's start, as a plain number whatever
// equation led to it, and each voice's dynamic at its first note, unless they
// are printed there or before anyway.
func (st *standing) restate(b *sheet.Bar) {
	if !st.begun {
		st.begun = true
		st.grow(len(b.Measure.Voices))
		for _, text := range st.dynamics {
			st.due = append(st.due, text != "")
		}
		if st.tempo != nil && !slices.ContainsFunc(b.Marks, func(m sheet.Mark) bool { return m.Kind == sheet.TempoMark && opens(&m) }) {
			tempo := *st.tempo
			tempo.Old, tempo.New = nil, nil
			b.Marks = append(b.Marks, sheet.Mark{Kind: sheet.TempoMark, Tempo: &tempo})
		}
	}
	for v := range b.Measure.Voices {
		if v < len(st.due) && st.due[v] {
			st.voice(b, v)
		}
	}
}

func (st *standing) voice(b *sheet.Bar, v int) {
	first := slices.IndexFunc(b.Measure.Voices[v].Events, func(e sheet.Event) bool { _, ok := e.(*sheet.Note); return ok })
	for _, m := range b.Marks {
		if m.Kind == sheet.DynamicMark && m.Voice == v && (first < 0 || m.Before <= first) {
			st.due[v] = false
			return
		}
	}
	if first >= 0 {
		st.due[v] = false
		b.Marks = append(b.Marks, sheet.Mark{Kind: sheet.DynamicMark, Voice: v, Before: first, Text: st.dynamics[v]})
	}
}
