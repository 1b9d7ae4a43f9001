package align

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tapped are taps without scatter: a pulse lasts so many milliseconds.
func tapped(first, pulse float64, places []int64) []float64 {
	taps := make([]float64, len(places))
	for i, at := range places {
		taps[i] = first + pulse*float64(at)
	}
	return taps
}

// Of a quarter of 500 ms there are the quarter, eighth, triplet, sixteenth, its triplet and the
// 32nd; eighths and sixteenths may be swung in three ways. Taps that may be off by more than
// half a pulse leave that pulse out.
func TestPulsesOfAGivenTempo(t *testing.T) {
	lengths := func(tolerance float64) (straight []float64, swung int) {
		for _, p := range (Options{Quarter: 480, Tolerance: tolerance}).pulses(nil) {
			if p.isSwung() {
				swung++
			} else {
				straight = append(straight, p.Milliseconds)
			}
		}
		return straight, swung
	}
	straight, swung := lengths(0)
	assert.Equal(t, []float64{480, 240, 160, 120, 80, 60}, straight)
	assert.Equal(t, 6, swung)
	straight, _ = lengths(30)
	assert.Equal(t, []float64{480, 240, 160, 120, 80, 60}, straight, "just half of the shortest")
	straight, swung = lengths(60.5)
	assert.Equal(t, []float64{480, 240, 160}, straight)
	assert.Equal(t, 3, swung)
}

// Without a tempo no pulse under 70 ms or over 1500 is tried, and none that is swung over 450.
func TestPulsesThatAreGuessed(t *testing.T) {
	for _, gap := range []float64{50, 69, 71, 440, 460, 1400, 1600, 3500} {
		all := Options{}.pulses(tapped(0, gap, []int64{0, 1, 2, 3, 4, 5, 6, 7}))
		itself := false
		for _, p := range all {
			itself = itself || p.Milliseconds/gap > 0.98 && p.Milliseconds/gap < 1.02
			assert.GreaterOrEqual(t, p.Milliseconds, 70.0, gap)
			assert.LessOrEqual(t, p.Milliseconds, 1500.0, gap)
			if p.isSwung() {
				assert.LessOrEqual(t, p.Milliseconds, 450.0, gap)
			}
		}
		assert.Equal(t, gap > 70 && gap < 1500, itself, gap)
	}
	assert.Equal(t, 105.0, shortestGap([]float64{0, 100, 205, 315, 600, 1000}), "the median of 100, 105 and 110")
	assert.Equal(t, 110.0, shortestGap([]float64{0, 100, 233, 343}), "133 is within a third of the least")
}

// A quarter of a second later the place is a pulse on, its variance grew by that of the pulse
// (1 % of 250 ms, squared: 6.25), and by 2.5 ms squared for the player; the pulse's by 0.15 %.
func TestTrackerAdvances(t *testing.T) {
	p := &Pulse{Milliseconds: 250, unsure: 0.01, wander: 0.01, drifts: 0.0015}
	k := p.start(1000, 20)
	assert.Equal(t, tracker{place: 1000, pulse: 250, varPlace: 400, varPulse: 6.25}, k)
	n := p.advance(k, 1)
	assert.Equal(t, 1250.0, n.place)
	assert.InDelta(t, 400+6.25+6.25, n.varPlace, 1e-9)
	assert.InDelta(t, 6.25, n.varBoth, 1e-9)
	assert.InDelta(t, 6.25+0.375*0.375, n.varPulse, 1e-9)

	// A late tap draws the place by 412.5/812.5 of it; a stray one, half a pulse off, by nothing.
	n, _, late := p.hear(k, 1, 1260, 20)
	assert.Equal(t, 10.0, late)
	assert.InDelta(t, 1250+10*412.5/812.5, n.place, 1e-9)
	assert.InDelta(t, 250+10*6.25/812.5, n.pulse, 1e-9)
	n, _, late = p.hear(k, 1, 1375, 20)
	assert.Equal(t, 125.0, late)
	assert.Equal(t, 1250.0, n.place)
}

// The root mean square of what is within three median deviations, from 3 ms to 0.35 of a pulse.
func TestScatterIsEstimated(t *testing.T) {
	assert.InDelta(t, 10, estimateScatter([]float64{10, -10, 10, -10, 200}, 250), 1e-9, "a stray tap does not count")
	assert.InDelta(t, 5, estimateScatter([]float64{1, -7, 5, -5}, 250), 1e-9, "(1 + 49 + 25 + 25) / 4 = 25")
	assert.Equal(t, 3.0, estimateScatter([]float64{1, -1, 1}, 250))
	assert.InDelta(t, 87.5, estimateScatter([]float64{200, -200, 200}, 250), 1e-9)
}

// 3+2+2 eight times, a quarter lasting 500 ms, with a pause of 1.4 s in the fourth cycle's
// second group: one exception, which takes 1.9 s. The tempo goes on behind it.
func TestAPauseIsNoGroup(t *testing.T) {
	taps := tapped(1000, 250, numbers(8, "3 2 2"))
	for i := 11; i < len(taps); i++ {
		taps[i] += 1400
	}
	best := Taps(taps, Options{Quarter: 500}).Readings[0]
	require.Len(t, best.Segments, 1)
	assert.Equal(t, []int{3, 2, 2}, best.Segments[0].Loop)
	i := slices.IndexFunc(best.Segments[0].Steps, Step.IsException)
	require.GreaterOrEqual(t, i, 0)
	pause := best.Segments[0].Steps[i]
	assert.Equal(t, []int{int(Paused), 10, 2}, []int{int(pause.Move), pause.Attack, pause.Pulses})
	assert.InDelta(t, 1900, pause.Pause, 1)
	assert.Equal(t, 1, best.Exceptions())
}

// The same without the pause, but the tempo unknown and twice as fast: the pulse and the loop
// are heard, and each tap's place. How long the last tap lasts the loop tells.
func TestTheTempoIsHeard(t *testing.T) {
	taps := tapped(300, 125, numbers(8, "3 2 2"))
	best := Taps(taps, Options{}).Readings[0]
	assert.InDelta(t, 125, best.Pulse.Milliseconds, 2.5)
	assert.Zero(t, best.Pulse.Parts, "which note value it is nobody knows")
	assert.False(t, best.Pulse.isSwung())
	assert.Equal(t, []int{3, 2, 2}, best.Segments[0].Loop)
	assert.Equal(t, []int64{0, 3, 5, 7, 10}, best.Places[:5])
	assert.Equal(t, 2, best.LastGroup())
	assert.Len(t, best.Late, 24)
}

// Two parts on one clock: 3+2+2 from the start, 4+3 from three pulses later on. Each has its
// loop, and its place is counted from the first attack of both.
func TestPartsShareATempo(t *testing.T) {
	read, ok := Parts([][]float64{tapped(1000, 250, numbers(8, "3 2 2")), tapped(1750, 250, numbers(6, "4 3"))}, Options{Quarter: 500})
	require.True(t, ok)
	assert.Equal(t, 2, read.Pulse.Parts)
	assert.Equal(t, []int64{0, 3}, []int64{read.Parts[0].First, read.Parts[1].First})
	assert.Equal(t, []int{3, 2, 2}, read.Parts[0].Best().Segments[0].Loop)
	assert.Equal(t, []int{4, 3}, read.Parts[1].Best().Segments[0].Loop)
	assert.Equal(t, int64(39), read.Parts[1].Best().Places[11])
	_, ok = Parts([][]float64{{0, 250, 500, 750}, {0, 1, 2, 3}}, Options{Quarter: 500})
	assert.False(t, ok, "taps a millisecond apart have no pulse")
}
