package layout

import (
	"sort"
	"strconv"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// marks writes the signs of the bar: first those for everybody, on the top
// part, then those of each voice.
func (w *partWalk) marks(fb *frameBar) {
	if w.top || w.alone {
		w.systemMarks(fb)
	}
	if w.partner {
		sheet.SortMarks(w.bar.Marks)
		return
	}
	w.instruments(fb)
	if w.chords && (w.plan.Pitched || !w.alone) {
		w.chordSymbols(fb)
	}
	w.playersWords(fb)
	w.techniques(fb)
	w.signs = w.signs[:0]
	for i := range w.plan.Voices {
		w.voiceMarks(fb, i)
	}
	w.repeats(fb)
	sheet.SortMarks(w.bar.Marks)
}

// put places a mark at a moment of the bar.
func (w *partWalk) put(fb *frameBar, at beat.Time, m sheet.Mark) {
	events := w.bar.Measure.Voices[m.Voice].Events
	m.Before, m.Offset = locate(events, at-fb.from)
	w.bar.Marks = append(w.bar.Marks, m)
}

// locate returns the event that a moment of the bar falls in, and how far in.
func locate(events []sheet.Event, at beat.Time) (before int, offset beat.Time) {
	i := sort.Search(len(events), func(i int) bool { return events[i].At()+events[i].Span() > at })
	if i == len(events) {
		return i, 0
	}
	return i, at - events[i].At()
}

// chordSymbols writes the plan's chord symbols as the part reads them.
func (w *partWalk) chordSymbols(fb *frameBar) {
	for _, e := range fb.entries {
		if e.Chord != "" && e.Whose() == nil {
			w.chordSymbol(fb, e, 0)
		}
	}
}

func (w *partWalk) chordSymbol(fb *frameBar, e *score.PlanEntry, voice int) {
	w.put(fb, e.Time, sheet.Mark{Kind: sheet.ChordSymbol, Voice: voice, Text: written(w.writer.Wanted, e.Chord), Sounding: e.Chord})
}

// playersWords writes the texts and chord symbols that are for some layers: once
// over each of their staves.
func (w *partWalk) playersWords(fb *frameBar) {
	for _, e := range fb.entries {
		if e.Text == "" && e.Chord == "" || e.Whose() == nil {
			continue
		}
		var done [4]bool // by staff
		for i, c := range w.onInstrument {
			if !c.any(e.Serves) || done[w.plan.Voices[i].Staff] {
				continue
			}
			done[w.plan.Voices[i].Staff] = true
			if e.Text != "" && !c.any(func(l *score.Layer) bool { _, ok := e.Technique(l); return ok }) {
				w.put(fb, e.Time, sheet.Mark{Kind: sheet.Words, Voice: i, Text: e.Text})
			}
			if e.Chord != "" && w.plan.Pitched {
				w.chordSymbol(fb, e, i)
			}
		}
	}
}

// written transposes a chord symbol.
func written(t bar.Transposer, symbol string) string {
	return score.Transposed(symbol, func(n score.HarmonyNote) score.HarmonyNote {
		w, _, _ := t.Written(score.Tone{Step: n.Step[0], Alter: int8(n.Alter), Octave: 4})
		return score.HarmonyNote{Step: string(rune(w.Step)), Alter: int(w.Alter)}
	})
}

// systemMarks writes labels, tempi and texts. One box is on
// the barline; every further one, and each inside the bar, over its moment.
func (w *partWalk) systemMarks(fb *frameBar) {
	w.tempos(fb)
	onBarline := w.rehearsal(fb)
	for i, l := range fb.labels {
		if i == onBarline {
			w.put(fb, l.At, sheet.Mark{Kind: sheet.Rehearsal, Text: l.Text})
			if fb.scoreBar > 0 && w.frame.bars != nil {
				w.put(fb, l.At, sheet.Mark{Kind: sheet.ScoreBar, Text: "score bar " + strconv.Itoa(fb.scoreBar)})
			}
			continue
		}
		w.put(fb, l.At, sheet.Mark{Kind: sheet.Boxed, Text: l.Text})
		if l.within != "" {
			w.put(fb, l.At, sheet.Mark{Kind: sheet.Words, Text: l.within})
		}
		if w.frame.bars != nil && l.At < fb.s.Length {
			w.put(fb, l.At, sheet.Mark{Kind: sheet.ScoreBar, Text: "score " + fb.s.Where(l.At).String()})
		}
	}
	for _, e := range fb.entries {
		if e.Text != "" && e.Whose() == nil && !e.Technical(fb.s) {
			w.put(fb, e.Time, sheet.Mark{Kind: sheet.Words, Text: e.Text})
		}
	}
}

// tempos writes the tempo marks of the bar, and how fast a gradual one goes.
func (w *partWalk) tempos(fb *frameBar) {
	for _, at := range fb.ended {
		w.put(fb, at, sheet.Mark{Kind: sheet.GradualStop})
	}
	for _, t := range fb.tempos {
		if t.Tempo.IsGradual() {
			w.put(fb, t.Time, sheet.Mark{Kind: sheet.GradualStart, Text: t.Tempo.Words})
			continue
		}
		w.put(fb, t.Time, sheet.Mark{Kind: sheet.TempoMark, Tempo: &t.Tempo})
	}
	for _, v := range fb.steps {
		w.put(fb, v.Time, sheet.Mark{Kind: sheet.TempoStep, Tempo: score.PlainTempo(v.Quarters, beat.Of(1, 4))})
	}
}

// rehearsal chooses the label that is printed on the barline: a mark of the plan,
// else the section's title, else a realignment's. -1 when there is none.
func (w *partWalk) rehearsal(fb *frameBar) int {
	best, rank := -1, 0
	for i, l := range fb.labels {
		r := 0
		switch {
		case l.At != fb.from:
		case l.Kind == score.Realigns:
			r = 1
		case l.Kind == score.Opens:
			r = 2
		default:
			r = 3
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// voiceMarks writes the marks of one voice: dynamics, and its cycles.
func (w *partWalk) voiceMarks(fb *frameBar, i int) {
	c := w.cursors[i]
	if c == nil || c.share.other {
		return
	}
	st := &w.voices[i]
	w.dynamics(fb, i, c, st)
	for _, change := range fb.changed {
		if c.any(func(l *score.Layer) bool { return l == fb.s.Layers[change.Layer] }) {
			w.put(fb, change.Time, sheet.Mark{Kind: sheet.Words, Voice: i, Text: "pitches " + strconv.Itoa(change.Number)})
		}
	}
	if c.plainVoice {
		return
	}
	kinds := w.o.Marks.all()
	yields := w.in.Voices[i].Yields
	if w.o.Edition == sheet.Study && !yields {
		w.strokes(fb, i, c)
	}
	for k := range c.ends {
		e := &c.ends[k]
		if (e.Start < fb.from && st.bracket || e.Start >= fb.from && !yields) && w.bracketed(fb, i, e, c) {
			w.bar.Marks = append(w.bar.Marks, sheet.Mark{Kind: sheet.CycleStop, Voice: i, Before: lastIn(w.events(i), e.Start-fb.from, e.End()-fb.from)})
			st.bracket = false
		}
	}
	if yields {
		return
	}
	for k := range c.starts {
		e := &c.starts[k]
		if e.Landing || e.Start < c.layer.Enters {
			continue
		}
		if w.bracketed(fb, i, e, c) {
			w.put(fb, e.Start, sheet.Mark{Kind: sheet.CycleStart, Voice: i})
			st.bracket = e.End() > fb.to
		}
		if kinds&MarkGroups != 0 {
			w.number(fb, i, st, e)
		}
	}
	if kinds&MarkSizes != 0 {
		w.sizes(fb, i, c)
	}
	if kinds&MarkGroups != 0 && c.joined() {
		w.others(fb, i, st, c)
	}
}

func (w *partWalk) events(voice int) []sheet.Event { return w.bar.Measure.Voices[voice].Events }
