package sample_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/processor"
	"tieover/score/sample"
	"tieover/score/spec"
)

var (
	numbers = regexp.MustCompile(`[0-9]+`)
	words   = regexp.MustCompile(`[A-Za-z#-]+`)
	wild    = []string{"0", "1", "-1", "7", "64", "65", "4096", "4097", "1000000", "1000000000", "99999999999999999999", "1/8", "x", ""}
	strange = []string{"none", "realignment", "barline", "never", "cycle", "rest", "null", "~", "[]", "{}", "Marimba", "#", "x", ""}
)

// below draws a number from 0 to n-1, each as likely as the others.
func below(t *rapid.T, n int) int {
	return rapid.Custom(func(t *rapid.T) int {
		x := 0
		for _, bit := range rapid.SliceOfN(rapid.Bool(), 12, 12).Draw(t, "bits") {
			x *= 2
			if bit {
				x++
			}
		}
		return x % n
	}).Draw(t, "below")
}

// mutate changes a few numbers, words and lines of a good spec.
func mutate(t *rapid.T, text string) string {
	replace := func(p *regexp.Regexp, with []string) {
		places := p.FindAllStringIndex(text, -1)
		if len(places) == 0 {
			return
		}
		at := places[below(t, len(places))]
		text = text[:at[0]] + with[below(t, len(with))] + text[at[1]:]
	}
	for range 1 + below(t, 3) {
		switch below(t, 4) {
		case 0, 1:
			replace(numbers, wild)
		case 2:
			replace(words, strange)
		case 3:
			lines := strings.Split(text, "\n")
			i := below(t, len(lines))
			j := below(t, len(lines))
			lines[i] = lines[j]
			text = strings.Join(lines, "\n")
		}
	}
	return text
}

// TestMutated: a spec that is nearly right is read, or every problem has a
// place, and neither takes long.
func TestMutated(t *testing.T) {
	good, bad := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		text := mutate(t, sample.YAML(t))
		start := processor.Time()
		piece, problems := spec.Read([]spec.File{{Name: "m.yaml", Text: []byte(text)}})
		require.Less(t, processor.Time()-start, time.Minute, text)
		if len(problems) == 0 {
			require.NotNil(t, piece)
			good++
			return
		}
		bad++
		for _, p := range problems {
			require.Equal(t, "m.yaml", p.Pos.File, text)
			require.NotEmpty(t, p.Hint, "%v\n%s", p, text)
			if p.Pos.Line > 0 {
				require.NotEmpty(t, p.Line, "%v\n%s", p, text)
			}
		}
	})
	t.Logf("%d accepted, %d refused", good, bad)
}
