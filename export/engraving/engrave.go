package engraving

import (
	"iter"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/marks"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Options say how systems are drawn.
type Options struct {
	Width    int  // of a line in 1/100 space; 0 for that of the default paper
	OneLine  bool // everything in one system as wide as it must be, whatever Width says
	Unnamed  bool // no names before the staves
	Unnumber bool // no bar numbers before the systems
}

// System is one drawn system.
type System struct {
	Width, Height int    // in 1/100 space
	Body          []byte // SVG elements in tenths of a space, from 0, 0 to the width and height
	From, To      beat.Time
	FirstBar      int // number of its first bar, counted from 1 through the sheet; 0 for a pickup
	Bars          int
	NewPage       bool // the sheet asks for a new page before it
	Percent       int  // less than 100: a bar is longer than the line, so the system is drawn smaller

	boxes []canvas.Box // what is drawn where, if tests ask for it
	line  *line
}

// engraver draws the systems of a sheet one after another and remembers what
// goes on from one to the next.
type engraver struct {
	spacing.Setter
	o      Options
	sheets int // bars drawn so far

	marks marks.Carried
	slurs map[spacing.VoiceKey]bool // that go on

	watch bool       // boxes are kept for tests
	skies []pen.Unit // room for skylines, used again by each system
}

// Systems draws a sheet, a system at a time. Where the sheet says that systems
// begin they do, and where such a system does not fit its line also elsewhere.
func Systems(s *sheet.Sheet, o Options) iter.Seq[*System] {
	return func(yield func(*System) bool) { newEngraver(s, o).systems(yield) }
}

func newEngraver(s *sheet.Sheet, o Options) *engraver {
	width := pen.Unit(o.Width)
	if width == 0 {
		width = sheet.LineWidth
	}
	return &engraver{Setter: spacing.Setter{Reader: content.NewReader(s), Width: width, Unnamed: o.Unnamed, First: true}, o: o,
		marks: marks.New(), slurs: map[spacing.VoiceKey]bool{}}
}

// runBars bounds how many bars are divided into systems at a time where the
// sheet does not say where systems begin.
const runBars = 48

func (e *engraver) systems(yield func(*System) bool) {
	var run []content.Row
	for r := range e.Rows {
		if len(run) > 0 && (r.Bars[0].Break != sheet.NoBreak || len(run) >= runBars && !e.o.OneLine) {
			if !e.flush(run, &r, yield) {
				return
			}
			run = nil
		}
		run = append(run, r)
	}
	if len(run) > 0 {
		e.flush(run, nil, yield)
	}
}

// flush draws a run of bars; next is the bar after them.
func (e *engraver) flush(run []content.Row, next *content.Row, yield func(*System) bool) bool {
	e.JoinBeams(run)
	lines := [][]content.Row{run}
	if !e.o.OneLine {
		lines = e.Divided(run)
	}
	for i, rows := range lines {
		after := next
		if i+1 < len(lines) {
			after = &lines[i+1][0]
		}
		if !yield(e.system(rows, after)) {
			return false
		}
	}
	return true
}

// system draws the bars of one line.
func (e *engraver) system(rows []content.Row, next *content.Row) *System {
	width, percent := e.Width, 100
	if e.First && rows[0].Bars[0].Measure.Skipped > 0 {
		e.sheets-- // a pickup is not counted
	}
	l := e.newLine(rows, next, width)
	if need := l.Spread(0); e.o.OneLine {
		width = l.Spread(1000)
		l = e.newLine(rows, next, width)
	} else if need > width { // one bar is longer than a line: all is drawn smaller
		width = need + 20
		percent = int(e.Width * 100 / width)
		l = e.newLine(rows, next, width)
	}
	l.Justify()
	l.place()
	body, height := l.draw()
	sys := &System{Width: int(width), Height: int(height), Body: body, From: rows[0].Bars[0].Start, To: l.End(),
		FirstBar: e.sheets + 1, Bars: l.Bars(), NewPage: rows[0].Bars[0].Break == sheet.NewPage, Percent: percent, boxes: l.Boxes}
	if percent < 100 {
		sys.Width, sys.Height = int(e.Width), int(height)*percent/100
		sys.Body = smaller(body, percent)
	}
	if e.watch {
		sys.line = l
	}
	e.sheets += sys.Bars
	e.First = false
	return sys
}

// smaller scales what is drawn.
func smaller(body []byte, percent int) []byte {
	var k pen.Ink
	k.Put(`<g transform="scale(0.`)
	k = append(k, byte('0'+percent/10), byte('0'+percent%10))
	k.Put(")\">\n")
	k = append(k, body...)
	k.Put("</g>\n")
	return k
}
