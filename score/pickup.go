package score

import (
	"fmt"
	"slices"

	"tieover/score/beat"
)

// pickup makes the whole bar whose end is the section's pickup: it has the signature
// of bar 1.
func (st *settler) pickup() {
	s := st.s
	if s.Pickup.Sign() == 0 {
		return
	}
	sig := s.Meter[0]
	switch length := sig.Span(); {
	case s.FirstBar > 1:
		st.fail(s.PickupPos, "put it at the end of the one before", "only the first section has a pickup")
	case s.Pickup.Cmp(length) >= 0:
		st.fail(s.PickupPos, fmt.Sprintf("%v is %v", sig, length), "a pickup is shorter than a bar")
	default:
		whole := s.Grid.Must(length)
		s.barring.pickup = Bar{Start: -whole, Length: whole, Filled: whole, Signature: sig}
	}
}

// InPickup reports whether the layer enters with the section's pickup, or in it.
func (l *Layer) InPickup() bool { return l.EnterAt != nil && l.EnterAt.isPickup() }

// playsThrough reports whether the layer sounds from the start, or the pickup, to the
// end.
func (l *Layer) playsThrough() bool { return (l.EnterAt == nil || l.InPickup()) && l.LeaveAt == nil }

func (p *Place) isPickup() bool { return p.Kind == AtBar && p.N == 0 }

// inPickup returns the moment of a place in the pickup.
func (st *settler) inPickup(p Place) beat.Time {
	s := st.s
	from, bar := s.Opening(), s.barring.pickup
	switch {
	case from == 0:
		st.fail(p.Pos, "name a bar, or give the first section a pickup", "the section has no pickup")
		return 0
	case p.Beat == 0:
		return from
	}
	if beats := s.beatTimes(bar); p.Beat < len(beats) && beats[p.Beat-1] >= from {
		return beats[p.Beat-1]
	}
	st.fail(p.Pos, "count the beats as in a whole bar of "+bar.Signature.String()+", or name just the pickup", "the pickup has no beat %d", p.Beat)
	return from
}

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

// Played returns how often the section is played: 1 unless it is repeated.
func (s *Section) Played() int {
	if s.End != Repeat {
		return 1
	}
	return max(2, s.Times)
}

// repeatsWithoutPickup reports whether the section is repeated from bar 1 on after a
// pickup.
func (s *Section) repeatsWithoutPickup() bool { return s.End == Repeat && s.Opening() < 0 }

// checkRepeat refuses what goes on from a pickup into bar 1, where a repeat begins
// without it: a sound, and a way of playing that is changed later.
func (st *settler) checkRepeat() {
	s := st.s
	if !s.repeatsWithoutPickup() {
		return
	}
	for i, l := range s.Layers {
		played := s.Techniques(l)
		for k, t := range played {
			if t.Time >= 0 {
				break
			}
			later := slices.IndexFunc(played[k+1:], func(u TechniqueAt) bool { return u.Matter == t.Matter })
			if later >= 0 && played[k+1+later].Time > 0 {
				st.fail(l.Pos, "write the words at bar 1 as well", "the repeat goes back to bar 1, where %s is not told again how the pickup was played", l.Name)
				break
			}
		}
		if l.Enters >= 0 {
			continue
		}
		for at, a := range s.Attacks(i) {
			if at >= 0 {
				break
			}
			if at+a.Length > 0 && l.Holds(a) {
				st.fail(l.Pos, "let it end with the pickup, or do not repeat", "%s holds a note from the pickup into bar 1, where the repeat begins it again", l.Name)
				break
			}
		}
	}
}

// overTheRepeat warns of slurs and hairpins that lead from the pickup over the barline to
// which a repeat goes back, where their ends have no beginnings.
func (st *settler) overTheRepeat() {
	s := st.s
	if !s.repeatsWithoutPickup() {
		return
	}
	const hint = "let it end with the pickup, or do not repeat"
	for i, l := range s.Layers {
		if l.Enters < 0 && s.slursOver(i) {
			st.warn(l.Pos, hint, "a slur of %s leads from the pickup into bar 1, to which the repeat goes back", l.Name)
		}
	}
	for i := range s.Plan {
		if e := &s.Plan[i]; e.Heard() != NoHairpin && e.Time < 0 && e.ToTime > 0 {
			st.warn(e.At.Pos, hint, "this hairpin leads from the pickup into bar 1, to which the repeat goes back")
		}
	}
}

// slursOver reports whether a slur of the layer leads over the start of bar 1.
func (s *Section) slursOver(layer int) (open bool) {
	slurs := s.Layers[layer].Slurs()
	for c := range s.Cycles(layer) {
		for k, a := range c.Attacks {
			if c.Start+a.At >= 0 {
				return open
			}
			slur := slurs.Next(c, k)
			open = (open || slur.Starts) && !slur.Stops
		}
	}
	return false
}
