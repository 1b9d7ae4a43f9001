package report

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// realignments prints those of the section, as many as a table may have. Those
// that come bar by bar, unmarked, make one row, and need none where all do.
func (t *text) realignments() {
	var rows [][]string
	all, shown := 0, 0
	var run []score.Realignment // of one row: the first, and the last if it is another
	flush := func() {
		if n := len(run); n > 0 && t.fits(len(rows)+1) {
			rows = append(rows, t.realignment(run[0], run[n-1]))
			shown += run[n-1].Index - run[0].Index + 1
		}
		run = run[:0]
	}
	for r := range t.s.Realignments() {
		all++
		if n := len(run); n > 0 && !t.nextBar(run[n-1], r) {
			flush()
		}
		run = append(run[:min(len(run), 1)], r)
	}
	flush()
	if all == 0 || len(t.f.Journeys) > 0 && !t.o.listed || t.s.EveryBar() && !t.o.listed {
		return
	}
	t.gap()
	heads := []string{"realignment", "where", "clock>", "", "cycles that begin"}
	if t.cutLayers() != nil {
		heads = slices.Insert(heads, 4, "kind")
	}
	for _, row := range rows { // short, for the cycles need room
		row[3] = strings.TrimSuffix(strings.TrimPrefix(row[3], "on the "), " the bar")
	}
	t.table(heads, rows)
	t.more(all-shown, "realignment")
	t.also()
}

// also lists what comes together and does not count.
func (t *text) also() {
	where, left := firstOf(t, t.s.AlsoTogether(), func(at beat.Time) string { return t.s.Where(at).String() })
	if len(where) == 0 {
		return
	}
	t.item("Also together, but not counted, for a cut follows within the bar: " + beat.Listed(where, "and") + ".")
	t.more(left, "such moment")
}

// kind says what makes a realignment: natural, or forced by a cut.
func (t *text) kind(r score.Realignment) string {
	switch {
	case r.Forced():
		who := each(r.Cut, func(i int) string { return shortName(t.s.Layers[i]) })
		return "forced (" + terminal.Clip(strings.Join(who, ", "), 16) + ")"
	case r.Index == 0:
		return "the start"
	}
	return "natural"
}

// nextBar reports whether a realignment belongs into the row of the one before:
// both are unmarked and stand on neighboring barlines.
func (t *text) nextBar(before, r score.Realignment) bool {
	return !t.o.listed && before.Label == "" && r.Label == "" && before.Forced() == r.Forced() && r.Time < t.s.Length && before.Index > 0 &&
		before.OnBarline && r.OnBarline && len(before.Silent)+len(r.Silent) == 0 && t.s.BarAt(before.Time).End() == r.Time
}

func (t *text) realignment(r, last score.Realignment) []string {
	row := t.realigned(r)
	if end := t.realigned(last); last.Index > r.Index {
		row[0] += " to " + end[0]
		row[1] = t.at(r.Time) + " to " + t.at(last.Time)
		row[3] = "each barline"
		row[len(row)-1] += " to " + end[len(end)-1]
	}
	return row
}

// journeySteps prints the steps of each journey as one table.
func (t *text) journeySteps() {
	for _, j := range t.f.Journeys {
		l := t.s.Layers[j.Layer]
		for _, sentence := range t.journey(j) {
			t.item(sentence)
		}
		rows, left := firstOf(t, j.Walk(t.s), func(step analysis.JourneyStep) []string {
			row := []string{digits(step.Step), t.at(step.Start), t.clock(step.Start), digits(step.Cycles),
				t.signed(step.Place, l.Pulse), digits(step.Attacks), "", ""}
			if j.Partner != analysis.Barline {
				row[6] = digits(step.Together)
			}
			if step.Home {
				row[7] = "home"
			}
			return row
		})
		t.gap()
		t.table([]string{"step>", "from", "clock>", "cycles>", "moved by>", "attacks>", "together>", ""}, rows)
		t.more(left, "step")
		t.gap()
	}
}

func (t *text) realigned(r score.Realignment) []string {
	name := fmt.Sprint(r.Index)
	if r.Label != "" && !t.unnamed {
		name += " " + terminal.Clip(r.Label, 16)
	}
	on := "on the barline"
	if !r.OnBarline {
		on = "inside the bar"
	}
	if r.Time >= t.s.Length {
		on = "the end"
	}
	var cycles []string
	for i, l := range t.s.Set {
		sentence := fmt.Sprintf("%s %d", numberedName(shortName(t.s.Layers[l])), r.Cycles[i])
		if slices.Contains(r.Silent, l) {
			sentence += " (silent)"
		}
		cycles = append(cycles, sentence)
	}
	row := []string{name, t.s.Where(r.Time).String(), t.clock(r.Time), on, strings.Join(cycles, ", ")}
	if t.cutLayers() != nil {
		row = slices.Insert(row, 4, t.kind(r))
	}
	return row
}

// numberedName sets a name off from the number that follows it, where it ends in
// a digit itself.
func numberedName(name string) string {
	if last, _ := utf8.DecodeLastRuneInString(name); unicode.IsDigit(last) {
		return name + ":"
	}
	return name
}

// shortName is a layer's short name, or as much of it as a table has room for.
func shortName(l *score.Layer) string {
	name := l.Short
	if name == "" {
		name = l.Name
	}
	return terminal.Clip(name, 16)
}
