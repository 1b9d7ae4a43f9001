package report

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// composite sums up what all layers make together.
func (t *text) composite() {
	c := t.f.Composite
	t.heading("Heard as one")
	if c.Attacks == 0 {
		t.item("Nobody strikes.")
		return
	}
	if len(t.s.Layers) > 1 {
		t.item(t.struck(c))
	}
	unit := t.unit(c)
	gaps := each(c.Gaps, func(g analysis.Gap) string {
		return fmt.Sprintf("%v (%s)", t.s.Grid.Span(g.Length).Over(unit), times(big.NewInt(int64(g.Times))))
	})
	t.item(fmt.Sprintf("Durations, counted in %s: %s.", t.unitName(unit), strings.Join(gaps, ", ")))
	t.barByBar(unit)
}

// struck says at how many moments how many layers strike.
func (t *text) struck(c analysis.Composite) string {
	if c.ByCount[1] == c.Attacks {
		if c.Attacks == 1 {
			return "1 attack in all."
		}
		return count(c.Attacks, "attack") + " in all, no two of them together."
	}
	return fmt.Sprintf("%s in all: %s.", count(c.Attacks, "attack"), beat.Listed(t.strikers(c.ByCount), "and"))
}

func (t *text) strikers(byCount []int) []string {
	var parts []string
	for n, moments := range byCount {
		if moments == 0 {
			continue
		}
		by := spelledOut(n) + " layers"
		switch {
		case n == 1:
			by = "one layer"
		case n == 2 && n == len(t.s.Layers):
			by = "both"
		case n == len(t.s.Layers):
			by = "all " + spelledOut(n)
		}
		parts = append(parts, digits(moments)+" by "+by)
	}
	return parts
}

// unit is what durations are counted in: the section's pulse, or the largest
// value that all durations are multiples of.
func (t *text) unit(c analysis.Composite) beat.Span {
	unit := int64(t.s.Grid.Must(t.s.Pulse.Span()))
	for _, g := range c.Gaps {
		unit = beat.GCD(unit, int64(g.Length))
	}
	return t.s.Grid.Span(beat.Time(unit))
}

// barRow collects what one bar of the composite holds.
type barRow struct {
	bar     int
	attacks int
	cells   []string
}

// rows gathers the composite bar by bar, as many bars as a table may have, and
// how many bars are left after these. Bars without an attack are left out.
func (t *text) rows(cell func(analysis.Moment) string) (rows []barRow, left int) {
	for m := range analysis.Moments(t.s) {
		bar := t.s.BarAt(m.Time).Number
		if n := len(rows); n == 0 || rows[n-1].bar != bar {
			if t.o.Rows > 0 && n == t.o.Rows {
				return rows, t.s.FirstBar + t.s.BarCount() - 1 - rows[n-1].bar
			}
			rows = append(rows, barRow{bar: bar})
		}
		row := &rows[len(rows)-1]
		row.attacks++
		row.cells = append(row.cells, cell(m))
	}
	return rows, 0
}

// barByBar prints who strikes and how long until the next attack.
func (t *text) barByBar(unit beat.Span) {
	names := " (" + t.players() + ")"
	if t.unnamed {
		names = ""
	}
	t.item(fmt.Sprintf("Bar by bar: attacks; who strikes%s, and %s to the next attack.", names, t.unitName(unit)))
	rows, left := t.rows(func(m analysis.Moment) string {
		return fmt.Sprintf("%s%v", t.letters(m.Layers), t.s.Grid.Span(m.Length).Over(unit))
	})
	for _, row := range rows {
		t.hang(fmt.Sprintf("  bar %-4d %3d  ", row.bar, row.attacks), 15, strings.Join(row.cells, " "))
	}
	t.more(left, "bar")
}

// letters names layers in a row: "ab", or "a+ab" where letters run double.
func (t *text) letters(layers []int) string {
	all := each(layers, score.LayerLetter)
	if len(t.s.Layers) > 26 {
		return strings.Join(all, "+")
	}
	return strings.Join(all, "")
}

// players lists the layers' names with their letters.
func (t *text) players() string {
	var who []string
	for i, l := range t.s.Layers {
		who = append(who, score.LayerLetter(i)+" "+l.Name)
	}
	return strings.Join(who, ", ")
}

// pitches prints all pitches one after another, where layers have any, and who
// plays each.
func (t *text) pitches() {
	pitched := false
	for m := range analysis.Moments(t.s) {
		if len(m.Tones) > 0 {
			pitched = true
			break
		}
	}
	if !pitched {
		return
	}
	t.heading("Pitches in the order they sound")
	who := ""
	if len(t.s.Layers) > 1 {
		who = ", then its player"
	}
	t.item("Each attack from the lowest note up" + who + "; - has no pitch.")
	rows, left := t.rows(func(m analysis.Moment) string {
		if len(m.Tones) == 0 {
			return "-"
		}
		var notes []string
		for _, sound := range m.Soundings() {
			note := sound.Pitch
			if who != "" {
				note += score.LayerLetter(sound.Layer)
			}
			notes = append(notes, note)
		}
		return strings.Join(notes, "+")
	})
	for _, row := range rows {
		t.hang(fmt.Sprintf("  bar %-4d ", row.bar), 11, strings.Join(row.cells, " "))
	}
	t.more(left, "bar")
}
