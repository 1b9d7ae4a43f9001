package worksheet_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/worksheet"
	"tieover/layout/task"
	"tieover/score/spec/spectest"
)

// A student who has nothing but the sheet: reads its rows, does what the prompt
// says, and hands in lines like those of the key.

// rowsOf returns the rows of a chart whose bars stand on one line, from the first
// barline on, by the letter or the word before them or on the line above.
func rowsOf(text string) map[string]string {
	rows := map[string]string{}
	name := ""
	for _, line := range strings.Split(text, "\n") {
		if line != "" && line[0] != ' ' {
			name = strings.Fields(line)[0]
		}
		if bar := strings.IndexByte(line, '|'); bar > 0 && rows[name] == "" {
			rows[name] = line[bar:]
		}
	}
	return rows
}

// players are the letters of the layers, in order.
func players(rows map[string]string) []string {
	var list []string
	for c := 'a'; rows[string(c)] != ""; c++ {
		list = append(list, string(c))
	}
	return list
}

// composite fills in the row together, and counts.
func composite(t *testing.T, sheet, key string) []string {
	rows := rowsOf(sheet)
	all, shared := 0, 0
	var filled strings.Builder
	for col, sign := range rows["together"] {
		if sign != '_' {
			filled.WriteRune(sign)
			continue
		}
		var who []string
		for _, p := range players(rows) {
			if strings.ContainsRune("Xxo", rune(rows[p][col])) {
				who = append(who, p)
			}
		}
		switch len(who) {
		case 0:
			filled.WriteByte('.')
		case 1:
			filled.WriteString(who[0])
			all++
		default:
			filled.WriteString(strconv.Itoa(len(who)))
			all++
			shared++
		}
	}
	solved := rowsOf(key)["together"]
	unspaced := strings.NewReplacer(" ", "") // blanks of triplets stand farther apart
	assert.Equal(t, unspaced.Replace(solved[:strings.LastIndexByte(solved, '|')]), unspaced.Replace(strings.TrimSuffix(filled.String(), "|")), sheet)
	return []string{fmt.Sprintf("attacks of the composite: %d", all), fmt.Sprintf("of these struck together: %d", shared)}
}

// realign looks for the columns in which all rows begin a cycle; with one row
// for the barlines.
func realign(rows map[string]string) []string {
	who := players(rows)
	var found []string
	bar := 0
	for col, sign := range rows["count"] {
		if sign == '|' {
			bar++
			continue
		}
		met := col > 1 && (len(who) > 1 || rows["count"][col-1] == '|')
		for _, p := range who {
			met = met && col < len(rows[p]) && rows[p][col] == 'X'
		}
		if met {
			found = append(found, fmt.Sprintf("%d. bar %d beat ", len(found)+1, bar))
		}
	}
	return found
}

// groups counts from attack to attack in pulses and writes the shortest run that
// repeats.
func groups(rows map[string]string) []string {
	var answers []string
	for _, p := range players(rows) {
		var gaps []int
		for _, sign := range strings.Map(withoutBars, rows[p]) {
			if sign == 'X' || sign == 'x' {
				gaps = append(gaps, 0)
			}
			gaps[len(gaps)-1]++
		}
		gaps = gaps[:len(gaps)-1] // the last attack may go on behind the end
		k := 1
		for i := k; i < len(gaps); i++ {
			if gaps[i] != gaps[i-k] {
				k++
				i = k - 1
			}
		}
		var sizes []string
		for _, n := range gaps[:k] {
			sizes = append(sizes, strconv.Itoa(n))
		}
		answers = append(answers, p+": "+strings.Join(sizes, "+"))
	}
	return answers
}

func withoutBars(r rune) rune {
	if strings.ContainsRune("| ~", r) {
		return -1
	}
	return r
}

var asksToCut = regexp.MustCompile(`repeats a loop of (\d+) .* barline of bar (\d+),`)

// cut counts the pulses before the barline, cycle by cycle and group by group.
func cut(sheet string) []string {
	m := asksToCut.FindStringSubmatch(strings.Join(strings.Fields(sheet), " "))
	bars, _ := strconv.Atoi(m[2])
	row := strings.Split(rowsOf(sheet)["a"], "|")
	left := len(strings.Map(withoutBars, strings.Join(row[:bars], "|")))
	cycle, _ := strconv.Atoi(m[1])
	var sizes []int
	for _, sign := range strings.Map(withoutBars, strings.Join(row, "|"))[:cycle] {
		if sign != '-' && sign != '.' {
			sizes = append(sizes, 0)
		}
		sizes[len(sizes)-1]++
	}
	answers := []string{fmt.Sprintf("whole cycles: %d", left/cycle), fmt.Sprintf("pulses of the cut cycle that sound: %d of %d", left%cycle, cycle)}
	left %= cycle
	for i, n := range sizes {
		switch {
		case left == n:
			return append(answers, fmt.Sprintf("the cut falls: after group %d", i+1))
		case left < n:
			return append(answers, fmt.Sprintf("the cut falls: in group %d, after %d of its %d pulses", i+1, left, n))
		}
		left -= n
	}
	return nil
}

var lineOfSigns = regexp.MustCompile(`(?m)^   ([xo.=](?: [xo.=])*)$`)

// beam reads the line without barlines and bars it as the key does.
func beam(t *testing.T, sheet, key string) []string {
	var line strings.Builder
	for _, m := range lineOfSigns.FindAllStringSubmatch(sheet, -1) {
		line.WriteString(strings.NewReplacer(" ", "", "o", "x").Replace(m[1]))
	}
	row := rowsOf(key)["a"]
	barred := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune("Xxo", r):
			return 'x'
		case r >= '0' && r <= '9':
			return '='
		}
		return withoutBars(r)
	}, row[:strings.LastIndex(row, "||")])
	assert.Equal(t, barred, line.String(), "%s\n%s", sheet, key)
	var bars []string
	for n := range strings.Count(row[1:], "|") - 1 {
		bars = append(bars, fmt.Sprintf("bar %d: ", n+1))
	}
	return bars
}

// Whatever the loops, every sheet can be solved from itself alone, and the key
// says what the student finds.
func TestAStudentFindsTheAnswers(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 7))
	solved := map[string]int{}
	for made := 0; made < 120; made++ {
		text := loops(random)
		p := spectest.Read(t, text)
		level := 1 + random.IntN(3)
		o := options(random.Uint64(), level)
		o.Width, o.Task.Only = 5000, []task.Kind{task.Composite, task.Realign, task.Groups, task.Beam, task.Cut}
		files, _, err := worksheet.Make(p, o)
		require.NoError(t, err)
		all := contents(t, files)
		sheets, keys := exercises(string(all["worksheet.txt"])), exercises(string(all["answers.txt"]))
		require.Len(t, keys, len(sheets))
		for title, sheet := range sheets {
			var answers []string
			switch title {
			case "Fill in the composite":
				answers = composite(t, sheet, keys[title])
			case "Mark the realignments":
				if level > 1 {
					continue // no X to look for
				}
				answers = realign(rowsOf(sheet))
				assert.Equal(t, strings.Count(sheet, "bar ____"), len(answers), sheet)
			case "Name the groupings":
				answers = groups(rowsOf(sheet))
			case "Bar and beam the line":
				answers = beam(t, sheet, keys[title])
			case "Cut the loop":
				answers = cut(sheet)
			}
			solved[title]++
			require.NotEmpty(t, answers, sheet)
			for _, a := range answers {
				require.Contains(t, keys[title], "   "+a, "%s\n%s\n%s", text, sheet, keys[title])
			}
		}
	}
	for title, n := range solved {
		assert.Greater(t, n, 10, title)
	}
	assert.Len(t, solved, 5)
}

// exercises splits a text by its titles.
func exercises(text string) map[string]string {
	all := map[string]string{}
	for _, part := range regexp.MustCompile(`(?m)^\d+\. `).Split(text, -1)[1:] {
		title, rest, _ := strings.Cut(part, "\n")
		all[title] = rest
	}
	return all
}

// loops writes a section of plain loops.
func loops(r *rand.Rand) string {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var b strings.Builder
	fmt.Fprintf(&b, "title: Loops\ntempo: 60\nmeter: %s\nlength: 40 bars\nlayers:\n", pick("4/4", "3/4", "5/8", "6/8", "3+2+2/8", "[2/4, 3/4]"))
	for i := range 2 + r.IntN(3) {
		var sizes []string
		for range 2 + r.IntN(3) {
			sizes = append(sizes, pick("2", "3", "4", "1", "5"))
		}
		fmt.Fprintf(&b, "  - {name: L%d, groups: %s, strike: %s, pulse: %s, loop: %s}\n", i, strings.Join(sizes, "+"),
			pick("hold", "short", "hold"), pick("1/8", "1/8", "1/16", "1/8 in 3:2"), pick("run", "run", "run", "cut every 6 bars"))
	}
	return b.String()
}
