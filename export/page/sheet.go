package page

import (
	"html/template"
	"strings"
)

var printed = measures{name: "sheet", width: 680 * one, left: 116 * one, right: 24 * one, tightest: 11 * one, loosest: 30 * one, names: true}

// Sizes in CSS pixels: the tallest that a system may be on paper, beyond which
// it is made smaller (see the style sheet), and how many of them a drawing unit
// takes there.
const (
	tallest      = 900
	printedScale = 718.0 / 680
)

// sheet is what is printed of a section: all of it, over as many pages as it
// takes. The style sheet keeps a system and a block of the chart on one page.
type sheet struct {
	Systems []template.HTML
	Blocks  [][]string // of the chart in each reading: its legend, then its rows
	Instead string     // why there is no figure
}

// sheet draws what is printed. Where a system would be too small to read the
// chart stands alone.
func (v *view) sheet(charts []string) sheet {
	var s sheet
	for _, chart := range charts {
		s.Blocks = append(s.Blocks, blocks(chart))
	}
	systems := v.systems(printed)
	if len(charts) > 0 && charts[0] != "" && v.isTooSmall(systems) {
		s.Instead = "So many layers would be too small to read in the figure, which is on the page; the chart has them all."
		return s
	}
	for i := range systems {
		s.Systems = append(s.Systems, template.HTML(v.drawSystem(v.frame(i, systems, printed))))
	}
	return s
}

// isTooSmall reports whether a system would have to be made smaller than three
// fifths of its size, its letters than 7 pixels.
func (v *view) isTooSmall(systems []system) bool {
	height := float64(v.frame(0, systems, printed).height/one) * printedScale
	return 3*height > 5*tallest
}

// blocks are the parts of a chart that empty lines divide.
func blocks(chart string) []string {
	var all []string
	for _, block := range strings.Split(chart, "\n\n") {
		if block = strings.Trim(block, "\n"); block != "" {
			all = append(all, block)
		}
	}
	return all
}
