package verify

import (
	"tieover/score"
	"tieover/score/beat"
)

// pass is one time through a section, as the spec plays it.
type pass struct {
	s       *score.Section
	section int       // its index
	n       int       // which time, from 1
	at      beat.Time // when bar 1 begins, in ticks of the piece
	from    beat.Time // where in the section it begins: before bar 1 with a pickup, the first time
}

// passesOf lists them in order.
func passesOf(p *score.Piece) []pass {
	var all []pass
	now := beat.Time(0)
	for i, s := range p.Sections {
		for n := range s.Played() {
			t := pass{s: s, section: i, n: n + 1}
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
func (p *pass) bars() []score.Bar {
	var all []score.Bar
	for b := range p.s.Bars() {
		if b.Start >= p.from {
			all = append(all, b)
		}
	}
	return all
}
