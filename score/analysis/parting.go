package analysis

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Likeness is how two versions of a loop stand to one another.
type Likeness int

const (
	One      Likeness = iota // in the same place of the same cycle
	InRhythm                 // so, but with other pitches
	Apart
)

// Parting is a moment at which two versions of a loop, cut and whole, come apart
// or together again.
type Parting struct {
	Time   beat.Time
	Now    Likeness  // from here on
	Into   beat.Time // how far the second version is in its cycle
	Length beat.Time // of that cycle; 0 where it has none
}

// Partings walks the moments at which two layers stop or begin to play the same
// cycle in the same place, in time order. They begin as one; what sounds on from
// a cycle that is over does not count, and while both are silent they neither part
// nor meet. At the section's end they can only meet.
func Partings(s *score.Section, a, b int) iter.Seq[Parting] {
	return func(yield func(Parting) bool) {
		longer := s.Longer(a, b)
		one, other := readPasses(longer, a), readPasses(longer, b)
		was := One
		for t := min(one.playsFrom(s.Opening()), other.playsFrom(s.Opening())); t <= s.Length; t = min(one.until(t), other.until(t)) {
			a, b := one.at(t), other.at(t)
			if a == nil && b == nil {
				continue
			}
			now := likeness(a, b)
			if now == was || t == s.Length && now == Apart {
				continue
			}
			was = now
			p := Parting{Time: t, Now: now}
			if b != nil {
				p.Into, p.Length = t-b.Start, b.Length
			}
			if !yield(p) {
				return
			}
		}
	}
}

// passReader finds the cycle of a layer that is under way.
type passReader struct {
	cycles *score.CycleReader
	now    *score.Cycle // the last that was read; nil past the end
}

func readPasses(s *score.Section, layer int) *passReader {
	r := &passReader{cycles: s.ReadCycles(layer)}
	r.read()
	return r
}

func (r *passReader) read() {
	r.now = nil
	if c, more := r.cycles.Next(); more && !c.Landing {
		r.now = &c
	}
}

// forever is later than any section ends.
const forever = beat.Time(1) << 62

// playsFrom is the first moment at or after t at which the layer plays.
func (r *passReader) playsFrom(t beat.Time) beat.Time {
	if r.at(t); r.now == nil {
		return forever
	}
	return max(t, r.now.Start)
}

// at is the cycle under way at t, nil if there is none. Calls come in time order.
func (r *passReader) at(t beat.Time) *score.Cycle {
	for r.now != nil && r.now.End() <= t {
		r.read()
	}
	if r.now == nil || r.now.Start > t {
		return nil
	}
	return r.now
}

// until is the first moment after t at which a cycle begins or ends.
func (r *passReader) until(t beat.Time) beat.Time {
	switch c := r.at(t); {
	case r.now == nil:
		return forever
	case c == nil:
		return r.now.Start
	default:
		return c.End()
	}
}

// likeness compares two cycles as far as both sound; one of them may be nil.
func likeness(a, b *score.Cycle) Likeness {
	if a == nil || b == nil || a.Start != b.Start {
		return Apart
	}
	end := min(a.Sounds, b.Sounds)
	before := func(g score.Group) bool { return g.At >= end }
	sameGroups := slices.EqualFunc(slices.DeleteFunc(slices.Clone(a.Groups), before), slices.DeleteFunc(slices.Clone(b.Groups), before),
		func(g, h score.Group) bool { return g.At == h.At && g.Blank == h.Blank && g.Size == h.Size })
	late := func(x score.Attack) bool { return x.At >= end }
	x, y := slices.DeleteFunc(slices.Clone(a.Attacks), late), slices.DeleteFunc(slices.Clone(b.Attacks), late)
	if !sameGroups || !slices.EqualFunc(x, y, func(g, h score.Attack) bool { return g.At == h.At }) {
		return Apart
	}
	if !slices.EqualFunc(x, y, func(g, h score.Attack) bool { return slices.Equal(g.Tones, h.Tones) }) {
		return InRhythm
	}
	return One
}
