package spacing

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Setter sets rows on lines, from left to right.
type Setter struct {
	*content.Reader
	Width   pen.Unit // of a line
	Unnamed bool     // no names stand before the staves
	First   bool     // the line at hand is the first
}

// Line is one line with its bars and columns set out from left to right.
type Line struct {
	s      *Setter
	Rows   []content.Row
	Next   *content.Row // after the line, which may announce what is new in it
	Width  pen.Unit
	Left   pen.Unit     // where the staves begin
	Prefix []Prefix     // of each bar
	Tail   Prefix       // after the last barline
	Edges  []pen.Unit   // x of each barline; one more than bars
	Xs     [][]pen.Unit // x of each column of each bar
	Spots  []Spot
	Voices []VoiceRun // in order of part and number
}

// Spot is a note or rest at its column.
type Spot struct {
	*content.Item
	Part   int
	Bar    int
	Staff  int // of the line
	Column int // -1 for what has none
	X      pen.Unit
}

// Center is the middle of a head that stands on the stem's usual side.
func (s *Spot) Center() pen.Unit { return s.X + s.Shift + s.Size(59) }

// VoiceKey tells the voices of all parts apart.
type VoiceKey struct{ Part, Number int }

// VoiceRun lists the spots of one voice, in order of time.
type VoiceRun struct {
	Key   VoiceKey
	Staff int
	Spots []int
}

// Line begins a line of rows; next is the row after them, nil if there is none.
func (s *Setter) Line(rows []content.Row, next *content.Row, width pen.Unit) *Line {
	l := &Line{s: s, Rows: rows, Next: next, Width: width}
	l.Left = l.indent()
	l.Prefix = make([]Prefix, len(rows))
	l.Xs = make([][]pen.Unit, len(rows))
	columns := 0
	for b := range rows {
		l.Prefix[b] = l.prefixOf(b)
		columns += len(rows[b].Columns)
	}
	room := make([]pen.Unit, columns)
	for b := range rows {
		n := len(rows[b].Columns)
		l.Xs[b], room = room[:n:n], room[n:]
	}
	l.Tail = l.suffix()
	l.Edges = make([]pen.Unit, len(rows)+1)
	return l
}

// End is the moment at which the line ends.
func (l *Line) End() beat.Time {
	last := &l.Rows[len(l.Rows)-1]
	return last.Bars[0].Start + last.Length
}

// Bars counts the bars that the line stands for.
func (l *Line) Bars() (n int) {
	for b := range l.Rows {
		n += max(1, l.Rows[b].Rest)
	}
	return n
}

// Right is the x of the last barline.
func (l *Line) Right() pen.Unit { return l.Edges[len(l.Rows)] }

// Music is the x at which the music of a bar begins, after clef and signatures.
func (l *Line) Music(b int) pen.Unit {
	x := l.Edges[b] + l.Prefix[b].Width
	if l.Rows[b].Bars[0].Left == sheet.RepeatStart {
		x += RepeatRoom
	}
	return x
}

// RepeatRoom is what the sign takes at which a repeat begins.
const RepeatRoom pen.Unit = 110

// Middle is the x halfway between the music's start and the next barline.
func (l *Line) Middle(b int) pen.Unit {
	return (l.Music(b) + l.Edges[b+1] - l.EndRoom(b)) / 2
}

// PlaceSpots puts the items of all bars at the places of their columns.
func (l *Line) PlaceSpots() {
	n := 0
	for b := range l.Rows {
		for _, c := range l.Rows[b].Contents {
			n += len(c.Items)
		}
	}
	l.Spots = make([]Spot, 0, n)
	runs := map[VoiceKey]int{}
	for p, top := range l.s.Tops {
		for b := range l.Rows {
			if l.Rows[b].Rest > 0 {
				continue
			}
			items := l.Rows[b].Contents[p].Items
			for i := range items {
				l.add(Spot{Item: &items[i], Part: p, Bar: b, Staff: top + items[i].Staff, Column: -1}, runs)
			}
		}
	}
}

// add puts one spot.
func (l *Line) add(s Spot, runs map[VoiceKey]int) {
	if !content.Quiet(s.Event) {
		s.Column = l.Rows[s.Bar].ColumnAt(s.Event.At())
		s.X = l.Xs[s.Bar][s.Column]
	}
	key := VoiceKey{s.Part, s.Voice.Number}
	k, ok := runs[key]
	if !ok {
		k = len(l.Voices)
		runs[key] = k
		l.Voices = append(l.Voices, VoiceRun{Key: key, Staff: s.Staff})
	}
	l.Voices[k].Spots = append(l.Voices[k].Spots, len(l.Spots))
	l.Spots = append(l.Spots, s)
}
