package verify

import (
	"tieover/score"
	"tieover/score/beat"
)

// turn is one time through a section, as the spec plays it.
type turn struct {
	s       *score.Section
	section int       // its index
	n       int       // which time, from 1
	at      beat.Time // when bar 1 begins, in ticks of the piece
	from    beat.Time // where in the section it begins: before bar 1 with a pickup, the first time
}

// turns lists them in order.
func turns(p *score.Piece) []turn {
	var all []turn
	now := beat.Time(0)
	for i, s := range p.Sections {
		for n := range s.Played() {
			t := turn{s: s, section: i, n: n + 1}
			if n == 0 {
				t.from = s.Opening()
			}
			t.at = now - t.from
			all = append(all, t)
			now = t.at + s.Extent()
		}
	}
	return all
}

// bars lists what it plays of the section's.
func (t *turn) bars() []score.Bar {
	var all []score.Bar
	for b := range t.s.Bars() {
		if b.Start >= t.from {
			all = append(all, b)
		}
	}
	return all
}

// count returns how many those are.
func (t *turn) count() int {
	if t.from < 0 {
		return t.s.BarCount() + 1
	}
	return t.s.BarCount()
}
