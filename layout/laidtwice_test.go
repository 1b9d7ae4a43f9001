package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
)

// Whoever lays a part and writes it walks it twice: to prove it and choose its
// systems, and to write it. A walk opens each voice once a section, and this
// piece has one section.
func TestLaidTwice(t *testing.T) {
	p := read(t, round(50))
	players := p.Players()
	together, problems := Composite{}.part(p, Options{})
	require.Empty(t, problems)
	over := Options{BeamOverBarlines: true}
	for _, c := range []struct {
		name  string
		o     Options
		parts []*part
		alone bool
	}{
		{"score", Options{}, partsIn(t, p, Options{}, players, false), false},
		{"part", Options{}, partsIn(t, p, Options{}, players[3:4], true), true},
		{"part, systems by realignments", Options{Breaks: BreakRealign}, partsIn(t, p, Options{Breaks: BreakRealign}, players[3:4], true), true},
		{"part under a partner", Options{Partner: "L0"}, partsIn(t, p, Options{Partner: "L0"}, players[3:4], true), true},
		{"composite", Options{}, []*part{together}, true},
		{"score, beams over barlines", over, partsIn(t, p, over, players, false), false},
		{"part, beams over barlines", over, partsIn(t, p, over, players[3:4], true), true},
	} {
		walks := make([]int, len(c.parts))
		for i, pt := range c.parts {
			open := pt.plan.feeds[0]
			pt.plan.feeds[0] = func(section int) *cursor {
				walks[i]++
				return open(section)
			}
		}
		laid, problems := proven(p, c.o, c.parts, c.alone)
		require.Empty(t, problems)
		for i := range laid.Parts {
			bars := 0
			laid.Parts[i].Breaks()
			for range laid.Parts[i].Bars() {
				bars++
			}
			assert.Equal(t, 50, bars, c.name)
			assert.Equal(t, 2, walks[i], c.name)
		}
	}
}

func partsIn(t *testing.T, p *score.Piece, o Options, players []score.Player, alone bool) []*part {
	t.Helper()
	parts, problems := partsOf(p, o, players, alone)
	require.Empty(t, problems)
	return parts
}
