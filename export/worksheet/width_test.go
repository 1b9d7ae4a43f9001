package worksheet_test

import (
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/worksheet"
	"tieover/layout/task"
	"tieover/score/spec/spectest"
)

// Every line keeps the width, also of names that nobody can break and of cycles
// longer than a row; --ascii keeps its promise.
func TestASCIIAndWidth(t *testing.T) {
	long := strings.Replace(rising, "Rising water", "Donaudampfschifffahrtsgesellschaftskapitän", 1)
	long = strings.Replace(long, "4+3+2", "24+13+12", 1)
	long = strings.Replace(long, "28 bars", "70 bars", 1)
	for _, width := range []int{worksheet.Narrowest, 47, 60, 80} {
		for _, text := range []string{rising, long} {
			o := options(3, 1)
			o.ASCII, o.Width = width != 60, width
			files, left, err := worksheet.Make(spectest.Read(t, text), o)
			require.NoError(t, err)
			require.LessOrEqual(t, len(left), 2)
			for name, text := range contents(t, files) {
				if strings.HasSuffix(name, ".txt") {
					tidy(t, o, name, string(text))
				}
			}
		}
	}
}

// tidy checks the lines of a text.
func tidy(t require.TestingT, o worksheet.Options, name, text string) {
	for _, line := range strings.Split(text, "\n") {
		require.LessOrEqual(t, uniseg.StringWidth(line), o.Width, "%s: %q", name, line)
		require.Equal(t, strings.TrimRight(line, " "), line, "%s: trailing blanks", name)
		for i := range len(line) {
			require.False(t, o.ASCII && line[i] > 127, line)
		}
	}
}

// The rows of a line without barlines hold a prime number of signs, so that they
// end at no barlines; a long cycle goes on under itself, its groups last.
func TestLongRowsAreBroken(t *testing.T) {
	o := options(3, 1)
	o.Width, o.Task.Only = 40, []task.Kind{task.Beam, task.Next}
	files, _, err := worksheet.Make(spectest.Read(t, "title: T\nmeter: 5/4\ntempo: 60\nlength: 12 bars\nlayers:\n  - name: A\n    groups: 13+8\n    process: {grow: {group: 1, by: 1, from: 2}, until: realignment}\n"), o)
	require.NoError(t, err)
	all := contents(t, files)
	assert.Contains(t, string(all["worksheet.txt"]), "   one sign = one eighth:\n   x struck: a group begins\n   o struck inside a group   = held\n   . silent\n"+
		"   x o o o o o o o o o o o o x o o o o o\n   o\n")
	assert.Contains(t, string(all["worksheet.txt"]), `
   cycle 1  X 2 3 4 5 6 7 8 9 0 1 2 3 x
            2 3 4 5 6 7 8   13+8
   cycle 2  X 2 3 4 5 6 7 8 9 0 1 2 3 4
            x 2 3 4 5 6 7   14+7
   cycle 3  X 2 3 4 5 6 7 8 9 0 1 2 3 4
            5 x 2 3 4 5 6   15+6
   cycle 4  ____________________
`)
	assert.Contains(t, string(all["answers.txt"]), `
   cycle 4  X 2 3 4 5 6 7 8 9 0 1 2 3 4
            5 6 x 2 3 4 5   16+5
`)
}
