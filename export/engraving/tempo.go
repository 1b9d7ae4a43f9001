package engraving

import (
	"fmt"
	"strconv"

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
	x = min(x, w.l.width-t.x)
	w.clear = x + t.x + 40
	w.hanging.add(topLane, upwards, hung{x0: x, x1: x + t.x, up: 235, down: 50, draw: func(y unit) {
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
func (w *marker) hangGradual(x1 unit) {
	x0, text := w.l.music(0)+10, "("+w.carried.gradual+")"
	if w.gradual != nil {
		x0, text = w.gradual.x, w.carried.gradual
	}
	h := w.c.words(w.staff, x0, text, wordsFace)
	words, from := h.draw, h.x1+50
	h.x1 = max(h.x1, x1)
	h.draw = func(y unit) {
		words(y)
		for x := from; x+dash <= x1; x += 2 * dash {
			w.st.strokes.at('M', x, y-40)
			w.st.strokes.at('h', dash)
		}
	}
	w.hanging.add(wordLane, upwards, h)
}

// dash is how long the dashes of a gradual tempo are, and how far apart.
const dash unit = 60

// tempoText sets note values and texts after one another.
type tempoText struct {
	staff *lineStaff
	x     unit // where the next begins
	steps []func(x, y unit)
}

func (t *tempoText) write(m *score.Tempo) {
	if m.Words != "" {
		t.say(m.Words, tempoFace)
		t.x += 30
	}
	if m.Kind != score.Steady {
		return
	}
	t.value(m.Beat)
	t.say("= "+rate(m.Rate), tempoFace)
	if m.Old == nil || m.New == nil {
		return
	}
	t.x += 50
	t.say("(", tempoFace)
	t.term(m.Old)
	t.x += 35
	t.say("=", tempoFace)
	t.x += 10
	t.term(m.New)
	t.say(")", tempoFace)
}

// term is one side of an equation.
func (t *tempoText) term(v *score.Value) {
	t.value(v.Base)
	if v.Tied.Sign() > 0 {
		t.say("+", tempoFace)
		t.value(v.Tied)
	}
	if v.Actual != v.Normal {
		t.say(strconv.Itoa(v.Actual), ratioFace)
	}
}

func (t *tempoText) say(s string, f face) {
	at := t.x
	t.steps = append(t.steps, func(x, y unit) { t.staff.texts.text(x+at, y, s, f) })
	t.x += f.width(s) + 20
}

// value draws a note of a value.
func (t *tempoText) value(s beat.Span) {
	power, dots, ok := beat.NoteValue(s)
	if !ok {
		t.say(s.String(), tempoFace)
		return
	}
	at := t.x
	t.steps = append(t.steps, func(x, y unit) {
		p := &t.staff.fills
		head := headOf(power, instrument.Normal)
		p.sign(head, x+at, y-30, tempoSize)
		if power > 0 {
			tip, stem := y-30-235, x+at+headWidth(head).percent(tempoSize)-10
			p.box(stem, tip, stem+10, y-40)
			for k := range max(0, power-2) {
				p.sign(flagUp, stem, tip+unit(k)*60, tempoSize)
			}
		}
		for k := range dots {
			p.sign(augmentationDot, x+at+115+unit(k)*45, y-60, tempoSize)
		}
	})
	t.x += 110 + unit(dots)*50
	if power > 2 {
		t.x += 50
	}
	if power == 0 {
		t.x += 40
	}
}

// rate writes a tempo's number, what is no whole number to two decimals.
func rate(r beat.Span) string {
	if n, ok := r.IsWhole(); ok {
		return strconv.FormatInt(n, 10)
	}
	n := (r.Num()*200/r.Den() + 1) / 2
	return fmt.Sprintf("c. %d.%02d", n/100, n%100)
}
