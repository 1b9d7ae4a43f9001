package find

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/heard"
	"tieover/score/process"
)

// Cycles by hand, with one slip each.
func TestAdditiveMelodyWithASlip(t *testing.T) {
	for _, c := range []struct{ melody, want, but string }{
		{"C CD CDE CDEF CDFG CDEFGA CDEFGAB", "1 (1 pulse), 7 times, one more group of 1 at the end each time, 1 exception",
			"cycle 5: 1+1+1+1 instead (1 tone before F4 left out)"},
		{"C CD CDE CDEF CDEFG CDEEFGA CDEFGAB", "1 (1 pulse), 7 times, one more group of 1 at the end each time, 1 exception",
			"cycle 6: 1x7 instead (E4 too many)"},
		{"C CD CDE CDEF CDFEG CDEFGA CDEFGAB", "1 (1 pulse), 7 times, one more group of 1 at the end each time, 1 exception",
			"cycle 5: 1+1+1+1+1 instead (tones 3 and 4 swapped)"},
		{"C CD CDE CDEF CBEFG CDEFGA CDEFGAB", "1 (1 pulse), 7 times, one more group of 1 at the end each time, 1 exception",
			"cycle 5: 1+1+1+1+1 instead (tone 2 another: B4)"},
		{"GABCDEF ABCDEF BCDEF CDF DEF EF F", "1x7 (7 pulses), 7 times, 1 tone fewer at the front each time, 1 exception",
			"cycle 4: 1+1+1 instead (1 tone before F4 left out)"},
	} {
		best := Search(lettered(t, c.melody), Options{})[0]
		assert.Equal(t, c.want, best.String(), c.melody)
		if assert.False(t, best.IsExact(), c.melody) && assert.Len(t, best.Stretches[0].Exceptions, 1) {
			assert.Equal(t, c.but, best.Stretches[0].Exceptions[0].String())
		}
	}
}

// slippedMelody is a melody that takes on a tone each time, or loses one, at its end or in
// front, of 6 to 10 cycles, with one slip in a cycle that is not the first or the last.
func slippedMelody(r *rand.Rand, slip string) (tones []byte, sizes []int64, m Melody) {
	series := []byte("CDEFGABCEGDFBAC")
	r.Shuffle(len(series), func(i, j int) { series[i], series[j] = series[j], series[i] })
	cycles := 6 + r.IntN(5)
	grows, front := r.IntN(2) == 0, r.IntN(2) == 0
	at := 2 + r.IntN(cycles-3)
	m = Melody{First: 2, Step: 1, Each: 1, Front: front}
	if !grows {
		m.First, m.Step = cycles+1, -1
	}
	for c := range cycles {
		n := c + 2
		if !grows {
			n = cycles + 1 - c
		}
		cycle := append([]byte{}, series[:n]...)
		if front {
			cycle = append([]byte{}, series[cycles+2-n:cycles+2]...)
		}
		lengths := make([]int64, len(cycle))
		for i := range lengths {
			lengths[i] = 2
		}
		if c == at {
			i := r.IntN(len(cycle) - 1)
			switch slip {
			case "left out":
				cycle, lengths = append(cycle[:i], cycle[i+1:]...), lengths[1:]
			case "twice":
				cycle, lengths = append(cycle[:i+1], cycle[i:]...), append(lengths, 2)
			case "swapped":
				cycle[i], cycle[i+1] = cycle[i+1], cycle[i]
			case "longer":
				lengths[i]++
			case "shorter":
				lengths[i]--
			case "missing":
				cycle, lengths = append(cycle[:i+1], cycle[i+2:]...), lengths[1:]
				lengths[i] = 4
			case "other":
				cycle[i] = "CDEFGAB"[r.IntN(7)]
			}
		}
		tones, sizes = append(tones, cycle...), append(sizes, lengths...)
	}
	return tones, sizes, m
}

// How often an additive melody with one slip is found, and its spec sounds the list.
func TestRatesOfMelodies(t *testing.T) {
	n, full := takes(t)
	if !full {
		n = 4
	}
	for _, slip := range []string{"left out", "twice", "swapped", "longer", "shorter", "missing", "other"} {
		got := share(n, func(seed uint64) bool {
			tones, sizes, m := slippedMelody(random(seed, "melody "+slip), slip)
			l := lettered(t, string(tones))
			now := int64(0)
			for i := range l.Hits {
				l.Hits[i].At, l.Hits[i].Length = now, sizes[i]
				now += sizes[i]
			}
			l.End = now
			ranked := Search(l, Options{})
			soundsLike(t, l, ranked, "piano")
			return m.isFound(ranked[0])
		})
		t.Logf("%-10s %.0f", slip, 100*got)
		if full {
			assert.GreaterOrEqual(t, got, 0.95, slip)
		}
		measure(t, slip+", tempo given", "95/95/95/95/95", func(seed uint64, scatter float64) bool {
			return playedMelodyIsFound(seed, slip, scatter, true)
		})
		measure(t, slip+", no tempo", "95/95/95/95/95", func(seed uint64, scatter float64) bool {
			return playedMelodyIsFound(seed, slip, scatter, false)
		})
	}
}

// isFound reports whether just this melody is what is told.
func (m Melody) isFound(d *Description) bool {
	s := d.Loop()
	if s.Melody != nil {
		return *s.Melody == m
	}
	return len(s.Process) == 1 && s.Process[0].Kind == process.Append && m == Melody{First: len(s.Groups), Step: 1, Each: s.Process[0].After}
}

// playedMelodyIsFound plays such a melody with scatter in seconds.
func playedMelodyIsFound(seed uint64, slip string, scatter float64, given bool) bool {
	r := random(seed, "melody "+slip)
	tones, sizes, m := slippedMelody(r, slip)
	tempo := takeTempos[r.IntN(len(takeTempos))]
	p := TapPart{Name: "Lock", Onsets: tapGroups(r, sizes, flaw{}, scatter, tempo)}
	for _, step := range tones {
		p.Chords = append(p.Chords, []heard.Tone{{Step: step, Octave: 4}})
	}
	if !given {
		tempo = 0
	}
	take, err := FromParts([]TapPart{p}, TapOptions{Tempo: tempo})
	return err == nil && m.isFound(take.Parts[0].Ranked[0])
}

// Random tones are no melody of that kind.
func TestChanceIsNoMelody(t *testing.T) {
	found := share(200, func(seed uint64) bool {
		r := random(seed, "chance melody")
		tones := make([]byte, 15+r.IntN(50))
		for i := range tones {
			tones[i] = "CDEFGAB"[r.IntN(2+int(seed%6))]
		}
		best := Search(lettered(t, string(tones)), Options{})[0]
		return !best.IsExact() && best.Stretches[0].ByCycle
	}) * 200
	assert.LessOrEqual(t, found, 1.0)
}
