package beat

import (
	"math/big"
	"strings"
)

// Decimal writes s exactly, with the three decimals that a spec may give at most; exact
// is false where that cannot be, and s is rounded to two decimals, half up. No zero ends
// the decimals.
func (s Span) Decimal() (text string, exact bool) {
	r := big.NewRat(s.Num(), s.Den())
	if digits, finite := r.FloatPrec(); finite && digits <= 3 {
		return r.FloatString(digits), true
	}
	return strings.TrimSuffix(strings.TrimRight(r.FloatString(2), "0"), "."), false
}
