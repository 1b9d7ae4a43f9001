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

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		places   int
		want     string
	}{
		{132, 1, 6, "132"}, {265, 2, 6, "132.5"}, {265, 3, 2, "88.33"}, {2, 3, 2, "0.67"},
		{999, 1000, 2, "1"}, {1, 200, 2, "0.01"}, {1, 8, 2, "0.13"}, {0, 7, 2, "0"}, {100, 8, 3, "12.5"},
	} {
		assert.Equal(t, c.want, Of(c.num, c.den).Rounded(c.places), "%d/%d", c.num, c.den)
	}
}
