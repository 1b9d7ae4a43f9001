package spacing

import (
	"cmp"

	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/score/beat"
)

// Least distances.
const (
	AfterPrefix   pen.Unit = 110 // from a barline or the signs after it to the first note
	afterClef     pen.Unit = 30  // more, at the start of a line
	beforeTie     pen.Unit = 70  // more, where a tie comes in from the line before
	leastGap      pen.Unit = 25
	apart         pen.Unit = 22 // between a note and the next
	beforeSign    pen.Unit = 34 // between a note and the accidental of the next
	strokeRoom    pen.Unit = 50 // more, where a dashed stroke stands between them
	beforeBarline pen.Unit = 50
)

// indent is the room before the staves, for names, braces and brackets.
func (l *Line) indent() pen.Unit {
	w := pen.Unit(0)
	parts := l.s.Sheet.Parts
	for i := range parts {
		w = max(w, pen.NameFace.Width(l.s.NameOf(i)))
	}
	if w > 0 {
		w += 60
	}
	return w + 130
}

// NameOf is what stands before the staves of a part: its name at first, then
// its short name, where there are several parts.
func (s *Setter) NameOf(part int) string {
	p := &s.Sheet.Parts[part]
	switch {
	case s.Unnamed:
		return ""
	case s.First:
		return p.Name
	case len(s.Sheet.Parts) == 1:
		return ""
	}
	return cmp.Or(p.Short, p.Name)
}

// lead is the ideal distance from the signs at a bar's start to its music.
func (l *Line) lead(b int) pen.Unit {
	gap := AfterPrefix
	if b == 0 {
		gap += afterClef
		for _, c := range l.Rows[0].Contents {
			for i := range c.Items {
				if n := c.Items[i].Note; n != nil && n.Start == 0 && n.TieIn {
					return gap + beforeTie
				}
			}
		}
	}
	return gap
}

// frontier is how far to the right the signs of each staff reach.
type frontier struct{ signs, lyrics []pen.Unit }

// Spread gives the columns places with all ideal gaps stretched by so many
// thousandths, and returns the width of the line. Signs never meet, however
// little is left of the gaps.
func (l *Line) Spread(stretch int) pen.Unit {
	n := len(l.s.Staves)
	room := make([]pen.Unit, 2*n)
	f := frontier{room[:n], room[n:]}
	x := l.Left
	for b := range l.Rows {
		r := &l.Rows[b]
		l.Edges[b] = x
		start := l.Music(b)
		for s := range f.signs {
			f.signs[s] = start + 30
		}
		x = start + l.lead(b)
		if len(r.Columns) == 0 {
			x = start + max(r.Natural*pen.Unit(stretch)/1000, 260)
		}
		for k := range r.Columns {
			x = f.take(&r.Columns[k], x)
			l.Xs[b][k] = x
			x += max(r.Columns[k].Gap*pen.Unit(stretch)/1000, leastGap)
		}
		for s := range f.signs {
			x = max(x, f.signs[s]+beforeBarline+l.EndRoom(b))
		}
	}
	l.Edges[len(l.Rows)] = x
	return x + l.Tail.Width
}

// take puts a column at x, or where nothing meets it.
func (f *frontier) take(c *content.Column, x pen.Unit) pen.Unit {
	for i := range c.Reach {
		r := &c.Reach[i]
		pad := apart
		if r.Left > content.LedgerOver {
			pad = beforeSign
		}
		if c.Stroke {
			pad += strokeRoom
		}
		x = max(x, f.signs[r.Staff]+r.Left+pad)
		if r.Lyric > 0 {
			x = max(x, f.lyrics[r.Staff]+r.Lyric-59)
		}
	}
	for i := range c.Reach {
		r := &c.Reach[i]
		f.signs[r.Staff] = max(f.signs[r.Staff], x+r.Right)
		if r.Lyric > 0 {
			f.lyrics[r.Staff] = x + 59 + r.Lyric
		}
	}
	return x
}

// The last line is stretched to the width only if it fills most of it, else by a quarter.
const (
	nearlyFull = 70 // percent
	lastLoose  = 1250
	widest     = 64000
)

// Justify spreads the line to its width.
func (l *Line) Justify() {
	if l.Next == nil && l.Spread(1000) < l.Width.Percent(nearlyFull) {
		l.Spread(lastLoose)
		return
	}
	low, high := 0, widest
	for low < high { // the largest stretch that fits
		mid := (low + high + 1) / 2
		if l.Spread(mid) <= l.Width {
			low = mid
		} else {
			high = mid - 1
		}
	}
	if rest := l.Width - l.Spread(low); rest > 0 && rest < 5*pen.Space {
		l.share(rest)
	}
}

// share moves the columns apart by what whole numbers have left over.
func (l *Line) share(rest pen.Unit) {
	n := pen.Unit(len(l.Rows))
	for b := range l.Xs {
		n += pen.Unit(len(l.Xs[b]))
	}
	k := pen.Unit(0)
	for b := range l.Xs {
		l.Edges[b] += rest * k / n
		for i := range l.Xs[b] {
			k++
			l.Xs[b][i] += rest * k / n
		}
		k++
	}
	l.Edges[len(l.Rows)] += rest
}

// XAt is where a moment of a bar stands, also between columns.
func (l *Line) XAt(b int, at beat.Time) pen.Unit {
	r := &l.Rows[b]
	x, from := l.Music(b), beat.Time(0)
	for k := range r.Columns {
		switch c := &r.Columns[k]; {
		case c.At == at:
			return l.Xs[b][k]
		case c.At > at:
			return x + (l.Xs[b][k]-x)*pen.Unit(at-from)/pen.Unit(c.At-from)
		default:
			x, from = l.Xs[b][k], c.At
		}
	}
	if at >= r.Length {
		return l.Edges[b+1]
	}
	return x + (l.Edges[b+1]-x)*pen.Unit(at-from)/pen.Unit(r.Length-from)
}

// Between is where a stroke stands before a moment: halfway between what is
// left and what is right of it.
func (l *Line) Between(staff, b int, x pen.Unit) pen.Unit {
	r := &l.Rows[b]
	free, sign := l.Music(b)+30, x
	for k := range r.Columns {
		for i := range r.Columns[k].Reach {
			o := &r.Columns[k].Reach[i]
			switch {
			case o.Staff != staff || l.Xs[b][k] > x:
			case l.Xs[b][k] == x:
				sign = x - o.Left
			default:
				free = l.Xs[b][k] + o.Right
			}
		}
	}
	if sign-free < 120 {
		return (free + sign) / 2
	}
	return sign - 45
}
