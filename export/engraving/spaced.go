package engraving

import (
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// setter sets rows on lines, from left to right.
type setter struct {
	*reader
	width   unit // of a line
	unnamed bool // no names stand before the staves
	first   bool // the line at hand is the first
}

// spaced is one line with its bars and columns set out from left to right.
type spaced struct {
	s      *setter
	rows   []row
	next   *row // after the line, which may announce what is new in it
	width  unit
	left   unit     // where the staves begin
	prefix []prefix // of each bar
	tail   prefix   // after the last barline
	edges  []unit   // x of each barline; one more than bars
	xs     [][]unit // x of each column of each bar
	spots  []placed
	voices []voiceRun // in order of part and number
}

// placed is a note or rest at its column.
type placed struct {
	*item
	part   int
	bar    int
	staff  int // of the line
	column int // -1 for what has none
	x      unit
}

// center is the middle of a head that stands on the stem's usual side.
func (s *placed) center() unit { return s.x + s.shift + s.size(59) }

// voiceKey tells the voices of all parts apart.
type voiceKey struct{ part, number int }

// voiceRun lists the spots of one voice, in order of time.
type voiceRun struct {
	key   voiceKey
	staff int
	spots []int
}

// line begins a line of rows; next is the row after them, nil if there is none.
func (s *setter) line(rows []row, next *row, width unit) *spaced {
	l := &spaced{s: s, rows: rows, next: next, width: width}
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
func (l *spaced) end() beat.Time {
	last := &l.rows[len(l.rows)-1]
	return last.bars[0].Start + last.length
}

// bars counts the bars that the line stands for.
func (l *spaced) bars() (n int) {
	for b := range l.rows {
		n += max(1, l.rows[b].rest)
	}
	return n
}

// right is the x of the last barline.
func (l *spaced) right() unit { return l.edges[len(l.rows)] }

// music is the x at which the music of a bar begins, after clef and signatures.
func (l *spaced) music(b int) unit {
	x := l.edges[b] + l.prefix[b].width
	if l.rows[b].bars[0].Left == sheet.RepeatStart {
		x += repeatRoom
	}
	return x
}

// repeatRoom is what the sign takes at which a repeat begins.
const repeatRoom unit = 110

// middle is the x halfway between the music's start and the next barline.
func (l *spaced) middle(b int) unit {
	return (l.music(b) + l.edges[b+1] - l.endRoom(b)) / 2
}

// setSpots puts the items of all bars at the places of their columns.
func (l *spaced) setSpots() {
	n := 0
	for b := range l.rows {
		for _, c := range l.rows[b].contents {
			n += len(c.items)
		}
	}
	l.spots = make([]placed, 0, n)
	runs := map[voiceKey]int{}
	for p, top := range l.s.tops {
		for b := range l.rows {
			if l.rows[b].rest > 0 {
				continue
			}
			items := l.rows[b].contents[p].items
			for i := range items {
				l.add(placed{item: &items[i], part: p, bar: b, staff: top + items[i].staff, column: -1}, runs)
			}
		}
	}
}

// add puts one spot.
func (l *spaced) add(s placed, runs map[voiceKey]int) {
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
