package main

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bounded takes a megabyte of output and then fails, as a full disk would.
type bounded struct{ strings.Builder }

func (b *bounded) Write(p []byte) (int, error) {
	if b.Len()+len(p) > 1<<20 {
		return 0, errors.New("full")
	}
	return b.Builder.Write(p)
}

// elsewhere recognizes arguments that name places outside the current folder,
// where a test must not write.
var elsewhere = regexp.MustCompile(`\.\.|\\|(^|[^0-9])/|/($|[^0-9])|~`)

// tooLong recognizes numbers that only make a command take long.
var tooLong = regexp.MustCompile(`[0-9]{4,}`)

// FuzzArguments gives the program one argument a line and a text on standard
// input, which also stands in the files s.yaml, s.mid and s.musicxml. Whatever
// they are, the program ends with one of its exit codes, a failure says why, and
// no panic is reached.
func FuzzArguments(f *testing.F) {
	spec := "title: T\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - {name: A, groups: 3+2+2, pulse: 1/8}\n  - {name: B, groups: 3+3+2+3}\n"
	for _, line := range []string{
		"build s.yaml -o out", "build - -o - --only chart --ascii --width 40", "build s.yaml -o out --only musicxml,midi --compressed --layers A --bars 2-3 --fold",
		"build s.yaml -o out --view layer:A --spelling meter --strict --marks sizes,cycles --compare own --partner B --composite A --composite-instrument marimba",
		"build s.yaml -o out --page letter --staff-height 5.25 --margin 12 --date 2031-05-30 --click --count-in 2 --terms british",
		"report s.yaml --json", "report - --glossary --rows 0", "chart s.yaml --plain --pitches --compact --drift", "chart s.yaml --template s.yaml",
		"realign 3+2+2+3 3+3+2+2+2 --meter 5/4", "realign 9 15 --offset 0,3 --pulse 1/16,1/8", "fit 3+2+2+2 --bars 6", "fit 3+3+2 --cycles 9 --json",
		"find 3 2 2 r3 x..x..x. 3+2+2", "find - --spec", "find --onsets - --tempo 90 --tolerance 2,30ms", "find s.mid --all", "find s.musicxml --part A --bars 1-2",
		"verify s.yaml s.musicxml", "worksheet s.yaml -o w --level 2 --seed 7 --only count", "new n.yaml --like phasing", "new - --schema", "instruments", "instruments --json",
		"help build", "--version", "-h", "build", "--", "realign -- -1", "chart\x00 s.yaml", "completion bash", "__complete build --",
	} {
		f.Add(strings.Join(strings.Fields(line), "\n"), spec)
	}
	f.Add("find\n-", "3 2 2 3 2 2 3 2 2")
	f.Add("find\n--onsets\n-", "0 0.5 1 1.5 2.25")
	f.Fuzz(func(t *testing.T, lines, text string) {
		args := strings.Split(lines, "\n")
		if slices.Contains(args, "serve") || elsewhere.MatchString(lines) || tooLong.MatchString(lines+text) ||
			strings.Contains(lines, "--w") && !strings.Contains(lines, "--width") || strings.Contains(lines, "--force") || len(lines)+len(text) > 1<<12 {
			t.Skip("serves or watches for ever, writes elsewhere, or only takes long")
		}
		dir := t.TempDir()
		t.Chdir(dir)
		for _, name := range []string{"s.yaml", "s.mid", "s.musicxml"} {
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		}
		var out, messages bounded
		code := run(args, streams{strings.NewReader(text), &out, &messages})
		require.Contains(t, []int{done, wrongData, wrongUse, differs}, code)
		require.NotContains(t, messages.String(), "this is a bug", "%q", args)
		if code == wrongData || code == wrongUse {
			require.NotEmpty(t, messages.String(), "%q", args)
		}
		left, _ := filepath.Glob(filepath.Join(dir, "*", ".tieover-*"))
		require.Empty(t, left, "temporary files stay")
	})
}
