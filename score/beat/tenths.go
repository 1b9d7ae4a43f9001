package beat

import "math/big"

// Tenths returns a length of time that is not negative in tenths of a second,
// the half rounded up: all clocks that are read by people say the same, and
// 59.96 seconds are a minute.
func Tenths(seconds *big.Rat) int64 {
	half := new(big.Rat).Add(new(big.Rat).Mul(seconds, big.NewRat(10, 1)), big.NewRat(1, 2))
	return new(big.Int).Quo(half.Num(), half.Denom()).Int64()
}
