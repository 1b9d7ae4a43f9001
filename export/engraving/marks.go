package engraving

import (
	"strconv"
	"strings"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// marked is a mark of the sheet with its place on the line.
type marked struct {
	*sheet.Mark
	bar   int
	key   voiceKey
	away  unit      // the side of its voice
	at    beat.Time // of the piece
	x     unit      // the left edge of the note it stands at, or the moment's place
	right unit      // the right edge of that note
	end   bool      // it stands at the end of its bar
}

// markRow says how a kind of mark is drawn: over the part, so above its first
// staff, or at the staff of its voice.
type markRow struct {
	part bool
	draw func(w *marker, m *marked)
}

// markRows is the table of all marks.
var markRows = map[sheet.MarkKind]markRow{
	sheet.Rehearsal:     {true, (*marker).rehearsal},
	sheet.Boxed:         {true, (*marker).boxed},
	sheet.TempoMark:     {true, (*marker).tempo},
	sheet.Words:         {true, words(wordsFace)},
	sheet.TechniqueMark: {true, words(techniqueFace)},
	sheet.Cue:           {true, words(smallFace)},
	sheet.ScoreBar:      {true, words(smallFace)},
	sheet.ChordSymbol:   {true, (*marker).chord},
	sheet.CycleStart:    {false, (*marker).cycleStart},
	sheet.CycleStop:     {false, (*marker).cycleStop},
	sheet.CycleNumber:   {false, (*marker).cycleNumber},
	sheet.Grouping:      {false, (*marker).grouping},
	sheet.GroupSize:     {false, (*marker).groupSize},
	sheet.DynamicMark:   {false, (*marker).dynamic},
	sheet.HairpinStart:  {false, (*marker).hairpinStart},
	sheet.HairpinStop:   {false, (*marker).hairpinStop},
	sheet.Stroke:        {false, (*marker).stroke},
	sheet.GradualStart:  {true, (*marker).gradualStart},
	sheet.GradualStop:   {true, (*marker).gradualStop},
	sheet.TempoStep:     {true, func(*marker, *marked) {}}, // only played
	sheet.RepeatCount:   {false, (*marker).repeatCount},

	sheet.InstrumentMark: {true, (*marker).takeUp},
}

// words draws the text of a mark over the staff in a face.
func words(f face) func(*marker, *marked) {
	return func(w *marker, m *marked) {
		w.hanging.add(wordLane, upwards, w.c.words(w.staff, m.x, m.Text, f))
	}
}

// marker draws the marks of one staff of a line.
type marker struct {
	l       *spaced
	c       *canvas
	carried *carried
	staff   int
	st      *lineStaff
	hanging hanging
	marks   []marked
	cycles  map[moment]cycleMarks // what is at the moments at which cycles begin
	clear   unit                  // from where the top lane is free

	// What began on this line.
	brackets map[voiceKey]*marked
	hairpins map[voiceKey]*marked
	gradual  *marked // rit. or accel.
}

// carried is what goes on from one line to the next.
type carried struct {
	brackets map[voiceKey]bool // of cycles
	hairpins map[voiceKey]int  // 1 opens, 2 closes
	gradual  string            // rit. or accel.
	held     map[verseKey]bool // syllables
}

func newCarried() carried {
	return carried{brackets: map[voiceKey]bool{}, hairpins: map[voiceKey]int{}, held: map[verseKey]bool{}}
}

type moment struct {
	key voiceKey
	at  beat.Time
}

// cycleMarks are the marks of one moment of a voice that are drawn together.
type cycleMarks struct {
	number, group string
	bracket       bool // one begins
}

// drawMarks draws the words, lines and marks of all staves of a line.
func drawMarks(l *spaced, c *canvas, carried *carried) {
	for i := range c.staves {
		w := marker{l: l, c: c, carried: carried, staff: i, st: &c.staves[i], cycles: map[moment]cycleMarks{},
			brackets: map[voiceKey]*marked{}, hairpins: map[voiceKey]*marked{}}
		w.lyrics()
		w.collect()
		for k := range w.marks {
			m := &w.marks[k]
			markRows[m.Kind].draw(&w, m)
		}
		w.goOn()
		c.hang(i, &w.hanging)
	}
}

// collect finds the marks that stand at the staff, and their places.
func (w *marker) collect() {
	l := w.l
	for b := range l.rows {
		bar := &l.rows[b].bars[w.st.part]
		for i := range bar.Marks {
			m := &bar.Marks[i]
			v := &bar.Measure.Voices[m.Voice]
			part := markRows[m.Kind].part && m.Voice == 0 // a further voice has its words at its own staff
			if part && w.st.number != 1 || !part && v.Staff != w.st.number {
				continue
			}
			k := marked{Mark: m, bar: b, key: voiceKey{w.st.part, v.Number}, away: direction(v.Stem != sheet.StemDown)}
			at, onNote := bar.Measure.Length, false
			if k.end = m.Before >= len(v.Events); !k.end {
				at = v.Events[m.Before].At() + m.Offset
				_, onNote = v.Events[m.Before].(*sheet.Note)
			}
			k.at, k.x = bar.Start+at, l.xAt(b, at)
			if at == 0 && len(l.xs[b]) == 0 {
				k.x = l.music(b) + afterPrefix
			}
			k.right = k.x
			if onNote && m.Offset == 0 {
				k.right = min(k.right+headWidth(headBlack), l.edges[b+1]-5) // bars that repeat have no heads
			}
			w.marks = append(w.marks, k)
			w.join(&k)
		}
	}
}

// join puts a mark to those of its moment that are drawn together.
func (w *marker) join(m *marked) {
	at := moment{m.key, m.at}
	c := w.cycles[at]
	switch m.Kind {
	case sheet.CycleStart:
		c.bracket = true
	case sheet.CycleNumber:
		c.number = strconv.Itoa(m.N)
	case sheet.Grouping:
		c.group = m.Text
	default:
		return
	}
	w.cycles[at] = c
}

func (w *marker) rehearsal(m *marked) {
	x := m.x
	if m.Before == 0 && m.Offset == 0 {
		x = w.l.edges[m.bar]
	}
	h := w.boxedAt(m, x, labelFace)
	w.clear = h.x1 + 60
	w.hanging.add(topLane, upwards, h)
}

func (w *marker) boxed(m *marked) {
	w.hanging.add(boxLane, upwards, w.boxedAt(m, m.x, boxedFace))
}

// boxedAt is a text in a box that begins at x, or ends with its bar if it stands
// at the end.
func (w *marker) boxedAt(m *marked, x unit, f face) hung {
	if m.end {
		x -= f.width(m.Text) + 2*boxPad
	}
	return w.c.boxedWords(w.staff, x, m.Text, f)
}

// takeUp names an instrument: in bold where it is taken up; what comes next before
// the barline, where it stands at the end of a bar.
func (w *marker) takeUp(m *marked) {
	f, x := techniqueFace, m.x
	if m.Instrument != nil {
		f = takeUpFace
	}
	if m.end {
		x -= f.width(m.Text)
	}
	w.hanging.add(wordLane, upwards, w.c.words(w.staff, x, m.Text, f))
}

// sharpened writes the signs of chord symbols; flats stay letters where no
// accidental can be meant.
var sharpened = strings.NewReplacer("#", "♯")

func (w *marker) chord(m *marked) {
	w.hanging.add(chordLane, upwards, w.c.words(w.staff, m.x, sharpened.Replace(m.Text), chordFace))
}

// groupSize writes the size of a group, with a corner where a barline cuts it:
// before its first half, after its second.
func (w *marker) groupSize(m *marked) {
	f := smallFace
	f.anchor = atMiddle
	h := w.c.words(w.staff, m.x+59, strconv.Itoa(m.N), f)
	x, arm := h.x0-15, unit(30)
	if m.Text == sheet.GoneOn {
		x, arm = h.x1+15, -arm
	}
	if m.Text == sheet.GoesOn || m.Text == sheet.GoneOn {
		text := h.draw
		h.x0, h.x1 = min(h.x0, x), max(h.x1, x)
		h.draw = func(y unit) {
			text(y)
			w.st.strokes.at('M', x+arm, y-h.up)
			w.st.strokes.at('h', -arm)
			w.st.strokes.at('v', 50)
		}
	}
	w.hanging.add(sizeLane, m.away, h)
}

// stroke draws a dashed line through the staff, clear of the note before.
func (w *marker) stroke(m *marked) {
	x := w.l.between(w.staff, m.bar, m.x)
	reach := w.st.reach() + 60
	w.st.fills.dashes(x, -reach, reach, markLine, 40, 30)
}

// repeatCount writes how many equal bars there have been.
func (w *marker) repeatCount(m *marked) {
	f := smallFace
	f.anchor = atMiddle
	w.hanging.add(wordLane, upwards, w.c.words(w.staff, w.l.middle(m.bar), "("+strconv.Itoa(m.N)+")", f))
}
