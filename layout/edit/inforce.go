package edit

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// standing follows what holds until it is replaced, so that an excerpt can say
// it again: the tempo, how each staff is played, and the dynamics of each voice.
type standing struct {
	tempo    *score.Tempo
	playing  []sheet.Mark // techniques in force, by staff and matter in the order in which they began
	gradual  string       // rit. or accel. that goes on
	dynamics []string     // by voice
	due      []bool       // by voice: to be said at the next note
	begun    bool         // the excerpt has
}

// hear takes in the marks of a bar before the excerpt.
func (st *standing) hear(b *sheet.Bar) {
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
			st.tempo = plainTempo(st.tempo, m.Tempo.Quarters)
		case sheet.GradualStart:
			st.gradual = m.Text
		case sheet.GradualStop:
			st.gradual = ""
		case sheet.DynamicMark:
			st.grow(m.Voice + 1)
			st.dynamics[m.Voice] = m.Text
		}
	}
}

func sameStaff(b *sheet.Bar, v, w int) bool {
	return b.Measure.Voices[v].Staff == b.Measure.Voices[w].Staff
}

// techniques says in brackets how the excerpt's first bar is played, where that is
// not said anew.
func (st *standing) techniques(b *sheet.Bar) {
	for _, m := range st.playing {
		anew := func(now sheet.Mark) bool {
			return now.Kind == sheet.TechniqueMark && now.Technique.Matter == m.Technique.Matter && isAtStart(&now) && sameStaff(b, now.Voice, m.Voice)
		}
		if !slices.ContainsFunc(b.Marks, anew) {
			b.Marks = append(b.Marks, sheet.Mark{Kind: m.Kind, Voice: m.Voice, Text: "(" + m.Text + ")", Technique: m.Technique})
		}
	}
}

// instrument names what the player holds in the excerpt's first bar, where it is not
// taken up there.
func (st *standing) instrument(b *sheet.Bar) {
	if on := b.Measure.Instrument; !st.begun && !b.NewInstrument {
		b.NewInstrument = true
		b.Marks = append([]sheet.Mark{{Kind: sheet.InstrumentMark, Text: on.Called(), Instrument: on}}, b.Marks...)
	}
}

func (st *standing) grow(voices int) {
	for len(st.dynamics) < voices {
		st.dynamics = append(st.dynamics, "")
	}
}

// plainTempo is a tempo as a plain number, counted as another is.
func plainTempo(t *score.Tempo, quarters beat.Span) *score.Tempo {
	return &score.Tempo{Beat: t.Beat, Quarters: quarters, Rate: quarters.Over(t.Beat.Over(beat.Of(1, 4)))}
}

// restateTempo says the tempo at the start of an excerpt, unless one is printed
// there, and what it is about to do.
func (st *standing) restateTempo(b *sheet.Bar) {
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
	tempo := plainTempo(st.tempo, quarters)
	if st.tempo.Kind == score.Steady && quarters == st.tempo.Quarters {
		tempo.Words = st.tempo.Words
	}
	marks := []sheet.Mark{{Kind: sheet.TempoMark, Tempo: tempo}}
	if st.gradual != "" {
		marks = append(marks, sheet.Mark{Kind: sheet.GradualStart, Text: "(" + st.gradual + ")"})
	}
	b.Marks = append(marks, b.Marks...)
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
		st.restateTempo(b)
		st.techniques(b)
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
