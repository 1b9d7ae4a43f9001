package beat

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestListed(t *testing.T) {
	for want, names := range map[string][]string{"": nil, "A": {"A"}, "A or B": {"A", "B"}, "A, B or C": {"A", "B", "C"}} {
		assert.Equal(t, want, Listed(names, "or"))
	}
}

func TestOrdinal(t *testing.T) {
	for n, want := range map[int64]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 10: "10th", 11: "11th", 12: "12th", 13: "13th", 21: "21st",
		52: "52nd", 93: "93rd", 100: "100th", 111: "111th", 112: "112th", 113: "113th", 121: "121st"} {
		assert.Equal(t, want, Ordinal(n))
	}
}

// 2 mod 6 and 8 mod 10: 8, 38, 68 …; an even and an odd number never meet; the
// oldest case (Sunzi, from memory) is 23, which leaves 2 by 3, 3 by 5 and 2 by 7.
func TestCoincide(t *testing.T) {
	n := big.NewInt
	at, ok := Coincide(n(2), n(6), n(8), n(10))
	assert.True(t, ok)
	assert.Equal(t, n(8), at)
	assert.Equal(t, n(30), BigLCM(n(6), n(10)))
	_, ok = Coincide(n(0), n(4), n(3), n(6))
	assert.False(t, ok)
	at, _ = Coincide(n(2), n(3), n(3), n(5))
	at, ok = Coincide(at, n(15), n(2), n(7))
	assert.True(t, ok)
	assert.Equal(t, n(23), at)
	at, ok = Coincide(n(0), n(7), n(14), n(10)) // b may be beyond n
	assert.True(t, ok)
	assert.Equal(t, n(14), at)
	for m := int64(1); m <= 9; m++ { // against looking at each number
		for k := int64(1); k <= 9; k++ {
			for a := range m {
				for b := range k {
					want := int64(-1)
					for t := m*k - 1; t >= 0; t-- {
						if t%m == a && t%k == b {
							want = t
						}
					}
					at, ok := Coincide(n(a), n(m), n(b), n(k))
					assert.Equal(t, want >= 0, ok)
					if ok {
						assert.Equal(t, want, at.Int64())
					}
				}
			}
		}
	}
}
