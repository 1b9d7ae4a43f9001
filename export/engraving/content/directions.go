package content

import "tieover/layout/sheet"

// crossing names a group of beams that comes into a bar or goes out of it.
type crossing struct {
	voice int // its number
	out   bool
}

// span is the lowest and the highest place of some heads.
type span struct{ low, high int }

func (s span) with(o span) span { return span{min(s.low, o.low), max(s.high, o.high)} }

// up reports whether free stems go up: the head farther from the middle line
// decides; down when both are as far.
func (s span) up(st *Staff) bool { return st.Lines == 1 || -s.low > s.high }

// direct chooses the directions of stems.
func (c *Bar) direct(staves []Staff, stems map[crossing]bool) {
	for i := range c.Items {
		it := &c.Items[i]
		switch {
		case it.Note == nil:
		case !it.Free():
			it.Up = it.Voice.Stem == sheet.StemUp
		case it.beam >= 0:
			it.Up = c.beams[it.beam].up(&staves[it.Staff])
		default:
			it.Up = it.span().up(&staves[it.Staff])
		}
	}
	for v, bounds := range c.voices {
		c.turn(v, bounds, stems)
	}
}

// turn gives the groups that cross a barline the direction of the whole group.
func (c *Bar) turn(v int, bounds [2]int, stems map[crossing]bool) {
	if len(stems) == 0 || bounds[0] == bounds[1] || !c.Items[bounds[0]].Free() {
		return
	}
	number := c.Items[bounds[0]].Voice.Number
	for _, out := range []bool{false, true} {
		up, ok := stems[crossing{number, out}]
		group := c.edgeGroup(v, out)
		if !ok || group < 0 {
			continue
		}
		for i := bounds[0]; i < bounds[1]; i++ {
			if c.Items[i].beam == group {
				c.Items[i].Up = up
			}
		}
	}
}

// edgeGroup returns the group of beams of a voice that crosses the left or the
// right barline, -1 if there is none.
func (c *Bar) edgeGroup(v int, out bool) int {
	b := c.voices[v]
	for k := range b[1] - b[0] {
		i := b[0] + k
		if out {
			i = b[1] - 1 - k
		}
		it := &c.Items[i]
		if it.Note == nil {
			continue
		}
		if out && it.Note.BeamOut || !out && it.Note.BeamIn {
			return it.beam
		}
		return -1
	}
	return -1
}
