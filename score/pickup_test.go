package score_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/spec"
)

// eighthOf counts a time in eighths.
func eighthOf(s *score.Section, t beat.Time) int { return int(t / s.Grid.Must(beat.Of(1, 8))) }

const ebb = "title: T\nmeter: 4/4\ntempo: 120\npickup: 1/4\nlength: 4 bars\n"

// starts lists when a layer's cycles begin and its attacks are struck, in eighths.
func starts(s *score.Section, layer int) (cycles, attacks []int) {
	for c := range s.Cycles(layer) {
		if !c.Landing {
			cycles = append(cycles, eighthOf(s, c.Start))
		}
	}
	for at := range s.Attacks(layer) {
		attacks = append(attacks, eighthOf(s, at))
	}
	return cycles, attacks
}

// By hand, in eighths from bar 1. A quarter before bar 1 of 4/4 at 120 lasts half a
// second; the line begins in it, Bell with bar 1, Buoy's 3+2 with the pickup: at -2, 3,
// 8 … Bell's 8 and Buoy begin together at 8 and every 40 eighths, once more in 32.
func TestPickup(t *testing.T) {
	p := read(t, ebb+"layers:\n  - {name: Flute, line: 'x 1, x 1, x 2'}\n  - {name: Bell, groups: 3+3+2}\n  - {name: Buoy, groups: 3+2, enters: pickup}\n")
	s := p.Sections[0]
	assert.Equal(t, "1/2", s.Seconds(0).RatString())
	assert.Equal(t, "0", s.Seconds(s.Opening()).RatString())
	assert.Equal(t, "17/2", s.Seconds(s.Length).RatString())
	assert.Equal(t, 4, s.BarCount())
	assert.Equal(t, s.Grid.Must(beat.Of(1, 4)), s.Start, "bar 1 begins a quarter after the piece")
	var bars [][5]int
	for b := range s.Bars() {
		bars = append(bars, [5]int{b.N, b.Number, eighthOf(s, b.Start), eighthOf(s, b.Length), eighthOf(s, b.Skipped)})
	}
	assert.Equal(t, [][5]int{{0, 0, -2, 2, 6}, {1, 1, 0, 8, 0}, {2, 2, 8, 8, 0}, {3, 3, 16, 8, 0}, {4, 4, 24, 8, 0}}, bars)
	assert.Equal(t, "bar 0 beat 4", s.Where(s.Opening()).String())
	_, line := starts(s, 0)
	assert.Equal(t, []int{-2, -1, 0}, line)
	bell, _ := starts(s, 1)
	assert.Equal(t, []int{0, 8, 16, 24}, bell)
	buoy, _ := starts(s, 2)
	assert.Equal(t, []int{-2, 3, 8, 13, 18, 23, 28}, buoy)
	assert.Equal(t, []int{1, 2}, s.Set, "what plays from the pickup to the end belongs to the set")
	var met []int
	for r := range s.Realignments() {
		met = append(met, r.Index, eighthOf(s, r.Time))
	}
	assert.Equal(t, []int{1, 8}, met, "none at bar 1, where Buoy is inside its cycle")
}

// Places: the pickup of three eighths begins in the middle of beat 3 of 4/4; its beat 4
// is at -2. An entry there is early; a cut every two bars counts from bar 1; a negative
// offset of a loop that begins with bar 1 is not heard in the pickup.
func TestPlacesInThePickup(t *testing.T) {
	p := read(t, "title: T\nmeter: 4/4\npickup: 3/8\nlength: 4 bars\nlayers:\n  - {name: A, groups: 3, enters: pickup beat 4, loop: cut every 2 bars}\n"+
		"  - {name: B, groups: 3+2, offset: -2}\n  - {name: C, groups: 2, enters: pickup, leaves: bar 1}\nplan:\n  - {at: pickup, text: a}\n  - {at: pickup beat 4, text: b}\n  - {at: C cycle 2, text: c}\n")
	s := p.Sections[0]
	var at []int
	for _, e := range s.Plan {
		at = append(at, eighthOf(s, e.Time))
	}
	assert.Equal(t, []int{-3, -2, -1}, at)
	a, _ := starts(s, 0)
	assert.Equal(t, []int{-2, 1, 4, 7, 10, 13, 16, 19, 22, 25, 28, 31}, a)
	_, b := starts(s, 1)
	assert.Equal(t, []int{1, 3, 6, 8}, b[:4])
	_, c := starts(s, 2)
	assert.Equal(t, []int{-3, -1}, c)
}

// What a repeat goes back to from somewhere else is said again at bar 1: the tempo and
// the dynamic that stood in the pickup. A rit. that ends with the pickup goes at the
// tempo of its middle.
func TestARepeatAfterAPickup(t *testing.T) {
	p := read(t, "title: T\nmeter: 4/4\ntempo: 120\npickup: 1/4\nlength: 4 bars\nend: repeat\nlayers:\n  - {name: A, line: 'x 2, x 8', dynamic: p}\n"+
		"plan:\n  - {at: bar 2, tempo: 90, dynamic: f}\n")
	s := p.Sections[0]
	var tempos []int
	for _, m := range s.Tempos() {
		tempos = append(tempos, eighthOf(s, m.Time), int(m.Tempo.Quarters.Num()))
	}
	assert.Equal(t, []int{-2, 120, 0, 120, 8, 90}, tempos)
	assert.Equal(t, []score.Dynamic{{Time: s.Opening(), Text: "p"}, {Time: 0, Text: "p"}, {Time: s.Bar(2).Start, Text: "f"}}, s.Dynamics(s.Layers[0]))

	s = read(t, ebb+"layers: [{name: A, groups: 4+4}]\nplan:\n  - {at: pickup, tempo: rit., to: bar 1}\n").Sections[0]
	assert.Equal(t, []score.Speed{{Time: s.Opening(), Quarters: beat.Of(108, 1)}, {Time: 0, Quarters: beat.Of(96, 1)}}, s.Speeds())
	assert.Equal(t, "5/9", s.Seconds(0).RatString())
}

// In felt bars a pickup of an eighth is what stands before bar 1: the loop that enters
// in it is felt from its second group, two eighths later.
func TestFeltBarsOfAPickup(t *testing.T) {
	s := read(t, "title: T\nmeter: 4/4\npickup: 1/8\nlength: 2 bars\nlayers: [{name: A, groups: 3+3+2, enters: pickup}]\n").Sections[0]
	felt, ok := s.Felt(s.Grid.Must(beat.Of(1, 8)))
	assert.True(t, ok)
	var bars [][4]int
	for b := range felt.Bars() {
		bars = append(bars, [4]int{b.Number, eighthOf(s, b.Start), eighthOf(s, b.Length), eighthOf(s, b.Skipped)})
	}
	assert.Equal(t, [][4]int{{0, -1, 2, 6}, {1, 1, 8, 0}, {2, 9, 8, 0}}, bars)
}

// What is never tied is not held: a drum's last stroke of the pickup, written until bar 1
// at most, is no mistake where a repeat goes back to bar 1; as a roll it is. By hand.
func TestADryNoteBeforeARepeat(t *testing.T) {
	const text = "title: T\nmeter: 4/4\npickup: 1/4\nlength: 4 bars\nend: repeat\nlayers:\n  - {name: Snare, instrument: snare drum, groups: 5, enters: pickup, touches: %s}\n"
	_, problems := spec.Read([]spec.File{{Name: "a.yaml", Text: fmt.Appendf(nil, text, "plain")}})
	assert.Empty(t, problems)
	_, problems = spec.Read([]spec.File{{Name: "a.yaml", Text: fmt.Appendf(nil, text, "roll")}})
	assert.Len(t, problems, 1)
}
