package score

import (
	"math"
	"slices"

	"tieover/score/beat"
)

// count counts the attacks of the piece up to this section where the bound is
// too coarse: by arithmetic where cycles are alike, else one by one until they
// are too many.
func (st *settler) count() {
	n := st.earlierAttacks()
	for _, l := range st.s.Layers {
		if l.IsEven() {
			n += l.evenAttacks()
		}
	}
	for i, l := range st.s.Layers {
		if !l.IsEven() && n <= MaxAttacks {
			n += st.s.countAttacks(i, MaxAttacks+1-n)
		}
	}
	if n > MaxAttacks {
		st.tooManyAttacks("the piece has %s attacks or more", n)
		return
	}
	st.s.attacks = n - st.earlierAttacks()
}

// AttackCount returns how many attacks of a layer begin before the section's end,
// the stroke of a landing left out. It walks only what changes.
func (s *Section) AttackCount(layer int) int {
	l := s.Layers[layer]
	switch {
	case l.IsEven() && l.Leaves <= s.Length:
		return l.evenAttacks()
	case l.Line == nil && l.Loop == Run && len(l.Except) == 0:
		return s.countAttacks(layer, math.MaxInt)
	}
	n := 0
	for at := range s.Attacks(layer) {
		if at < s.Length {
			n++
		}
	}
	return n
}

// countAttacks counts the attacks of a layer, giving up at most.
func (s *Section) countAttacks(layer, most int) int {
	if s.Layers[layer].Line != nil {
		return len(s.Layers[layer].Line)
	}
	w := newWalker(s, layer)
	n := 0
	for n < most {
		c, played, ok := w.time()
		if !ok || w.isOver(&c) {
			break // donors reports why
		}
		if w.l.resizes() && c.Cut == NotCut && c.Start >= w.l.Enters && played.exception == 0 {
			n += w.l.struck(played)
		} else {
			n += len(w.body(&c, played).attacks)
		}
		w.advance(&c)
		if w.index%64 == 0 {
			n += w.leap()
		}
	}
	return n
}

// leap skips whole turns of the patterns once nothing changes any more, up to the last
// but one, and returns how many attacks they have.
func (w *walker) leap() int {
	l := w.l
	if l.Loop != Run || w.start < l.Enters || !w.still() || slices.ContainsFunc(l.Except, func(e Exception) bool { return e.Cycle >= w.index }) {
		return 0
	}
	n, length := 0, beat.Time(0)
	for i := range l.Patterns {
		sh := w.st.Shape(i)
		n += l.struck(playedAs{pattern: &l.Patterns[i], shape: sh})
		length += beat.Time(sh.Pulses) * l.Unit
	}
	if length == 0 {
		return 0
	}
	turns := max(0, int((w.limit-w.start)/length)-1)
	w.start += beat.Time(turns) * length
	w.index += turns * len(l.Patterns)
	w.st.Skip(turns * len(l.Patterns))
	return turns * n
}

// isOver reports whether processes have run out or left nothing to play.
func (w *walker) isOver(c *Cycle) bool {
	_, spent := w.st.Spent()
	return spent || c.Length == 0
}

// still reports whether no process will change a size any more.
func (w *walker) still() bool { return w.l.Until == UntilNever && w.st.IsStill() }

// struck counts the attacks of a whole cycle without making them.
func (l *Layer) struck(p playedAs) int {
	if p.pattern.Box != nil {
		return len(l.build(p.pattern, p.shape).attacks)
	}
	n := 0
	for _, g := range p.shape.Groups {
		figure, ok := l.Figures[g.Size]
		switch {
		case g.Blank:
		case ok:
			for _, sign := range figure {
				if sign == SignAttack {
					n++
				}
			}
		case l.Strike == StrikeAll:
			n += g.Size
		default:
			n++
		}
	}
	return n
}
