package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout/sheet"
	"tieover/score"
)

// draw writes the elements of a line whose places are found, and returns them
// with the line's height.
func (l *line) draw() ([]byte, pen.Unit) {
	var k pen.Ink
	var lines, solid pen.Path
	for i := range l.Staves {
		s := &l.Staves[i]
		drawLines(s, &lines, l.Left, l.Right()+l.Tail.Width)
	}
	k.Stroke(lines, pen.StaffLine)
	l.barlines(&solid)
	l.braces(&solid)
	k.Fill(solid)
	l.names(&k)
	for i := range l.Staves {
		l.drawPrefixes(i)
	}
	for i := range l.spots {
		s := &l.spots[i]
		if st := &l.Staves[s.Staff]; s.Rest != nil {
			l.drawRest(st, s)
		} else {
			l.drawNote(st, s)
		}
	}
	for i := range l.groups {
		g := &l.groups[i]
		l.drawBeams(&l.Staves[l.spots[g.spots[0]].Staff].Fills, g)
	}
	for i := range l.Staves {
		s := &l.Staves[i]
		var body pen.Ink
		body.Stroke(s.Strokes, pen.MarkLine)
		body.Fill(s.Fills)
		body = append(body, s.Notes...)
		body = append(body, s.Texts...)
		k.Group(0, s.Y, body)
	}
	return k, l.height()
}

// drawPrefixes draws clefs, signatures, rests of a staff without voices, and
// several bars of rest in one sign.
func (l *line) drawPrefixes(i int) {
	st := &l.Staves[i]
	for b := range l.Rows {
		p, x := &l.Prefix[b], l.Edges[b]
		bar := &l.Rows[b].Bars[st.Part]
		l.drawRepeat(i, b)
		if st.Tab {
			if p.Clef >= 0 {
				drawTab(st, x+p.Clef)
			}
			continue
		}
		if p.Clef >= 0 {
			drawClef(&st.Fills, &st.Texts, l.ClefIn(b, i), x+p.Clef, pen.FullSize)
		}
		if c, turns := l.Turn(b, i); turns {
			drawClef(&st.Fills, &st.Texts, c, l.TurnX(b), spacing.SmallClef)
		}
		if p.Key >= 0 {
			drawKey(&st.Fills, l.ClefIn(b, i), l.KeyBefore(b, i), x+p.Key)
		}
		if p.Time >= 0 && bar.NewMeter {
			drawTime(&st.Fills, bar.Measure.Signature, x+p.Time)
		}
		if l.silent(b, st) {
			y := pen.Unit(0)
			if st.Lines == 1 {
				y = pen.Space
			}
			st.Fills.Sign(pen.RestWhole, l.Middle(b)-pen.RestWidth(0)/2, y, pen.FullSize)
		}
		if n := l.Rows[b].Rest; n > 0 {
			l.drawGathered(st, b, n)
		}
	}
	if st.Tab {
		return
	}
	if l.Tail.Key >= 0 {
		drawKey(&st.Fills, l.ClefOf(l.Next, i), l.KeyAfter(i), l.Right()+l.Tail.Key)
	}
	if s, ok := l.TimeAfter(); ok {
		drawTime(&st.Fills, s, l.Right()+l.Tail.Time)
	}
}

// drawGathered draws one sign for n bars of rest, with their number above it.
func (l *line) drawGathered(st *canvas.Staff, b, n int) {
	x0, x1 := l.Music(b)+80, l.Edges[b+1]-l.EndRoom(b)-80
	st.Fills.Box(x0, -25, x1, 25)
	st.Fills.Box(x0, -pen.Space, x0+pen.StemLine, pen.Space)
	st.Fills.Box(x1-pen.StemLine, -pen.Space, x1, pen.Space)
	drawNumber(&st.Fills, n, (x0+x1-numberWidth(n))/2, -330)
}

// drawNote draws a note as one element that says when it sounds and in which
// layer, so that a page can find it: in each of several layers, a line feed between them.
func (l *line) drawNote(st *canvas.Staff, s *spot) {
	n := s.Note
	if s.Voice.As == score.AsSlashes { // no attack
		s.drawHead(&st.Fills, st, 0)
		s.drawDots(&st.Fills)
		return
	}
	k := &st.Notes
	k.Put(`<path data-at="`)
	at := l.e.Sheet.Grid.Span(l.Rows[s.Bar].Bars[s.Part].Start + n.Start)
	k.Put(at.String())
	k.Put(`" data-layer="`)
	if n.Layers == nil {
		k.Put(pen.Escaped(s.Voice.Layer))
	}
	for i, name := range n.Layers {
		if i > 0 {
			k.Put("&#10;")
		}
		k.Put(pen.Escaped(name))
	}
	if n.TieIn {
		k.Put(`" data-tied="`)
	}
	k.Put(`" d="`)
	p := pen.Path(*k)
	for i := range s.Pos {
		s.drawHead(&p, st, i)
	}
	s.drawDots(&p)
	if s.HasStem() {
		s.drawStem(&p)
	}
	s.drawStrokes(&p, l.groupOf(s))
	*k = pen.Ink(p)
	k.Put("\"/>\n")
}

// drawHead draws one head with its ledger lines, accidental and parentheses.
func (s *spot) drawHead(p *pen.Path, st *canvas.Staff, i int) {
	x, y, w := s.X+s.HeadX(i), s.Y(i), s.Width(i)
	if st.Lines == 5 {
		for q := 6; q <= s.Pos[i]; q += 2 {
			p.Box(x-content.LedgerOver, -pen.Unit(q)*50-pen.LedgerLine/2, x+w+content.LedgerOver, -pen.Unit(q)*50+pen.LedgerLine/2)
		}
		for q := -6; q >= s.Pos[i]; q -= 2 {
			p.Box(x-content.LedgerOver, -pen.Unit(q)*50-pen.LedgerLine/2, x+w+content.LedgerOver, -pen.Unit(q)*50+pen.LedgerLine/2)
		}
	}
	if s.Shared {
		return
	}
	p.Sign(s.Head[i], x, y, s.Percent)
	if a := s.Note.Heads[i].Accidental; a != sheet.NoSign {
		sign, at := s.AccidentalOf(i), s.X+s.SignX[i]
		if a&sheet.Courtesy != 0 {
			p.Sign(pen.ParenLeft, at, y, s.Percent)
			p.Sign(pen.ParenRight, at+sign.Width-s.Size(26), y, s.Percent)
			at += s.Size(30)
		}
		p.Sign(sign.Sign, at, y, s.Percent)
	}
	if s.Note.Heads[i].Ghost {
		p.Sign(pen.ParenLeft, x-40, y, s.Percent)
		p.Sign(pen.ParenRight, x+w+14, y, s.Percent)
	}
}

// drawDots draws the dots of all heads, each in a space of its own.
func (s *spot) drawDots(p *pen.Path) {
	if s.Note.Value.Dots == 0 || s.Shared {
		return
	}
	taken := map[int]bool{}
	for k := len(s.Order) - 1; k >= 0; k-- {
		q := s.Pos[s.Order[k]]
		if q%2 == 0 { // on a line: the space above, for a lower voice the one below
			q++
			if taken[q] || s.Voice.Stem == sheet.StemDown && !s.Lone {
				q -= 2
			}
		}
		if taken[q] {
			continue
		}
		taken[q] = true
		for j := range s.Note.Value.Dots {
			p.Sign(pen.AugmentationDot, s.X+s.DotX+pen.Unit(j)*content.DotStep, -pen.Unit(q)*50, s.Percent)
		}
	}
}
