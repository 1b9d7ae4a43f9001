package page

import (
	"fmt"
	"strings"
)

// Sizes of the printed sheet in CSS pixels: what its text area holds, and what
// its bands take.
const (
	sheetHeight = 1020
	titleHeight = 44
	factHeight  = 17
	clocksABand = 5
	clockHeight = 138
	driftHeight = 17
	chartHeight = 12

	tallest = 640 // a system is made smaller than that; see the style sheet

	mostFacts  = 24 // in two columns
	mostClocks = 10
	mostDrifts = 24
	fewDrifts  = 3 // lines of the drift table that come before the chart
)

var printed = measures{name: "sheet", width: 680 * one, left: 116 * one, right: 24 * one, tightest: 11 * one, loosest: 30 * one, names: true}

// printedScale is how many CSS pixels a drawing unit takes on the sheet.
const printedScale = 718.0 / 680

// sheet is what is printed of a section: as much of it as one sheet holds.
type sheet struct {
	Facts   []string
	Systems []shownSystem
	Clocks  []shownClock
	Drift   []driftRow
	Chart   string
	Rest    string // what was left out
}

// sheet fills the sheet: at least one system of the figure, the first lines of
// the chart, as many clocks and rows of the drift table as fit beside them, then
// more systems and more of the chart.
func (v *view) sheet(out shownSection, strikes []strike, chart string) sheet {
	s := sheet{Facts: out.Facts[:min(len(out.Facts), mostFacts)]}
	all, systems := v.drawn(printed, strikes), v.systems(printed)
	heights := make([]int, len(systems))
	for i := range systems {
		heights[i] = min(tallest, int(float64(v.frame(i, systems, printed).height/one)*printedScale)) + 12
	}
	room := sheetHeight - titleHeight - factHeight*((len(s.Facts)+1)/2+1) - heights[0]
	s.Systems = all[:1]
	first := chartHeight * (strings.Count(firstBlock(chart), "\n") + 1)
	if room < first+fewDrifts*driftHeight {
		first = 0 // of the chart, not even its first lines fit
	}

	bands := min((len(out.Clocks)+clocksABand-1)/clocksABand, max(0, room-first)/clockHeight)
	s.Clocks = out.Clocks[:min(len(out.Clocks), bands*clocksABand, mostClocks)]
	room -= bands * clockHeight
	rows := min((len(out.Drift)+1)/2, mostDrifts/2, max(0, room-first)/driftHeight)
	s.Drift = out.Drift[:min(len(out.Drift), 2*rows)]
	room -= rows * driftHeight

	for i := 1; i < len(systems); i++ {
		if heights[i] > room-first {
			s.Rest = fmt.Sprintf("The figure goes on from bar %d on the page.", v.s.Where(systems[i].from).Bar)
			break
		}
		room -= heights[i]
		s.Systems = all[:i+1]
	}
	s.Chart = firstBlocks(chart, room/chartHeight)
	return s
}

// firstBlock returns what comes before the first empty line.
func firstBlock(text string) string {
	block, _, _ := strings.Cut(text, "\n\n")
	return block
}

// firstBlocks returns as many whole blocks, which end with an empty line, as
// there are lines for.
func firstBlocks(text string, lines int) string {
	all := strings.Split(strings.TrimRight(text, "\n"), "\n")
	if len(all) <= lines {
		return strings.Join(all, "\n")
	}
	end := max(0, lines)
	for end > 0 && all[end] != "" {
		end--
	}
	return strings.Join(all[:end], "\n")
}
