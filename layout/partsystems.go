package layout

import (
	"iter"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// unit is what a system of a part is filled with: a bar, or a gathered rest.
type unit struct {
	bar       int // the first of its bars, counted from 1 through the piece
	width     int
	silent    int // empty bars in it: more than one are a gathered rest
	section   bool
	realigned bool
}

// A lineRoom is how much fits on a line at its ideal width, in 1/100 of a staff
// space.
type lineRoom int

// What stands before the music of a line: the clef, a key, and in a score names
// and brackets.
const (
	partLead  = 800
	scoreLead = 1500
)

// room is what a line has for its bars.
func (o *Options) room(lead int) lineRoom {
	line := o.Line
	if line == 0 {
		line = sheet.LineWidth
	}
	return lineRoom(max(line-lead, 1000) * 100 / sheet.Full)
}

// least is what a bar counts as at least: eight fill a line at most.
func (r lineRoom) least() int { return int(r) / 8 }

// tight is how much can be squeezed into a line.
func (r lineRoom) tight() int { return int(r) * sheet.Full / sheet.Squeezed }

// unitsOf measures the bars of a part, with what stands beside them.
func (r lineRoom) unitsOf(grid beat.Grid, bars iter.Seq[*sheet.Bar], beside func() (*sheet.Bar, bool)) iter.Seq[unit] {
	return func(yield func(unit) bool) {
		n, gathered, section := 0, 0, -1
		widths := map[[2]*sheet.Measure]int{} // most bars are equal
		for b := range bars {
			n++
			var notes [2]*sheet.Measure // of the part, unless it is silent, and of what stands beside it
			if other, ok := beside(); ok {
				notes[1] = other.Measure
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
			u.width = width
			if b.NewMeter {
				u.width += sheet.SignatureEdge + sheet.SignatureWidth(b.Measure.Signature)
			}
			u.width = min(max(r.least(), u.width), int(r))
			if !yield(u) {
				return
			}
		}
	}
}

// mostWidths bounds the bars whose widths are kept; when full all are forgotten.
const mostWidths = memoSize / 4

// shares are those of a measure's notes; none of none.
func shares(m *sheet.Measure, grid beat.Grid) []sheet.Share {
	if m == nil {
		return nil
	}
	return sheet.Shares(m, grid)
}

// system is one system of a part but the first.
type system struct {
	bar    int         // its first, counted from 1 through the piece
	rested int         // empty bars before it
	how    sheet.Break // what is before it
}

// systemsOf yields the systems that units fill, but for the first.
func systemsOf(units iter.Seq[unit], room lineRoom) iter.Seq[system] {
	return func(yield func(system) bool) {
		var line []unit // from the start of the system at hand
		width := 0
		cut := func(whole bool) (going bool) {
			n := room.firstSystem(line, whole)
			if n == len(line) {
				return false
			}
			s := system{bar: line[n].bar, how: sheet.NewSystem}
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
			for width > 4*int(room) {
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
func (r lineRoom) firstSystem(line []unit, whole bool) int {
	if len(line) > 1 && line[0].width+line[1].width > r.tight() {
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
	switch {
	case realigned > 0:
		return realigned
	case rested > 0:
		return rested
	}
	return full
}

// firstPiece cuts units that are too wide for one system into the fewest that
// hold them, as equal as can be, and returns how many are in the first.
func (r lineRoom) firstPiece(units []unit, width int) int {
	most, least := max(1, len(units)/2), 2
	if width > most*r.tight() {
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

// In tenths of a staff height: a staff with its marks, and each further one. It
// is a careful estimate: a page that holds more than was reckoned loses nothing,
// one that holds less would spill over.
const (
	firstStaff   = 35
	furtherStaff = 25
)

// inSystems returns how many systems of so many staves the pages have room for.
func inSystems(r sheet.PageRoom, staves int) sheet.PageRoom {
	height := firstStaff + furtherStaff*(staves-1)
	return sheet.PageRoom{First: max(2, 10*r.First/height), Others: max(2, 10*r.Others/height)}
}

// pagesOf has new pages begin with some of the systems, at most as many systems
// apart as there is room for: with the one after the longest rest in the second
// half of the page, the last of several; where no system of that half ends with
// a rest the page is filled.
func pagesOf(systems iter.Seq[system], room sheet.PageRoom) iter.Seq[system] {
	return func(yield func(system) bool) {
		page := make([]system, 0, 1+max(room.First, room.Others)) // the systems that may begin the next page
		fits := room.First - 1                                    // how many more are on the page at hand
		for s := range systems {
			if page = append(page, s); len(page) <= fits {
				continue
			}
			turn := fits
			for i := fits; i >= (fits+1)/2; i-- {
				if page[i].rested > max(1, page[turn].rested) {
					turn = i
				}
			}
			page[turn].how = sheet.NewPage
			for _, s := range page[:turn+1] {
				if !yield(s) {
					return
				}
			}
			page = append(page[:0], page[turn+1:]...)
			fits = room.Others - 1
		}
		for _, s := range page {
			if !yield(s) {
				return
			}
		}
	}
}
