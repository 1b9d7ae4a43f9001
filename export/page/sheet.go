package page

import (
	"fmt"
	"html/template"
	"strings"
)

// Sizes of the printed sheet in CSS pixels: what its text area holds, and what
// its bands take.
const (
	sheetHeight = 1020
	titleHeight = 26 // of each of its lines
	titleBelow  = 18
	factHeight  = 17
	clocksABand = 5
	clockHeight = 138
	driftHeight = 17
	chartHeight = 12

	tallest     = 640 // a system is made smaller than that; see the style sheet
	tallestHead = 270 // title and facts

	mostFacts  = 24 // in two columns
	fewFacts   = 2  // beside a chart alone
	mostClocks = 10
	mostDrifts = 24
	fewDrifts  = 3 // lines of the drift table that come before the chart
)

var printed = measures{name: "sheet", width: 680 * one, left: 116 * one, right: 24 * one, tightest: 11 * one, loosest: 30 * one, names: true}

// printedScale is how many CSS pixels a drawing unit takes on the sheet.
const printedScale = 718.0 / 680

// Of the sheet's texts, in CSS pixels: how wide a line is, and how large its
// letters are for widthOf. They are set in 21 and 13; widthOf reckons on the safe
// side, for which there is a line to spare here.
const (
	titleSize  = 18 * one
	titleWidth = 718 * one
	factSize   = 11 * one
	factWidth  = 344 * one
)

// sheet is what is printed of a section: as much of it as one sheet holds.
type sheet struct {
	Facts   []string
	Systems []template.HTML
	Clocks  []shownClock
	Drift   []driftRow
	Chart   string
	Rest    string // what was left out
}

// sheet fills the sheet: at least one system of the figure, the first lines of
// the chart, as many clocks and rows of the drift table as fit beside them, then
// more systems and more of the chart. Where a system would be too small to read
// it has the chart alone, if that fits.
func (v *view) sheet(out shownSection, chart string) sheet {
	systems := v.systems(printed)
	first := chartHeight * (strings.Count(firstBlock(chart), "\n") + 1)
	if v.isTooSmall(systems) {
		s := sheet{Facts: out.Facts[:fewFacts], Rest: "So many layers would be too small to read in the figure; it is on the page."}
		if room := sheetHeight - v.headHeight(s.Facts) - factHeight; chart != "" && room >= first {
			s.Chart = firstBlocks(chart, room/chartHeight)
			return s
		}
	}
	s := sheet{Facts: v.sheetFacts(out.Facts)}
	room := sheetHeight - v.headHeight(s.Facts) - v.printedHeight(systems, 0)
	if room < first+fewDrifts*driftHeight {
		first = 0 // of the chart, not even its first lines fit
	}

	bands := min((len(out.Clocks)+clocksABand-1)/clocksABand, max(0, room-first)/clockHeight)
	s.Clocks = out.Clocks[:min(len(out.Clocks), bands*clocksABand, mostClocks)]
	room -= bands * clockHeight
	rows := min((len(out.Drift)+1)/2, mostDrifts/2, max(0, room-first)/driftHeight)
	s.Drift = out.Drift[:min(len(out.Drift), 2*rows)]
	room -= rows * driftHeight

	s.Systems = []template.HTML{template.HTML(v.drawSystem(v.frame(0, systems, printed)))}
	for i := 1; i < len(systems); i++ {
		height := v.printedHeight(systems, i)
		if height > room-first {
			s.Rest = fmt.Sprintf("The figure goes on from bar %d on the page.", v.s.Where(systems[i].from).Bar)
			break
		}
		room -= height
		s.Systems = append(s.Systems, template.HTML(v.drawSystem(v.frame(i, systems, printed))))
	}
	s.Chart = firstBlocks(chart, room/chartHeight)
	return s
}

// isTooSmall reports whether a system would have to be made smaller than three
// fifths of its size, its letters than 7 pixels.
func (v *view) isTooSmall(systems []system) bool {
	return 3*v.fullHeight(systems, 0) > 5*tallest
}

// sheetFacts are as many facts as the head has room for.
func (v *view) sheetFacts(facts []string) []string {
	n := min(len(facts), mostFacts)
	for n > fewFacts && v.headHeight(facts[:n]) > tallestHead {
		n--
	}
	return facts[:n]
}

// headHeight is how many CSS pixels the title and the facts take, those in two
// columns that no fact is broken over.
func (v *view) headHeight(facts []string) int {
	all, longest := 0, 1
	for _, fact := range facts {
		n := linesOf(fact, factSize, factWidth)
		all += n
		longest = max(longest, n)
	}
	return titleHeight*linesOf(v.title+", "+v.name(), titleSize, titleWidth) + titleBelow + factHeight*((all+1)/2+longest)
}

// linesOf is how many lines a text takes at most.
func linesOf(text string, size, width unit) int { return 1 + int(widthOf(text, size)/width) }

// printedHeight is how many CSS pixels a system takes on the sheet.
func (v *view) printedHeight(systems []system, i int) int {
	return min(tallest, v.fullHeight(systems, i)) + 12
}

// fullHeight is how many it would take at its own size.
func (v *view) fullHeight(systems []system, i int) int {
	return int(float64(v.frame(i, systems, printed).height/one) * printedScale)
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
