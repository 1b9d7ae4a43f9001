package beat

import (
	"fmt"
	"math/big"
)

// Tenths returns a length of time that is not negative in tenths of a second,
// the half rounded up: all clocks that are read by people say the same, and
// 59.96 seconds are a minute.
func Tenths(seconds *big.Rat) int64 {
	half := new(big.Rat).Add(new(big.Rat).Mul(seconds, big.NewRat(10, 1)), big.NewRat(1, 2))
	return new(big.Int).Quo(half.Num(), half.Denom()).Int64()
}

// InMinutes writes a length of time to a tenth of a second, with minutes from one on:
// "13.6 s", "2 min 5.0 s".
func InMinutes(seconds *big.Rat) string {
	n := Tenths(seconds)
	text := fmt.Sprintf("%d.%d s", n/10%60, n%10)
	if n >= 600 {
		text = fmt.Sprintf("%d min %s", n/600, text)
	}
	return text
}
