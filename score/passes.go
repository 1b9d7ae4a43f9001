package score

import "tieover/score/beat"

// Pass is one time through a section. Times are ticks of the piece's grid.
type Pass struct {
	Section int       // index into the piece's sections
	Time    int       // from 1, of a section that repeats more
	At      beat.Time // when its bar 1 begins, from where the piece begins to sound
	From    beat.Time // where in the section it begins: before bar 1 with a pickup, the first time
}

// Passes lists the piece's passes through its sections, in order. A repeat goes back to
// bar 1, so it leaves a pickup out.
func (p *Piece) Passes() []Pass {
	var all []Pass
	now := beat.Time(0)
	for i, s := range p.Sections {
		for n := range s.Played() {
			pass := Pass{Section: i, Time: n + 1}
			if n == 0 {
				pass.From = s.Opening()
			}
			pass.At = now - pass.From
			all = append(all, pass)
			now = pass.At + s.Extent()
		}
	}
	return all
}
