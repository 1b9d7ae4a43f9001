package rows

import "tieover/score"

// Landing is the moment after the section's last bar: what falls there, or
// would fall there if the loops went on.
type Landing struct {
	Number int
	Label  string // of a realignment at the section's end
	Rows   []Cell // of the layers: struck where a cycle begins with an attack
}

// Landing returns what falls on the moment after the last bar. ok is false
// when the section ends inside a bar: then nothing stands beyond the barline.
func (ch *Chart) Landing() (l Landing, ok bool) {
	s := ch.Section
	last := s.Bar(ch.BarCount())
	if last.End() != s.Length {
		return Landing{}, false
	}
	l.Number = last.Number + 1
	for sign := range s.Signposts() {
		if sign.Closes && sign.Kind == score.Realigns {
			l.Label = sign.Text
		}
	}
	for _, i := range ch.Layers {
		l.Rows = append(l.Rows, ch.lands(i))
	}
	return l, true
}

// lands says whether a layer strikes the head of a cycle at the section's end,
// because it is told to or because it would if the section were a bar longer.
func (ch *Chart) lands(layer int) Cell {
	s := ch.Section
	if s.End != score.Land {
		s = s.Longer(layer)
	}
	words := s.Layers[layer].Words()
	for c := range s.Cycles(layer) {
		if c.Start < ch.Section.Length {
			for i := range c.Attacks {
				words.Next(c, &c.Attacks[i])
			}
			continue
		}
		if c.Start > ch.Section.Length || len(c.Attacks) == 0 || c.Attacks[0].At != 0 || c.Head != 0 {
			break
		}
		a := c.Attacks[0]
		cell := Cell{Sign: Cycle, Tones: a.Tones, Accent: a.Accent, Touch: a.Touch, Led: len(a.Graces) > 0}
		if s == ch.Section {
			cell.Words = words.Next(c, &a)
		}
		return cell
	}
	return Cell{}
}
