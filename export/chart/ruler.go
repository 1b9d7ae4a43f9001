package chart

import (
	"slices"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
)

// place is a text over a column of the row.
type place struct {
	col  int
	text string
	must bool // may not be left out
}

// writeRuler writes the bar numbers with the labels of realignments: one on a
// barline stands after the number of the bar it opens, one inside a bar over
// its pulse in a line of its own.
func (s *setter) writeRuler(y *system) {
	var ruler, marks []place
	add := func(col int, number string, labels []token) {
		text, must := number, false
		for _, l := range labels {
			if l.col == 0 && !must {
				text += " " + l.text
				must = true
			} else {
				marks = append(marks, place{col + l.col, l.text, true})
			}
		}
		ruler = append(ruler, place{col, text, must})
	}
	for i := range y.bars {
		b := &y.bars[i]
		number := strconv.Itoa(b.number)
		if b.from > 0 {
			number = "(" + number + ")"
			for _, l := range b.labels {
				marks = append(marks, place{y.cols[i] + l.col, l.text, true})
			}
			add(y.cols[i], number, nil)
			continue
		}
		add(y.cols[i], number, b.labels)
	}
	if y.landing != nil {
		var labels []token
		number, col := strconv.Itoa(y.landing.Number), y.cols[len(y.cols)-1]
		if y.landing.Label != "" {
			labels = []token{{0, s.landingLabel(y.landing.Label, s.opt.Width-col-len(number)-1)}}
		}
		add(col, number, labels)
	}
	kept, moved := squeeze(ruler, s.opt.Width)
	for _, p := range moved {
		_, label, _ := strings.Cut(p.text, " ")
		marks = append(marks, place{p.col, label, true})
	}
	slices.SortStableFunc(marks, func(a, b place) int { return a.col - b.col })
	for _, l := range stack(marks, s.opt.Width) {
		s.headed("mark", l)
	}
	s.headed("bar", kept)
}

// headed writes one line of places.
func (s *setter) headed(head string, places []place) {
	l := s.newLine()
	l.put(0, head)
	for _, p := range places {
		l.put(p.col, p.text)
	}
	s.print(&l)
}

// squeeze keeps what fits in one line with two blanks between, as one blank
// stands between a number and its label: first the
// labels that end before the next bar, then the numbers that still fit. Other
// labels are moved; their bar keeps its number if that fits.
func squeeze(places []place, room int) (kept, moved []place) {
	fits := func(p place) bool {
		for _, k := range kept {
			if p.col < k.col+terminal.Width(k.text)+2 && k.col < p.col+terminal.Width(p.text)+2 {
				return false
			}
		}
		return p.col+terminal.Width(p.text) <= room
	}
	var numbers []place
	for i, p := range places {
		inBar := i+1 == len(places) || p.col+terminal.Width(p.text)+2 <= places[i+1].col
		switch {
		case !p.must:
			numbers = append(numbers, p)
		case inBar && fits(p):
			kept = append(kept, p)
		default:
			moved = append(moved, p)
			number, _, _ := strings.Cut(p.text, " ")
			numbers = append(numbers, place{p.col, number, false})
		}
	}
	for _, p := range numbers {
		if fits(p) {
			kept = append(kept, p)
		}
	}
	slices.SortStableFunc(kept, func(a, b place) int { return a.col - b.col })
	return kept, moved
}

// stack lays texts out on as few lines as needed, each beginning at its
// column, with two blanks between neighbours. A text that would run past the
// width ends at its column instead, with a sign that points down to it: "bass
// enters v"; what is longer even so is broken between words.
func stack(places []place, room int) [][]place {
	var lines [][]place
	ends := []int{}
	put := func(p place) {
		for i := range lines {
			if ends[i]+2 <= p.col {
				lines[i] = append(lines[i], p)
				ends[i] = p.col + terminal.Width(p.text)
				return
			}
		}
		lines = append(lines, []place{p})
		ends = append(ends, p.col+terminal.Width(p.text))
	}
	for _, p := range places {
		if p.col+terminal.Width(p.text) <= room {
			put(p)
			continue
		}
		for _, q := range pointing(p, room) {
			put(q)
		}
	}
	slices.Reverse(lines)
	return lines
}

// pointing breaks a text that does not fit to the right of its column. Where
// there is more room on the right its lines all begin at the column; else they
// end there, and the last of them points down.
func pointing(p place, room int) []place {
	indent := 6 // after the words "text" and "mark"
	right, left := room-p.col, p.col-indent-1
	pointed := right < terminal.Width(p.text) && left > right
	var pieces []string
	if pointed {
		pieces = terminal.Wrap([]string{p.text}, "", max(left, 8))
	} else {
		pieces = terminal.Wrap([]string{p.text}, "", max(right, 8))
	}
	var out []place
	for i := len(pieces) - 1; i >= 0; i-- { // the lowest line first
		t := strings.TrimSpace(pieces[i])
		col := p.col
		if pointed {
			col = max(p.col-1-terminal.Width(t), indent)
			if i == len(pieces)-1 {
				t += " v"
			}
		}
		out = append(out, place{col, t, true})
	}
	return out
}

// writeTexts writes the plan's texts above the ruler.
func (s *setter) writeTexts(y *system) {
	var texts []place
	for i := range y.bars {
		for _, t := range y.bars[i].texts {
			texts = append(texts, place{y.cols[i] + t.col, t.text, true})
		}
	}
	for _, l := range stack(texts, s.opt.Width) {
		s.headed("text", l)
	}
}
