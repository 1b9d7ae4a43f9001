package score

import (
	"slices"

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
	least, most := st.before(), st.before()
	for _, l := range st.s.Layers {
		low, high := st.s.attackBounds(l)
		least, most = least+low, most+high
	}
	switch {
	case most <= MaxAttacks:
		st.s.attacks = most - st.before()
	case least > MaxAttacks && least < most:
		st.tooManyAttacks("the piece has %s attacks or more", least)
	case least > MaxAttacks:
		st.tooManyAttacks("the piece has %s attacks", least)
	default:
		st.count()
	}
}

func (st *settler) tooManyAttacks(words string, n int) {
	st.fail(st.s.Pos, "a piece may have 50,000,000; shorten it or thin it out", words, thousands(int64(n)))
}

// count counts the attacks of the piece up to this section where the bound is
// too coarse: by arithmetic where cycles are alike, else one by one until they
// are too many.
func (st *settler) count() {
	n := st.before()
	for _, l := range st.s.Layers {
		if l.isEven() {
			n += l.evenAttacks()
		}
	}
	for i, l := range st.s.Layers {
		if !l.isEven() && n <= MaxAttacks {
			n += st.s.countAttacks(i, MaxAttacks+1-n)
		}
	}
	if n > MaxAttacks {
		st.tooManyAttacks("the piece has %s attacks or more", n)
		return
	}
	st.s.attacks = n - st.before()
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
func (l *Layer) evenAttacks() int {
	attacks, turn := l.turn()
	start := l.Enters + beat.Time(l.Offset)*l.Unit
	n := 0
	for _, at := range attacks {
		first := start + at
		if first < l.Enters {
			first += (l.Enters - first + turn - 1) / turn * turn
		}
		if first < l.Leaves {
			n += int((l.Leaves-first-1)/turn) + 1
		}
	}
	return n
}

// attackBounds says how many attacks a layer has at least and at most.
func (s *Section) attackBounds(l *Layer) (least, most int) {
	switch {
	case l.Line != nil:
		return 0, len(l.Line)
	case l.isEven():
		n := l.evenAttacks()
		return n, n
	case l.Loop == CutBars && len(l.Process) == 0 && len(l.Except) == 0 && len(s.barring.runs) == 1:
		return s.cutBounds(l)
	}
	step := l.Unit // the least time between two attacks
	for size, figure := range l.Figures {
		step = min(step, beat.Time(size)*l.Unit/beat.Time(len(figure)))
	}
	most = int((l.Leaves-l.Enters)/step) + 2
	for _, e := range l.Except { // which begins off the others' steps
		if e.Pattern != nil {
			most += len(e.Pattern.Groups) + 1
		}
	}
	return 0, most + s.cuts(l)
}

// cuts bounds how often a layer starts over.
func (s *Section) cuts(l *Layer) int {
	switch {
	case l.Loop == CutBars:
		return s.BarCount() / l.CutEvery
	case l.Loop == CutRealignment && s.meeting != nil:
		return s.meeting.count(s.Length)
	}
	return 0
}

// cutBounds is attackBounds for a loop that starts over every few bars: between
// two cuts it plays what it plays from one of its patterns on.
func (s *Section) cutBounds(l *Layer) (least, most int) {
	attacks, turn := l.turn()
	low, high := MaxAttacks, 0
	for k := range s.barring.runs[0].ends {
		from, to := s.barring.bar(k*l.CutEvery+1).Start, s.barring.bar((k+1)*l.CutEvery+1).Start
		start := beat.Time(0)
		for i := range l.Patterns {
			n := 0
			for _, at := range attacks {
				if first := (at - start).Mod(turn); first < to-from {
					n += int((to-from-first-1)/turn) + 1
				}
			}
			low, high = min(low, n), max(high, n)
			start += beat.Time(pulsesOf(plainShape(&l.Patterns[i]).groups)) * l.Unit
		}
	}
	between := func(a, b beat.Time) int {
		return (s.barring.at(b).N-1)/l.CutEvery - (s.barring.at(a).N-1)/l.CutEvery + 1
	}
	most = between(l.Enters, l.Leaves)*high + len(attacks) // an offset may begin inside a cycle
	least = max(0, between(min(l.begins(), l.Leaves), l.Leaves)-2) * low
	return least, most
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
		if w.index%64 == 0 {
			n += w.leap()
		}
	}
	return n
}

// leap passes over whole turns in which nothing changes any more, up to the
// last but one, and returns how many attacks they have.
func (w *walker) leap() int {
	l := w.l
	if l.Loop != Run || w.start < l.Enters || !w.st.still() || slices.ContainsFunc(l.Except, func(e Exception) bool { return e.Cycle >= w.index }) {
		return 0
	}
	n, length := 0, beat.Time(0)
	for i := range l.Patterns {
		sh := w.st.shape(i)
		n += l.struck(playedAs{pattern: &l.Patterns[i], shape: sh})
		length += beat.Time(sh.pulses) * l.Unit
	}
	if length == 0 {
		return 0
	}
	turns := max(0, int((min(l.Leaves, w.s.Length)-w.start)/length)-1)
	w.start += beat.Time(turns) * length
	w.index += turns * len(l.Patterns)
	w.st.pass(turns * len(l.Patterns))
	return turns * n
}

// pass moves on by n cycles in which no size changes.
func (st *state) pass(n int) {
	for _, p := range st.layer.Process {
		changes := int64((st.passes-1+n)/p.After - (st.passes-1)/p.After)
		switch p.Kind {
		case Rotate:
			st.rotation += changes * p.By
		case Shift:
			st.shift += changes * p.By
		}
	}
	st.passes += n
}

// still reports whether no process will change a size any more.
func (st *state) still() bool {
	if st.layer.Until != UntilNever {
		return false
	}
	for i := range st.layer.Process {
		p := &st.layer.Process[i]
		if p.Kind == Append || p.Kind == Grow && !p.Hold {
			return false
		}
		if p.Kind != Grow {
			continue
		}
		for _, groups := range st.patterns {
			if after, ok := grow(groups, p); ok || !slices.Equal(after, groups) {
				return false
			}
		}
	}
	return true
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
