package align

import "math"

// The tables have one entry for each of so many equal parts of the numbers from 1 to 2.
const (
	octaveBits  = 8
	octaveParts = 1 << octaveBits
)

var (
	logs, powers [octaveParts]float64
	inverses     [octaveParts]float64
)

func init() {
	for i := range octaveParts {
		middle := 1 + (float64(i)+0.5)/octaveParts
		logs[i], inverses[i] = math.Log2(middle), 1/middle
		powers[i] = math.Exp2(float64(i) / octaveParts)
	}
}

// log2 is the binary logarithm of a positive number that is not denormal, to 12
// decimals: the tables are quicker than math.Log2, which an alignment calls millions of
// times.
func log2(x float64) float64 {
	const mantissa = 52
	bits := math.Float64bits(x)
	i := bits >> (mantissa - octaveBits) & (octaveParts - 1)
	m := math.Float64frombits(bits&(1<<mantissa-1) | 1023<<mantissa) // 1 to 2
	r := m*inverses[i] - 1                                           // at most 1/512
	return float64(int(bits>>mantissa)-1023) + logs[i] + r*(1-r*(1.0/2-r*(1.0/3-r*(1.0/4-r*(1.0/5)))))*math.Log2E
}

// exp2 is 2 to the power of x, which is from -1000 to 1000, to 12 significant digits.
func exp2(x float64) float64 {
	whole := math.Floor(x)
	part := (x - whole) * octaveParts
	i := min(int(part), octaveParts-1)
	r := (part - float64(i)) / octaveParts * math.Ln2 // at most 0.003
	return math.Float64frombits(uint64(int(whole)+1023)<<52) * powers[i] * (1 + r*(1+r*(1.0/2+r*(1.0/6+r*(1.0/24)))))
}
