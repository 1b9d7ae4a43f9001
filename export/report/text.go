// Package report prints what analysis found: as plain English for people, in
// 80 columns, and as JSON for programs. It computes nothing musical.
package report

import (
	"fmt"
	"io"
	"iter"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// Rows is how many rows a table has unless asked otherwise.
const Rows = 8

// Options decide how the text is written.
type Options struct {
	Terms    beat.Terms
	Glossary bool
	Indices  bool // what only a specialist reads of the groupings
	Rows     int  // how many rows a table has at most; 0 for the usual number, less for no limit

	listed bool // the number of rows was asked for: what sentences sum up is listed too
}

// settled settles the limit: 0 is none.
func (o Options) settled() Options {
	o.listed = o.Rows != 0
	switch {
	case o.Rows == 0:
		o.Rows = Rows
	case o.Rows < 0:
		o.Rows = 0
	}
	return o
}

// Text writes the report of a settled piece.
func Text(w io.Writer, p *score.Piece, o Options) error {
	o = o.settled()
	out := newPaper(w)
	for i, s := range p.Sections {
		if i > 0 {
			out.gap()
			out.line(strings.Repeat("=", width))
		}
		t := newText(out, s, o)
		t.title(p)
		t.opening()
		t.all()
	}
	if len(p.Warnings) > 0 {
		out.heading("Warnings")
		for _, warning := range p.Warnings {
			out.item(warning.String())
		}
	}
	if o.Glossary {
		glossary(out)
		sources(out)
	}
	return out.out.Flush()
}

// text writes the report of one section.
type text struct {
	*paper
	words
	o Options
	f *analysis.Facts

	unnamed bool // layers are mere letters and realignments have no labels
}

func newText(out *paper, s *score.Section, o Options) *text {
	return &text{paper: out, words: newWords(s, o.Terms), o: o, f: analysis.Of(s)}
}

func (t *text) title(p *score.Piece) {
	t.para(0, 0, strings.ToUpper(t.fullName(p)))
	facts := []string{t.s.Meter.String(), t.opens(), t.extent(), t.clock(t.s.Length) + " long"}
	t.para(0, 0, strings.Join(facts, ", "))
}

// extent says how many bars the section has.
func (t *text) extent() string {
	n, lead := t.s.BarCount(), ""
	if t.s.Opening() < 0 {
		lead = "a pickup and "
	}
	switch {
	case t.s.Bar(n).Landing:
		return lead + count(n-1, "bar") + " and the landing"
	case t.s.End == score.Land: // inside the last bar
		return lead + count(n, "bar") + " with the landing"
	}
	return lead + count(n, "bar")
}

// tempoMark says a tempo mark and how fast it goes: "a tempo, quarter = 132", "rit. to
// quarter = 84 at bar 6".
func (t *text) tempoMark(m score.TempoAt) string {
	speed := score.PlainTempo(m.Tempo.Quarters, m.Tempo.Beat).InWords(t.terms)
	switch {
	case m.Tempo.IsGradual():
		return fmt.Sprintf("%s to %s at %s", m.Tempo.Words, speed, t.at(m.Until))
	case m.Tempo.Kind == score.ATempo:
		return m.Tempo.Words + ", " + speed
	}
	return m.Tempo.InWords(t.terms)
}

// opens says the tempo that the section begins with.
func (t *text) opens() string { return t.tempoMark(t.s.Tempos()[0]) }

func (t *text) all() {
	t.layers()
	t.together()
	t.realignments()
	t.journeySteps()
	t.drift()
	t.pairs()
	t.composite()
	t.pitches()
	t.groupings()
	t.hearings()
	t.ends()
	t.barrings()
	t.tempos()
}

func (t *text) layers() {
	t.heading("The layers")
	var rows [][]string
	for i, l := range t.f.Layers {
		layer, a := t.s.Layers[i], l.Attacks
		length := "varies"
		if l.Length > 0 {
			length = t.length(l.Length, layer.Pulse)
		}
		rows = append(rows, []string{terminal.Clip(layer.Name, 24), length, digits(l.Cycles), digits(a.All), digits(a.OnBarline), digits(a.OnBeat),
			digits(a.OffBeat)})
	}
	t.table([]string{"layer", "cycle", "cycles>", "attacks>", "barline>", "beat>", "off>"}, rows)
	t.item("Barline, beat, off: attacks on a barline, on another beat, off the beat.")
	t.played()
}

// written lists the patterns of a layer.
func written(l analysis.Layer) []string { return each(l.Groups, analysis.Grouping.String) }

// fits reports whether a table has room for so many rows.
func (t *text) fits(rows int) bool { return t.o.Rows == 0 || rows <= t.o.Rows }

// shown is how many of so many rows a table has room for.
func (t *text) shown(rows int) int {
	if t.fits(rows) {
		return rows
	}
	return t.o.Rows
}

// firstOf makes the rows of a table, as many as it has room for, and counts how many
// more there are.
func firstOf[T, Row any](t *text, all iter.Seq[T], row func(T) Row) (rows []Row, left int) {
	for v := range all {
		if t.fits(len(rows) + 1) {
			rows = append(rows, row(v))
		} else {
			left++
		}
	}
	return rows, left
}

// more says how many rows a table leaves out.
func (t *text) more(left int, what string) {
	if left > 0 {
		t.para(2, 2, fmt.Sprintf("… and %s more (--rows 0 prints all, --json has them too).", count(left, what)))
	}
}
