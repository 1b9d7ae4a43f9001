package score

import (
	"iter"
	"slices"

	"tieover/score/beat"
)

// Cycles walks the cycles of a layer that sound in the section, in order. One
// that began before the layer's entry comes first, with a Start before it.
func (s *Section) Cycles(layer int) iter.Seq[*Cycle] {
	return func(yield func(*Cycle) bool) {
		r := s.ReadCycles(layer)
		for {
			c, ok := r.Next() // one that callers may keep
			if !ok || !yield(&c) {
				return
			}
		}
	}
}

// CycleReader makes the cycles of a layer one by one, as Cycles does.
type CycleReader struct {
	w       *walker // nil for a free line
	windows []window
	line    *Cycle // until it is read

	held   Cycle // made, but not joined to the one after it
	more   bool
	landed bool
}

// ReadCycles reads the cycles of a layer from the first.
func (s *Section) ReadCycles(layer int) *CycleReader {
	if s.Layers[layer].Line != nil {
		c := s.lineCycle(layer)
		return &CycleReader{line: &c, landed: true}
	}
	r := &CycleReader{w: newWalker(s, layer), windows: windowsOf(s.homeOf(layer), s.Layers[layer])}
	r.held, _, r.more = r.w.next()
	return r
}

// Next returns the next cycle; false when there is none.
func (r *CycleReader) Next() (c Cycle, ok bool) {
	switch {
	case r.line != nil:
		c = *r.line
		r.line = nil
		return c, true
	case r.more:
		following, carry, more := r.w.next()
		if more {
			join(&r.held, &following, carry)
		} else {
			clip(&r.held, r.w.limit)
		}
		c = r.held
		r.held, r.more = following, more
		return except(r.windows, c), true
	case !r.landed:
		r.landed = true
		return r.w.landing()
	}
	return Cycle{}, false
}

// Passes walks Cycles without their groups and attacks, and without the landing. A
// free line has none.
func (s *Section) Passes(layer int) iter.Seq[*Cycle] {
	return func(yield func(*Cycle) bool) {
		if s.Layers[layer].Line != nil {
			return
		}
		for c := range newWalker(s, layer).walk() {
			if !yield(c) {
				return
			}
		}
	}
}

// join settles how long the last attack of a cycle lasts: over the edge up to
// the next attack, or on through a box that begins with holds, or not past the
// edge when the next cycle starts over or rests.
func join(c, next *Cycle, carry beat.Time) {
	if len(c.Attacks) == 0 {
		return
	}
	last := c.Attacks[len(c.Attacks)-1]
	length := last.Length
	if carry > 0 && last.At+last.Length == c.Length {
		length += carry
	}
	if len(next.Attacks) > 0 {
		length = min(length, next.Start+next.Attacks[0].At-c.Start-last.At)
	}
	length = min(length, next.End()-c.Start-last.At)
	if carry == silent {
		length = min(length, next.Start-c.Start-last.At)
	}
	setLastLength(c, length)
}

// clip ends what rings past the limit.
func clip(c *Cycle, limit beat.Time) {
	if n := len(c.Attacks); n > 0 {
		last := c.Attacks[n-1]
		setLastLength(c, min(last.Length, limit-c.Start-last.At))
	}
}

func setLastLength(c *Cycle, length beat.Time) {
	n := len(c.Attacks)
	if c.Attacks[n-1].Length != length {
		c.Attacks = slices.Clone(c.Attacks) // the slice may be shared
		c.Attacks[n-1].Length = length
	}
}

// Attacks walks the attacks of a layer in order, each with its onset.
func (s *Section) Attacks(layer int) iter.Seq2[beat.Time, *Attack] {
	return func(yield func(beat.Time, *Attack) bool) {
		for c := range s.Cycles(layer) {
			for i := range c.Attacks {
				if !yield(c.Start+c.Attacks[i].At, &c.Attacks[i]) {
					return
				}
			}
		}
	}
}
