package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/process"
)

// By hand, in eighths of 4/4: Gate is 3+2+2, so cycle 3 begins at 14 and its
// attacks are at 14, 17 and 19. Turned is the same backwards in every second
// cycle: 2+2+3 from 7, so its attacks are at 0 3 5 7 9 11. Cut starts over every
// bar: 0 3 5 7, 8 11 13 15; its cycle 2 has one attack, the fourth, and cycle 4
// again. Late enters in bar 2, at 8, three eighths into the cycle it began before:
// 10 is the first it is heard with. The line is 2 silent, 1, 1.
func TestAttacksAsPlaces(t *testing.T) {
	late := layer("Late", groups(5, 2))
	late.EnterAt, late.Offset = &Place{Kind: AtBar, N: 2}, -3
	turned := layer("Turned", groups(3, 2, 2))
	turned.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 2}}}
	cut := layer("Cut", groups(3, 2, 2))
	cut.Loop, cut.CutEvery = CutBars, 1
	line := layer("Line")
	line.Line = []LineNote{{Length: 12}, {Length: 6, Tones: Chord{{}}}, {Length: 6, Tones: Chord{{}}}}
	cases := []struct {
		place Place
		at    int
	}{
		{Place{Layer: "Gate", Cycle: 3, N: 1}, 14}, {Place{Layer: "Gate", Cycle: 3, N: 3}, 19}, {Place{Layer: "Gate", N: 9}, 19},
		{Place{Layer: "Turned", Cycle: 2, N: 2}, 9}, {Place{Layer: "Turned", N: 6}, 11},
		{Place{Layer: "Cut", Cycle: 2, N: 1}, 7}, {Place{Layer: "Cut", N: 6}, 11}, {Place{Layer: "Cut", Cycle: 3, N: 2}, 11},
		{Place{Layer: "Late", N: 1}, 10}, {Place{Layer: "Late", Cycle: 1, N: 1}, 10}, {Place{Layer: "Late", Cycle: 2, N: 2}, 17},
		{Place{Layer: "Line", N: 1}, 2}, {Place{Layer: "Line", N: 2}, 3},
	}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, layer("Gate", groups(3, 2, 2)), turned, cut, late, line)
	for i := range cases {
		cases[i].place.Kind = AtAttack
		s.Plan = append(s.Plan, PlanEntry{At: cases[i].place, Text: cases[i].place.String()})
	}
	settle(t, s)
	for _, e := range s.Plan {
		for _, c := range cases {
			if c.place.String() == e.Text {
				assert.Equal(t, c.at, eighths(t, e.Time), e.Text)
			}
		}
	}
}

// What a landing strikes can be named too, as the attack after the last.
func TestTheLandingIsAnAttack(t *testing.T) {
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, layer("Gate", groups(4, 4)))
	s.End = Land
	s.Plan = []PlanEntry{{At: Place{Kind: AtAttack, Layer: "Gate", N: 5}, Text: "here"}}
	settle(t, s)
	assert.Equal(t, s.Length, s.Plan[0].Time)
}

func TestAttacksThatAreNotThere(t *testing.T) {
	silent := layer("Gate", groups(3, 3, 2))
	silent.Except = []Exception{{Cycle: 2, Rest: true}}
	for text, place := range map[string]Place{
		"cycle 2 of Gate has no attacks, so there is no attack 1": {Cycle: 2, N: 1},
		"cycle 3 of Gate has 3 attacks, so there is no attack 4":  {Cycle: 3, N: 4},
		"Gate has 9 attacks, so there is no attack 10":            {N: 10},
		"Gate cycle 9 attack 1 lies beyond the section's end":     {Cycle: 9, N: 1},
		`there is no layer "Lock"`:                                {Layer: "Lock", N: 1},
	} {
		if place.Layer == "" {
			place.Layer = "Gate"
		}
		place.Kind = AtAttack
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, silent)
		s.Plan = []PlanEntry{{At: place, Text: "here"}}
		problems := refused(s)
		require.Len(t, problems, 1, text)
		assert.Equal(t, text, problems[0].Text)
	}
}
