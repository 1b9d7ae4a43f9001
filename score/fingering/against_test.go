package fingering_test

import (
	"cmp"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tieover/score/fingering"
)

// TestAgainstAllWays compares with a search that knows no shortest path: it tries every
// string and every position of every note, from the definition.
func TestAgainstAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tuning := rapid.SampledFrom([][]int{guitar, droppedD, bass, twoAlike}).Draw(t, "tuning")
		top := tuning[len(tuning)-1] + 20
		var notes []fingering.Attack
		for range rapid.IntRange(1, 3).Draw(t, "notes") {
			a := fingering.Attack{Struck: []int{rapid.IntRange(tuning[0], top).Draw(t, "key")}}
			if rapid.Bool().Draw(t, "chord") {
				a.Struck = append(a.Struck, a.Struck[0]+rapid.IntRange(1, 15).Draw(t, "interval"))
			}
			notes = append(notes, a)
		}
		round := rapid.Bool().Draw(t, "round")
		hands, bad := fingering.Choose(tuning, notes, round)
		want := allWays(tuning, notes, round)
		if bad != nil {
			assert.Empty(t, want)
			return
		}
		assert.Equal(t, want, text(hands))
	})
}

// held is one note or chord at one position.
type held struct {
	h     int
	stops []fingering.Stop
}

func allWays(tuning []int, notes []fingering.Attack, round bool) (best string) {
	var bestSums [2]int
	var bestStrings []int
	var walk func(chosen []held)
	walk = func(chosen []held) {
		if len(chosen) < len(notes) {
			for h := 1; h <= 20; h++ {
				for _, stops := range stopsOf(tuning, notes[len(chosen)].Struck, h) {
					walk(append(chosen[:len(chosen):len(chosen)], held{h, stops}))
				}
			}
			return
		}
		var sums [2]int
		var strings []int
		var hands []fingering.Hand
		for i, c := range chosen {
			before := i - 1
			if i == 0 && round {
				before = len(chosen) - 1
			}
			if sums[0] += c.h; before >= 0 {
				sums[0] += 3 * max(c.h-chosen[before].h, chosen[before].h-c.h)
			}
			for _, s := range c.stops {
				sums[1] += int(s.Fret)
				strings = append(strings, int(s.String))
			}
			hands = append(hands, fingering.Hand{Struck: c.stops})
		}
		order := cmp.Or(sums[0]-bestSums[0], sums[1]-bestSums[1])
		for i := 0; order == 0 && i < len(strings) && bestStrings != nil; i++ {
			order = strings[i] - bestStrings[i]
		}
		if bestStrings == nil || order < 0 {
			best, bestSums, bestStrings = text(hands), sums, strings
		}
	}
	walk(nil)
	return best
}

// stopsOf lists the ways to hold one key, or two, at a position.
func stopsOf(tuning, keys []int, h int) (all [][]fingering.Stop) {
	reaches := func(fret int8) bool { return fret == 0 || int(fret) >= h && int(fret) <= h+3 && fret <= 20 }
	for low := range tuning {
		first := fingering.Stop{String: int8(len(tuning) - low), Fret: int8(keys[0] - tuning[low])}
		if !reaches(first.Fret) {
			continue
		}
		if len(keys) == 1 {
			all = append(all, []fingering.Stop{first})
			continue
		}
		for high := low + 1; high < len(tuning); high++ {
			if second := (fingering.Stop{String: int8(len(tuning) - high), Fret: int8(keys[1] - tuning[high])}); reaches(second.Fret) {
				all = append(all, []fingering.Stop{first, second})
			}
		}
	}
	return all
}
