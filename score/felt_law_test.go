package score_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
)

// Bars are only how music is read: attacks, pitches and labels stay what they
// are, cuts and exceptions of bars where the spec has them; and all time is
// barred.
func TestFeltBarsChangeNoMusic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := read(t, sample.YAML(t)).Sections[0]
		felt, ok := s.Felt(beat.Time(rapid.Int64Range(int64(s.Opening()), int64(s.Length)-1).Draw(t, "downbeat")))
		if !ok {
			require.False(t, s.Steady())
			return
		}
		for i := range s.Layers {
			require.Equal(t, cycles(s, i), cycles(felt, i))
		}
		before, after := realignments(s), realignments(felt)
		require.Equal(t, len(before), len(after))
		for i := range before {
			where := felt.Where(after[i].Time)
			require.Equal(t, where.Past.Sign() == 0 && where.Beat == 1, after[i].OnBarline)
			after[i].OnBarline, after[i].Divides = before[i].OnBarline, before[i].Divides
			require.Equal(t, before[i], after[i])
		}
		at, number := s.Opening(), felt.FirstBar
		for b := range felt.Bars() {
			require.Equal(t, at, b.Start)
			require.Equal(t, number, b.Number)
			require.Equal(t, s.Grid.Must(b.Signature.Span()), b.Length+b.Skipped)
			at, number = b.End(), number+1
		}
		require.GreaterOrEqual(t, at, s.Extent())
	})
}

// A second version changes nothing of what was there, and plays as long.
func TestBesideLeavesTheRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := read(t, sample.YAML(t)).Sections[0]
		both, twins, problems := s.Beside(rapid.IntRange(1, 6).Draw(t, "every"), nil)
		if len(problems) > 0 {
			return
		}
		require.Len(t, both.Layers, len(s.Layers)+len(twins))
		for i := range s.Layers {
			require.Equal(t, cycles(s, i), cycles(both, i))
		}
		require.Equal(t, realignments(s), realignments(both))
		for _, twin := range twins {
			cut := both.Layers[twin.Of].Loop != score.Run
			require.Equal(t, cut, both.Layers[twin.Layer].Loop == score.Run)
			for _, c := range cycles(both, twin.Layer) {
				require.Equal(t, twin.Layer, c.Layer)
				if cut {
					require.NotEqual(t, score.CutByLoop, c.Cut)
				}
			}
		}
	})
}

func cycles(s *score.Section, layer int) (all []score.Cycle) {
	for c := range s.Cycles(layer) {
		all = append(all, *c)
	}
	return all
}

func realignments(s *score.Section) (all []score.Realignment) {
	for r := range s.Realignments() {
		all = append(all, r)
	}
	return all
}
