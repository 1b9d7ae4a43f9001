package fingering_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tieover/score/fingering"
)

// TestAgainstAllWays compares with a search that knows no shortest path: it tries every
// string and every position of every note, from the definition.
func TestAgainstAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tuning := rapid.SampledFrom([][]int{guitar, droppedD, bass, twoAlike, reentrant}).Draw(t, "tuning")
		top := slices.Max(tuning) + 20
		var notes []fingering.Attack
		for range rapid.IntRange(1, 3).Draw(t, "notes") {
			a := fingering.Attack{Struck: []int{rapid.IntRange(tuning[0], top).Draw(t, "key")}}
			if rapid.Bool().Draw(t, "chord") {
				a.Struck = append(a.Struck, a.Struck[0]+rapid.IntRange(1, 15).Draw(t, "interval"))
			}
			if len(notes) == 0 { // more have too many ways
				for range rapid.IntRange(0, 2).Draw(t, "graces") {
					a.Graces = append(a.Graces, []int{a.Struck[0] + rapid.IntRange(-3, 3).Draw(t, "grace")})
				}
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

// held is one attack at one position.
type held struct {
	h    int
	hand fingering.Hand
}

func allWays(tuning []int, notes []fingering.Attack, round bool) (best string) {
	var bestSums [3]int
	var bestStrings []int
	var walk func(chosen []held)
	walk = func(chosen []held) {
		if len(chosen) < len(notes) {
			for h := 1; h <= 20; h++ {
				for _, hand := range handsOf(tuning, notes[len(chosen)], h) {
					walk(append(chosen[:len(chosen):len(chosen)], held{h, hand}))
				}
			}
			return
		}
		var sums [3]int // of the hand's places and ways, of grace notes on other strings than their note's, of frets
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
			for _, led := range c.hand.Graces {
				if !slices.ContainsFunc(c.hand.Struck, func(s fingering.Stop) bool { return s.String == led[0].String }) {
					sums[1]++
				}
			}
			for _, s := range append(slices.Concat(c.hand.Graces...), c.hand.Struck...) {
				sums[2] += int(s.Fret)
				strings = append(strings, int(s.String))
			}
			hands = append(hands, c.hand)
		}
		order := slices.Compare(sums[:], bestSums[:])
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

// handsOf lists the ways to play an attack with its grace notes at a position.
func handsOf(tuning []int, a fingering.Attack, h int) (all []fingering.Hand) {
	for _, struck := range stopsOf(tuning, a.Struck, h) {
		ways := []fingering.Hand{{Struck: struck}}
		for _, keys := range a.Graces {
			var more []fingering.Hand
			for _, way := range ways {
				for _, led := range stopsOf(tuning, keys, h) {
					more = append(more, fingering.Hand{Struck: struck, Graces: append(slices.Clone(way.Graces), led)})
				}
			}
			ways = more
		}
		all = append(all, ways...)
	}
	return all
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
