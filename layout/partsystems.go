package layout

import (
	"iter"

	"tieover/layout/sheet"
)

// unit is what a system of a part is filled with: a bar, or a gathered rest.
type unit struct {
	bar       int // the first of its bars, counted from 1 through the piece
	width     int // in signs
	silent    int // empty bars in it: more than one are a gathered rest
	section   bool
	realigned bool
}

// A system of a part printed alone has room for 32 signs. A bar counts as four
// at least, a gathered rest as four, a new signature as two, and no bar as more
// than half a system.
const (
	systemRoom = 32
	leastWidth = 4
	mostWidth  = systemRoom / 2
	lookahead  = 4 * systemRoom

	signatureWidth = 2
)

// planSystems has systems begin where that suits the part, unless another way
// is asked for. Another part may stand above it in the same systems.
func (pt *part) planSystems(above *part) {
	if pt.o.Breaks != BreakAuto {
		return
	}
	pt.frame.systems = func(yield func(system) bool) {
		bars, stop := pt.ahead()
		defer stop()
		staves, beside := len(pt.plan.staves), func() (*sheet.Bar, bool) { return nil, false }
		if above != nil {
			upper, stopUpper := above.ahead()
			defer stopUpper()
			next, stopNext := iter.Pull(upper)
			defer stopNext()
			staves, beside = staves+len(above.plan.staves), next
		}
		systems := systemsOf(unitsOf(bars, beside))
		if pt.o.Page != (sheet.PageRoom{}) {
			systems = pagesOf(systems, inSystems(pt.o.Page, staves))
		}
		systems(yield)
	}
}

// ahead walks the part as it is printed but without breaks, to see what each bar
// holds. Call stop in the end.
func (pt *part) ahead() (bars iter.Seq[*sheet.Bar], stop func()) {
	plain := *pt
	plain.o.Breaks, plain.o.BeamOverBarlines = BreakNone, false
	frame := *pt.frame
	frame.o, frame.systems = &plain.o, nil
	plain.frame = &frame
	w := newPartWalk(&plain, nil)
	w.lenient = true
	if pt.alone {
		return gather(w.walk, newCuer(w)), w.close
	}
	return w.walk, w.close
}

// unitsOf measures the bars of a part, with what stands beside them.
func unitsOf(bars iter.Seq[*sheet.Bar], beside func() (*sheet.Bar, bool)) iter.Seq[unit] {
	return func(yield func(unit) bool) {
		n, gathered, section := 0, 0, -1
		for b := range bars {
			n++
			width := leastWidth
			if other, ok := beside(); ok {
				width = signsIn(other.Measure)
			}
			if gathered > 0 {
				gathered--
				continue
			}
			u := unit{bar: n, width: width, realigned: b.Divides, section: b.Section != section}
			section = b.Section
			switch {
			case b.Rest > 0:
				u.silent, gathered = b.Rest, b.Rest-1
			case b.Empty:
				u.silent = 1
			default:
				u.width = max(u.width, signsIn(b.Measure))
			}
			if b.NewMeter && n > 1 {
				u.width += signatureWidth
			}
			u.width = min(u.width, mostWidth)
			if !yield(u) {
				return
			}
		}
	}
}

// signsIn returns how many signs the fullest voice has.
func signsIn(m *sheet.Measure) int {
	width := leastWidth
	for i := range m.Voices {
		width = max(width, len(m.Voices[i].Events))
	}
	return width
}

// system is one system of a part but the first.
type system struct {
	bar    int         // its first, counted from 1 through the piece
	rested int         // empty bars before it
	how    sheet.Break // what is before it
}

// systemsOf yields the systems that units fill, but for the first.
func systemsOf(units iter.Seq[unit]) iter.Seq[system] {
	return func(yield func(system) bool) {
		var line []unit // from the start of the system at hand
		width := 0
		cut := func(whole bool) (going bool) {
			n := firstSystem(line, whole)
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
			for width > lookahead {
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
// place, cut in about equal pieces. No system has a single unit. whole says
// that the part ends with the line, which otherwise is wider than a system.
func firstSystem(line []unit, whole bool) int {
	width, realigned, rested, full := 0, 0, 0, min(2, len(line))
	for n := 1; n < len(line) || whole && n == len(line); n++ {
		width += line[n-1].width
		if !mayBreak(line, n, whole) {
			continue
		}
		fits := width <= systemRoom
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
			if 2*width < systemRoom {
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
		return firstPiece(line[:n], width)
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
func firstPiece(units []unit, width int) int {
	pieces := min((width+systemRoom-1)/systemRoom, max(1, len(units)/2))
	if pieces == 1 {
		return len(units)
	}
	best, least, sum := 2, width*pieces, units[0].width
	for n := 2; n <= len(units)-2; n++ {
		sum += units[n-1].width
		if off := max(sum*pieces-width, width-sum*pieces); off < least && (sum <= systemRoom || n == 2) {
			best, least = n, off
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
