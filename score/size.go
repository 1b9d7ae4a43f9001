package score

import "tieover/score/beat"

// size compares the piece as far as it is settled with its limits, before anything
// walks it.
func (st *settler) size() {
	bars := st.s.FirstBar - 1 + st.s.BarCount()
	if bars > MaxBars {
		st.fail(st.s.LengthRule.Pos, "a piece may have 1,000,000 bars", "the piece has %s bars", thousands(int64(bars)))
		return
	}
	least, most := st.earlierAttacks(), st.earlierAttacks()
	for _, l := range st.s.Layers {
		low, high := st.s.attackBounds(l)
		least, most = least+low, most+high
	}
	switch {
	case most <= MaxAttacks:
		st.s.attacks = most - st.earlierAttacks()
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

// IsEven reports whether all cycles of one of the layer's patterns have the same
// attacks and nothing but the layer's end cuts one.
func (l *Layer) IsEven() bool {
	return l.Line == nil && l.Loop == Run && len(l.Process) == 0 && len(l.Except) == 0
}

// turn returns the attacks of a whole turn of the layer's patterns as the spec
// writes them, and how long it lasts.
func (l *Layer) turn() (attacks []beat.Time, length beat.Time) {
	for i := range l.Patterns {
		for _, a := range l.build(&l.Patterns[i], l.Patterns[i].shape()).attacks {
			attacks = append(attacks, length+a.at)
		}
		length += l.patternLength(i)
	}
	return attacks, length
}

// evenAttacks counts the attacks in [Enters, Leaves) of an even layer.
func (l *Layer) evenAttacks() int {
	attacks, turn := l.turn()
	start := l.First
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
	case l.IsEven():
		n := l.evenAttacks()
		return n, n
	case l.Loop == CutBars && len(l.Process) == 0 && len(l.Except) == 0 && len(s.barring.runs) == 1 && l.Enters >= 0:
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
	case l.Loop == CutRealignment:
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
			start += l.patternLength(i)
		}
	}
	between := func(a, b beat.Time) int {
		return (s.barring.at(b).N-1)/l.CutEvery - (s.barring.at(a).N-1)/l.CutEvery + 1
	}
	most = between(l.Enters, l.Leaves)*high + len(attacks) // an offset may begin inside a cycle
	least = max(0, between(min(l.begins(), l.Leaves), l.Leaves)-2) * low
	return least, most
}

// earlierAttacks returns how many attacks the sections before this one have.
func (st *settler) earlierAttacks() int {
	n := 0
	for _, s := range st.piece.Sections {
		if s == st.s {
			break
		}
		n += s.attacks
	}
	return n
}
