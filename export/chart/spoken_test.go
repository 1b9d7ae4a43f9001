package chart_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score/spec"
)

// misspoken counts every row of a chart aloud and returns the first number that
// a player would not expect: after a strike that begins a group comes 2, after
// n comes n+1 (of which the last digit may stand alone), and 1 where a group
// begins under a held sound. Silence ends the count.
func misspoken(text string) string {
	count := map[int]int{} // by row; 0 when nothing sounds, -1 when it is not known
	for _, block := range strings.Split(text, "\n\n") {
		row := 0
		for _, line := range strings.Split(block, "\n") {
			bar := strings.IndexAny(line, "|:")
			if bar < 0 || !cellRow.MatchString(line[:bar]) {
				continue
			}
			for _, word := range strings.FieldsFunc(line[bar:], func(r rune) bool { return strings.ContainsRune(" |:~", r) }) {
				for _, sign := range cells(word, count[row]+1) {
					n, err := strconv.Atoi(sign)
					switch {
					case sign == "X" || sign == "x":
						count[row] = 1
					case sign == ".":
						count[row] = 0
					case sign == "o" && count[row] <= 0:
						count[row] = -1 // struck late in a group that began in silence: any number may follow
					case count[row] < 0 && n > 1:
						count[row] = n
					case err == nil && n == 1 && (count[row]+1)%10 != 1:
						count[row] = 1
					case count[row] == 0:
						return fmt.Sprintf("%q in %q counts on from silence", sign, line)
					case err == nil && n != count[row]+1 && n != (count[row]+1)%10:
						return fmt.Sprintf("%q in %q should be %d", sign, line, count[row]+1)
					default: // o, or the number expected
						count[row]++
					}
				}
			}
			row++
		}
	}
	return ""
}

// cells splits signs that stand side by side; a number of two digits stays
// whole if it is the one expected.
func cells(word string, expected int) []string {
	if word == strconv.Itoa(expected) {
		return []string{word}
	}
	return strings.Split(word, "")
}

func TestMisspokenSeesFaults(t *testing.T) {
	assert.Empty(t, misspoken("   5      |X 2 3 x~|2 . X2 3 |"))
	assert.Empty(t, misspoken("   12     |X 2 3 4 5 6 7 8 9 10 11 12 |"))
	assert.Empty(t, misspoken("   12     |X23456789012x2|"))
	assert.NotEmpty(t, misspoken("   5      |X 2 2 |"))
	assert.NotEmpty(t, misspoken("   5      |X . 3 |"))
	assert.NotEmpty(t, misspoken("   5      |X 2 x 3 |"))
}

// Every row of charts of all sorts can be counted aloud. Figures finer than the
// pulse have strikes between the counts and are left out.
func TestRandomChartsCanBeCountedAloud(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	for made := 0; made < 400; {
		text := randomSpec(random)
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 || p.Sections[0].BarCount() > 100 || strings.Contains(text, "figures") {
			continue
		}
		made++
		opt := chart.Default()
		opt.Width = 30 + random.IntN(120)
		var out strings.Builder
		require.NoError(t, chart.Write(&out, p, opt))
		require.Empty(t, misspoken(out.String()), "%s\n%s", text, out.String())
	}
}
