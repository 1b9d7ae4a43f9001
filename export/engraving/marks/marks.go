package marks

import (
	"strconv"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// marked is a mark of the sheet with its place on the line.
type marked struct {
	*sheet.Mark
	bar   int
	key   spacing.VoiceKey
	away  pen.Unit  // the side of its voice
	at    beat.Time // of the piece
	x     pen.Unit  // the left edge of the note it stands at, or the moment's place
	right pen.Unit  // the right edge of that note
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
	sheet.Words:         {true, words(pen.WordsFace)},
	sheet.TechniqueMark: {true, words(pen.TechniqueFace)},
	sheet.Cue:           {true, words(pen.SmallFace)},
	sheet.ScoreBar:      {true, words(pen.SmallFace)},
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
func words(f pen.Face) func(*marker, *marked) {
	return func(w *marker, m *marked) {
		w.hanging.Add(canvas.WordLane, pen.Upwards, w.c.Words(w.staff, m.x, m.Text, f))
	}
}

// marker draws the marks of one staff of a line.
type marker struct {
	l       *spacing.Line
	c       *canvas.Canvas
	carried *Carried
	staff   int
	st      *canvas.Staff
	hanging canvas.Hanging
	marks   []marked
	cycles  map[moment]cycleMarks // what is at the moments at which cycles begin
	clear   pen.Unit              // from where the top lane is free

	// What began on this line.
	brackets map[spacing.VoiceKey]*marked
	hairpins map[spacing.VoiceKey]*marked
	gradual  *marked // rit. or accel.
}

// Carried is what goes on from one line to the next.
type Carried struct {
	brackets map[spacing.VoiceKey]bool // of cycles
	hairpins map[spacing.VoiceKey]int  // 1 opens, 2 closes
	gradual  string                    // rit. or accel.
	held     map[verseKey]bool         // syllables
}

// New returns what goes on into the first line: nothing.
func New() Carried {
	return Carried{brackets: map[spacing.VoiceKey]bool{}, hairpins: map[spacing.VoiceKey]int{}, held: map[verseKey]bool{}}
}

type moment struct {
	key spacing.VoiceKey
	at  beat.Time
}

// cycleMarks are the marks of one moment of a voice that are drawn together.
type cycleMarks struct {
	number, group string
	bracket       bool // one begins
}

// Draw draws the words, lines and marks of all staves of a line.
func Draw(l *spacing.Line, c *canvas.Canvas, carried *Carried) {
	for i := range c.Staves {
		w := marker{l: l, c: c, carried: carried, staff: i, st: &c.Staves[i], cycles: map[moment]cycleMarks{},
			brackets: map[spacing.VoiceKey]*marked{}, hairpins: map[spacing.VoiceKey]*marked{}}
		w.lyrics()
		w.collect()
		for k := range w.marks {
			m := &w.marks[k]
			markRows[m.Kind].draw(&w, m)
		}
		w.goOn()
		c.Hang(i, &w.hanging)
	}
}

// collect finds the marks that stand at the staff, and their places.
func (w *marker) collect() {
	l := w.l
	for b := range l.Rows {
		bar := &l.Rows[b].Bars[w.st.Part]
		for i := range bar.Marks {
			m := &bar.Marks[i]
			v := &bar.Measure.Voices[m.Voice]
			part := markRows[m.Kind].part && m.Voice == 0 // a further voice has its words at its own staff
			if part && w.st.Number != 1 || !part && v.Staff != w.st.Number {
				continue
			}
			key := spacing.VoiceKey{Part: w.st.Part, Number: v.Number}
			k := marked{Mark: m, bar: b, key: key, away: content.Side(v)}
			at, onNote := bar.Measure.Length, false
			if k.end = m.Before >= len(v.Events); !k.end {
				at = v.Events[m.Before].At() + m.Offset
				_, onNote = v.Events[m.Before].(*sheet.Note)
			}
			k.at, k.x = bar.Start+at, l.XAt(b, at)
			if at == 0 && len(l.Xs[b]) == 0 {
				k.x = l.Music(b) + spacing.AfterPrefix
			}
			k.right = k.x
			if onNote && m.Offset == 0 {
				k.right = min(k.right+pen.HeadWidth(pen.HeadBlack), l.Edges[b+1]-5) // bars that repeat have no heads
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
		x = w.l.Edges[m.bar]
	}
	h := w.boxedAt(m, x, pen.LabelFace)
	w.clear = h.X1 + 60
	w.hanging.Add(canvas.TopLane, pen.Upwards, h)
}

func (w *marker) boxed(m *marked) {
	w.hanging.Add(canvas.BoxLane, pen.Upwards, w.boxedAt(m, m.x, pen.BoxedFace))
}

// boxedAt is a text in a box that begins at x, or ends with its bar if it stands
// at the end.
func (w *marker) boxedAt(m *marked, x pen.Unit, f pen.Face) canvas.Hung {
	if m.end {
		x -= f.Width(m.Text) + 2*canvas.BoxPad
	}
	return w.c.BoxedWords(w.staff, x, m.Text, f)
}

// takeUp names an instrument: in bold where it is taken up; what comes next before
// the barline, where it stands at the end of a bar.
func (w *marker) takeUp(m *marked) {
	f, x := pen.TechniqueFace, m.x
	if m.Instrument != nil {
		f = pen.TakeUpFace
	}
	if m.end {
		x -= f.Width(m.Text)
	}
	w.hanging.Add(canvas.WordLane, pen.Upwards, w.c.Words(w.staff, x, m.Text, f))
}

func (w *marker) chord(m *marked) {
	w.hanging.Add(canvas.ChordLane, pen.Upwards, w.c.Words(w.staff, m.x, withSigns(m.Text), pen.ChordFace))
}

// withSigns writes a chord symbol with signs for its accidentals: a b is a flat after
// the letter of a note and before a degree.
func withSigns(symbol string) string {
	signs := []rune(symbol)
	for i, r := range signs {
		after := i > 0 && (signs[i-1] >= 'A' && signs[i-1] <= 'G' || signs[i-1] == '♭')
		before := i+1 < len(signs) && signs[i+1] >= '0' && signs[i+1] <= '9'
		switch {
		case r == '#':
			signs[i] = '♯'
		case r == 'b' && (after || before):
			signs[i] = '♭'
		}
	}
	return string(signs)
}

// groupSize writes the size of a group, with a corner where a barline cuts it:
// before its first half, after its second.
func (w *marker) groupSize(m *marked) {
	f := pen.SmallFace
	f.Anchor = pen.AtMiddle
	h := w.c.Words(w.staff, m.x+59, strconv.Itoa(m.N), f)
	x, arm := h.X0-15, pen.Unit(30)
	if m.Text == sheet.GoneOn {
		x, arm = h.X1+15, -arm
	}
	if m.Text == sheet.GoesOn || m.Text == sheet.GoneOn {
		text := h.Draw
		h.X0, h.X1 = min(h.X0, x), max(h.X1, x)
		h.Draw = func(y pen.Unit) {
			text(y)
			w.st.Strokes.At('M', x+arm, y-h.Up)
			w.st.Strokes.At('h', -arm)
			w.st.Strokes.At('v', 50)
		}
	}
	w.hanging.Add(canvas.SizeLane, m.away, h)
}

// stroke draws a dashed line through the staff, clear of the note before.
func (w *marker) stroke(m *marked) {
	x := w.l.Between(w.staff, m.bar, m.x)
	reach := w.st.Reach() + 60
	w.st.Fills.Dashes(x, -reach, reach, pen.MarkLine, 40, 30)
}

// repeatCount writes how many equal bars there have been.
func (w *marker) repeatCount(m *marked) {
	f := pen.SmallFace
	f.Anchor = pen.AtMiddle
	w.hanging.Add(canvas.WordLane, pen.Upwards, w.c.Words(w.staff, w.l.Middle(m.bar), "("+strconv.Itoa(m.N)+")", f))
}
