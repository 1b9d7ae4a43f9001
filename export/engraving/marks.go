package engraving

import (
	"cmp"
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
		w.hanging.add(wordLane, upwards, w.l.words(w.staff, m.x, m.Text, f))
	}
}

// marker draws the marks of one staff of a line.
type marker struct {
	l        *line
	staff    int
	st       *lineStaff
	hanging  hanging
	marks    []marked
	brackets map[voiceKey]*marked // that began on this line
	hairpins map[voiceKey]*marked
	gradual  *marked               // rit. or accel. that began on this line
	cycles   map[moment]cycleMarks // what is at the moments at which cycles begin
	clear    unit                  // from where the top lane is free
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

// marks draws everything that stands at places rather than notes.
func (l *line) marks() {
	for i := range l.staves {
		w := marker{l: l, staff: i, st: &l.staves[i], brackets: map[voiceKey]*marked{}, hairpins: map[voiceKey]*marked{}, cycles: map[moment]cycleMarks{}}
		w.lyrics()
		w.collect()
		for k := range w.marks {
			m := &w.marks[k]
			markRows[m.Kind].draw(&w, m)
		}
		w.goOn()
		l.hang(i, &w.hanging)
	}
	l.numberBars()
	l.sayTimes()
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
	return w.l.boxedWords(w.staff, x, m.Text, f)
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
	w.hanging.add(wordLane, upwards, w.l.words(w.staff, x, m.Text, f))
}

// sharpened writes the signs of chord symbols; flats stay letters where no
// accidental can be meant.
var sharpened = strings.NewReplacer("#", "♯")

func (w *marker) chord(m *marked) {
	w.hanging.add(chordLane, upwards, w.l.words(w.staff, m.x, sharpened.Replace(m.Text), chordFace))
}

// groupSize writes the size of a group, with a corner where a barline cuts it:
// before its first half, after its second.
func (w *marker) groupSize(m *marked) {
	f := smallFace
	f.anchor = atMiddle
	h := w.l.words(w.staff, m.x+59, strconv.Itoa(m.N), f)
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

// between is where a stroke stands before a moment: halfway between what is
// left and what is right of it.
func (l *line) between(staff, b int, x unit) unit {
	r := &l.rows[b]
	free, sign := l.music(b)+30, x
	for k := range r.columns {
		for i := range r.columns[k].reach {
			o := &r.columns[k].reach[i]
			switch {
			case o.staff != staff || l.xs[b][k] > x:
			case l.xs[b][k] == x:
				sign = x - o.left
			default:
				free = l.xs[b][k] + o.right
			}
		}
	}
	if sign-free < 120 {
		return (free + sign) / 2
	}
	return sign - 45
}

// numberBars writes the number of its first bar over each line but the first.
func (l *line) numberBars() {
	bar := &l.rows[0].bars[0]
	if l.e.first || bar.Implicit || l.e.o.Unnumber {
		return
	}
	st := &l.staves[0]
	x, y := l.left-30, -st.reach()-40
	if l.joined(0) && (l.staves[1].part != 0 || l.staves[1].tab) { // over the bracket's tip
		x, y = x-30, y-80
	}
	st.texts.text(x, y, cmp.Or(bar.Printed, strconv.Itoa(bar.Number)), numberFace)
	st.add(x-100, x, y-110, y)
}

// sayTimes says how often a repeat is played that is played more than twice,
// over its first bar.
func (l *line) sayTimes() {
	for b := range l.rows {
		if r := &l.rows[b].bars[0]; r.Left == sheet.RepeatStart && r.Times > 2 {
			l.hangLane(0, upwards, lanePads[topLane], []hung{l.words(0, l.music(b), strconv.Itoa(r.Times)+" times", wordsFace)})
		}
	}
}
