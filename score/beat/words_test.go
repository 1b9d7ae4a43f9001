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

func TestCounted(t *testing.T) {
	for want, n := range map[string]int{"0 attacks": 0, "1 attack": 1, "2 attacks": 2, "-1 attacks": -1} {
		assert.Equal(t, want, Counted(n, "attack"))
	}
	assert.Equal(t, []string{"pitches", "entries", "ways", "pitch"}, []string{Noun(2, "pitch"), Noun(2, "entry"), Noun(0, "way"), Noun(1, "pitch")})
	huge := new(big.Int).Exp(big.NewInt(10), big.NewInt(20), nil)
	assert.Equal(t, []string{"1 bar", "1,200 bars", "100,000,000,000,000,000,000 bars"},
		[]string{CountedBig(big.NewInt(1), "bar"), CountedBig(big.NewInt(1200), "bar"), CountedBig(huge, "bar")})
	assert.Equal(t, "holds", Inflect(int64(1), "holds", "hold"))
	for want, n := range map[string]int64{"0": 0, "999": 999, "1,000": 1000, "-1,000": -1000, "-999": -999, "12,345,678": 12345678} {
		assert.Equal(t, want, Thousands(big.NewInt(n)))
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
