package marks

import (
	"strconv"
	"strings"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// tempo hangs a tempo mark: its words, the metronome's, and an equation of note
// values in parentheses where there is one.
func (w *marker) tempo(m *marked) {
	x := max(m.x-40, w.clear)
	t := tempoText{staff: w.st}
	t.write(m.Tempo)
	x = min(x, w.l.Width-t.x)
	w.clear = x + t.x + 40
	w.hanging.Add(canvas.TopLane, pen.Upwards, canvas.Hung{X0: x, X1: x + t.x, Up: 235, Down: 50, Draw: func(y pen.Unit) {
		for _, s := range t.steps {
			s(x, y)
		}
	}})
}

func (w *marker) gradualStart(m *marked) { w.gradual, w.carried.gradual = m, m.Text }

func (w *marker) gradualStop(m *marked) {
	if w.carried.gradual != "" {
		w.hangGradual(m.x - 40)
	}
	w.gradual, w.carried.gradual = nil, ""
}

// hangGradual hangs rit. or accel. with its dashes up to x1, in parentheses where
// it goes on from the line before.
func (w *marker) hangGradual(x1 pen.Unit) {
	x0, text := w.l.Music(0)+10, "("+w.carried.gradual+")"
	if w.gradual != nil {
		x0, text = w.gradual.x, w.carried.gradual
	}
	h := w.c.Words(w.staff, x0, text, pen.WordsFace)
	words, from := h.Draw, h.X1+50
	h.X1 = max(h.X1, x1)
	h.Draw = func(y pen.Unit) {
		words(y)
		for x := from; x+dash <= x1; x += 2 * dash {
			w.st.Strokes.At('M', x, y-40)
			w.st.Strokes.At('h', dash)
		}
	}
	w.hanging.Add(canvas.WordLane, pen.Upwards, h)
}

// dash is how long the dashes of a gradual tempo are, and how far apart.
const dash pen.Unit = 60

// tempoText sets note values and texts after one another.
type tempoText struct {
	staff *canvas.Staff
	x     pen.Unit // where the next begins
	steps []func(x, y pen.Unit)
}

func (t *tempoText) write(m *score.Tempo) {
	if m.Words != "" {
		t.say(m.Words, pen.TempoFace)
		t.x += 30
	}
	if m.Kind != score.Steady {
		return
	}
	t.value(m.Beat)
	t.equals(m.RateText())
	if m.Old == nil {
		return
	}
	t.x += 50
	t.say("(", pen.TempoFace)
	t.term(m.Old)
	t.equals("")
	t.x += 10
	t.term(m.New)
	t.say(")", pen.TempoFace)
}

// equals sets what a note value is equal to, with the same space on both sides of the
// sign.
func (t *tempoText) equals(text string) {
	t.x += 35
	t.say(strings.TrimSpace("= "+text), pen.TempoFace)
}

// term is one side of an equation.
func (t *tempoText) term(v *score.Value) {
	t.value(v.Base)
	if v.Tied.Sign() > 0 {
		t.say("+", pen.TempoFace)
		t.value(v.Tied)
	}
	if v.Actual != v.Normal {
		t.say(strconv.Itoa(v.Actual), pen.RatioFace)
	}
}

func (t *tempoText) say(s string, f pen.Face) {
	at := t.x
	t.steps = append(t.steps, func(x, y pen.Unit) { t.staff.Texts.Text(x+at, y, s, f) })
	t.x += f.Width(s) + 20
}

// value draws a note of a value.
func (t *tempoText) value(s beat.Span) {
	power, dots, _ := beat.NoteValue(s) // every tempo counts a plain or dotted value
	at := t.x
	t.steps = append(t.steps, func(x, y pen.Unit) {
		p := &t.staff.Fills
		head := content.HeadOf(power, instrument.Normal)
		p.Sign(head, x+at, y-30, pen.TempoSize)
		if power > 0 {
			tip, stem := y-30-235, x+at+pen.HeadWidth(head).Percent(pen.TempoSize)-10
			p.Box(stem, tip, stem+10, y-40)
			for k := range max(0, power-2) {
				p.Sign(pen.FlagUp, stem, tip+pen.Unit(k)*60, pen.TempoSize)
			}
		}
		for k := range dots {
			p.Sign(pen.AugmentationDot, x+at+115+pen.Unit(k)*45, y-60, pen.TempoSize)
		}
	})
	t.x += 110 + pen.Unit(dots)*50
	if power > 2 {
		t.x += 50
	}
	if power == 0 {
		t.x += 40
	}
}
