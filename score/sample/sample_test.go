package sample_test

import (
	"fmt"
	"os"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/sample"
	"tieover/score/spec"
)

func read(t require.TestingT, texts ...string) {
	files := make([]spec.File, len(texts))
	for i, text := range texts {
		files[i] = spec.File{Name: fmt.Sprintf("%d.yaml", i+1), Text: []byte(text)}
	}
	piece, problems := spec.Read(files)
	require.Empty(t, problems, strings.Join(texts, "\n"))
	require.NotNil(t, piece)
	require.Len(t, piece.Sections, len(texts))
}

// TestValid: every spec is accepted, alone and as part of a piece.
func TestValid(t *testing.T) {
	t.Run("one", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) { read(t, sample.YAML(t)) })
	})
	t.Run("several", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) { read(t, sample.YAMLs(t)...) })
	})
}

// TestPlain: without features nothing of them is in the spec.
func TestPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.Of(t, sample.Plain)
		read(t, text)
		for _, key := range []string{" in ", "process:", "loop:", "enters:", "restart:", "except:", "line:", "box:", "figures:", "plan:", "player: Drummer"} {
			require.NotContains(t, text, key)
		}
	})
}

// TestCoverage: every key, and every word that matters, is in at least 5 % of
// the specs.
func TestCoverage(t *testing.T) {
	want := []string{
		"hold", "short", "all", "rotate", "even", "every 3rd", "from: none", "by: -1", "until: realignment", "cut every", "restart at realignment",
		"restart: cycle", "restart: realignment", "restart: never", "realignments", "1 return", "pulses", "bars", "end: land", "end: repeat", "barline",
		"enters: realignment", "enters: cycle", "enters: bar", "enters: pulse", "offset: -", "rest: yes", "drum set", "rest [0-9]", `\)x2`,
		"player: Reeds", "name: Reed ring", "name: Reed three",
		"[A-G][0-9]\\+", "meter: \\[", "\\+[0-9]/8", "at: realignment", "cycle 2, text", "attack 1, text", `tempo: (rit|rall|accel)\.`, "tempo: [a-z+ ]+ = [a-z]", "groups: \\[", "pitches: \\[",
	}
	for _, ratio := range []string{"3:2", "5:4", "7:4", "9:8", "4:3", "2:3", "5:3", "7:6"} {
		want = append(want, "in "+ratio)
	}
	for _, table := range spec.KeyTables() {
		for _, key := range table.Keys {
			want = append(want, `\b`+key+":")
		}
	}
	patterns := map[string]*regexp.Regexp{}
	for _, w := range want {
		patterns[w] = regexp.MustCompile(w)
	}
	counts, cases := map[string]int{}, 0
	specs := rapid.Custom(sample.YAML)
	for seed := range 1500 {
		text := specs.Example(seed)
		cases++
		for w, p := range patterns {
			if p.MatchString(text) {
				counts[w]++
			}
		}
	}
	var rows []string
	for _, w := range want {
		rows = append(rows, fmt.Sprintf("%5.1f %% %s", 100*float64(counts[w])/float64(cases), w))
		assert.GreaterOrEqual(t, counts[w]*20, cases, "%s is in %d of %d specs", w, counts[w], cases)
	}
	sort.Strings(rows)
	if os.Getenv("SHOW") != "" {
		t.Log("\n" + strings.Join(rows, "\n"))
	}
}
