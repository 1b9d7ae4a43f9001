package marks

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/pen"
)

// dynamic hangs a dynamic below its staff.
func (w *marker) dynamic(m *marked) {
	h := w.c.Words(w.staff, m.x+50, m.Text, pen.DynamicFace)
	h.Up, h.Down = 165, 50
	w.hanging.Add(canvas.DynamicLane, pen.Downwards, h)
}

func (w *marker) hairpinStart(m *marked) {
	w.hairpins[m.key] = m
	w.carried.hairpins[m.key] = m.N
}

func (w *marker) hairpinStop(m *marked) {
	if kind := w.carried.hairpins[m.key]; kind > 0 {
		w.hangWedge(w.hairpins[m.key], m.x-40, kind)
	}
	delete(w.carried.hairpins, m.key)
	delete(w.hairpins, m.key)
}

// hangWedge hangs a hairpin from where it began, or from the line's start.
func (w *marker) hangWedge(from *marked, x1 pen.Unit, kind int) {
	x0 := w.l.Music(0) + 10
	if from != nil {
		x0 = from.x
	}
	x1 = max(x1, x0+120)
	w.hanging.Add(canvas.DynamicLane, pen.Downwards, canvas.Hung{X0: x0, X1: x1, Up: 90, Down: 40, Draw: func(y pen.Unit) {
		y -= 40
		wide, point := x0, x1
		if kind == 1 {
			wide, point = x1, x0
		}
		w.st.Strokes.At('M', wide, y-50)
		w.st.Strokes.At('L', point, y)
		w.st.Strokes.At('L', wide, y+50)
	}})
}
