package edit

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
)

// reminders follow what holds until it is replaced, so that an excerpt can print
// it again: the tempo, how each staff is played, and the dynamics of each voice.
type reminders struct {
	tempo    *score.Tempo
	playing  []sheet.Mark   // techniques, one for each staff and matter, in the order in which they began
	gradual  string         // rit. or accel. that goes on
	dynamics map[int]string // by voice, those that the excerpt has not printed yet
	begun    bool           // the excerpt has
}

// read takes in the marks of a bar before the excerpt.
func (st *reminders) read(b *sheet.Bar) {
	for i := range b.Marks {
		switch m := &b.Marks[i]; m.Kind {
		case sheet.TechniqueMark:
			st.playing = slices.DeleteFunc(st.playing, func(before sheet.Mark) bool {
				return before.Technique.Matter == m.Technique.Matter && sameStaff(b, before.Voice, m.Voice)
			})
			if !m.Technique.Usual {
				st.playing = append(st.playing, *m)
			}
		case sheet.TempoMark:
			st.tempo = m.Tempo
		case sheet.TempoStep:
			st.tempo = score.PlainTempo(m.Tempo.Quarters, st.tempo.Beat)
		case sheet.GradualStart:
			st.gradual = m.Text
		case sheet.GradualStop:
			st.gradual = ""
		case sheet.DynamicMark:
			st.dynamics[m.Voice] = m.Text
		}
	}
}

func sameStaff(b *sheet.Bar, v, w int) bool {
	return b.Measure.Voices[v].Staff == b.Measure.Voices[w].Staff
}

// techniques prints in brackets how the excerpt's first bar is played, where the bar
// itself has no such words.
func (st *reminders) techniques(b *sheet.Bar) {
	for _, m := range st.playing {
		anew := func(now sheet.Mark) bool {
			return now.Kind == sheet.TechniqueMark && now.Technique.Matter == m.Technique.Matter && isAtStart(&now) && sameStaff(b, now.Voice, m.Voice)
		}
		if !slices.ContainsFunc(b.Marks, anew) {
			b.Marks = append(b.Marks, sheet.Mark{Kind: m.Kind, Voice: m.Voice, Text: "(" + m.Text + ")", Technique: m.Technique})
		}
	}
}

// instrument names the instrument of the excerpt's first bar, where the player does not
// take it up there.
func (st *reminders) instrument(b *sheet.Bar) {
	if on := b.Measure.Instrument; !st.begun && !b.NewInstrument {
		b.NewInstrument = true
		b.Marks = append([]sheet.Mark{{Kind: sheet.InstrumentMark, Text: on.Called(), Instrument: on}}, b.Marks...)
	}
}

// restateTempo prints the tempo at the start of an excerpt, unless one is printed
// there, and the gradual tempo that goes on there.
func (st *reminders) restateTempo(b *sheet.Bar) {
	opening := func(kind sheet.MarkKind) int {
		return slices.IndexFunc(b.Marks, func(m sheet.Mark) bool { return m.Kind == kind && isAtStart(&m) })
	}
	if st.tempo == nil || opening(sheet.TempoMark) >= 0 {
		return
	}
	quarters := st.tempo.Quarters
	if i := opening(sheet.TempoStep); i >= 0 && st.gradual != "" {
		quarters = b.Marks[i].Tempo.Quarters
	}
	tempo := score.PlainTempo(quarters, st.tempo.Beat)
	if st.tempo.Kind == score.Steady && quarters == st.tempo.Quarters {
		tempo.Words = st.tempo.Words
	}
	marks := []sheet.Mark{{Kind: sheet.TempoMark, Tempo: tempo}}
	if st.gradual != "" {
		marks = append(marks, sheet.Mark{Kind: sheet.GradualStart, Text: "(" + st.gradual + ")"})
	}
	b.Marks = append(marks, b.Marks...)
}

// restate prints the tempo at the excerpt's start, as a plain number whatever
// equation led to it, and each voice's dynamic at its first note, unless they
// are printed there or before anyway.
func (st *reminders) restate(b *sheet.Bar) {
	if !st.begun {
		st.begun = true
		st.restateTempo(b)
		st.techniques(b)
	}
	for v := range b.Measure.Voices {
		if text, due := st.dynamics[v]; due {
			st.dynamic(b, v, text)
		}
	}
}

// dynamic prints the dynamic of a voice at its first note, if the bar has one.
func (st *reminders) dynamic(b *sheet.Bar, v int, text string) {
	first := slices.IndexFunc(b.Measure.Voices[v].Events, func(e sheet.Event) bool { _, ok := e.(*sheet.Note); return ok })
	for _, m := range b.Marks {
		if m.Kind == sheet.DynamicMark && m.Voice == v && (first < 0 || m.Before <= first) {
			delete(st.dynamics, v)
			return
		}
	}
	if first >= 0 {
		delete(st.dynamics, v)
		b.Marks = append(b.Marks, sheet.Mark{Kind: sheet.DynamicMark, Voice: v, Before: first, Text: text})
	}
}
