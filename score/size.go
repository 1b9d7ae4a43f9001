package score

import (
	"math/big"

	"tieover/score/beat"
)

// size holds what is settled of the piece so far against its limits, before
// anything walks it.
func (st *settler) size() {
	bars := st.s.FirstBar - 1 + st.s.BarCount()
	if bars > MaxBars {
		st.fail(st.s.LengthRule.Pos, "a piece may have 1,000,000 bars", "the piece has %s bars", thousands(int64(bars)))
		return
	}
	bound := new(big.Int)
	for _, l := range st.s.Layers {
		bound.Add(bound, l.mostAttacks())
	}
	if bound.Add(bound, bigTime(beat.Time(st.before()))).Cmp(big.NewInt(MaxAttacks)) <= 0 {
		st.s.attacks = int(bound.Int64())
		return
	}
	st.count()
}

// count counts the attacks of the piece up to this section where the bound is
// too coarse: by arithmetic where cycles are alike, else one by one until they
// are too many.
func (st *settler) count() {
	var walked []int
	n := bigTime(beat.Time(st.before()))
	for i, l := range st.s.Layers {
		if !l.isEven() {
			walked = append(walked, i)
			continue
		}
		n.Add(n, big.NewInt(l.evenAttacks()))
	}
	words := "the piece has %s attacks"
	for _, i := range walked {
		if n.Cmp(big.NewInt(MaxAttacks)) > 0 {
			break
		}
		words = "the piece has %s attacks or more"
		left := MaxAttacks + 1 - int(n.Int64())
		n.Add(n, big.NewInt(int64(st.s.countAttacks(i, left))))
	}
	if n.Cmp(big.NewInt(MaxAttacks)) > 0 {
		st.fail(st.s.Pos, "a piece may have 50,000,000; shorten it or thin it out", words, thousandsBig(n))
		return
	}
	st.s.attacks = int(n.Int64())
}

// isEven reports whether all cycles of the layer have the same attacks and
// nothing but the layer's end cuts one.
func (l *Layer) isEven() bool {
	return l.Line == nil && l.Loop == Run && len(l.Process) == 0 && len(l.Except) == 0
}

// turn returns the attacks of a whole turn of the layer's patterns as the spec
// writes them, and how long it lasts.
func (l *Layer) turn() (attacks []beat.Time, length beat.Time) {
	for i := range l.Patterns {
		sh := plainShape(&l.Patterns[i])
		for _, a := range l.build(&l.Patterns[i], sh).attacks {
			attacks = append(attacks, length+a.at)
		}
		length += beat.Time(sh.pulses) * l.Unit
	}
	return attacks, length
}

// evenAttacks counts the attacks in [Enters, Leaves) of an even layer.
func (l *Layer) evenAttacks() int64 {
	attacks, turn := l.turn()
	start := l.Enters + beat.Time(l.Offset)*l.Unit
	n := int64(0)
	for _, at := range attacks {
		first := start + at
		if first < l.Enters {
			first += (l.Enters - first + turn - 1) / turn * turn
		}
		if first < l.Leaves {
			n += int64((l.Leaves-first-1)/turn) + 1
		}
	}
	return n
}

// mostAttacks bounds the attacks of a layer from above.
func (l *Layer) mostAttacks() *big.Int {
	switch {
	case l.Line != nil:
		return big.NewInt(int64(len(l.Line)))
	case l.isEven():
		return big.NewInt(l.evenAttacks())
	}
	step := l.Unit // the least time between two attacks
	for size, figure := range l.Figures {
		step = min(step, beat.Time(size)*l.Unit/beat.Time(len(figure)))
	}
	n := bigTime((l.Leaves - l.Enters) / step)
	return n.Add(n, big.NewInt(int64(len(l.Except)+2)))
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
		if !ok || w.st.spent != nil || c.Length == 0 {
			break // the donors' check says why
		}
		if w.l.resizes() && c.Cut == NotCut && c.Start >= w.l.Enters && played.exception == 0 {
			n += w.l.struck(played)
		} else {
			n += len(w.body(&c, played).attacks)
		}
		w.advance(&c)
	}
	return n
}

// struck counts the attacks of a whole cycle without making them.
func (l *Layer) struck(p playedAs) int {
	if p.pattern.Box != nil {
		return len(l.build(p.pattern, p.shape).attacks)
	}
	n := 0
	for _, g := range p.shape.groups {
		figure, ok := l.Figures[g.size]
		switch {
		case g.blank:
		case ok:
			for _, sign := range figure {
				if sign == SignAttack {
					n++
				}
			}
		case l.Strike == StrikeAll:
			n += g.size
		default:
			n++
		}
	}
	return n
}

// before returns how many attacks the sections before this one have.
func (st *settler) before() int {
	n := 0
	for _, s := range st.piece.Sections {
		if s == st.s {
			break
		}
		n += s.attacks
	}
	return n
}
