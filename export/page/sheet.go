package page

import (
	"fmt"
	"strings"
)

// What fits on the one printed sheet, by measure: the drawing units of all its
// systems, the rows of its drift table, the lines of its chart.
const (
	sheetHeight = 430 * one
	sheetRows   = 24
	sheetLines  = 34
)

var printed = measures{name: "sheet", width: 680 * one, left: 116 * one, right: 24 * one, tightest: 11 * one, loosest: 30 * one, names: true}

// sheet is what is printed of a section: as much of it as one sheet holds.
type sheet struct {
	Systems []shownSystem
	Drift   []driftRow
	Chart   string
	Rest    string // what was left out
}

func (v *view) sheet(strikes []strike, rows []driftRow, chart string) sheet {
	var out sheet
	all := v.drawn(printed, strikes)
	systems := v.systems(printed)
	height := unit(0)
	for i := range systems {
		height += v.frame(i, systems, printed).height
		if i > 0 && height > sheetHeight {
			out.Rest = fmt.Sprintf("Shown to %s; the chart and the score have the rest.", v.s.Where(systems[i].from-1))
			break
		}
		out.Systems = append(out.Systems, all[i])
	}
	out.Drift = rows[:min(len(rows), sheetRows)]
	out.Chart = firstBlocks(chart, sheetLines)
	return out
}

// firstBlocks returns as many whole blocks, which end with an empty line, as
// there are lines for.
func firstBlocks(text string, lines int) string {
	all := strings.Split(strings.TrimRight(text, "\n"), "\n")
	if len(all) <= lines {
		return strings.Join(all, "\n")
	}
	end := lines
	for end > 0 && all[end] != "" {
		end--
	}
	return strings.Join(all[:end], "\n")
}
