package find

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/process"
)

// Cycles with several processes at once or with processes that start over are
// found again, and the spec that is written for them sounds exactly the list, by
// the judgment of the score engine. Not all are found: what hides its own first
// change is not.
func TestSpecSoundsSeveralProcesses(t *testing.T) {
	grow := func(t *rapid.T, n int) process.Rule {
		return process.Rule{Kind: process.Grow, Group: rapid.IntRange(1, n).Draw(t, "group"), By: 1, After: rapid.IntRange(1, 2).Draw(t, "grows after")}
	}
	shift := func(t *rapid.T, _ int) process.Rule {
		return process.Rule{Kind: process.Shift, By: rapid.SampledFrom([]int64{-2, -1, 1, 2}).Draw(t, "moves"), After: rapid.IntRange(1, 2).Draw(t, "moves after")}
	}
	rotate := func(*rapid.T, int) process.Rule { return process.Rule{Kind: process.Rotate, By: 1, After: 1} }
	retrograde := func(*rapid.T, int) process.Rule { return process.Rule{Kind: process.Retrograde, After: 2} }
	for name, c := range map[string]struct {
		made   []func(*rapid.T, int) process.Rule
		resets bool
		strike Strike
	}{
		"growth and shift":                 {[]func(*rapid.T, int) process.Rule{grow, shift}, false, Hold},
		"growth and shift, short":          {[]func(*rapid.T, int) process.Rule{grow, shift}, false, Short},
		"growth, shift and retrograde":     {[]func(*rapid.T, int) process.Rule{grow, shift, retrograde}, false, Hold},
		"growth, rotation, and retrograde": {[]func(*rapid.T, int) process.Rule{grow, rotate, retrograde}, false, Hold},
		"shift that starts over":           {[]func(*rapid.T, int) process.Rule{shift}, true, Hold},
		"short shift that starts over":     {[]func(*rapid.T, int) process.Rule{shift}, true, Short},
		"growth and shift that start over": {[]func(*rapid.T, int) process.Rule{grow, shift}, true, Hold},
	} {
		t.Run(name, func(t *testing.T) {
			found := 0
			rapid.Check(t, func(t *rapid.T) {
				s := &Stretch{Strike: c.strike}
				for _, size := range rapid.SliceOfN(rapid.Int64Range(1, 6), 3, 5).Draw(t, "groups") {
					s.Groups = append(s.Groups, Item{Size: size})
				}
				for _, made := range c.made {
					s.Process = append(s.Process, made(t, len(s.Groups)))
				}
				cycles := 9
				if c.resets {
					s.Reset = rapid.Int64Range(5, 6).Draw(t, "starts over after")
					cycles = int(3 * s.Reset)
				}
				l := s.list(cycles, rapid.IntRange(0, 4).Draw(t, "pitches"))
				ranked := Search(l, Options{})
				if best := ranked[0].Loop(); len(best.Process) == len(s.Process) && best.Reset == s.Reset {
					found++
				}
				instrument := "piano"
				if len(l.Chords) == 1 {
					instrument = ""
				}
				soundsLike(t, l, ranked, instrument)
			})
			assert.NotZero(t, found)
		})
	}
}

// list is what the loop plays in so many cycles, dealing so many pitches
// afresh to each; a mere rhythm without at least two.
func (s *Stretch) list(cycles, pitches int) *List {
	l := &List{Pulse: beat.Plain(beat.Of(1, 8)), Chords: [][]heard.Tone{{{}}}}
	if pitches > 1 {
		l.Chords = nil
		for i := range pitches {
			l.Chords = append(l.Chords, []heard.Tone{{Step: "CDEF"[i], Octave: 4}})
		}
	}
	c, until := newCycles(s), int64(0)
	for range cycles {
		until += c.Pulses
		c.step()
	}
	s.Strokes(until, func(stroke Stroke) bool {
		l.Hits = append(l.Hits, Hit{At: stroke.At, Length: stroke.Length, Chord: stroke.Order % len(l.Chords)})
		return true
	})
	last := l.Hits[len(l.Hits)-1]
	l.End = last.At + last.Length
	return l
}
