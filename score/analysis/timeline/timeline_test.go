package timeline_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/analysis/grouping"
	. "tieover/score/analysis/timeline"
	"tieover/score/beat"
)

// Sums and classes of the dance meters and of the additive meters of a set of
// piano pieces; sources beside each row.
func TestMeters(t *testing.T) {
	for _, c := range []struct {
		name   string
		groups []int
		sum    int
		class  grouping.Aksak // "" when a group is neither 2 nor 3
		listed bool
		source string
	}{
		{"pajduško", []int{2, 3}, 5, grouping.Authentic, true, "folkdancefootnotes.org; eliznik.org.uk"},
		{"račenica", []int{2, 2, 3}, 7, grouping.Authentic, true, "eliznik.org.uk; grouping from memory"},
		{"četvorno, lesnoto", []int{3, 2, 2}, 7, grouping.Authentic, true, "eliznik.org.uk; grouping from memory"},
		{"dajčovo", []int{2, 2, 2, 3}, 9, grouping.Quasi, true, "eliznik.org.uk; grouping from memory"},
		{"gankino, kopanica", []int{2, 2, 3, 2, 2}, 11, grouping.Authentic, true, "mrco-cambridge.org piece 94; eliznik.org.uk"},
		{"krivo sadovsko", []int{2, 2, 2, 3, 2, 2}, 13, grouping.Authentic, true, "eliznik.org.uk; grouping from memory"},
		{"bučimiš", []int{2, 2, 2, 2, 3, 2, 2}, 15, grouping.Quasi, true, "R. Unciano 1988"},
		{"traičovo", []int{4, 3, 2, 2}, 11, "", true, "encyclopedia article"},
		{"žensko, beranče", []int{3, 2, 2, 3, 2}, 12, grouping.Pseudo, true, "encyclopedia article"},
		{"eleno mome", []int{2, 2, 1, 2}, 7, "", true, "encyclopedia article"},
		{"eleno mome, second reading", []int{3, 4, 2, 3}, 12, "", true, "encyclopedia article"},
		{"eleno mome, third reading", []int{4, 4, 2, 3}, 13, "", true, "encyclopedia article"},
		{"B. Bartók, Mikrokosmos 148", []int{4, 2, 3}, 9, "", false, "second-hand"},
		{"Mikrokosmos 149", []int{2, 2, 3}, 7, grouping.Authentic, false, "second-hand"},
		{"Mikrokosmos 150", []int{2, 3}, 5, grouping.Authentic, false, "from memory"},
		{"Mikrokosmos 151", []int{3, 2, 3}, 8, grouping.Pseudo, false, "from memory"},
		{"Mikrokosmos 152", []int{2, 2, 2, 3}, 9, grouping.Quasi, false, "from memory"},
		{"Mikrokosmos 153", []int{3, 3, 2}, 8, grouping.Pseudo, false, "from memory"},
	} {
		r := grouping.Of(c.groups...)
		assert.Equal(t, c.sum, r.Units, c.name)
		class, _ := grouping.AksakOf(c.groups)
		assert.Equal(t, c.class, class, c.name)
		if c.listed {
			assert.Contains(t, exact(r), c.name)
		}
	}
	// The two that are Euclidean by the same list (Toussaint 2005).
	assert.Equal(t, "2+2+3", beat.Sum(grouping.Euclid(3, 7).Gaps()))
	assert.Equal(t, "2+2+2+3", beat.Sum(grouping.Euclid(4, 9).Gaps()))
}

func exact(r grouping.Rhythm) []string {
	var names []string
	for _, m := range Matches(r) {
		if m.Turn == 0 {
			names = append(names, m.Pattern.Name)
		}
	}
	return names
}

func TestEveryPatternIsItself(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range All() {
		assert.Contains(t, exact(p.Rhythm), p.Name)
		assert.False(t, seen[p.Name], "%s twice", p.Name)
		seen[p.Name] = true
		assert.NotEmpty(t, p.Source.Full)
		assert.NotEmpty(t, p.Source.Short)
	}
}

func TestMatchesOfARotation(t *testing.T) {
	matches := Matches(grouping.Of(2, 3, 3)) // the tresillo's 3+3+2 begins with the first 3
	require.NotEmpty(t, matches)
	assert.Equal(t, "tresillo", matches[0].Pattern.Name)
	assert.Equal(t, 2, matches[0].Turn)
	assert.Equal(t, 1, matches[0].Times)
	assert.Equal(t, 1, matches[0].Over)
}

func TestMatchesInOtherValues(t *testing.T) { // shiko is the cinquillo in values twice as long
	matches := Matches(grouping.Of(2, 1, 2, 1, 2))
	require.Len(t, matches, 3)
	assert.Equal(t, "cinquillo", matches[0].Pattern.Name)
	assert.Equal(t, "shiko", matches[1].Pattern.Name)
	assert.Equal(t, [2]int{2, 1}, [2]int{matches[1].Times, matches[1].Over})
	assert.Equal(t, "Spanish tango pattern", matches[2].Pattern.Name)
	assert.Equal(t, 2, matches[2].Turn, "1+2+1+2+2 begins after the first 2")
}

func TestHearings(t *testing.T) {
	h := Hearings(grouping.Of(3, 2, 2, 3))
	require.Len(t, h, 1)
	assert.Equal(t, Hearing{Groups: []int{3, 3, 2, 2}, Turn: -3, LongFirst: true}, h[0], "heard three pulses early")
	assert.Empty(t, Hearings(grouping.Of(3, 3, 2, 2, 2)))
	assert.Empty(t, Hearings(grouping.Of(2, 2, 2)))

	h = Hearings(grouping.Of(2, 3, 3)) // long first is the tresillo
	require.Len(t, h, 1)
	assert.Equal(t, []int{3, 3, 2}, h[0].Groups)
	assert.Equal(t, 2, h[0].Turn)
	assert.True(t, h[0].LongFirst)
	require.Len(t, h[0].Patterns, 1)
	assert.Equal(t, "tresillo", h[0].Patterns[0].Name)

	h = Hearings(grouping.Of(2, 2, 3, 2)) // long first 3+2+2+2; aksak and dajčovo are 2+2+2+3
	require.Len(t, h, 2)
	assert.Equal(t, 4, h[0].Turn)
	assert.Empty(t, h[0].Patterns)
	assert.Equal(t, -2, h[1].Turn)
	assert.False(t, h[1].LongFirst)
	assert.Equal(t, []int{2, 2, 2, 3}, h[1].Groups)
	assert.Len(t, h[1].Patterns, 2)

	// A meter with a name of its own is another's rotation only where that one
	// has its long groups first.
	h = Hearings(grouping.Of(2, 2, 3))
	require.Len(t, h, 1)
	assert.Equal(t, []int{3, 2, 2}, h[0].Groups)
	assert.Equal(t, -3, h[0].Turn)
	assert.True(t, h[0].LongFirst)
	require.Len(t, h[0].Patterns, 1)
	assert.Equal(t, "četvorno, lesnoto", h[0].Patterns[0].Name)
	assert.Empty(t, Hearings(grouping.Rhythm{Units: 4}))
}
