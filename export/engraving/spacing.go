package engraving

import (
	"cmp"

	"tieover/score/beat"
)

// Least distances.
const (
	afterPrefix   unit = 110 // from a barline or the signs after it to the first note
	afterClef     unit = 30  // more, at the start of a line
	beforeTie     unit = 70  // more, where a tie comes in from the line before
	leastGap      unit = 25
	apart         unit = 22 // between a note and the next
	beforeSign    unit = 34 // between a note and the accidental of the next
	strokeRoom    unit = 50 // more, where a dashed stroke stands between them
	beforeBarline unit = 50
)

// indent is the room before the staves, for names, braces and brackets.
func (l *spaced) indent() unit {
	w := unit(0)
	parts := l.s.sheet.Parts
	for i := range parts {
		w = max(w, nameFace.width(l.s.nameOf(i)))
	}
	if w > 0 {
		w += 60
	}
	return w + 130
}

// nameOf is what stands before the staves of a part: its name at first, then
// its short name, where there are several parts.
func (s *setter) nameOf(part int) string {
	p := &s.sheet.Parts[part]
	switch {
	case s.unnamed:
		return ""
	case s.first:
		return p.Name
	case len(s.sheet.Parts) == 1:
		return ""
	}
	return cmp.Or(p.Short, p.Name)
}

// lead is the ideal distance from the signs at a bar's start to its music.
func (l *spaced) lead(b int) unit {
	gap := afterPrefix
	if b == 0 {
		gap += afterClef
		for _, c := range l.rows[0].contents {
			for i := range c.items {
				if n := c.items[i].note; n != nil && n.Start == 0 && n.TieIn {
					return gap + beforeTie
				}
			}
		}
	}
	return gap
}

// frontier is how far to the right the signs of each staff reach.
type frontier struct{ signs, lyrics []unit }

// spread gives the columns places with all ideal gaps stretched by so many
// thousandths, and returns the width of the line. Signs never meet, however
// little is left of the gaps.
func (l *spaced) spread(stretch int) unit {
	n := len(l.s.staves)
	room := make([]unit, 2*n)
	f := frontier{room[:n], room[n:]}
	x := l.left
	for b := range l.rows {
		r := &l.rows[b]
		l.edges[b] = x
		start := l.music(b)
		for s := range f.signs {
			f.signs[s] = start + 30
		}
		x = start + l.lead(b)
		if len(r.columns) == 0 {
			x = start + max(r.natural*unit(stretch)/1000, 260)
		}
		for k := range r.columns {
			x = f.take(&r.columns[k], x)
			l.xs[b][k] = x
			x += max(r.columns[k].gap*unit(stretch)/1000, leastGap)
		}
		for s := range f.signs {
			x = max(x, f.signs[s]+beforeBarline+l.endRoom(b))
		}
	}
	l.edges[len(l.rows)] = x
	return x + l.tail.width
}

// take puts a column at x, or where nothing meets it.
func (f *frontier) take(c *column, x unit) unit {
	for i := range c.reach {
		r := &c.reach[i]
		pad := apart
		if r.left > ledgerOver {
			pad = beforeSign
		}
		if c.stroke {
			pad += strokeRoom
		}
		x = max(x, f.signs[r.staff]+r.left+pad)
		if r.lyric > 0 {
			x = max(x, f.lyrics[r.staff]+r.lyric-59)
		}
	}
	for i := range c.reach {
		r := &c.reach[i]
		f.signs[r.staff] = max(f.signs[r.staff], x+r.right)
		if r.lyric > 0 {
			f.lyrics[r.staff] = x + 59 + r.lyric
		}
	}
	return x
}

// The last line is stretched to the width only if it fills most of it.
const (
	nearlyFull = 70 // percent
	mostLoose  = 1250
	widest     = 64000
)

// justify spreads the line to its width.
func (l *spaced) justify() {
	if l.next == nil && l.spread(1000) < l.width.percent(nearlyFull) && l.spread(mostLoose) < l.width {
		return
	}
	low, high := 0, widest
	for low < high { // the largest stretch that fits
		mid := (low + high + 1) / 2
		if l.spread(mid) <= l.width {
			low = mid
		} else {
			high = mid - 1
		}
	}
	if rest := l.width - l.spread(low); rest > 0 && rest < 5*space {
		l.share(rest)
	}
}

// share moves the columns apart by what whole numbers have left over.
func (l *spaced) share(rest unit) {
	n := unit(len(l.rows))
	for b := range l.xs {
		n += unit(len(l.xs[b]))
	}
	k := unit(0)
	for b := range l.xs {
		l.edges[b] += rest * k / n
		for i := range l.xs[b] {
			k++
			l.xs[b][i] += rest * k / n
		}
		k++
	}
	l.edges[len(l.rows)] += rest
}

// xAt is where a moment of a bar stands, also between columns.
func (l *spaced) xAt(b int, at beat.Time) unit {
	r := &l.rows[b]
	x, from := l.music(b), beat.Time(0)
	for k := range r.columns {
		switch c := &r.columns[k]; {
		case c.at == at:
			return l.xs[b][k]
		case c.at > at:
			return x + (l.xs[b][k]-x)*unit(at-from)/unit(c.at-from)
		default:
			x, from = l.xs[b][k], c.at
		}
	}
	if at >= r.length {
		return l.edges[b+1]
	}
	return x + (l.edges[b+1]-x)*unit(at-from)/unit(r.length-from)
}

// between is where a stroke stands before a moment: halfway between what is
// left and what is right of it.
func (l *spaced) between(staff, b int, x unit) unit {
	r := &l.rows[b]
	free, sign := l.music(b)+30, x
	for k := range r.columns {
		for i := range r.columns[k].reach {
			o := &r.columns[k].reach[i]
			switch {
			case o.staff != staff || l.xs[b][k] > x:
			case l.xs[b][k] == x:
				sign = x - o.left
			default:
				free = l.xs[b][k] + o.right
			}
		}
	}
	if sign-free < 120 {
		return (free + sign) / 2
	}
	return sign - 45
}
