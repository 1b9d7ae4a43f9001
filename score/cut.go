package score

import (
	"slices"

	"tieover/score/beat"
)

// cuts is the set of a meeting's layers that are cut inside a cycle at a moment: a bit
// for each of them, in their order.
type cuts uint64

// nextCut returns the first barline after t, after the layer's entry and after that
// of bar 1, at which its loop is cut; never where it runs on.
func (s *Section) nextCut(l *Layer, t beat.Time) beat.Time {
	if l.Loop != CutBars {
		return never
	}
	b := &s.asWritten().barring
	bars := (b.at(max(t, l.Enters, 0)).N - 1) / l.CutEvery
	return b.bar((bars+1)*l.CutEvery + 1).Start
}

// beforeCut reports whether t lies strictly inside the last bar before a
// barline at which one of the layers is cut. What comes together there starts
// over at once, and does not count.
func (s *Section) beforeCut(t beat.Time, layers []int) bool {
	bar := s.barring.at(t)
	return t > bar.Start && slices.ContainsFunc(layers, func(i int) bool {
		return i >= 0 && s.Layers[i].Loop == CutBars && bar.N%s.Layers[i].CutEvery == 0
	})
}

// startsOver reports whether all layers of the set that are cut are cut at t,
// inside a cycle or at its end.
func (s *Section) startsOver(t beat.Time) bool {
	bar := s.barring.at(t)
	return bar.Start == t && !slices.ContainsFunc(s.Set, func(i int) bool {
		return s.Layers[i].Loop == CutBars && (bar.N-1)%s.Layers[i].CutEvery != 0
	})
}

// cutSet returns the layers of the set whose loops are cut.
func (s *Section) cutSet() []int {
	return slices.DeleteFunc(slices.Clone(s.Set), func(i int) bool { return s.Layers[i].Loop != CutBars })
}

// cutPattern is headPattern for a layer that is cut: all spans between cuts
// have the same heads where the same cycle begins each and the meter comes round.
func (s *Section) cutPattern(layer int) (h heads, ok bool) {
	l := s.Layers[layer]
	steady := len(s.barring.runs) == 1 && len(l.Patterns) == 1 && len(l.Process) == 0 && l.First == 0 && l.Enters == 0
	if !steady || !l.headsRepeat() {
		return heads{}, false
	}
	length := l.patternLength(0)
	turn := len(s.barring.runs[0].ends)
	bars := turn / int(beat.GCD(int64(turn), int64(l.CutEvery))) * l.CutEvery
	h = heads{cut: true, period: s.barring.bar(bars + 1).Start}
	for from := beat.Time(0); from < h.period; {
		to := s.nextCut(l, from)
		if len(h.residues)+int((to-from)/length) >= mostClasses {
			return heads{}, false
		}
		for at := from; at < to; at += length {
			h.residues = append(h.residues, at)
		}
		from = to
	}
	return h, true
}

// cutsAt returns the layers that are cut inside a cycle at t.
func (m *meeting) cutsAt(t beat.Time) (who cuts) {
	b := &m.s.barring
	bar := b.at(t)
	switch {
	case t <= 0 || bar.Start != t:
		return 0
	case m.Walked:
		if bar.N < len(m.cutBars) {
			who = m.cutBars[bar.N]
		}
		return who
	}
	for k, i := range m.layers {
		l := m.s.Layers[i]
		if l.Loop == CutBars && (bar.N-1)%l.CutEvery == 0 && (t-b.bar(bar.N-l.CutEvery).Start)%l.patternLength(0) != 0 {
			who |= 1 << k
		}
	}
	return who
}

// cutLayers lists cut layers as indexes into Layers; nil for none.
func (m *meeting) cutLayers(who cuts) (layers []int) {
	for k, i := range m.layers {
		if who&(1<<k) != 0 {
			layers = append(layers, i)
		}
	}
	return layers
}

// span returns how many bars there are from one cut to the next; where several
// are cut, the longest.
func (m *meeting) span(who cuts) (bars int) {
	for _, i := range m.cutLayers(who) {
		bars = max(bars, m.s.Layers[i].CutEvery)
	}
	return bars
}

// isCut notes that a layer of a walk is cut inside a cycle at t.
func (m *meeting) isCut(k int, t beat.Time) {
	n := m.s.barring.at(t).N
	if n >= len(m.cutBars) {
		m.cutBars = append(m.cutBars, make([]cuts, n+1-len(m.cutBars))...)
	}
	m.cutBars[n] |= 1 << k
}
