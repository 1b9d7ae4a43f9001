package beat

import (
	"math/big"
	"strings"
)

// Decimal writes s exactly, with the three decimals that a spec may give at most; exact
// is false where that cannot be, and s is Rounded to two decimals.
func (s Span) Decimal() (text string, exact bool) {
	r := big.NewRat(s.Num(), s.Den())
	if digits, finite := r.FloatPrec(); finite && digits <= 3 {
		return r.FloatString(digits), true
	}
	return s.Rounded(2), false
}

// Rounded writes s with at most so many decimals, at least one; half is rounded away
// from 0. No zero ends the decimals.
func (s Span) Rounded(places int) string {
	text := big.NewRat(s.Num(), s.Den()).FloatString(places)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
