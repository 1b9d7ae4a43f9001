package analysis_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
)

// parted lists where the versions of a layer part and meet, in eighths,
// and how far the whole loop is then.
func parted(t *testing.T, s *score.Section, every, layer int) (all []string) {
	both, twins, problems := s.Beside(every, []int{layer})
	require.Empty(t, problems)
	require.Len(t, twins, 1)
	cut, whole := twins[0].Of, twins[0].Layer
	if !s.IsCut() {
		cut, whole = whole, cut
	}
	for p := range Partings(both, cut, whole) {
		words := map[Likeness]string{One: "meets", InRhythm: "rhythm", Apart: "parts"}[p.Now]
		all = append(all, fmt.Sprintf("%s %d (%d of %d)", words, p.Time/eighth, p.Into/eighth, p.Length/eighth))
	}
	return all
}

// A loop of 7 cut every 2 bars of 8 eighths: after 16 eighths the whole loop is 2
// into its third pass. The cuts come at 16k, and 16k is a multiple of 7 first at
// 112: there both begin a cycle, and at 128 they part again, 128 = 18 x 7 + 2. The
// section ends at 136.
func TestPartingsByHand(t *testing.T) {
	want := []string{"parts 16 (2 of 7)", "meets 112 (0 of 7)", "parts 128 (2 of 7)"}
	cut := loop("Winch", 2, 2, 3)
	cut.Loop, cut.CutEvery = score.CutBars, 2
	assert.Equal(t, want, parted(t, section(t, score.PlainSignature(4, 4), 136, cut), 0, 0))
	assert.Equal(t, want, parted(t, section(t, score.PlainSignature(4, 4), 136, loop("Winch", 2, 2, 3), loop("Bell", 4)), 2, 0))
}

// A loop of 6 cut every bar of 8 meets itself at 24, which is 4 times 6 and 3 bars:
// there the section ends.
func TestTheyMeetWhereTheSectionEnds(t *testing.T) {
	assert.Equal(t, []string{"parts 8 (2 of 6)", "meets 24 (0 of 6)"},
		parted(t, section(t, score.PlainSignature(4, 4), 24, loop("Winch", 3, 3), loop("Bell", 4)), 1, 0))
}

// A loop of 5 cut every 4 bars of 8, so at 32, where the whole one is 2 into its
// seventh pass. Both leave at 48: who is silent meets nobody.
func TestVersionsThatLeaveDoNotMeet(t *testing.T) {
	oar := loop("Oar", 2, 3)
	oar.LeaveAt = &score.Place{N: 7}
	assert.Equal(t, []string{"parts 32 (2 of 5)"}, parted(t, section(t, score.PlainSignature(4, 4), 96, loop("Bell", 3, 3, 2), oar), 4, 1))
}

// A loop of 8 cut every bar of 8 is never cut short.
func TestVersionsThatNeverPart(t *testing.T) {
	assert.Empty(t, parted(t, section(t, score.PlainSignature(4, 4), 64, loop("Winch", 3, 5), loop("Bell", 5)), 1, 0))
}

// Two groupings by turns, of 3 and 5 eighths: cut every bar of 4 after the second has
// begun, the cut version begins with the third of its cycles, which is the first
// grouping again; the whole one meets it at 8, 16 … where its own third cycle begins.
// 0: both 3; 3: both 5; at 4 the cut one takes 3, the whole one is 1 into the 5; 8: the
// whole one begins a 3, the cut one its fifth cycle (3, at 4; 5, at 7; 3, at 8).
func TestPartingsOfTurns(t *testing.T) {
	winch := loop("Winch", 3)
	winch.Patterns = append(winch.Patterns, score.Pattern{Groups: []score.Item{{Size: 5}}})
	assert.Equal(t, []string{"parts 4 (1 of 5)", "meets 8 (0 of 3)", "parts 12 (1 of 5)", "meets 16 (0 of 3)"},
		parted(t, section(t, score.PlainSignature(2, 4), 16, winch, loop("Bell", 4)), 1, 0))
}
