package chart

import (
	"iter"

	"tieover/layout/rows"
	"tieover/score/peek"
)

// The rule of the systems: a realignment on a barline begins a row whenever
// the stretch from it to the next one does not fit on the rest of the row. A
// stretch longer than a row is shared out over rows as evenly as possible, so
// that no row holds a left-over bar. A bar wider than a row is broken at its
// beats.
type planner struct {
	s      *setter
	bounds *peek.Peeker[int] // bars (of the section) at which stretches begin
	used   int               // columns of the row so far
	left   int               // bars, this one included, that the row still takes; below 1: as many as fit
	last   int               // the last bar shown

	// A stretch of count bars shared out over rows, of which row were begun.
	count, rows, row int
	end              int // its last bar
}

func newPlanner(s *setter, last int) (*planner, func()) {
	boundaries := s.chart.Boundaries()
	if s.opt.Hide.Has(rows.HideLabels) {
		boundaries = func(func(int) bool) {}
	}
	p := &planner{s: s, bounds: peek.Of(boundaries), last: last}
	return p, p.bounds.Stop
}

// breaks reports whether bar n of the section, which takes the given columns,
// begins a new row.
func (p *planner) breaks(n, columns int) bool {
	if bound, more := p.bounds.Peek(); p.used == 0 || more && n == bound {
		return p.stretch(n, columns)
	}
	if p.left == 1 || p.used+columns > p.s.room() {
		p.begin(n, columns)
		return true
	}
	p.left--
	p.used += columns
	return false
}

// begin begins a row inside a stretch at bar n: the next of the equal shares, or
// as many bars as fit, but one less if that would leave a single bar over.
func (p *planner) begin(n, columns int) {
	p.used, p.left = columns, 0
	if p.row < p.rows {
		upTo := func(row int) int { return (p.count*row + p.rows - 1) / p.rows }
		p.left = upTo(p.row+1) - upTo(p.row)
		p.row++
		return
	}
	fit, used := 0, 0
	for k := n; k <= p.end; k++ {
		used += p.s.scale.bar(p.s.chart.Section.Bar(k).Length) + 1
		if k == p.end {
			used += 1 + p.reserve(k)
		}
		if used > p.s.room() {
			break
		}
		fit++
	}
	if fit >= 3 && n+fit == p.end {
		p.left = fit - 1
	}
}

// stretch begins a stretch at bar n.
func (p *planner) stretch(n, columns int) bool {
	bound, more := p.bounds.Peek()
	for ; more && bound <= n; bound, more = p.bounds.Peek() {
		p.bounds.Drop()
	}
	end := p.last
	if more {
		end = min(end, bound-1)
	}
	p.count, p.end, p.rows, p.row, p.left = end-n+1, end, 0, 0, 0
	whole, equal := p.measure(n, end)
	if p.used > 0 && p.used+whole <= p.s.room() {
		p.used += columns
		return false
	}
	if whole > p.s.room() && equal {
		own := columns
		if n < end { // the first bar may be a short one
			columns = max(columns, p.s.scale.bar(p.s.chart.Section.Bar(n+1).Length)+1)
		}
		if n == 0 && p.pickup(own, columns) {
			return true
		}
		p.share(columns, p.reserve(end))
	}
	p.begin(n, columns)
	return true
}

// pickup begins the stretch with a pickup before the first row's share of the bars, if
// there is room.
func (p *planner) pickup(own, columns int) bool {
	p.count--
	p.share(columns, p.reserve(p.end))
	if own+(p.count+p.rows-1)/p.rows*columns >= p.s.room() {
		p.count++
		return false
	}
	p.begin(0, own)
	p.left++
	return true
}

// share divides the stretch into as few equal rows as its bars, and in the last
// row the landing, need. Rows differ by one bar at most, the longer ones first.
func (p *planner) share(columns, landing int) {
	room := p.s.room() - 1
	per := max(1, room/columns)
	p.rows = (p.count + per - 1) / per
	if last := p.count / p.rows; last*columns+landing > room && p.rows < p.count {
		p.rows++
	}
}

// measure adds up the columns of bars n to end, stopping once they
// are more than a row, and says whether all bars of the section are equally
// wide.
func (p *planner) measure(n, end int) (columns int, equal bool) {
	room := p.s.room()
	for k := n; k <= end && columns <= room; k++ {
		columns += p.s.scale.bar(p.s.chart.Section.Bar(k).Length) + 1
	}
	return columns + 1 + p.reserve(end), p.s.chart.Equal()
}

// reserve is what the landing needs beyond the section's last bar.
func (p *planner) reserve(end int) int {
	if end == p.last && p.s.landing != nil {
		return p.s.landingWidth
	}
	return 0
}

// systems walks the rows that bars first to last of the section make.
func (s *setter) systems(first, last int) iter.Seq[*system] {
	return func(yield func(*system) bool) {
		p, stop := newPlanner(s, last)
		defer stop()
		var y system
		flush := func() bool {
			if len(y.bars) == 0 {
				return true
			}
			ok := yield(&y)
			y.bars = y.bars[:0]
			return ok
		}
		for b := range s.chart.Bars() {
			if b.N < first {
				continue
			}
			if b.N > last {
				break
			}
			t := s.setBar(b)
			columns := t.width + 1
			if t.closes {
				columns += 1 + s.tail()
			} else if t.double {
				columns++
			}
			if columns > s.room() {
				if !flush() || !s.broken(&t, yield) {
					return
				}
				p.used = s.room()
				continue
			}
			if p.breaks(b.N, columns) && !flush() {
				return
			}
			y.bars = append(y.bars, t)
		}
		if len(y.bars) > 0 {
			y.landing = s.landing
			yield(&y)
		}
	}
}

// tail is how many columns the landing's own signs take; its label may be moved
// to a line above.
func (s *setter) tail() int {
	if s.landing == nil {
		return 0
	}
	if s.opt.Pitches {
		return max(s.signWidth(), s.longestName())
	}
	return s.signWidth()
}

// broken yields a bar that is wider than a row as rows of its own.
func (s *setter) broken(t *barText, yield func(*system) bool) bool {
	from := 0
	cuts := append(t.breaks(s.room()-2-s.tail()), t.width)
	for _, to := range cuts {
		y := system{bars: []barText{t.part(from, to)}}
		if t.closes && to == t.width {
			y.landing = s.landing
		}
		if !yield(&y) {
			return false
		}
		from = to
	}
	return true
}
