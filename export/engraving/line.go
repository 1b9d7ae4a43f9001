package engraving

import (
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// line is one system while it is made. The passes of place fill it in; each
// builds on those before.
type line struct {
	e      *engraver
	rows   []row
	next   *row // after the line, which may announce what is new in it
	staves []lineStaff
	width  unit
	left   unit     // where the staves begin
	prefix []prefix // of each bar
	tail   prefix   // after the last barline
	edges  []unit   // x of each barline; one more than bars
	xs     [][]unit // x of each column of each bar
	spots  []spot
	voices []voiceRun // in order of part and number
	groups []beamGroup
	boxes  []box
	labels []box // texts that a barline must not cross
}

// lineStaff is a staff of the line with what is drawn on it. Places on it are
// measured from its middle line.
type lineStaff struct {
	*staff
	y       unit // of the middle line
	up      []unit
	down    []unit
	fills   path
	strokes path
	notes   ink
	texts   ink
	gaps    []gap // in the lines of tablature
}

// spot is a note or rest where it is drawn.
type spot struct {
	*item
	part   int
	bar    int
	staff  int // of the line
	column int // -1 for what has none
	x      unit
	tip    unit // of the stem
	restY  unit
	group  int // of beams, -1 for none
}

// center is the middle of a head that stands on the stem's usual side.
func (s *spot) center() unit { return s.x + s.shift + s.size(59) }

// voiceRun lists the spots of one voice, in order of time.
type voiceRun struct {
	key   voiceKey
	staff int
	spots []int
}

// box is the place of something drawn, from the middle line of its staff.
type box struct {
	what           string
	staff          int
	x0, y0, x1, y1 unit
}

func (e *engraver) newLine(rows []row, next *row, width unit) *line {
	l := &line{e: e, rows: rows, next: next, width: width}
	l.staves = make([]lineStaff, len(e.staves))
	for i := range l.staves {
		l.staves[i].staff = &e.staves[i]
	}
	l.left = l.indent()
	l.prefix = make([]prefix, len(rows))
	l.xs = make([][]unit, len(rows))
	columns := 0
	for b := range rows {
		l.prefix[b] = l.prefixOf(b)
		columns += len(rows[b].columns)
	}
	room := make([]unit, columns)
	for b := range rows {
		n := len(rows[b].columns)
		l.xs[b], room = room[:n:n], room[n:]
	}
	l.tail = l.suffix()
	l.edges = make([]unit, len(rows)+1)
	return l
}

// end is the moment at which the line ends.
func (l *line) end() beat.Time {
	last := &l.rows[len(l.rows)-1]
	return last.bars[0].Start + last.length
}

// bars counts the bars that the line stands for.
func (l *line) bars() (n int) {
	for b := range l.rows {
		n += max(1, l.rows[b].rest)
	}
	return n
}

// right is the x of the last barline.
func (l *line) right() unit { return l.edges[len(l.rows)] }

// music is the x at which the music of a bar begins, after clef and signatures.
func (l *line) music(b int) unit {
	x := l.edges[b] + l.prefix[b].width
	if l.rows[b].bars[0].Left == sheet.RepeatStart {
		x += repeatRoom
	}
	return x
}

// repeatRoom is what the sign takes at which a repeat begins.
const repeatRoom unit = 110

// middle is the x halfway between the music's start and the next barline.
func (l *line) middle(b int) unit {
	return (l.music(b) + l.edges[b+1] - l.endRoom(b)) / 2
}

// place finds where everything stands, pass after pass: each adds to the
// skylines what the next must keep clear of.
func (l *line) place() {
	l.setSpots()
	l.skylines()
	l.beams()
	l.stems()
	l.strokes()
	l.graceNotes()
	l.tablature()
	l.rests()
	l.articulations()
	l.tuplets()
	l.ties()
	l.slurs()
	l.fermatas()
	l.marks()
	l.distances()
}

// setSpots puts the items of all bars at the places of their columns.
func (l *line) setSpots() {
	n := 0
	for b := range l.rows {
		for _, c := range l.rows[b].contents {
			n += len(c.items)
		}
	}
	l.spots = make([]spot, 0, n)
	runs := map[voiceKey]int{}
	for p, top := range l.e.tops {
		for b := range l.rows {
			if l.rows[b].rest > 0 {
				continue
			}
			items := l.rows[b].contents[p].items
			for i := range items {
				l.add(spot{item: &items[i], part: p, bar: b, staff: top + items[i].staff, column: -1, group: -1}, runs)
			}
		}
	}
}

// add puts one spot.
func (l *line) add(s spot, runs map[voiceKey]int) {
	if !quiet(s.event) {
		s.column = l.rows[s.bar].columnAt(s.event.At())
		s.x = l.xs[s.bar][s.column]
	}
	key := voiceKey{s.part, s.voice.Number}
	k, ok := runs[key]
	if !ok {
		k = len(l.voices)
		runs[key] = k
		l.voices = append(l.voices, voiceRun{key: key, staff: s.staff})
	}
	l.voices[k].spots = append(l.voices[k].spots, len(l.spots))
	l.spots = append(l.spots, s)
}
