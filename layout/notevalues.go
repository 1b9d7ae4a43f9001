package layout

import "tieover/score/beat"

// signs measures note values in ticks of a grid.
type signs struct {
	grid   beat.Grid
	double bool // two dots are allowed
}

// value returns the single sign for a length that is written num/den times as
// long as it sounds (1/1 outside tuplets). ok is false when there is none.
func (s signs) value(length beat.Time, num, den int) (v Value, ok bool) {
	written, whole := int64(length)*int64(num), int64(s.grid)*int64(den)
	for power := 0; power <= shortest; power++ {
		n := written << power
		switch {
		case n == whole:
			return Value{Power: power}, true
		case 2*n == 3*whole && power < shortest:
			return Value{Power: power, Dots: 1}, true
		case s.double && 4*n == 7*whole && power < shortest-1:
			return Value{Power: power, Dots: 2}, true
		}
	}
	return Value{}, false
}

// single reports whether a length outside tuplets has a sign of its own.
func (s signs) single(length beat.Time) bool {
	_, ok := s.value(length, 1, 1)
	return ok
}

// plain reports whether a moment can be written without a tuplet: it is a
// whole number of 128ths.
func (s signs) plain(t beat.Time) bool { return int64(t)<<shortest%int64(s.grid) == 0 }

// odd returns the odd part of a moment's denominator, 1 for a binary one.
func (s signs) odd(t beat.Time) int64 {
	den := int64(s.grid) / beat.GCD(int64(t), int64(s.grid))
	for den%2 == 0 {
		den /= 2
	}
	return den
}
