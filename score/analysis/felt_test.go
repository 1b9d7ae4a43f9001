package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/process"
	"tieover/score/sample"
	"tieover/score/spec"
)

// 3+2+2+3 with its long groups first is 3+3+2+2, whose first 3 is the last
// group: 7 eighths in. In 5/4, which is 10 eighths, bar 0 has 7 of them. With the loop
// of 12 it realigns after 60: 53 after the downbeat, in the sixth felt bar 3 eighths in.
func TestFeltFromByHand(t *testing.T) {
	s := section(t, score.PlainSignature(5, 4), 120, loop("Marimba", 3, 2, 2, 3), loop("Vibraphone", 3, 3, 2, 2, 2))
	ways, why := FeltFrom(s, 0)
	require.Empty(t, why)
	require.Len(t, ways, 1)
	assert.Equal(t, []int{3, 3, 2, 2}, ways[0].Hearing.Groups)
	assert.Equal(t, 7*eighth, ways[0].Downbeat)
	assert.Equal(t, "bar 6 beat 2½", ways[0].Section.Where(60*eighth).String())

	ways, why = FeltFrom(s, 1)
	assert.Empty(t, ways)
	assert.Equal(t, "is heard as it is written: a grouping whose long groups do not come first could be heard otherwise", why)
}

// Whoever cannot be heard otherwise is told what would allow it.
func TestFeltFromNobody(t *testing.T) {
	cut, turns, grown := loop("a", 2, 3), loop("a", 2, 3), loop("a", 2, 3)
	cut.Loop, cut.CutEvery = score.CutBars, 2
	turns.Patterns = append(turns.Patterns, turns.Patterns[0])
	grown.Process = []score.Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	for _, c := range []struct {
		layer *score.Layer
		want  string
	}{
		{cut, "is cut, which tells"},
		{turns, "changes from cycle to cycle"},
		{grown, "changes from cycle to cycle"},
		{loop("a", 3, 3, 2, 2, 2), "is heard as it is written"},
	} {
		ways, why := FeltFrom(section(t, score.PlainSignature(4, 4), 64, c.layer, loop("b", 4)), 0)
		assert.Empty(t, ways)
		assert.Contains(t, why, c.want)
		assert.Contains(t, why, ": ", "a way out follows")
	}
	s := section(t, score.PlainSignature(4, 4), 2, loop("a", 2, 3), loop("b", 4))
	_, why := FeltFrom(s, 0)
	assert.Contains(t, why, "is over before its felt downbeat comes")
}

// In felt bars realignments stand where they do who count bars and beats of the
// meter from the downbeat, one after another.
func TestFeltBarsCounted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, problems := spec.Read([]spec.File{{Name: "s.yaml", Text: []byte(sample.YAML(t))}})
		require.Empty(t, problems)
		s := p.Sections[0]
		for i := range s.Layers {
			ways, _ := FeltFrom(s, i)
			for _, w := range ways {
				require.True(t, w.Downbeat >= s.Opening() && w.Downbeat != 0 && w.Downbeat < s.Length)
				for f := range FeltRealignments(s, w.Hearing) {
					require.Equal(t, f.Early, f.Time < w.Downbeat)
					if f.Metric {
						require.Equal(t, counted(s, f.Time-w.Downbeat), f.Where)
						require.Equal(t, f.Where, w.Section.Where(f.Time))
					}
				}
			}
		}
	})
}

// counted counts bars and beats of a section's first signature.
func counted(s *score.Section, left beat.Time) score.Where {
	w := score.Where{Bar: 1}
	for {
		for n, span := range s.Meter[0].Beats() {
			length := s.Grid.Must(span)
			if left < length {
				w.Beat, w.Past, w.Half = n+1, s.Grid.Span(left), 2*left == length
				return w
			}
			left -= length
		}
		w.Bar++
	}
}
