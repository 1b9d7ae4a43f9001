package systems

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec"
)

// lines drives a breaker through periods of the given bars, which it knows if room is
// not 0, and returns the bars of each system.
func lines(room int, periods ...int) []int {
	var b Breaker
	var sizes []int
	n := 1
	for i, length := range periods {
		known := length
		if room == 0 {
			known = 0
		}
		b.Period(n, known, room, i == 0)
		for range length {
			if b.Bar(n) || len(sizes) == 0 {
				sizes = append(sizes, 0)
			}
			sizes[len(sizes)-1]++
			n++
		}
	}
	return sizes
}

// Periods of two to eight bars have a system each, shorter ones share, longer
// ones are cut in equal pieces; no system has one bar.
func TestBreaker(t *testing.T) {
	assert.Equal(t, []int{6, 6, 6}, lines(8, 6, 6, 6))
	assert.Equal(t, []int{8, 6}, lines(8, 2, 2, 2, 2, 2, 2, 2), "short periods share a system while they fit")
	assert.Equal(t, []int{6, 7, 7, 6, 7, 7}, lines(8, 20, 20))
	assert.Equal(t, []int{1, 2, 1, 2}, lines(2, 3, 3), "three cannot be squeezed into the room of two, or 2.1")
	assert.Equal(t, []int{1, 2, 2}, lines(2, 5))
	assert.Equal(t, []int{4, 4, 4}, lines(4, 1, 11), "a period that joins a lone bar is cut with it")
	assert.Equal(t, []int{4, 4, 4}, lines(4, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1))
	assert.Equal(t, []int{20, 20}, lines(0, 20, 20), "of unknown lengths each has a system")
	assert.Equal(t, []int{2, 3}, lines(0, 1, 1, 3), "but a lone bar has none")
}

// A further section begins a system, whatever room there is, and after a lone bar too
// where periods are not counted.
func TestBreakerBeginsASection(t *testing.T) {
	var b Breaker
	b.Period(1, 3, 8, true)
	assert.Equal(t, []bool{false, false, false}, []bool{b.Bar(1), b.Bar(2), b.Bar(3)}, "the first bar of the piece needs no break")
	b.Period(1, 3, 8, true)
	assert.True(t, b.Bar(1))
	b.Period(1, 0, 0, true)
	assert.True(t, b.Bar(1))
}

func section(t *testing.T, text string) *score.Section {
	t.Helper()
	p, problems := spec.Read([]spec.File{{Name: "weir.yaml", Text: []byte(text)}})
	require.NoError(t, problems.Err())
	return p.Sections[0]
}

func one(meter, pulse, bars, more string) string {
	return "title: Weir\nmeter: " + meter + "\npulse: " + pulse + "\nlength: " + bars + " bars\nlayers:\n  - {name: Weir, " + more + "}\n"
}

func TestBars(t *testing.T) {
	sparse := section(t, one("4/4", "1/8", "4", "groups: 3+3+2"))
	assert.Equal(t, 8, ScoreRoom(0).Bars(sparse), "three attacks a bar")
	dense := section(t, one("4/4", "1/16", "4", "groups: 3+3+2, strike: all"))
	assert.Equal(t, 3, ScoreRoom(0).Bars(dense), "sixteen sixteenths of 185 and the bar's edges are 3,130 of 9,982")
	assert.Equal(t, 6, ScoreRoom(2*sheet.LineWidth).Bars(dense), "a staff half as high has room for 21,670")
	pickup := section(t, "title: Weir\nmeter: 4/4\npickup: 3/4\nlength: 1 bar\nlayers: [{name: A, pulse: 1/16, groups: 1, enters: pickup, leaves: bar 1}, {name: B, groups: 8}]")
	assert.Equal(t, 8, ScoreRoom(0).Bars(pickup), "twelve sixteenths in the pickup are none of the bar's")
	assert.Equal(t, 1, ScoreRoom(3500).Bars(dense), "room for 2,272, and 2,438 squeezed: not for two")
}

// A line less what is before the music, of which it takes the ideal 100 for 88 that are
// set. No line is narrower than ten spaces.
func TestRoom(t *testing.T) {
	assert.Equal(t, Room(10_000), PartRoom(9_600))
	assert.Equal(t, Room(10_000), ScoreRoom(10_300))
	assert.Equal(t, PartRoom(sheet.LineWidth), PartRoom(0))
	assert.Equal(t, Room(1136), ScoreRoom(1500))
}

// What the parts attack at different moments has its own place: 10 against 12
// eighths make 42 attacks in six bars (seven together of 24 and 25), 26 of them
// an eighth, 14 a quarter and two a dotted quarter before the next. That is
// 26*225 + 14*290 + 2*335 and six edges of 170, 1,933 a bar and the signature: five
// fit in 9,982.
func TestBarsOfPartsTogether(t *testing.T) {
	assert.Equal(t, 5, ScoreRoom(0).Bars(section(t, `title: Lock Round
meter: 5/4
length: 2 realignments
layers:
  - {name: Marimba, groups: 3+2+2+3}
  - {name: Vibraphone, groups: 3+3+2+2+2}
`)))
}

// The room of a system is that of an average bar: three bars of 16, 5 and 6
// sixteenths hold 27 of 185, so nine bars are 14,985, with their edges 1,530 and
// nine new signatures of two digits (three of them with 16) about 2,650: some 2,130
// a bar, four in 9,982.
func TestBarsOfChangingMeters(t *testing.T) {
	assert.Equal(t, 4, ScoreRoom(0).Bars(section(t, one("[4/4, 5/16, 3/8]", "1/16", "9", "groups: 3+3+2, strike: all"))))
}
