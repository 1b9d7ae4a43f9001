package engraving

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
)

// Tablature stands below the notes of its part, a line for each string, and shows the
// fret of each head where it is struck. Rests, stems, key and time are read above
// (common practice).
const (
	stringGap unit = 150 // between its lines, so that numbers on neighbours keep apart
	fretAir   unit = 18  // that a line leaves free at each side of a number
)

// gap is where a line of tablature is broken by a number.
type gap struct {
	line   int // from 0, the highest string
	x0, x1 unit
}

// fretText is the number of a head, in parentheses where it is hardly heard.
func (it *item) fretText(head int) string {
	text := strconv.Itoa(int(it.note.Heads[head].Stop.Fret))
	if it.note.Touch.Has(score.Ghost) {
		text = "(" + text + ")"
	}
	return text
}

// fretFace is what it is set in.
func (it *item) fretFace() face {
	f := fretFace
	f.size = it.size(f.size)
	return f
}

// eachFret calls see with the numbers of a note, from its left edge: those of its grace
// notes, and of its heads where it is struck. What is no note of the player's has none.
func (it *item) eachFret(see func(it *item, head int, middle unit)) {
	if it.note == nil || it.voice.Small || it.note.TieIn || it.note.Heads[0].Stop.String == 0 {
		return
	}
	for _, g := range it.graces {
		for head := range g.note.Heads {
			see(g.item, head, g.x+g.width(head)/2)
		}
	}
	for head := range it.note.Heads {
		see(it, head, headWidth(headBlack)/2)
	}
}

// fretRoom adds what the numbers on a staff of the part take beside their columns.
func (c *content) fretRoom(staff int) {
	for k := range c.places {
		r := reach{staff: staff}
		for i := range c.items {
			if it := &c.items[i]; it.event.At() == c.places[k].at {
				it.eachFret(func(n *item, head int, middle unit) {
					half := n.fretFace().width(n.fretText(head))/2 + fretAir
					r.left, r.right = max(r.left, half-middle), max(r.right, middle+half)
				})
			}
		}
		if r.right > 0 {
			c.places[k].reach = append(c.places[k].reach, r)
		}
	}
}

// stroke is a number of tablature: where two layers strike it together, it is one.
type stroke struct {
	bar    int
	at     beat.Time
	string int8
	led    unit // where it stands before its note, 0 for what is no grace note
}

// tablature writes the numbers of all notes on the strings.
func (l *line) tablature() {
	for i := range l.staves {
		st := &l.staves[i]
		if !st.tab {
			continue
		}
		written := map[stroke]bool{}
		for k := range l.spots {
			if s := &l.spots[k]; s.part == st.part {
				s.eachFret(func(n *item, head int, middle unit) {
					now := stroke{s.bar, s.event.At(), n.note.Heads[head].Stop.String, min(middle, 0)}
					if !written[now] {
						l.fret(i, n, head, s.x+middle)
					}
					written[now] = true
				})
			}
		}
	}
}

// fret writes one number on its line, which is broken there.
func (l *line) fret(i int, n *item, head int, x unit) {
	st, f, text := &l.staves[i], n.fretFace(), n.fretText(head)
	line := int(n.note.Heads[head].Stop.String) - 1
	y := unit(line)*stringGap - st.edge()
	x0, x1 := f.span(x, text)
	st.texts.text(x, y+f.rise()/2, text, f)
	st.gaps = append(st.gaps, gap{line, x0 - fretAir, x1 + fretAir})
	l.occupy("fret", i, x0, y-f.rise()/2, x1, y+f.rise()/2)
}

// strings draws the lines of tablature, broken where numbers stand.
func (s *lineStaff) strings(p *path, from, to unit) {
	slices.SortFunc(s.gaps, func(a, b gap) int { return cmp.Or(a.line-b.line, cmp.Compare(a.x0, b.x0)) })
	gaps := s.gaps
	for n := range s.lines {
		x := from
		for len(gaps) > 0 && gaps[0].line == n {
			if gaps[0].x0 > x {
				s.string(p, n, x, gaps[0].x0)
			}
			x, gaps = max(x, gaps[0].x1), gaps[1:]
		}
		s.string(p, n, x, to)
	}
}

func (s *lineStaff) string(p *path, n int, x0, x1 unit) {
	p.at('M', x0, s.y-s.edge()+unit(n)*s.between())
	p.at('H', x1)
}

// drawTab writes the word that is the clef of tablature, letter below letter.
func (s *lineStaff) drawTab(x unit) {
	f := tabFace
	f.size = 2 * s.edge() / 3
	step := f.size.percent(90)
	for i, letter := range []string{"T", "A", "B"} {
		s.texts.text(x+120, unit(i-1)*step+f.rise()/2, letter, f)
	}
}
