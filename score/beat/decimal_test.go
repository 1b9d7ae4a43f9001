package beat

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		text     string
		exact    bool
	}{
		{120, 1, "120", true},
		{225, 2, "112.5", true},
		{897, 8, "112.125", true},
		{400, 3, "133.33", false},
		{1, 16, "0.06", false}, // 0.0625 has four decimals
		{599, 6, "99.83", false},
		{901, 9, "100.11", false},
		{1199999, 10000, "120", false},
	} {
		text, exact := Of(c.num, c.den).Decimal()
		assert.Equal(t, c.text, text, "%d/%d", c.num, c.den)
		assert.Equal(t, c.exact, exact, "%d/%d", c.num, c.den)
	}
}
