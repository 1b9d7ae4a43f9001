package engraving

import (
	"strconv"

	"tieover/layout/sheet"
)

// hookDepth is how far the ends of a bracket come down.
const hookDepth unit = 65

func (w *marker) cycleStart(m *marked) {
	w.brackets[m.key] = m
	w.carried.brackets[m.key] = true
}

func (w *marker) cycleStop(m *marked) {
	b := bracket{away: m.away, x0: w.l.music(0) + 10, x1: m.right + 5, closes: true}
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
	text, f := strconv.Itoa(m.N), boldFace
	if m.Text == "()" {
		text, f = "("+text+")", smallFace
	}
	if c.group == "" {
		w.hanging.add(cycleLane, m.away, inLine(w.c.words(w.staff, m.x, text, f)))
		return
	}
	const gap = 40
	groupFace := smallFace.within(w.l.width-f.width(text)-gap-20, c.group)
	x := max(0, min(m.x, w.l.width-f.width(text)-gap-groupFace.width(c.group)))
	h, more := w.c.words(w.staff, x, text, f), w.c.words(w.staff, x+f.width(text)+gap, c.group, groupFace)
	number := h.draw
	h.x1, h.draw = more.x1, func(y unit) { number(y); more.draw(y) }
	w.hanging.add(cycleLane, m.away, inLine(h))
}

// grouping writes a grouping by itself where neither number nor bracket takes it.
func (w *marker) grouping(m *marked) {
	if c := w.cycles[moment{m.key, m.at}]; c.number == "" && !c.bracket {
		w.hanging.add(cycleLane, m.away, inLine(w.c.words(w.staff, m.x, m.Text, smallFace)))
	}
}

// inLine moves a text down to stand at the height of the brackets' lines.
func inLine(h hung) hung {
	draw := h.draw
	h.up, h.down = 60, 70
	h.draw = func(y unit) { draw(y + 50) }
	return h
}

// bracket is the line over a cycle, or the part of it on this line.
type bracket struct {
	x0, x1         unit
	away           unit
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
		w.hangGradual(w.l.right())
	}
	for _, v := range w.l.voices {
		if v.staff != w.staff {
			continue
		}
		if w.carried.brackets[v.key] {
			b := bracket{away: direction(w.l.spots[v.spots[0]].voice.Stem != sheet.StemDown), x0: w.l.music(0) + 10, x1: w.l.right()}
			if from := w.brackets[v.key]; from != nil {
				w.begin(&b, from)
				b.x1 = w.l.right()
			}
			w.hangBracket(b)
		}
		if kind := w.carried.hairpins[v.key]; kind > 0 {
			w.hangWedge(w.hairpins[v.key], w.l.right(), kind)
		}
	}
}

// hangBracket hangs a bracket with its number and grouping in its line, or
// outside it where there is no room.
func (w *marker) hangBracket(b bracket) {
	text := unit(0) // how wide number and grouping are
	if b.number != "" {
		text = boldFace.width(b.number) + 40
	}
	groupFace := smallFace.within(w.l.width-text-40, b.group)
	if b.group != "" {
		text += groupFace.width(b.group) + 20
	}
	inside := b.x0+text+140 < b.x1
	h := hung{x0: b.x0, x1: b.x1, up: 60, down: 70, slack: 50}
	outside := unit(-35) // the foot of a text that does not fit into the line
	if b.away == downwards {
		h.up, h.down, outside = 70, 60, 135
	}
	at := b.x0 + 35 // where the text begins
	if text > 0 && !inside {
		at = min(b.x0+10, w.l.width-text)
		if at < h.x0 {
			h.x0, h.slack = at, 20 // a line may meet its neighbor, a text may not
		}
		h.x1 = max(h.x1, at+text)
		if b.away == upwards {
			h.up = 160
		} else {
			h.down = 160
		}
	}
	h.draw = func(y unit) {
		gap := unit(0)
		if inside && text > 0 {
			gap = at + text - 10
		}
		w.drawBracket(b, y, gap)
		foot := y + 50
		if !inside {
			foot = y + outside
		}
		if text > 0 {
			w.c.label(w.staff, at, foot-110, at+text-30, foot+30)
		}
		x := at
		if b.number != "" {
			w.st.texts.text(x, foot, b.number, boldFace)
			x += boldFace.width(b.number) + 30
		}
		w.st.texts.text(x, foot, b.group, groupFace)
	}
	w.hanging.add(cycleLane, b.away, h)
}

// drawBracket draws the line with its hooks; gap is where it goes on after the
// text in it, 0 without.
func (w *marker) drawBracket(b bracket, y, gap unit) {
	p, hook := &w.st.strokes, y-b.away*hookDepth
	if b.begins {
		p.at('M', b.x0, hook)
		p.at('V', y)
	} else {
		p.at('M', b.x0, y)
	}
	if gap > 0 {
		p.at('h', 18)
		p.at('M', gap, y)
	}
	p.at('H', b.x1)
	if b.closes {
		p.at('V', hook)
	}
}
