package engraving

import (
	"tieover/layout/sheet"
	"tieover/score"
)

// draw writes the elements of a line whose places are found, and returns them
// with the line's height.
func (l *line) draw() ([]byte, unit) {
	var k ink
	var lines, solid path
	for i := range l.staves {
		s := &l.staves[i]
		drawLines(s, &lines, l.left, l.right()+l.tail.width)
	}
	k.stroke(lines, staffLine)
	l.barlines(&solid)
	l.braces(&solid)
	k.fill(solid)
	l.names(&k)
	for i := range l.staves {
		l.drawPrefixes(i)
	}
	for i := range l.spots {
		s := &l.spots[i]
		if st := &l.staves[s.staff]; s.rest != nil {
			l.drawRest(st, s)
		} else {
			l.drawNote(st, s)
		}
	}
	for i := range l.groups {
		g := &l.groups[i]
		l.drawBeams(&l.staves[l.spots[g.spots[0]].staff].fills, g)
	}
	for i := range l.staves {
		s := &l.staves[i]
		var body ink
		body.stroke(s.strokes, markLine)
		body.fill(s.fills)
		body = append(body, s.notes...)
		body = append(body, s.texts...)
		k.group(0, s.y, body)
	}
	return k, l.height()
}

// drawPrefixes draws clefs, signatures, rests of a staff without voices, and
// several bars of rest in one sign.
func (l *line) drawPrefixes(i int) {
	st := &l.staves[i]
	for b := range l.rows {
		p, x := &l.prefix[b], l.edges[b]
		bar := &l.rows[b].bars[st.part]
		l.drawRepeat(i, b)
		if st.tab {
			if p.clef >= 0 {
				drawTab(st, x+p.clef)
			}
			continue
		}
		if p.clef >= 0 {
			drawClef(&st.fills, &st.texts, l.clefIn(b, i), x+p.clef, fullSize)
		}
		if c, turns := l.turn(b, i); turns {
			drawClef(&st.fills, &st.texts, c, l.turnX(b), smallClef)
		}
		if p.key >= 0 {
			drawKey(&st.fills, l.clefIn(b, i), l.keyBefore(b, i), x+p.key)
		}
		if p.time >= 0 && bar.NewMeter {
			drawTime(&st.fills, bar.Measure.Signature, x+p.time)
		}
		if l.silent(b, st) {
			y := unit(0)
			if st.lines == 1 {
				y = space
			}
			st.fills.sign(restWhole, l.middle(b)-restWidth(0)/2, y, fullSize)
		}
		if n := l.rows[b].rest; n > 0 {
			l.drawGathered(st, b, n)
		}
	}
	if st.tab {
		return
	}
	if l.tail.key >= 0 {
		drawKey(&st.fills, l.clefOf(l.next, i), l.keyAfter(i), l.right()+l.tail.key)
	}
	if s, ok := l.timeAfter(); ok {
		drawTime(&st.fills, s, l.right()+l.tail.time)
	}
}

// drawGathered draws one sign for n bars of rest, with their number above it.
func (l *line) drawGathered(st *lineStaff, b, n int) {
	x0, x1 := l.music(b)+80, l.edges[b+1]-l.endRoom(b)-80
	st.fills.box(x0, -25, x1, 25)
	st.fills.box(x0, -space, x0+stemLine, space)
	st.fills.box(x1-stemLine, -space, x1, space)
	drawNumber(&st.fills, n, (x0+x1-numberWidth(n))/2, -330)
}

// drawNote draws a note as one element that says when it sounds and in which
// layer, so that a page can find it: in each of several layers, a line feed between them.
func (l *line) drawNote(st *lineStaff, s *spot) {
	n := s.note
	if s.voice.As == score.AsSlashes { // no attack
		s.drawHead(&st.fills, st, 0)
		s.drawDots(&st.fills)
		return
	}
	k := &st.notes
	k.put(`<path data-at="`)
	at := l.e.sheet.Grid.Span(l.rows[s.bar].bars[s.part].Start + n.Start)
	k.put(at.String())
	k.put(`" data-layer="`)
	if n.Layers == nil {
		k.put(escaped(s.voice.Layer))
	}
	for i, name := range n.Layers {
		if i > 0 {
			k.put("&#10;")
		}
		k.put(escaped(name))
	}
	if n.TieIn {
		k.put(`" data-tied="`)
	}
	k.put(`" d="`)
	p := path(*k)
	for i := range s.pos {
		s.drawHead(&p, st, i)
	}
	s.drawDots(&p)
	if s.hasStem() {
		s.drawStem(&p)
	}
	s.drawStrokes(&p, l.groupOf(s))
	*k = ink(p)
	k.put("\"/>\n")
}

// drawHead draws one head with its ledger lines, accidental and parentheses.
func (s *spot) drawHead(p *path, st *lineStaff, i int) {
	x, y, w := s.x+s.headX(i), s.y(i), s.width(i)
	if st.lines == 5 {
		for q := 6; q <= s.pos[i]; q += 2 {
			p.box(x-ledgerOver, -unit(q)*50-ledgerLine/2, x+w+ledgerOver, -unit(q)*50+ledgerLine/2)
		}
		for q := -6; q >= s.pos[i]; q -= 2 {
			p.box(x-ledgerOver, -unit(q)*50-ledgerLine/2, x+w+ledgerOver, -unit(q)*50+ledgerLine/2)
		}
	}
	if s.shared {
		return
	}
	p.sign(s.head[i], x, y, s.percent)
	if a := s.note.Heads[i].Accidental; a != sheet.NoSign {
		sign, at := s.accidentalOf(i), s.x+s.signX[i]
		if a&sheet.Courtesy != 0 {
			p.sign(parenLeft, at, y, s.percent)
			p.sign(parenRight, at+sign.width-s.size(26), y, s.percent)
			at += s.size(30)
		}
		p.sign(sign.sign, at, y, s.percent)
	}
	if s.note.Touch.Has(score.Ghost) {
		p.sign(parenLeft, x-40, y, s.percent)
		p.sign(parenRight, x+w+14, y, s.percent)
	}
}

// drawDots draws the dots of all heads, each in a space of its own.
func (s *spot) drawDots(p *path) {
	if s.note.Value.Dots == 0 || s.shared {
		return
	}
	taken := map[int]bool{}
	for k := len(s.order) - 1; k >= 0; k-- {
		q := s.pos[s.order[k]]
		if q%2 == 0 { // on a line: the space above, for a lower voice the one below
			q++
			if taken[q] || s.voice.Stem == sheet.StemDown && !s.lone {
				q -= 2
			}
		}
		if taken[q] {
			continue
		}
		taken[q] = true
		for j := range s.note.Value.Dots {
			p.sign(augmentationDot, s.x+s.dotX+unit(j)*dotStep, -unit(q)*50, s.percent)
		}
	}
}
