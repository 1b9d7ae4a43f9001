package chart

import (
	"slices"
	"strconv"

	"tieover/layout/strip"
	"tieover/score/beat"
)

// token is a text at a column, counted from the bar's first cell.
type token struct {
	col  int
	text string
}

// begin is what stands over a cycle's start: the same in words of falling
// length, of which the first that fits is taken.
type begin struct {
	col   int
	forms []string
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
	count    [][]token
	rows     []rowText
	together []token
	gaps     []token
	labels   []token // at column 0 those of the barline
	texts    []token
}

type rowText struct {
	pulses int64
	starts []begin
	cells  []token
	held   bool
	names  [][]token // lines of pitch names, the lowest tone last
}

// setBar turns a bar of the strip into columns.
func (s *setter) setBar(b *strip.Bar) barText {
	t := barText{number: b.Number, width: s.scale.bar(b.Length), double: b.Double, closes: b.Closes}
	t.double = t.double && !s.opt.Hide.Has(strip.HideLabels)
	s.setCounts(b, &t)
	for i := range b.Rows {
		t.rows = append(t.rows, s.setRow(b, &b.Rows[i]))
	}
	for _, h := range b.Together {
		col := s.scale.col(h.At)
		text := "."
		switch {
		case s.opt.Hide.Has(strip.HideTogether):
			text = "_"
		case len(h.Layers) == 1:
			text = s.letters[h.Layers[0]]
		case len(h.Layers) > 1:
			text = strconv.Itoa(len(h.Layers))
		}
		t.together = append(t.together, token{col, text})
		if len(h.Layers) > 0 && s.hasGaps() {
			t.gaps = append(t.gaps, token{col, s.gap(h.Gap)})
		}
	}
	for _, l := range b.Labels {
		if s.opt.Hide.Has(strip.HideLabels) {
			break
		}
		t.labels = append(t.labels, token{s.scale.col(l.At), s.spell(l.Text)})
	}
	for _, e := range b.Plan {
		if words := s.planWords(e); words != "" {
			t.texts = append(t.texts, token{s.scale.col(e.Time - b.Start), words})
		}
	}
	return t
}

func (s *setter) setCounts(b *strip.Bar, t *barText) {
	grid := s.st.Section.Grid
	two := (2*s.scale.den + s.scale.num - 1) / s.scale.num // time of two columns
	for _, f := range s.families {
		var said []strip.Syllable
		if f.Actual == 1 {
			said = strip.Count(grid, b.Bar, s.st.Plain(), two)
		} else {
			said = strip.CountTuplet(grid, b.Bar, f)
		}
		var row []token
		for i, y := range said {
			col, next := s.scale.col(y.At), t.width
			if i+1 < len(said) {
				next = s.scale.col(said[i+1].At)
			}
			row = append(row, token{col, lastDigits(y.Text, next-col-1)})
		}
		t.count = append(t.count, row)
	}
	at := beat.Time(0)
	for _, span := range b.Signature.Beats() {
		at += grid.Must(span)
		if at < b.Length {
			t.cuts = append(t.cuts, s.scale.col(at))
		}
	}
}

// lastDigits shortens a number that has no room to its last digit: 10 is said
// as 0, 11 as 1.
func lastDigits(text string, room int) string {
	if len(text) > max(1, room) {
		return text[len(text)-1:]
	}
	return text
}

func (s *setter) setRow(b *strip.Bar, row *strip.Row) rowText {
	out := rowText{held: row.Held && !s.opt.Hide.Has(strip.HideGroups)}
	if !s.opt.Hide.Has(strip.HideStarts) {
		out.pulses = row.Pulses
	}
	for i, c := range row.Cells {
		col, next := s.scale.col(c.At), s.scale.bar(b.Length)
		if i+1 < len(row.Cells) {
			next = s.scale.col(row.Cells[i+1].At)
		}
		text := s.sign(c, next-col-1)
		out.cells = append(out.cells, token{col, text})
		if s.opt.Pitches && c.Sign.Struck() {
			out.name(col, s.toneNames(row.Layer, c.Tones))
		}
	}
	for _, start := range row.Starts {
		if s.opt.Hide.Has(strip.HideStarts) {
			break
		}
		out.starts = append(out.starts, begin{s.scale.col(start.At), s.startForms(start)})
	}
	return out
}

// sign writes a cell; a count may take room columns.
func (s *setter) sign(c strip.Cell, room int) string {
	switch hide := s.opt.Hide; {
	case c.Sign.Struck() && hide.Has(strip.HideGroups):
		if c.Sign == strip.Cycle && !hide.Has(strip.HideCycles) {
			return signs[strip.Cycle]
		}
		return signs[strip.Group]
	case c.Sign == strip.Sounding && hide.Has(strip.HideGroups):
		return "-"
	case c.Sign == strip.Sounding:
		return lastDigits(strconv.Itoa(c.Count), max(1, room))
	case c.Sign == strip.Cycle && hide.Has(strip.HideCycles):
		return signs[strip.Group]
	}
	return signs[c.Sign]
}

var signs = map[strip.Sign]string{strip.Silent: ".", strip.Cycle: "X", strip.Group: "x", strip.Inner: "o"}

// name adds one line a tone, highest first.
func (r *rowText) name(col int, names []string) {
	for i, n := range names {
		if i == len(r.names) {
			r.names = append(r.names, nil)
		}
		r.names[i] = append(r.names[i], token{col, n})
	}
}

// part returns columns [from, to) of a bar as a stretch of its own.
func (t *barText) part(from, to int) barText {
	p := barText{number: t.number, width: to - from, from: from, goesOn: to < t.width,
		double: t.double, closes: t.closes, together: within(t.together, from, to), gaps: within(t.gaps, from, to),
		labels: within(t.labels, from, to), texts: within(t.texts, from, to)}
	for _, c := range t.count {
		p.count = append(p.count, within(c, from, to))
	}
	for _, r := range t.rows {
		q := rowText{pulses: r.pulses, held: r.held && !p.goesOn, cells: within(r.cells, from, to)}
		for _, b := range r.starts {
			if b.col >= from && b.col < to {
				q.starts = append(q.starts, begin{b.col - from, b.forms})
			}
		}
		for _, n := range r.names {
			q.names = append(q.names, within(n, from, to))
		}
		p.rows = append(p.rows, q)
	}
	return p
}

func within(tokens []token, from, to int) []token {
	var kept []token
	for _, t := range tokens {
		if t.col >= from && t.col < to {
			kept = append(kept, token{t.col - from, t.text})
		}
	}
	return kept
}

// breaks returns where a bar is cut into stretches of at most room columns: at
// the last beat that fits, else at the last cell.
func (t *barText) breaks(room int) []int {
	var at []int
	from := 0
	for t.width-from > room {
		to := lastUpTo(t.cuts, from, from+room)
		if to == from {
			var cells []int
			for _, r := range t.rows {
				for _, c := range r.cells {
					cells = append(cells, c.col)
				}
			}
			slices.Sort(cells)
			to = lastUpTo(cells, from, from+room)
		}
		if to == from {
			to = from + room
		}
		at = append(at, to)
		from = to
	}
	return at
}

// lastUpTo returns the greatest of the rising columns in (from, to], from when
// there is none.
func lastUpTo(cols []int, from, to int) int {
	best := from
	for _, c := range cols {
		if c > from && c <= to {
			best = c
		}
	}
	return best
}
