package bar

import (
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// NoteValues measures note values in ticks of a grid.
type NoteValues struct {
	Grid   beat.Grid
	Double bool // two dots are allowed
}

// value returns the single sign for a length that is written num/den times as
// long as it sounds (1/1 outside tuplets). ok is false when there is none.
func (s NoteValues) value(length beat.Time, num, den int) (v sheet.Value, ok bool) {
	written, whole := int64(length)*int64(num), int64(s.Grid)*int64(den)
	for power := 0; power <= sheet.Shortest; power++ {
		n := written << power
		switch {
		case n == whole:
			return sheet.Value{Power: power}, true
		case 2*n == 3*whole && power < sheet.Shortest:
			return sheet.Value{Power: power, Dots: 1}, true
		case s.Double && 4*n == 7*whole && power < sheet.Shortest-1:
			return sheet.Value{Power: power, Dots: 2}, true
		}
	}
	return sheet.Value{}, false
}

// valueIn is value inside a tuplet, or outside tuplets when it is nil.
func (s NoteValues) valueIn(t *sheet.Tuplet, length beat.Time) (v sheet.Value, ok bool) {
	if t == nil {
		return s.value(length, 1, 1)
	}
	return s.value(length, t.Actual, t.Normal)
}

// single reports whether a length outside tuplets has a sign of its own.
func (s NoteValues) single(length beat.Time) bool {
	_, ok := s.value(length, 1, 1)
	return ok
}

// plain reports whether a moment can be written without a tuplet: it is a
// whole number of 128ths.
func (s NoteValues) plain(t beat.Time) bool { return int64(t)<<sheet.Shortest%int64(s.Grid) == 0 }

// odd returns the odd part of a moment's denominator, 1 for a binary one.
func (s NoteValues) odd(t beat.Time) int64 {
	den := int64(s.Grid) / beat.GCD(int64(t), int64(s.Grid))
	for den%2 == 0 {
		den /= 2
	}
	return den
}
