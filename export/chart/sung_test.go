package chart_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// By hand: "ta" and "ka" are two columns wide, so each eighth has three; "Ha-" with
// its hyphen is three, which makes four of each. The song has two verses, a line
// each; the second holds its first word over the second stroke, and ends before the
// landing.
func TestWordsStandUnderTheirStrokes(t *testing.T) {
	text := `
title: Rope and Rail
meter: 4/4
length: 1 bars
end: land
layers:
  - {name: Voice, groups: 2+2+2+2, strike: all, syllables: {2: ta ka}}
  - {name: Song, groups: 3+3+2, lyrics: [Ha-ul now on, "Low = er"]}
  - {name: Rail, groups: 4+4}
`
	opt := chart.Default()
	assert.NotContains(t, written(t, text, opt), "ta ")
	opt.Sung = true
	_, rows, _ := strings.Cut(written(t, text, opt), "\n\n")
	assert.True(t, strings.HasPrefix(rows, strings.TrimPrefix(`
bar        1                                 2
count     |1   +   2   +   3   +   4   +   ||1
a Voice    #1
   8      |X   o   x   o   x   o   x   o   ||X
           ta  ka  ta  ka  ta  ka  ta  ka    ta
b Song     #1
   8      |X   2   3   x   2   3   x   2   ||X
           Ha-         ul          now       on
           Low                     er
`, "\n")), rows)
	_, rows, _ = strings.Cut(written(t, strings.Replace(text, "  - {name: Song, groups: 3+3+2, lyrics: [Ha-ul now on, \"Low = er\"]}\n", "", 1), opt), "\n\n")
	assert.Contains(t, rows, "|X  o  x  o  x  o  x  o  ||X\n           ta ka ta ka ta ka ta ka   ta\n")
}

// What is spoken goes on while a note is held, also over the barline; where it is short
// the rest is silence.
func TestSyllablesAreSpokenOnHeldPulses(t *testing.T) {
	opt := chart.Default()
	opt.Sung = true
	_, rows, _ := strings.Cut(written(t, `
title: Rope and Rail
meter: 2/4
length: 2 bars
layers:
  - {name: Winch, groups: 3+2, syllables: {2: ta ka, 3: ga ma la}}
  - {name: Rail, groups: 3+2, strike: short, syllables: {2: ta ka, 3: ga ma la}}
`, opt), "\n\n")
	assert.Contains(t, rows, `
a Winch    #1              #1 late 1
   5      |X  2  3  x ~|2  X  2  3  ||
           ga ma la ta  ka ga ma la
b Rail     #1              #1 late 1
   5      |X  .  .  x  |.  X  .  .  ||
           ga       ta     ga
`)
}
