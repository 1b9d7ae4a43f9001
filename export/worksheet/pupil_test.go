package worksheet_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/worksheet"
	"tieover/score/spec/spectest"
)

// A pupil who would rather look than think: has the whole sheet, and looks in
// its words and rows for what the key says.

var (
	grouping = regexp.MustCompile(`\d+(?:\+\d+)+`)
	place    = regexp.MustCompile(`bar \d+ beat [0-9 /]*\d`)
)

// answered lists the answers of the key that stand on the sheet.
func answered(sheet, key string) []string {
	var found []string
	given, solved := exercises(sheet), exercises(key)
	words := strings.Join(strings.Fields(sheet), " ")
	inWords := func(answers []string) {
		for _, a := range answers {
			if strings.Contains(words, a) {
				found = append(found, a)
			}
		}
	}
	for title, text := range solved {
		switch title {
		case "Name the groupings", "Write the next cycle":
			_, answers, _ := strings.Cut(text[strings.LastIndex(text, "\n\n   ")+1:], "\n   ")
			inWords(grouping.FindAllString(answers, -1))
		case "Mark the realignments":
			inWords(place.FindAllString(text, -1))
		case "Cut the loop":
			inWords(regexp.MustCompile(`the cut falls: .*|sound: \d+ of \d+|cycles: \d+`).FindAllString(text, -1))
		case "Fill in the composite":
			inWords(regexp.MustCompile(`composite: \d+|together: \d+`).FindAllString(text, -1))
		}
		var row string
		switch title {
		case "Fill in the composite":
			row = strokes(rowsOf(text)["together"])
		case "Bar and beam the line":
			row = strokes(rowsOf(text)["a"])
		case "Write the next cycle":
			lines := regexp.MustCompile(`(?m)^   cycle \d+ +(.*?)(?:   \S+)?$`).FindAllStringSubmatch(text, -1)
			row = strokes(lines[len(lines)-1][1])
			for _, m := range lines[:len(lines)-1] {
				if strokes(m[1]) == row {
					found = append(found, title+": "+row)
				}
			}
			continue
		default:
			continue
		}
		if strings.Trim(row, "x|") == "" {
			continue // struck throughout: not a row that tells where groups begin
		}
		for _, text := range given {
			for _, printed := range rowsOf(text) {
				if strings.Contains(strokes(printed), strings.TrimRight(row, "|")) {
					found = append(found, title+": "+row)
				}
			}
		}
	}
	return found
}

// strokes writes a row as what sounds and where barlines are, however it counts.
func strokes(row string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == ' ', r == '~':
			return -1
		case strings.ContainsRune("Xxo", r):
			return 'x'
		case r >= '1' && r <= '9' && !strings.ContainsAny(row, "ab"): // counts in a group
			return '-'
		case r == '0':
			return '-'
		}
		return r
	}, row)
}

func TestNoAnswerStandsOnTheSheet(t *testing.T) {
	random := rand.New(rand.NewPCG(18, 2))
	kinds := map[string]int{}
	for range 150 {
		text := loops(random)
		if random.IntN(3) == 0 {
			text = strings.Replace(text, "loop: run}", "process: {rotate: {by: 1}}}", 1)
		}
		p := spectest.Read(t, text)
		o := options(random.Uint64(), 1+random.IntN(3))
		o.Width = 5000
		files, _, err := worksheet.Make(p, o)
		require.NoError(t, err)
		var sheet, key string
		for _, f := range files {
			var b strings.Builder
			switch f.Name {
			case "worksheet.txt":
				require.NoError(t, f.Write(&b))
				sheet = b.String()
			case "answers.txt":
				require.NoError(t, f.Write(&b))
				key = b.String()
			}
		}
		for title := range exercises(key) {
			kinds[title]++
		}
		assert.Empty(t, answered(sheet, key), "%s\n%s\n%s", text, sheet, key)
	}
	assert.Len(t, kinds, 6, "all kinds were looked at")
	for title, n := range kinds {
		assert.Greater(t, n, 10, title)
	}
}

// The pupil finds what does stand there.
func TestThePupilLooksEverywhere(t *testing.T) {
	key := "1. Name the groupings\n\nx\n\n   a: 3+2\n\n2. Mark the realignments\n\n   1. bar 7 beat 1, after 60 eighths\n\n3. Bar and beam the line\na L |X 2 x|o . ||\n"
	found := answered("1. Cut the loop\n   A repeats 3+2 until bar 7\n   beat 1.\na A |x - x|x . |x - ||\n", key)
	slices.Sort(found)
	assert.Equal(t, []string{"3+2", "Bar and beam the line: |x-x|x.||", "bar 7 beat 1"}, found)
}
