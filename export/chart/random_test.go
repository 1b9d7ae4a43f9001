package chart_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
)

// randomSpec writes a section that uses a bit of everything.
func randomSpec(r *rand.Rand) string {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var b strings.Builder
	b.WriteString("title: Drawn\nsection: " + pick("A", "Q", "Tow") + "\ntempo: 90\n")
	b.WriteString("meter: " + pick("4/4", "3/4", "5/4", "7/8", "3+2+2/8", "6/8", "9/8", "11/8", "[4/4, 3/4]", "2+3/16") + "\n")
	length := pick("6 bars", "9 bars", "1 realignment", "37 pulses", "2 realignments")
	b.WriteString("length: " + length + "\n")
	if r.IntN(4) == 0 {
		b.WriteString("end: " + pick("stop", "land", "repeat") + "\n")
	}
	b.WriteString("layers:\n")
	for i := range 1 + r.IntN(4) {
		name := pick("Winch", "水門", "Écluse", "Gate", "Long name of a keeper") + " " + strconv.Itoa(i)
		if r.IntN(6) == 0 {
			name = string(rune('a' + i)) // its letter, or another's
		}
		b.WriteString("  - name: " + name + "\n")
		var groups []string
		if r.IntN(3) == 0 {
			b.WriteString("    instrument: marimba\n    pitches: C4 F#4 Bb3+D4\n")
		}
		for range 1 + r.IntN(5) {
			groups = append(groups, pick("2", "3", "2", "3", "4", "1", "5", "rest 2", "13"))
		}
		groups = append(groups, "2")
		if strings.HasSuffix(length, "bars") && r.IntN(8) == 0 { // no end of the cycle in sight
			groups = append(groups, pick("1000", "4096", "4096x30", "2x4000"))
		}
		b.WriteString("    groups: " + strings.Join(groups, "+") + "\n")
		for _, key := range []string{
			"pulse: " + pick("1/16", "1/4", "1/8 in 3:2", "1/16 in 5:4", "3/16"), "strike: " + pick("short", "all", "hold"),
			"figures: {3: x.x, 2: x=xx}", "offset: " + pick("1", "2", "-1"), "enters: " + pick("bar 3", "pulse 5"),
			"leaves: bar 5", "loop: " + pick("cut every 2 bars", "cut every 4 bars"),
			"process: " + pick("{grow: {group: 1, by: 1, from: none}}", "{grow: {group: 1, by: 1, from: 2}}", "{append: {size: 3}}", "{shift: {by: 1}}", "{rotate: {by: 1}}", "{retrograde: {on: even}}"),
		} {
			if r.IntN(5) == 0 {
				b.WriteString("    " + key + "\n")
			}
		}
	}
	return b.String()
}
