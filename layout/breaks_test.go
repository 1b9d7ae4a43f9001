package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// systems drives a breaker through periods of the given bars and returns the
// bars of each system.
func systems(how Breaking, room int, periods ...int) []int {
	b := breaker{how: how}
	var sizes []int
	n := 1
	for i, length := range periods {
		b.period(n, length, room, i == 0)
		for range length {
			broke := b.at(n)
			if broke || len(sizes) == 0 {
				sizes = append(sizes, 0)
			}
			sizes[len(sizes)-1]++
			b.passed(broke)
			n++
		}
	}
	return sizes
}

// Periods of two to eight bars have a system each, shorter ones share, longer
// ones are cut in equal pieces; no system has one bar.
func TestSystems(t *testing.T) {
	assert.Equal(t, []int{6, 6, 6}, systems(BreakAuto, 8, 6, 6, 6))
	assert.Equal(t, []int{8, 6}, systems(BreakAuto, 8, 2, 2, 2, 2, 2, 2, 2), "short periods share a system while they fit")
	assert.Equal(t, []int{6, 7, 7, 6, 7, 7}, systems(BreakAuto, 8, 20, 20))
	assert.Equal(t, []int{1, 2, 1, 2}, systems(BreakAuto, 2, 3, 3), "three cannot be squeezed into the room of two, or 2.1")
	assert.Equal(t, []int{1, 2, 2}, systems(BreakAuto, 2, 5))
	assert.Equal(t, []int{4, 4, 4}, systems(BreakAuto, 4, 1, 11), "a period that joins a lone bar is cut with it")
	assert.Equal(t, []int{4, 4, 4}, systems(BreakAuto, 4, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1))
	assert.Equal(t, []int{20, 20}, systems(BreakRealign, 8, 20, 20))
	assert.Equal(t, []int{12}, systems(BreakNone, 8, 6, 6))
}

// onA4 is the room of a usual line: its width less the names, at its ideal.
var onA4 = (&Options{}).room(scoreLead)

func TestCapacity(t *testing.T) {
	sparse := read(t, one("4/4", "1/8", "4", "groups: 3+3+2")).Sections[0]
	assert.Equal(t, 8, onA4.capacityOf(sparse), "three attacks a bar")
	dense := read(t, one("4/4", "1/16", "4", "groups: 3+3+2, strike: all")).Sections[0]
	assert.Equal(t, 3, onA4.capacityOf(dense), "sixteen sixteenths of 185 and the bar's edges are 3,130 of 9,982")
	small := Options{Line: 2 * sheet.LineWidth}
	assert.Equal(t, 6, small.room(scoreLead).capacityOf(dense), "a staff half as high has room for 21,670")
}

// What the parts attack at different moments stands side by side: 10 against 12
// eighths make 42 attacks in six bars (seven together of 24 and 25), 26 of them
// an eighth, 14 a quarter and two a dotted quarter before the next. That is
// 26*225 + 14*290 + 2*335 and six edges of 170, 1,933 a bar and the signature: five
// fit in 9,982, so a period is cut in two.
func TestCapacityOfPartsTogether(t *testing.T) {
	assert.Equal(t, 5, onA4.capacityOf(read(t, lockRound).Sections[0]))
	assert.Equal(t, []int{4, 7, 10}, breaksOf(&laid(t, Options{}, lockRound).Parts[0]))
}
