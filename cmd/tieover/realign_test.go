package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// say runs the program and returns its exit code, its results and its messages.
func say(args ...string) (code int, out, messages string) {
	var stdout, stderr bytes.Buffer
	code = run(args, streams{strings.NewReader(""), &stdout, &stderr})
	return code, stdout.String(), stderr.String()
}

// flat joins wrapped lines.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestRealign(t *testing.T) {
	code, out, messages := say("realign", "3+2+2+3", "3+3+2+2+2", "--meter", "5/4")
	require.Zero(t, code, messages)
	assert.Empty(t, messages)
	for _, want := range []string{ // facts of the two keepers, counted by hand
		"A and B begin together every lcm(10, 12) = 60 eighths = 6 bars.",
		"In that time: A 6 times and B 5 times.",
		"B: each cycle begins 2 eighths (a quarter) later in the bar than the one before; back at the same place after 5 cycles.",
		"42 attacks in all: 35 by one layer and 7 by both.",
		"The beginnings of the cycles alone make, in eighths: 10+2+8+4+6+6+4+8+2+10.",
	} {
		assert.Contains(t, flat(out), want)
	}
	for _, line := range strings.Split(out, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 80, line)
	}
}

// Three generators and their complementary factors: J. Schillinger, The
// Schillinger System of Musical Composition (1946), Book I ch. 6.
func TestResultantOfThree(t *testing.T) {
	_, out, _ := say("realign", "2", "3", "5")
	assert.Contains(t, flat(out), "The beginnings of the cycles alone make, in eighths: 2+1+1+1+1+2+1+1+2+2+1+1+2+2+1+1+2+1+1+1+1+2.")
	assert.Contains(t, flat(out), "The complementary factors 15, 10 and 6 (the least common cycle divided by each) make: 6+4+2+3+3+2+4+6.")
	_, out, _ = say("realign", "4", "3", "--json")
	var doc struct {
		Resultant struct{ Series, WithFractioning []int }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	assert.Equal(t, []int{3, 1, 2, 2, 1, 3}, doc.Resultant.Series)
	assert.Equal(t, []int{3, 1, 2, 1, 1, 1, 1, 2, 1, 3}, doc.Resultant.WithFractioning)
}

func TestRealignFarOff(t *testing.T) {
	_, out, _ := say("realign", "29", "31", "37")
	assert.Contains(t, flat(out), "lcm(29, 31, 37) = 33,263 eighths = 4,157 bars and 7 eighths.")
	assert.Contains(t, flat(out), "What follows shows the first 16 bars.")

	_, out, _ = say("realign", "8", "8", "--offset", "0,2")
	assert.Contains(t, flat(out), "A and B never begin together: they stay 2 eighths (a quarter) apart at the least.")
	_, out, _ = say("realign", "9", "15", "--meter", "9/8", "--offset", "0,3")
	assert.Contains(t, flat(out), "A and B begin together first after 18 eighths = 2 bars, then every lcm(9, 15) = 45 eighths = 5 bars.")
}

func TestRealignJSON(t *testing.T) {
	code, out, _ := say("realign", "3+3+2", "2+2+2+3", "--pulse", "1/8,1/8 in 3:2", "--json")
	require.Zero(t, code)
	var doc struct {
		LeastCommonCycle struct{ Period, Bars string }
		Layers           []struct{ Pulse string }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	assert.Equal(t, "3", doc.LeastCommonCycle.Period) // 8 eighths against 6: 24 eighths
	assert.Equal(t, "3", doc.LeastCommonCycle.Bars)
	assert.Equal(t, "1/8 in 3:2", doc.Layers[1].Pulse)
}

func TestFit(t *testing.T) {
	code, out, messages := say("fit", "3+2+2+2", "--meter", "5/4", "--bars", "6")
	require.Zero(t, code, messages)
	for _, want := range []string{ // by hand: 60 = 6·9 + 6 = 7·9 - 3
		"6 cycles make 54 eighths, 6 eighths too short.",
		"7 cycles would be 3 eighths too long.",
		"Whole cycles end on a barline at 10 cycles = 9 bars, 20 cycles = 18 bars, 30 cycles = 27 bars, and so on.",
		"Cycle 7 begins at bar 6 beat 3 and is cut inside its group 3, after 1 of 2 eighths.",
		"7 cycles: leave out a 3 (63 - 3 = 60).",
		"6 cycles: add two 3s (54 + 6 = 60).",
		"8 cycles: leave out four 3s (72 - 12 = 60).",
		"5 cycles: add five 3s (45 + 15 = 60).",
		"After 3 cycles, from bar 3 beat 4½: the loop three times with gaps of 3 eighths (9 + 3 + 9 + 3 + 9; landing stroke counted: 10 and gaps of 2).",
		"Any statement over the last bar (10 eighths): landing stroke extra: 2, gap 2 landing stroke counted: 3, gap 1; 1, gap 4",
	} {
		assert.Contains(t, flat(out), want)
	}
}

func TestFitExactly(t *testing.T) {
	_, out, _ := say("fit", "3+2+2", "--meter", "7/16", "--bars", "4")
	assert.Contains(t, flat(out), "Fits: 2 cycles make exactly 4 bars.")
	assert.NotContains(t, out, "CUT BY THE END")
	_, out, _ = say("fit", "3+2", "--cycles", "3")
	assert.Contains(t, flat(out), "3+2 (5 eighths) in 2 bars of 4/4 (16 eighths)")
	// 3 sixteenths of a bar of 3/8 are a pulse and a half of quarters.
	_, out, _ = say("fit", "2+1", "--pulse", "1/4", "--meter", "3/8", "--bars", "1")
	assert.Contains(t, flat(out), "The bars are no whole number of pulses, so the cut falls inside a pulse.")
}

// By hand: 3+rest 2 in 16 eighths is three cycles and one pulse of the next 3;
// 3 cycles of 8 triplet eighths fill two bars of twelve, so the loop lands at once.
func TestFitWithRestsAndWithoutGaps(t *testing.T) {
	_, out, _ := say("fit", "3+rest 2", "--bars", "2")
	for _, want := range []string{
		"3+rest 2 (5 eighths) in 2 bars of 4/4 (16 eighths)",
		"The last groups are then 3+rest 2+3+rest 2+3+rest 2+1.",
		"Stretched instead, without the rest of a group: 3+rest 2+3+rest 2+3+rest 3.",
		"Rests are counted as groups here.",
	} {
		assert.Contains(t, flat(out), want)
	}
	_, out, _ = say("fit", "1", "--meter", "1/8", "--bars", "1")
	assert.Contains(t, flat(out), "Fits: 1 cycle makes exactly 1 bar.")
	_, out, _ = say("fit", "3+3+2", "--pulse", "1/8 in 3:2", "--bars", "2")
	assert.Contains(t, flat(out), "At once: the loop three times with no gaps (8 + 8 + 8).")
	// 26 = 3·8 + 2·1: the gap of 1 is the landing stroke's own place when that counts.
	_, out, _ = say("fit", "8", "--meter", "13/8", "--bars", "2")
	assert.Contains(t, flat(out), "(8 + 1 + 8 + 1 + 8; landing stroke counted: 9 and no gaps).")
}

func TestLoopMistakes(t *testing.T) {
	code, out, messages := say("realign", "3++2", "x", "--meter", "4/5", "--offset", "1,2,3", "--tempo", "fast")
	assert.Equal(t, wrongData, code)
	assert.Empty(t, out)
	for _, want := range []string{
		`grouping 1: a group is missing before "+"`,
		`grouping 2: "x" is no group size`,
		"--meter: a meter cannot count 5ths",
		"--offset: 3 values for 2 groupings; give one for all, or one each, joined by commas",
		`--tempo: "fast" is no tempo; write quarters a minute, as in 96 or 92.5`,
	} {
		assert.Contains(t, messages, want)
	}
	for _, args := range [][]string{
		{"report", "none.yaml", "--json", "--glossary"}, {"report", "none.yaml", "--json", "--rows", "3"},
		{"report", "none.yaml", "--json", "--terms", "british"}, {"realign", "3", "--json", "--rows", "0"},
		{"realign", "3", "--json", "--terms", "british"}, {"fit", "3", "--bars", "2", "--json", "--terms", "british"},
		{"fit", "3", "--bars", "2", "--tempo", "96"}, // nothing of a fit takes time
		{"fit", "3+2"}, {"fit", "3+2", "--bars", "2", "--cycles", "2"}, {"realign"}, {"report"}, {"realign", "3", "--rows", "-1"}, {"realign", "3", "--terms", "french"},
	} {
		code, out, messages := say(args...)
		assert.Equal(t, wrongUse, code, args)
		assert.Empty(t, out, args)
		assert.NotEmpty(t, messages, args)
	}
	for _, flag := range []string{"--bars 0", "--bars 100000000", "--cycles 1000001", "--cycles -1"} {
		code, out, messages := say(append([]string{"fit", "3+2"}, strings.Fields(flag)...)...)
		assert.Equal(t, wrongUse, code, flag)
		assert.Empty(t, out, flag)
		assert.Equal(t, "tieover: "+flag+": write a number from 1 to 1,000,000\n", messages)
	}
}

func TestReport(t *testing.T) {
	spec := filepath.Join(sections, "lock-keepers-round", "section.yaml")
	code, out, messages := say("report", spec)
	require.Zero(t, code, messages)
	assert.Contains(t, out, "LOCK KEEPER'S ROUND, B\n5/4, quarter = 132, 12 bars, 0:27.3 long\n")
	assert.NotContains(t, out, "GLOSSARY")

	file := filepath.Join(t.TempDir(), "report.json")
	code, out, messages = say("report", spec, "--json", "-o", file)
	require.Zero(t, code, messages)
	assert.Empty(t, out)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, json.Valid(text))

	_, out, _ = say("report", spec, "--glossary", "--terms", "british", "--rows", "2")
	assert.Contains(t, out, "GLOSSARY")
	assert.Contains(t, out, "crotchet = 132")
	assert.Contains(t, out, "and 8 cycles more (--rows 0 prints all")
	_, all, _ := say("report", spec, "--rows", "0")
	assert.NotContains(t, all, "--rows 0")
}

func TestTooManyLoops(t *testing.T) {
	args := []string{"realign"}
	for len(args) < 66 {
		args = append(args, "3")
	}
	code, out, messages := say(args...)
	assert.Equal(t, wrongData, code)
	assert.Empty(t, out)
	assert.Contains(t, messages, "groupings: 65 of them; give at most 64")
	code, _, messages = say(args[:65]...)
	assert.Zero(t, code, messages)
}

// By hand: 499·4003 = 1,997,497, and 2,000,000 is 2,503 more.
func TestFitOfManyBars(t *testing.T) {
	_, out, _ := say("fit", "(1+1)x2000+3", "--bars", "1000000", "--meter", "1/4")
	assert.Contains(t, flat(out), "499 cycles make 1,997,497 eighths, 2,503 eighths too short.")
	assert.Contains(t, flat(out), "(1,997,497 + 2,503 = 2,000,000)")
}

func TestDecimalSpan(t *testing.T) {
	for text, want := range map[string]string{"96": "96", "92.5": "185/2", "0.125": "1/8"} {
		got, ok := decimalSpan(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got.String(), text)
	}
	for _, text := range []string{"", "0", "-5", "+5", "1.2345", "1e3", "20000", "12.", ".5", "9999999999"} {
		_, ok := decimalSpan(text)
		if text == "12." { // a dot alone adds nothing
			continue
		}
		assert.False(t, ok, text)
	}
}

// 28 loops strike together at the start; the last two are called as the chart
// calls its rows after z, and lists keep their letters apart.
func TestManyLoops(t *testing.T) {
	args := []string{"realign", "2"}
	for len(args) < 29 {
		args = append(args, "1")
	}
	code, out, messages := say(args...)
	require.Zero(t, code, messages)
	assert.Contains(t, out, "\n  Z   1 ")
	assert.Contains(t, out, "\n  AB  1 ")
	assert.Contains(t, flat(out), "a+b+c+d+e+f+g+h+i+j+k+l+m+n+o+p+q+r+s+t+u+v+w+x+y+z+aa+ab1 b+c+")
}
