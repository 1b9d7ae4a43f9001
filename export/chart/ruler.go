package chart

import (
	"slices"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
)

// place is a bar's number, with the label of a realignment if it must be kept.
type place struct {
	token
	must bool
}

// writeRuler writes the bar numbers with the labels of realignments: one on a
// barline stands after the number of the bar it opens, one inside a bar over
// its pulse in a line of its own.
func (s *setter) writeRuler(y *system) {
	var ruler []place
	var marks []token
	add := func(col int, number string, labels []token) {
		p := place{token: token{col, number}}
		for _, l := range labels {
			if l.col == 0 && !p.must {
				p.text += " " + l.text
				p.must = true
			} else {
				marks = append(marks, token{col + l.col, l.text})
			}
		}
		ruler = append(ruler, p)
	}
	for i := range y.bars {
		b := &y.bars[i]
		number := strconv.Itoa(b.number)
		if b.from == 0 {
			add(y.cols[i], number, b.labels)
			continue
		}
		for _, l := range b.labels {
			marks = append(marks, token{y.cols[i] + l.col, l.text})
		}
		add(y.cols[i], "("+number+")", nil)
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
	marks = append(marks, moved...)
	slices.SortStableFunc(marks, byColumn)
	for _, l := range stack(marks, s.opt.Width) {
		s.headed("mark", l)
	}
	s.headed("bar", kept)
}

func byColumn(a, b token) int { return a.col - b.col }

// headed writes one line of tokens.
func (s *setter) headed(head string, tokens []token) {
	l := s.newLine()
	l.put(0, head)
	for _, t := range tokens {
		l.put(t.col, t.text)
	}
	s.print(&l)
}

// squeeze keeps what fits in one line with two blanks between, as one blank
// stands between a number and its label: first the
// labels that end before the next bar, then the numbers that still fit. Other
// labels are moved; their bar keeps its number if that fits.
func squeeze(places []place, room int) (kept, moved []token) {
	fits := func(t token) bool {
		for _, k := range kept {
			if t.col < k.end()+2 && k.col < t.end()+2 {
				return false
			}
		}
		return t.end() <= room
	}
	var numbers []token
	for i, p := range places {
		inBar := i+1 == len(places) || p.end()+2 <= places[i+1].col
		switch {
		case !p.must:
			numbers = append(numbers, p.token)
		case inBar && fits(p.token):
			kept = append(kept, p.token)
		default:
			number, label, _ := strings.Cut(p.text, " ")
			moved = append(moved, token{p.col, label})
			numbers = append(numbers, token{p.col, number})
		}
	}
	for _, n := range numbers {
		if fits(n) {
			kept = append(kept, n)
		}
	}
	slices.SortStableFunc(kept, byColumn)
	return kept, moved
}

// stack lays texts out on as few lines as needed, each beginning at its
// column, with two blanks between neighbours. A text that would run past the
// width ends at its column instead, with a sign that points down to it: "bass
// enters v"; what is longer even so is broken between words.
func stack(texts []token, room int) lines {
	var all lines
	put := func(t token) {
		k := slices.IndexFunc(all, func(line []token) bool { return line[len(line)-1].end()+2 <= t.col })
		if k < 0 {
			k = len(all)
		}
		all.put(k, t)
	}
	for _, t := range texts {
		if t.end() <= room {
			put(t)
			continue
		}
		for _, piece := range pointing(t, room) {
			put(piece)
		}
	}
	slices.Reverse(all)
	return all
}

// pointing breaks a text that does not fit to the right of its column. Where
// there is more room on the right its lines all begin at the column; else they
// end there, and the last of them points down.
func pointing(p token, room int) []token {
	indent := 6 // after the words "text" and "mark"
	right, left := room-p.col, p.col-indent-1
	pointed := right < terminal.Width(p.text) && left > right
	width := right
	if pointed {
		width = left
	}
	pieces := terminal.Wrap([]string{p.text}, "", max(width, 8))
	var out []token
	for i := len(pieces) - 1; i >= 0; i-- { // the lowest line first
		t := strings.TrimSpace(pieces[i])
		col := p.col
		if pointed {
			col = max(p.col-1-terminal.Width(t), indent)
			if i == len(pieces)-1 {
				t += " v"
			}
		}
		out = append(out, token{col, t})
	}
	return out
}

// writeTexts writes the plan's texts above the ruler.
func (s *setter) writeTexts(y *system) {
	var texts []token
	for i := range y.bars {
		for _, t := range y.bars[i].texts {
			texts = append(texts, token{y.cols[i] + t.col, t.text})
		}
	}
	for _, l := range stack(texts, s.opt.Width) {
		s.headed("text", l)
	}
}
