package marks

import (
	"strconv"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

// hookDepth is how far the ends of a bracket come down.
const hookDepth pen.Unit = 65

func (w *marker) cycleStart(m *marked) {
	w.brackets[m.key] = m
	w.carried.brackets[m.key] = true
}

func (w *marker) cycleStop(m *marked) {
	b := bracket{away: m.away, x0: w.l.Music(0) + 10, x1: m.right + 5, closes: true}
	if from := w.brackets[m.key]; from != nil {
		w.begin(&b, from)
	} else if !w.carried.brackets[m.key] {
		return // an excerpt begins after it did
	}
	w.hangBracket(b)
	delete(w.brackets, m.key)
	w.carried.brackets[m.key] = false
}

// cycleNumber writes a number by itself where no bracket begins.
func (w *marker) cycleNumber(m *marked) {
	c := w.cycles[moment{m.key, m.at}]
	if c.bracket {
		return
	}
	text, f := strconv.Itoa(m.N), pen.BoldFace
	if m.Text == "()" {
		text, f = "("+text+")", pen.SmallFace
	}
	if c.group == "" {
		w.hanging.Add(canvas.CycleLane, m.away, inLine(w.c.Words(w.staff, m.x, text, f)))
		return
	}
	const gap = 40
	groupFace := pen.SmallFace.Within(w.l.Width-f.Width(text)-gap-20, c.group)
	x := max(0, min(m.x, w.l.Width-f.Width(text)-gap-groupFace.Width(c.group)))
	h, more := w.c.Words(w.staff, x, text, f), w.c.Words(w.staff, x+f.Width(text)+gap, c.group, groupFace)
	number := h.Draw
	h.X1, h.Draw = more.X1, func(y pen.Unit) { number(y); more.Draw(y) }
	w.hanging.Add(canvas.CycleLane, m.away, inLine(h))
}

// grouping writes a grouping by itself where neither number nor bracket takes it.
func (w *marker) grouping(m *marked) {
	if c := w.cycles[moment{m.key, m.at}]; c.number == "" && !c.bracket {
		w.hanging.Add(canvas.CycleLane, m.away, inLine(w.c.Words(w.staff, m.x, m.Text, pen.SmallFace)))
	}
}

// inLine moves a text down to stand at the height of the brackets' lines.
func inLine(h canvas.Hung) canvas.Hung {
	draw := h.Draw
	h.Up, h.Down = 60, 70
	h.Draw = func(y pen.Unit) { draw(y + 50) }
	return h
}

// bracket is the line over a cycle, or the part of it on this line.
type bracket struct {
	x0, x1         pen.Unit
	away           pen.Unit
	begins, closes bool
	cycleMarks
}

func (w *marker) begin(b *bracket, from *marked) {
	b.x0, b.begins = from.x-10, true
	b.x1 = max(b.x1, b.x0+120)
	b.cycleMarks = w.cycles[moment{from.key, from.at}]
}

// goOn draws the brackets, hairpins and gradual tempos that the next line goes on
// with.
func (w *marker) goOn() {
	if w.gradual != nil || w.staff == 0 && w.carried.gradual != "" {
		w.hangGradual(w.l.Right())
	}
	for _, v := range w.l.Voices {
		if v.Staff != w.staff {
			continue
		}
		if w.carried.brackets[v.Key] {
			b := bracket{away: content.Side(w.l.Spots[v.Spots[0]].Voice), x0: w.l.Music(0) + 10, x1: w.l.Right()}
			if from := w.brackets[v.Key]; from != nil {
				w.begin(&b, from)
				b.x1 = w.l.Right()
			}
			w.hangBracket(b)
		}
		if kind := w.carried.hairpins[v.Key]; kind > 0 {
			w.hangWedge(w.hairpins[v.Key], w.l.Right(), kind)
		}
	}
}

// hangBracket hangs a bracket with its number and grouping in its line, or
// outside it where there is no room.
func (w *marker) hangBracket(b bracket) {
	text := pen.Unit(0) // how wide number and grouping are
	if b.number != "" {
		text = pen.BoldFace.Width(b.number) + 40
	}
	groupFace := pen.SmallFace.Within(w.l.Width-text-40, b.group)
	if b.group != "" {
		text += groupFace.Width(b.group) + 20
	}
	inside := b.x0+text+140 < b.x1
	h := canvas.Hung{X0: b.x0, X1: b.x1, Up: 60, Down: 70, Slack: 50}
	outside := pen.Unit(-35) // the foot of a text that does not fit into the line
	if b.away == pen.Downwards {
		h.Up, h.Down, outside = 70, 60, 135
	}
	at := b.x0 + 35 // where the text begins
	if text > 0 && !inside {
		at = min(b.x0+10, w.l.Width-text)
		if at < h.X0 {
			h.X0, h.Slack = at, 20 // a line may meet its neighbor, a text may not
		}
		h.X1 = max(h.X1, at+text)
		if b.away == pen.Upwards {
			h.Up = 160
		} else {
			h.Down = 160
		}
	}
	h.Draw = func(y pen.Unit) {
		gap := pen.Unit(0)
		if inside && text > 0 {
			gap = at + text - 10
		}
		w.drawBracket(b, y, gap)
		foot := y + 50
		if !inside {
			foot = y + outside
		}
		if text > 0 {
			w.c.Label(w.staff, at, foot-110, at+text-30, foot+30)
		}
		x := at
		if b.number != "" {
			w.st.Texts.Text(x, foot, b.number, pen.BoldFace)
			x += pen.BoldFace.Width(b.number) + 30
		}
		w.st.Texts.Text(x, foot, b.group, groupFace)
	}
	w.hanging.Add(canvas.CycleLane, b.away, h)
}

// drawBracket draws the line with its hooks; gap is where it goes on after the
// text in it, 0 without.
func (w *marker) drawBracket(b bracket, y, gap pen.Unit) {
	p, hook := &w.st.Strokes, y-b.away*hookDepth
	if b.begins {
		p.At('M', b.x0, hook)
		p.At('V', y)
	} else {
		p.At('M', b.x0, y)
	}
	if gap > 0 {
		p.At('h', 18)
		p.At('M', gap, y)
	}
	p.At('H', b.x1)
	if b.closes {
		p.At('V', hook)
	}
}
