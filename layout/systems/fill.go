package systems

import (
	"cmp"
	"iter"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// System is one system of a part but the first.
type System struct {
	Bar    int         // its first, counted from 1 through the piece
	Break  sheet.Break // before it
	rested int         // empty bars at the end of the system before
}

// unit is what a system of a part is filled with: a bar, or a gathered rest.
type unit struct {
	bar       int // the first of its bars, counted from 1 through the piece
	width     int
	silent    int // empty bars in it: more than one are a gathered rest
	section   bool
	realigned bool
}

// Of yields the systems that the bars of a part fill, but for the first. beside yields
// for each bar what is in the same system above or below it; nil for nothing. Every bar
// is read, however many are asked for of the systems.
func (r Room) Of(grid beat.Grid, bars iter.Seq[*sheet.Bar], beside func() (*sheet.Bar, bool)) iter.Seq[System] {
	return r.fill(r.units(grid, bars, beside))
}

// mostWidths bounds the bars whose widths are kept; when full all are forgotten.
const mostWidths = 1024

// units measures the bars of a part, with what is beside them.
func (r Room) units(grid beat.Grid, bars iter.Seq[*sheet.Bar], beside func() (*sheet.Bar, bool)) iter.Seq[unit] {
	return func(yield func(unit) bool) {
		n, gathered, section := 0, 0, -1
		widths := map[[2]*sheet.Measure]int{} // most bars are equal
		for b := range bars {
			n++
			var notes [2]*sheet.Measure // of the part, unless it is silent, and of what is beside it
			if beside != nil {
				if other, ok := beside(); ok {
					notes[1] = other.Measure
				}
			}
			if gathered > 0 {
				gathered--
				continue
			}
			u := unit{bar: n, realigned: b.Divides, section: b.Section != section}
			section = b.Section
			switch {
			case b.Rest > 0:
				u.silent, gathered = b.Rest, b.Rest-1
			case b.Empty:
				u.silent = 1
			default:
				notes[0] = b.Measure
			}
			width, ok := widths[notes]
			if !ok {
				width = sheet.BarWidth(sheet.Columns(b.Measure.Length, shares(notes[0], grid), shares(notes[1], grid)))
				if len(widths) >= mostWidths {
					clear(widths)
				}
				widths[notes] = width
			}
			if b.NewMeter {
				width += sheet.SignatureEdge + sheet.SignatureWidth(b.Measure.Signature)
			}
			u.width = min(max(int(r)/mostBars, width), int(r))
			if !yield(u) {
				return
			}
		}
	}
}

// shares are those of a measure's notes; none of none.
func shares(m *sheet.Measure, grid beat.Grid) []sheet.Share {
	if m == nil {
		return nil
	}
	return sheet.Shares(m, grid)
}

// fill yields the systems that units fill, but for the first.
func (r Room) fill(units iter.Seq[unit]) iter.Seq[System] {
	return func(yield func(System) bool) {
		var line []unit // from the start of the present system
		width := 0
		cut := func(whole bool) (going bool) {
			n := r.firstSystem(line, whole)
			if n == len(line) {
				return false
			}
			s := System{Bar: line[n].bar, Break: sheet.NewSystem}
			for _, u := range line[:n] {
				width -= u.width
				s.rested += u.silent
				if u.silent == 0 {
					s.rested = 0
				}
			}
			line = append(line[:0], line[n:]...)
			return yield(s)
		}
		for u := range units {
			line = append(line, u)
			width += u.width
			for width > 4*int(r) {
				if !cut(false) {
					return
				}
			}
		}
		for len(line) > 0 && cut(true) {
		}
	}
}

// firstSystem returns how many of the units go on the first system: up to the
// next section; else up to the last realignment that it has room for, else up
// to the end of the last gathered rest, where there is time to turn the page or
// to look for the next line; else a part of what comes before the next such
// place, cut in about equal pieces. A system has a single unit only where two
// cannot be squeezed into it. whole says that the part ends with the line, which
// otherwise is wider than a system.
func (r Room) firstSystem(line []unit, whole bool) int {
	if len(line) > 1 && line[0].width+line[1].width > r.squeezed() {
		return 1
	}
	width, realigned, rested, full := 0, 0, 0, min(2, len(line))
	for n := 1; n < len(line) || whole && n == len(line); n++ {
		width += line[n-1].width
		if !mayBreak(line, n, whole) {
			continue
		}
		fits := width <= int(r)
		switch {
		case n == len(line) || line[n].section:
			if fits {
				return n
			}
		case line[n].realigned:
			if fits {
				realigned = n
			}
		case line[n-1].silent > 1:
			if 2*width < int(r) {
				continue // too little for a system of its own
			}
			if fits {
				rested = n
			}
		default:
			if fits {
				full = n
			}
			continue
		}
		if fits {
			continue
		}
		if realigned > 0 || rested > 0 {
			break
		}
		return r.firstPiece(line[:n], width)
	}
	return cmp.Or(realigned, rested, full)
}

// firstPiece cuts units that are too wide for one system into the fewest that
// hold them, as equal as can be, and returns how many are in the first.
func (r Room) firstPiece(units []unit, width int) int {
	most, least := max(1, len(units)/2), 2
	if width > most*r.squeezed() {
		most, least = len(units), 1
	}
	pieces := min((width+int(r)-1)/int(r), most)
	if pieces == 1 {
		return len(units)
	}
	best, off, sum := least, width*pieces, 0
	for n := 1; n <= len(units)-least; n++ {
		sum += units[n-1].width
		if d := max(sum*pieces-width, width-sum*pieces); n >= least && d < off && (sum <= int(r) || n == least) {
			best, off = n, d
		}
	}
	return best
}

// mayBreak reports whether a system may end after n units: no system has one
// only, and none is left over before the end, a section or a realignment.
func mayBreak(line []unit, n int, whole bool) bool {
	switch {
	case n == len(line):
		return true
	case n < 2 || whole && n == len(line)-1:
		return false
	case line[n].section || line[n].realigned || n+1 >= len(line):
		return true
	}
	return !line[n+1].section && !line[n+1].realigned
}
