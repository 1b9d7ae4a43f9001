package chart

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score/beat"
)

// token is a text at a column, counted from the bar's first cell.
type token struct {
	col  int
	text string
}

// end is the column after it.
func (t token) end() int { return t.col + terminal.Width(t.text) }

// begin is a cycle's start at its column.
type begin struct {
	col int
	rows.Start
}

// barText is one bar, or a stretch of a bar too wide for the row, in columns.
type barText struct {
	number   int
	width    int
	from     int  // columns of the bar that stand in rows above
	goesOn   bool // the rest stands in rows below
	double   bool
	closes   bool
	cuts     []int // columns at which the bar may be broken: its beats
	count    lines
	rows     []rowText
	together []token
	gaps     []token
	said     []token // the count of what is struck
	labels   []token // at column 0 those of the barline
	texts    []token
}

type rowText struct {
	pulses  int64
	starts  []begin
	cells   []token
	held    bool
	slurs   string // drawn over the columns
	touches lines  // lines of signs, accents first
	names   lines  // lines of pitch names, the lowest tone last
	words   lines  // lines of what is sung or spoken, one a verse
}

// setBar turns a bar of the chart into columns.
func (s *setter) setBar(b *rows.Bar) barText {
	t := barText{number: b.Number, width: s.scale.bar(b.Length), double: b.Double, closes: b.Closes}
	t.double = t.double && !s.opt.Hide.Has(rows.HideLabels)
	s.setCounts(b, &t)
	t.rows, t.together = make([]rowText, 0, len(b.Rows)), make([]token, 0, len(b.Together))
	for i := range b.Rows {
		t.rows = append(t.rows, s.setRow(b, &b.Rows[i], &t))
	}
	for _, h := range b.Together {
		col := s.scale.col(h.At)
		text := "."
		switch {
		case s.opt.Hide.Has(rows.HideTogether):
			text = "_"
		case len(h.Layers) == 1:
			text = s.letters[h.Layers[0]]
		case len(h.Layers) > 1:
			text = strconv.Itoa(len(h.Layers))
		}
		t.together = append(t.together, token{col, text})
		if len(h.Layers) > 0 && h.Gap > 0 && s.hasGaps() {
			t.gaps = append(t.gaps, token{col, s.gap(h.Gap, t.width-col)})
		}
	}
	if s.saysTogether() {
		t.say()
	}
	for _, l := range b.Labels {
		if s.opt.Hide.Has(rows.HideLabels) {
			break
		}
		t.labels = append(t.labels, token{s.scale.col(l.At), s.spell(l.Text)})
	}
	if b.Closes && b.Filled < b.Length && b.Filled > 0 {
		t.texts = append(t.texts, token{s.scale.col(b.Filled), "end"})
	}
	for _, e := range b.Plan {
		if words := s.planWords(e); words != "" {
			t.texts = append(t.texts, token{s.scale.col(e.Time - b.Start), words})
		}
	}
	slices.SortStableFunc(t.texts, byColumn)
	return t
}

// say writes under each moment of the composite what is counted there: the beat
// or what divides it, else what the first of the tuplets says, of each the last sign.
func (t *barText) say() {
	words := map[int]string{}
	for _, count := range t.count {
		for _, y := range count {
			if words[y.col] == "" {
				words[y.col] = lastDigits(y.text, 1)
			}
		}
	}
	for _, hit := range t.together {
		if hit.text != "." {
			t.said = append(t.said, token{hit.col, cmp.Or(words[hit.col], "-")})
		}
	}
}

func (s *setter) setCounts(b *rows.Bar, t *barText) {
	grid := s.chart.Section.Grid
	two := s.twoColumns()
	for _, f := range s.families {
		var said []rows.Syllable
		if f.Actual == 1 {
			said = rows.Count(grid, b.Bar, s.plain, two)
		} else {
			said = s.chart.CountTuplet(b, f)
		}
		row := make([]token, 0, len(said))
		room := s.countRoom(said, t.width)
		for _, y := range said {
			row = append(row, token{s.scale.col(y.At), lastDigits(y.Text, room)})
		}
		t.count = append(t.count, row)
	}
	at := -b.Skipped
	for _, span := range b.Signature.Beats() {
		at += grid.Must(span)
		if at > 0 && at < b.Length {
			t.cuts = append(t.cuts, s.scale.col(at))
		}
	}
}

// twoColumns is the time that two columns take.
func (s *setter) twoColumns() beat.Time { return (2*s.scale.den + s.scale.num - 1) / s.scale.num }

// countRoom is how many columns every word of a count has before the next.
func (s *setter) countRoom(said []rows.Syllable, width int) int {
	room := width
	for i := 1; i < len(said); i++ {
		room = min(room, s.scale.col(said[i].At)-s.scale.col(said[i-1].At)-1)
	}
	return room
}

// lastDigits shortens a number that has no room to its last digit: 10 is said
// as 0, 11 as 1.
func lastDigits(text string, room int) string {
	if len(text) > max(1, room) {
		return text[len(text)-1:]
	}
	return text
}

func (s *setter) setRow(b *rows.Bar, row *rows.Row, t *barText) rowText {
	out := rowText{held: row.Held && !s.opt.Hide.Has(rows.HideGroups), cells: make([]token, 0, len(row.Cells))}
	if !s.opt.Hide.Has(rows.HideStarts) {
		out.pulses = row.Pulses
	}
	regular := s.scale.col(s.chart.Finest(row.Layer)) - 1
	free := 0 // the first column not written yet
	cells := row.Cells
	if s.slashed(b, row) {
		cells, out.cells, out.held = nil, s.slashes(b), false
	}
	for i := range cells {
		c := &cells[i]
		col, room := s.scale.col(c.At), regular
		if i+1 < len(row.Cells) { // a cycle that starts over may follow closer
			room = min(room, s.scale.col(row.Cells[i+1].At)-col-1)
		} else { // the last column before the barline is for the tie
			room = min(room, t.width-1-col)
		}
		text := s.sign(c, room)
		if !s.scale.exact { // rounding may lay two moments on one column
			col = max(col, free)
			free = col + len(text)
			t.width = max(t.width, free+1)
		}
		out.cells = append(out.cells, token{col, text})
		s.setNames(&out.names, row.Layer, c, col)
		s.setTouches(&out.touches, c, col)
		s.setWords(&out.words, c, col)
	}
	out.slurs = s.slurs(b, row, out.cells, t.width)
	for _, start := range row.Starts {
		if s.opt.Hide.Has(rows.HideStarts) {
			break
		}
		if start.Plain {
			continue
		}
		out.starts = append(out.starts, begin{s.scale.col(start.At), start})
	}
	return out
}

// sign writes a cell; a count may take room columns.
func (s *setter) sign(c *rows.Cell, room int) string {
	switch hide := s.opt.Hide; {
	case c.Sign.Struck() && hide.Has(rows.HideGroups):
		if c.Sign == rows.Cycle && !hide.Has(rows.HideCycles) {
			return signs[rows.Cycle]
		}
		return signs[rows.Group]
	case c.Sign == rows.Sounding && hide.Has(rows.HideGroups):
		return "-"
	case c.Sign == rows.Sounding:
		return lastDigits(strconv.Itoa(c.Count), max(1, room))
	case c.Sign == rows.Cycle && hide.Has(rows.HideCycles):
		return signs[rows.Group]
	}
	return signs[c.Sign]
}

var signs = map[rows.Sign]string{rows.Silent: ".", rows.Cycle: "X", rows.Group: "x", rows.Inner: "o"}

// part returns columns [from, to) of a bar as a stretch of its own.
func (t *barText) part(from, to int) barText {
	p := *t
	p.width, p.from, p.goesOn = to-from, from, to < t.width
	for _, tokens := range []*[]token{&p.together, &p.gaps, &p.said, &p.labels, &p.texts} {
		*tokens = within(*tokens, from, to)
	}
	p.count, p.rows = t.count.within(from, to), nil
	for _, r := range t.rows {
		q := rowText{pulses: r.pulses, held: r.held && !p.goesOn, cells: within(r.cells, from, to), slurs: slursWithin(r.slurs, from, to),
			names: r.names.within(from, to), touches: r.touches.within(from, to), words: r.words.within(from, to)}
		for _, b := range r.starts {
			if b.col >= from && b.col < to {
				q.starts = append(q.starts, begin{b.col - from, b.Start})
			}
		}
		p.rows = append(p.rows, q)
	}
	return p
}

func within(tokens []token, from, to int) []token {
	var kept []token
	for _, t := range tokens {
		if (t.col >= from || from == 0) && t.col < to { // grace notes before the first stroke stand over the barline
			kept = append(kept, token{t.col - from, t.text})
		}
	}
	return kept
}
