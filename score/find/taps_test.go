package find

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
)

// tapped are the onsets of 3+2+2 eighths at quarter = 120 (an eighth lasts a
// quarter of a second), each off by at most `off` seconds, and a tempo that
// slows down by `drift` of itself over the whole.
func tapped(cycles int, off, drift float64) []float64 {
	random := rand.New(rand.NewPCG(4, 2))
	var onsets []float64
	now, n := 1.0, 3*cycles
	for i := range n {
		onsets = append(onsets, now+off*(2*random.Float64()-1))
		length := float64([]int{3, 2, 2}[i%3])
		now += length * 0.25 * (1 + drift*float64(i)/float64(n))
	}
	return onsets
}

func TestTapsAreFoundAgain(t *testing.T) {
	for _, c := range []struct {
		name       string
		off, drift float64
		tempo      float64
	}{
		{"exact", 0, 0, 120}, {"exact, tempo not given", 0, 0, 0},
		{"30 ms off", 0.03, 0, 120}, {"30 ms off, tempo not given", 0.03, 0, 0},
		{"slowing by a tenth", 0.01, 0.1, 120}, {"slowing, tempo not given", 0.01, 0.1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, taps, err := FromOnsets(tapped(10, c.off, c.drift), TapOptions{Tempo: c.tempo})
			require.NoError(t, err)
			best := Search(l, Options{})[0]
			assert.Equal(t, "3+2+2", GroupsText(best.Loop().Groups))
			if c.drift == 0 {
				assert.InDelta(t, 120, taps.Tempo, 1)
			}
		})
	}
}

func TestTapsListDeviations(t *testing.T) {
	onsets := tapped(4, 0, 0)
	onsets[5] += 0.06
	_, taps, err := FromOnsets(onsets, TapOptions{Tempo: 120, Tolerance: 0.05})
	require.NoError(t, err)
	require.Len(t, taps.Deviations, 1)
	assert.Equal(t, 6, taps.Deviations[0].Tap)
	assert.InDelta(t, 0.06, taps.Deviations[0].Seconds, 0.001)
}

func TestTapsRefuseWhatIsNoTime(t *testing.T) {
	for _, onsets := range [][]float64{{}, {1, 2}, {1, 1, 2}, {2, 1, 3}, {-1, 0, 1}} {
		_, _, err := FromOnsets(onsets, TapOptions{})
		assert.Error(t, err)
	}
}

// A list of 3+2+2 in which one attack is left out (hit 7, at 14 pulses), one
// is put in (at 29) and one comes a pulse late (hit 19, 42 to 43).
func TestNoiseIsListed(t *testing.T) {
	l := &List{Pulse: beat.Plain(beat.Of(1, 8)), Chords: [][]heard.Tone{{{}}}}
	var onsets []int64
	for c := range int64(10) {
		for _, in := range []int64{0, 3, 5} {
			at := 7*c + in
			switch at {
			case 14:
				continue
			case 42:
				at = 43
			}
			onsets = append(onsets, at)
			if at == 28 {
				onsets = append(onsets, 29)
			}
		}
	}
	for i, at := range onsets {
		next := int64(70)
		if i+1 < len(onsets) {
			next = onsets[i+1]
		}
		l.Hits = append(l.Hits, Hit{At: at, Length: next - at})
	}
	l.End = 70
	found := Search(l, Options{})
	best := found[0]
	assert.Equal(t, "3+2+2 (7 pulses), 10 times, 3 exceptions", best.String())
	assert.True(t, best.Strong())
	var told []string
	for _, e := range best.Stretches[0].Exceptions {
		told = append(told, e.String())
	}
	// The head of cycle 3 is missing, so that cycles 2 and 3 run together; the late
	// head of cycle 7 exchanges the group before it and its own.
	assert.Equal(t, []string{"cycle 2: 3+2+5+2+2 instead (2+3 as 5)", "cycle 5: 1+2+2+2 instead (3 as 1+2)",
		"cycle 6: 3+2+3+2+2+2 instead (groups 3 and 1 swapped)"}, told)
	two := Search(l, Options{Exceptions: 2})[0]
	assert.LessOrEqual(t, two.Exceptions(), 2)

	// The spec that is written sounds the list, exceptions and all.
	assert.Contains(t, soundsLike(t, l, found, ""), "except:")
}

// Eighths of 3+2+2 on the beats of a file whose tempo changes in the middle: the
// taps are on its beats all through.
func TestPlayedPartKeepsToTheBars(t *testing.T) {
	part := &heard.Part{Tempos: []heard.Tempo{{Quarters: beat.Of(120, 1)}, {At: beat.Of(4, 1), Quarters: beat.Of(75, 1)}}}
	now := int64(0)
	for i := range 30 {
		part.Attacks = append(part.Attacks, heard.Attack{Onset: beat.Of(now, 8), Length: beat.Of(1, 32), Tones: []heard.Tone{{Step: 'C', Octave: 4}}})
		now += []int64{3, 2, 2}[i%3]
	}
	take, err := FromParts([]TapPart{PlayedPart(part)}, TapOptions{})
	require.NoError(t, err)
	assert.InDelta(t, 0.25, take.Taps.Pulse, 1e-9, "an eighth at 120")
	assert.InDelta(t, 0, take.Taps.Worst, 1e-9)
	assert.Equal(t, "3+2+2", GroupsText(take.Parts[0].Ranked[0].Loop().Groups))
}

// Six distances of which one is half as long again and the next half as long: with a pulse
// of 500 ms one tap is 250 ms late, with 250 ms none is off. In a long take it is late.
func TestTapsThatFitAPulseHalfAsLong(t *testing.T) {
	near := func(onsets ...float64) (texts []string) {
		_, taps, err := FromOnsets(onsets, TapOptions{})
		require.NoError(t, err)
		assert.InDelta(t, 0.5, taps.Pulse, 0.01)
		require.Len(t, taps.Deviations, 1)
		for _, n := range taps.Near {
			texts = append(texts, n.Text)
			assert.Greater(t, n.Bits, 0.0)
		}
		return texts
	}
	assert.Equal(t, []string{"2+2+2+2+3+1, in pulses of 250 ms"}, near(0, 0.5, 1, 1.5, 2, 2.75, 3))
	assert.Equal(t, []string{"2+2+2+2+1+3, in pulses of 250 ms"}, near(0, 0.5, 1, 1.5, 2, 2.25, 3))
	assert.Empty(t, near(0, 0.5, 1, 1.5, 2, 2.62, 3), "a quarter is no half")
	assert.Empty(t, near(0, 0.5, 1, 1.5, 2, 2.75, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9))
}
