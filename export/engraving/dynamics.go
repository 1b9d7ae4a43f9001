package engraving

// dynamic hangs a dynamic below its staff.
func (w *marker) dynamic(m *marked) {
	h := w.c.words(w.staff, m.x+50, m.Text, dynamicFace)
	h.up, h.down = 165, 50
	w.hanging.add(dynamicLane, downwards, h)
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
func (w *marker) hangWedge(from *marked, x1 unit, kind int) {
	x0 := w.l.music(0) + 10
	if from != nil {
		x0 = from.x
	}
	x1 = max(x1, x0+120)
	w.hanging.add(dynamicLane, downwards, hung{x0: x0, x1: x1, up: 90, down: 40, draw: func(y unit) {
		y -= 40
		wide, point := x0, x1
		if kind == 1 {
			wide, point = x1, x0
		}
		w.st.strokes.at('M', wide, y-50)
		w.st.strokes.at('L', point, y)
		w.st.strokes.at('L', wide, y+50)
	}})
}
