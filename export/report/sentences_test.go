package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/report"
	"tieover/score/spec/spectest"
)

// sentences are what the report must say, as it is usually asked for or with
// tables and indices, in its own words, section by section.
// Written by hand from the rules of each section.
var sentences = []struct {
	name, spec string
	want       []string
}{
	{"half a cycle is said in words", `
title: T
meter: 4/4
length: 12 bars
layers: [{name: A, groups: 3+3+2}, {name: B, groups: 3+3+3+3}]`,
		[]string{"B: each cycle begins half a cycle (4 eighths, a half note) later in A's cycle than the one before; back at the same place after 2 cycles."}},
	{"a loop longer than anything", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 29}, {name: B, groups: 31}, {name: C, groups: 37}]`,
		[]string{"A, B and C begin together every lcm(29, 31, 37) = 33,263 eighths = 4,157 bars and 7 eighths.",
			"A: cycle 2 is cut by the section's end, 26 eighths short, inside its group 1 (3 of 29 eighths)."}},
	{"offsets that never meet", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 8}, {name: B, groups: 8, offset: 2}]`,
		[]string{"A and B never begin together: they stay 2 eighths (a quarter) apart at the least.",
			"8 attacks in all, no two of them together.", "B 8 eighths 4 4 0 4 0 ",
			"No barline would end it clean: these cycles never end together on one."}},
	{"offsets that meet late", `
title: T
meter: 9/8
length: 9 bars
layers: [{name: A, groups: 9}, {name: B, groups: 15, offset: 3}]`,
		[]string{"A and B begin together first after 18 eighths = 2 bars, then every lcm(9, 15) = 45 eighths = 5 bars."}},
	{"one layer meets the barline", `
title: T
meter: 5/4
length: 9 bars
layers: [{name: A, groups: 2+2+2+3}]`,
		[]string{"A and the barline begin together every lcm(9, 10) = 90 eighths = 9 bars.", "In that time: A 10 times.",
			"A: each cycle begins an eighth earlier in the bar than the one before; back at the same place after 10 cycles."}},
	{"one layer that is the bar", `
title: T
meter: 7/8
length: 4 bars
layers: [{name: A, groups: 3+2+2}]`,
		[]string{"That is every bar, so the score marks none of them."}},
	{"one layer that meets the barline of some bars", `
title: T
meter: [4/4, 5/4]
length: 8 bars
layers: [{name: A, groups: "8"}]`,
		[]string{"1 bar 2 beat 1", "2 bar 9 beat 1"}},
	{"one layer that meets every barline until the meter changes", `
title: T
meter: 4/4
length: 8 bars
layers: [{name: A, groups: "8"}]
plan: [{at: bar 4, meter: 3/4, mark: M}]`,
		[]string{"1 to 2 bar 2 to bar 3", "4 A4 bar 8 beat 1", "3 M bar 4 beat 1"}},
	{"quintuplets count in parts of a whole note", `
title: T
meter: 4/4
length: 1 bars
layers: [{name: A, groups: "2"}, {name: B, groups: "3", pulse: 1/16 in 5:4}]`,
		[]string{"every lcm(5, 3) 20ths of a whole note = 6 eighths."}},
	{"a layer outside the set, heard elsewhere", `
title: T
meter: 4/4
length: 6 bars
realign: [A, B]
layers: [{name: A, groups: 3+3+2}, {name: B, groups: 4+4+4}, {name: C, groups: 2+2+3}]`,
		[]string{"The realignments then fall on different pulses of the felt cycle. In bars counted from the felt downbeat:",
			"1 bar 4 beat 1 bar 3 beat 3 on a beat; pulse 7, in group 3"}},
	{"a landing", `
title: T
meter: 4/4
length: 3 bars
end: land
layers: [{name: A, groups: 3+3+2}, {name: B, groups: 3+3}]`,
		[]string{"4/4, quarter = 120, 3 bars and the landing, 0:06.0 long",
			"A and B strike together 4 times; they",
			"It lands: A and B strike once more at bar 4 beat 1. That is counted among the attacks."}},
	{"a landing of some, and lists of equal length", `
title: T
meter: 6/8
length: 4 bars
end: land
layers: [{name: A, groups: [3+3, 2+2+2]}, {name: B, groups: rest 1+3}, {name: C, groups: 3+2+1, leaves: bar 3}]`,
		[]string{"It lands: A strikes once more at bar 5 beat 1.", "The end is clean: it is on a barline, and no loop that runs on is cut."}},
	{"an offset between a list and another", `
title: T
meter: 6/8
length: 4 bars
layers: [{name: A, groups: [3+3, 2+2+2]}, {name: B, groups: 2+2, offset: 2}]`,
		[]string{"A and B begin together first after 6 eighths = 1 bar, then every lcm(6, 4) = 12 eighths = 2 bars."}},
	{"names that end in digits, and lists in what the ear may be told", `
title: T
meter: 4/4
length: 3 bars
layers: [{name: Bell 1, groups: [2+2+4, 3+3+2]}, {name: Bell 2, groups: "4"}]`,
		[]string{"In that time: Bell 1: once and Bell 2: twice."}},
	{"a repeat", `
title: T
meter: 4/4
length: 3 bars
end: repeat
layers: [{name: A, groups: 3+3+2}, {name: B, groups: 3+3}]`,
		[]string{"Then the section is repeated from its start."}},
	{"a silent head is no place where the rhythm starts", `
title: T
meter: 7/8
length: 2 bars
layers: [{name: A, groups: rest 2+3+2}, {name: B, groups: 2+3+2, process: {shift: {by: 1}}}, {name: C, groups: 2+3+2}]`,
		[]string{"Necklace 3+4, begun at its sounding group 1;", "Euclidean: a rotation of E(2,7), 3+4.", "C: 2+3+2; see B."}},
	{"a hearing of what a process changes", `
title: T
meter: 7/8
length: 4 bars
layers: [{name: A, groups: 2+2+3, process: {shift: {by: 1}}}]`,
		[]string{"A, as it begins, may be heard as 3+2+2"}},
	{"a single attack", `
title: T
meter: 4/4
length: 1 bars
layers: [{name: A, groups: "8"}, {name: B, groups: "8"}]`,
		[]string{"A 8 eighths 1 1 1 0 0 ", "A loops 8 eighths and B 8 eighths.", "1 attack in all: 1 by both.", "Durations, counted in eighths: 8 (once)."}},
	{"growth is stepped", `
title: T
meter: 4/4
length: 20 bars
layers: [{name: A, groups: 3+2, process: {grow: {group: 1, by: 1, from: none}}}, {name: B, groups: "4"}]`,
		[]string{"Cycles or bars change on the way, so this was found by stepping through them.",
			"A: the drift is not constant; see each row."}},
	{"triplets against eighths count in a common unit", `
title: T
meter: 4/4
length: 3 bars
layers: [{name: A, groups: 3+3+2}, {name: B, groups: 2+2+2+3, pulse: 1/8 in 3:2}]`,
		[]string{"B: each cycle begins 3 triplet eighths (a quarter) earlier in the bar than the one before; back at the same place after 4 cycles.",
			"Durations, counted in triplet sixteenths: 1 (twice),", "quarter = 180 a triplet quarter a group of 2 of B"}},
	{"another hearing", `
title: T
meter: 5/4
length: 6 bars
layers: [{name: A, groups: 3+2+2+3}, {name: B, groups: 3+3+2+2+2}]`,
		[]string{"A may be heard as 3+3+2+2 (long groups first): the felt downbeat comes 3 eighths (a dotted quarter) earlier than the written one.",
			"Every realignment then falls on pulse 4 of the felt cycle, where its group 2 begins."}},
	{"a named pattern begun elsewhere", `
title: T
meter: 4/4
length: 2 bars
layers: [{name: A, groups: 2+1+2+2+1}]`,
		[]string{"A may be heard as 2+1+2+1+2 (cinquillo, from memory; shiko, Gómez and others 2005): the felt downbeat comes 3 eighths (a dotted quarter) earlier than the written one."}},
	{"processes in words", `
title: T
meter: 4/4
length: 4 bars
layers:
  - {name: A, groups: 3+3+2}
  - {name: B, groups: 3+3+2, process: {shift: {by: -1, after: 4}}}
  - {name: C, groups: 3+3+2, process: {grow: {group: 1, by: 1, from: 2}}}
  - {name: D, groups: 3+2, loop: cut every 2 bars}
  - {name: E, groups: 3+3+2, figures: {3: x.x}}
  - {name: F, groups: 3+2, loop: cut every bar}`,
		[]string{"B moves an eighth earlier against A after every 4 cycles; 8 steps bring it round, in unison with A again, after 32 cycles.",
			"The section takes it 0 of 8 steps.", "B: moves by steps; see above.",
			"C changes: after each pass group 1 grows by 1, taken from group 2.",
			// By hand: 2 bars are 16 pulses, three cycles of 5 and 1 more, of 4 missing; 15 are one less than 2 bars.
			"Each cut of D leaves out the last 4 eighths (a half note) of a cycle and takes back that it began an eighth early.",
			"Each cut of F leaves out the last 2 eighths (a quarter) of a cycle", "E: groups of 2 have no figure; strike: hold plays them."}},
	{"the rotation of meters", `
title: T
meter: [4/4, 2/4]
length: 12 bars
layers: [{name: A, groups: "4"}, {name: B, groups: "2"}]`,
		[]string{"With the first bar of the meter's rotation: first after 12 eighths = 2 bars."}},
	{"a clean end later", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 3+2+2}]`,
		[]string{"3 bars more would end it clean, every cycle whole, at the end of bar 7."}},
	{"a layer that leaves before they meet", `
title: T
meter: 5/4
length: 8 bars
layers: [{name: Rope, groups: "9", leaves: bar 3}, {name: Oar, groups: "7"}, {name: Pole, groups: "18"}]`,
		// By hand: 9 and 7 meet at 63, 9 and 18 at 18, and on a barline at 90; bar 3 begins at 20.
		[]string{"Rope and Oar strike together once; they do not begin together before Rope leaves; they would after 63 eighths = 6 bars and 3 eighths.",
			"they begin together every lcm(9, 18) = 18 eighths = 1 bar and 8 eighths. They do not come together on a barline before Rope leaves."}},
	{"a last bar that is cut", `
title: T
meter: [4/4, 3/4]
length: 17 pulses
end: repeat
layers: [{name: A, groups: "7"}]`,
		// By hand: 7 of 8 is one early; bar 3 begins with the third head, one later, as if
		// it were whole. 28 eighths are four cycles and four bars.
		[]string{"2 bar 1 beat 4½ 0:01.8 7 -1 -1 3 bar 3 beat 1 0:03.5 0 +1 0",
			"11 eighths more would end it clean, every cycle whole, at the end of bar 4."}},
	{"a table of thirds, and an equation of tuplets", `
title: T
tempo: 60
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 3+3+2, pulse: 1/8 in 3:2}, {name: B, groups: "5"}]
plan: [{at: bar 3, tempo: quintuplet sixteenth = sixteenth}]`,
		// By hand: A's cycle is 16/24 of a whole note, B's 15/24, so 1/24 early, a third of
		// an eighth. In a bar of 12 triplet eighths A is 8 = -4 further each time.
		[]string{"back at the same place after 3 cycles. In triplet eighths:", "2 bar 1 beat 3 +1/6 0:02.7 8 -4 -4",
			"back at the same place after 16 cycles. In eighths: cycle where clock place step total 1 bar 1 beat 1 0:00.0 0 2 bar 1 beat 3½ 0:02.5 5 -1/3 -1/3 3 bar 2 beat 2 0:05.0 4 2/3 -1/3 -2/3",
			"bar 3: quarter = 75 (a sixteenth in 5:4 in the old tempo lasts as long as a sixteenth now)."}},
	{"a head that moves inside its cycle", `
title: T
meter: 5/8
length: 6 bars
layers: [{name: A, groups: 3+2, process: {shift: {by: 1}}}]`,
		// By hand: every cycle is a bar; its head is at 0, 1, 2, 3, 4 and 0 eighths of it.
		[]string{"A: the head of each cycle stands an eighth later in the bar than the one before; back at the same place after 5 cycles.",
			"cycle head clock place step total 1 bar 1 beat 1 0:00.0 0 2 bar 2 beat 2 0:01.5 1 +1 +1"}},
	{"a landing inside a bar", `
title: T
meter: 7/8
length: 6 pulses
end: land
layers: [{name: A, groups: "3+3"}, {name: B, groups: "6", strike: all, box: xxxxxx}]`,
		// By hand: six attacks of B, the first and the fourth with A, and both at the end.
		[]string{"7/8, quarter = 120, 1 bar with the landing, 0:01.5 long", "A and B strike together 3 times; they",
			"7 in every bar.", "It lands: A and B strike once more at bar 1 beat 7.",
			"Necklace 1+1+1+1+1+1, as it stands; the only one with 6 attacks in 6 pulses."}},
	{"groups of 2 and 3", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 3+3+2}]`,
		[]string{"One of 4 orders of 2s and 3s that make 8 (2 up to rotation); aksak class: pseudo.", "Euclidean: it is E(3,8).",
			"Off-beatness 1 of 3; rhythmic oddity yes; Keith 1; LHL 2; WNBD 2/3.",
			"Evenness (Milne) 0.977284; balance 0.861929; DFT of order 3 0.804738; nPVI 20.000000.",
			// Counts of onsets in a cycle, computed independently.
			"Necklace 2+3+3, begun at its sounding group 3; one of 7 with 3 attacks in 8 pulses (5 when mirror images count as one). Backwards it is the same necklace.",
			"2 different durations, 2 different distances between attacks; deep: yes."}},
	{"a grouping that differs from its mirror image", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 3+2+1+2}, {name: B, groups: 3+3+2+2+3+2}]`,
		// By hand: read backwards 3+2+1+2 is 2+1+2+3, which is 1+2+3+2 turned and its own
		// necklace again; 3+3+2+2+3+2 is 2+2+3+2+3+3, backwards 2+2+3+3+2+3.
		[]string{"Necklace 1+2+3+2, begun at its sounding group 3; one of 10 with 4 attacks in 8 pulses (8 when mirror images count as one). Backwards it is the same necklace.",
			"Backwards it is another necklace; the bracelet of both is 2+2+3+2+3+3.",
			"One of 28 orders of 2s and 3s that make 15 (6 up to rotation, 5 when mirror images count as one); aksak class: quasi."}},
	{"a repeat leaves the pickup out", `
title: T
meter: 4/4
pickup: 1/4
length: 4 bars
end: repeat 3
layers: [{name: A, groups: 8}]`,
		[]string{"The section is played 3 times, from bar 1 each time."}},
	{"a loop that grows, met on a barline", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 8}, {name: B, groups: 5+3, process: {grow: {group: 1, from: none}}}]`,
		// By hand: cycles of B begin at 0, 8, 17, 27; those of A at 0, 8, 16, 24.
		[]string{"Both begin together first after 8 eighths = 1 bar, the first time on a barline."}},
	{"a loop that grows, met late on a barline", `
title: T
meter: 4/4
length: 4 bars
layers: [{name: A, groups: 6}, {name: B, groups: 6, process: {grow: {group: 1, from: none}}}]`,
		// By hand: cycle n + 1 of B begins at 6n + n(n-1)/2; of those the multiples of 6 are
		// 6, 30, 90, 138, 156 and 216 (n = 1, 4, 9, 12, 13, 16), and 216 is the first that 8 divides.
		[]string{"Both begin together first after 6 eighths; on a barline first after 216 eighths = 27 bars."}},
}

func TestSentences(t *testing.T) {
	for _, c := range sentences {
		p := spectest.Read(t, c.spec[1:])
		got := strings.Join(strings.Fields(text(t, p, report.Options{})+text(t, p, report.Options{Rows: 24, Indices: true})), " ")
		for _, want := range c.want {
			assert.Contains(t, got, want, c.name)
		}
	}
}

// A free line has neither drift nor grouping, so the report has no headings
// for them.
func TestFreeLineAlone(t *testing.T) {
	got := text(t, spectest.Read(t, "title: T\nmeter: 6/8\nlength: 2 bars\nlayers:\n  - {name: A, instrument: flute, line: \"D4 2, F4 4\"}\n"), report.Options{})
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "Nothing realigns: no loop goes round from the start to the end, but for those that start over at realignments.")
	for _, heading := range []string{"DRIFT", "GROUPINGS", "THE EAR"} {
		assert.NotContains(t, got, heading)
	}
}
