package beat

import "math/big"

// Coincide returns the first number, from 0, that leaves a when it is divided by
// m and b when it is divided by n (the Chinese remainder theorem, for any m and
// n). ok is false when there is none. All that do are BigLCM(m, n) apart. a is in
// [0, m).
func Coincide(a, m, b, n *big.Int) (t *big.Int, ok bool) {
	g, p := new(big.Int), new(big.Int)
	g.GCD(p, nil, m, n)
	diff := new(big.Int).Sub(b, a)
	if new(big.Int).Mod(diff, g).Sign() != 0 {
		return nil, false
	}
	diff.Div(diff, g).Mul(diff, p)
	diff.Mod(diff, new(big.Int).Div(n, g))
	return diff.Mul(diff, m).Add(diff, a), true
}

// BigLCM returns the least common multiple of two positive numbers.
func BigLCM(a, b *big.Int) *big.Int {
	g := new(big.Int).GCD(nil, nil, a, b)
	return g.Mul(a, g.Div(b, g))
}
