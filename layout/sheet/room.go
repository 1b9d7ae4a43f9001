package sheet

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
)

// How much room music takes on a line, in 1/100 of a staff space. Who decides
// where systems begin and who draws them both take it from here.
const (
	LineWidth     = 10285 // of A4 paper with margins of 15 mm and a staff of 7 mm
	BarEdges      = 170   // from a barline to the first note, and from the last to the next
	SignatureEdge = 110   // around a new time signature
	RestBar       = 700   // a bar's rest
	GraceNotes    = 100   // before a note with any, and for each of them
	GraceNote     = 170
	GatheredBars  = 1000 // several bars of rest in one sign
	Full          = 88   // percent of its ideal width in which a line that is full is set
	Squeezed      = 82   // percent in which one may be set rather than be cut badly
	Tightest      = 60   // percent to which whoever draws it squeezes a line that is not to be cut
)

// Widths in time signatures: of a plus between summands, and of one between fractions.
const (
	PlusWidth = 125
	JoinWidth = 130
)

// SignatureWidth is how wide a time signature is.
func SignatureWidth(s score.Signature) int {
	width := (len(s.Terms) - 1) * JoinWidth
	for _, t := range s.Terms {
		width += max(GroupsWidth(t), NumberWidth(t.Unit))
	}
	return width
}

// GroupsWidth is how wide the upper line of a term is.
func GroupsWidth(t score.Term) int {
	width := (len(t.Groups) - 1) * PlusWidth
	for _, g := range t.Groups {
		width += NumberWidth(g)
	}
	return width
}

// NumberWidth is how wide a number of a time signature is.
func NumberWidth(n int) (width int) {
	for _, digit := range strconv.Itoa(n) {
		width += DigitWidth(digit)
	}
	return width
}

// DigitWidth is how wide one of its digits is.
func DigitWidth(digit rune) int {
	if digit == '1' {
		return 132
	}
	return 156
}

// ideals are the ideal widths of note values, from a 128th to eight whole
// notes: each is about three tenths wider than that of half its length, but for
// those that a head and the air around it would not fit into.
var ideals = [...]int{140, 150, 165, 185, 225, 290, 380, 500, 660, 840, 1000}

// Gap is the ideal width of a length, in proportion between two values.
func Gap(length beat.Time, grid beat.Grid) int {
	v, g, k := 128*int64(length), int64(grid), 0
	for k < len(ideals)-2 && v >= 2*g {
		g, k = 2*g, k+1
	}
	if v < g {
		return ideals[0]
	}
	return ideals[k] + int((v-g)*int64(ideals[k+1]-ideals[k])/g)
}

// Share is what a sign asks for while it lasts.
type Share struct {
	At, Length beat.Time // in its bar
	Gap        int
	Before     int // of its grace notes
}

// Shares lists what the signs of a bar ask for, voice after voice. A rest of the
// whole bar and what is hidden ask for nothing.
func Shares(m *Measure, grid beat.Grid) (all []Share) {
	for i := range m.Voices {
		for _, e := range m.Voices[i].Events {
			if r, ok := e.(*Rest); ok && (r.Whole || r.Hidden) {
				continue
			}
			share := Share{At: e.At(), Length: e.Span(), Gap: Gap(e.Span(), grid)}
			if n, ok := e.(*Note); ok {
				share.Before = GraceRoom(len(n.Graces))
			}
			all = append(all, share)
		}
	}
	return all
}

// GraceRoom is what so many grace notes before a note take.
func GraceRoom(n int) int {
	if n == 0 {
		return 0
	}
	return GraceNotes + n*GraceNote
}

// Column is a moment of a bar at which a sign begins.
type Column struct {
	At  beat.Time // in the bar
	Gap int       // ideal distance to the next column, or to the barline
	Led int       // of the bar's first: room for grace notes before it; those of others are in the gap before
}

// Columns are the moments of a bar of so many parts together, in order of time.
// Each gap is the widest share of the signs that last over it.
func Columns(length beat.Time, parts ...[]Share) (columns []Column) {
	for _, shares := range parts {
		for i := range shares {
			columns = append(columns, Column{At: shares[i].At})
		}
	}
	slices.SortFunc(columns, compareColumns)
	columns = slices.CompactFunc(columns, func(a, b Column) bool { return a.At == b.At })
	for _, shares := range parts {
		for i := range shares {
			widen(columns, length, &shares[i])
		}
	}
	for k := 1; k < len(columns); k++ {
		columns[k-1].Gap, columns[k].Led = columns[k-1].Gap+columns[k].Led, 0
	}
	return columns
}

func compareColumns(a, b Column) int { return cmp.Compare(a.At, b.At) }

// widen gives the columns under a sign its share, and the first of them room for its
// grace notes.
func widen(columns []Column, length beat.Time, s *Share) {
	k, _ := slices.BinarySearchFunc(columns, Column{At: s.At}, compareColumns)
	columns[k].Led = max(columns[k].Led, s.Before)
	for ; k < len(columns) && columns[k].At < s.At+s.Length; k++ {
		end := length
		if k+1 < len(columns) {
			end = columns[k+1].At
		}
		columns[k].Gap = max(columns[k].Gap, s.Gap*int(end-columns[k].At)/int(s.Length))
	}
}

// BarWidth is the ideal width of a bar from barline to barline.
func BarWidth(columns []Column) int {
	if len(columns) == 0 {
		return RestBar
	}
	width := BarEdges
	for i := range columns {
		width += columns[i].Gap + columns[i].Led
	}
	return width
}
