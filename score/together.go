package score

import "tieover/score/beat"

// walk finds coincidences by stepping through the cycles of all layers at
// once, up to the section's end (or the reach, while the length is unknown).
func (m *meeting) walk(withBarline bool) {
	m.Walked = true
	s, steps, t := m.s, make([]*headWalk, len(m.layers)), beat.Time(0)
	for i, l := range m.layers {
		steps[i] = newHeadWalk(s, l)
		steps[i].isCut = func(at beat.Time) { m.isCut(i, at) }
		t = max(t, s.Layers[l].Enters) // a head before the entry is not heard
	}
	for t <= s.reach {
		together := s.advanceTo(t, steps, withBarline)
		if together == never {
			break
		}
		if together > t {
			t = together
			continue
		}
		if s.beforeCut(t, m.layers) {
			if m.aside == nil {
				m.aside = &meeting{Meeting: Meeting{Walked: true}}
			}
			m.aside.residues = append(m.aside.residues, t)
			t++
			continue
		}
		if t == 0 {
			m.Start = true
		} else {
			m.residues = append(m.residues, t)
		}
		for _, w := range steps {
			w.make() // a cycle that begins here may start over
		}
		t++
	}
	for _, w := range steps { // cuts past the last coincidence
		for w.l.Loop == CutBars && !w.isOver(&w.cycle) {
			w.step()
		}
	}
	if at := m.next(0); at != never {
		m.First = bigTime(at)
	}
	m.measure()
}

// advanceTo moves every layer to its first head at or after t and returns the
// latest of these; it is t itself if all coincide there.
func (s *Section) advanceTo(t beat.Time, steps []*headWalk, withBarline bool) beat.Time {
	latest := t
	if withBarline {
		latest = s.barring.nextBarline(t)
	}
	for _, w := range steps {
		if !w.to(t) {
			return never
		}
		latest = max(latest, w.head)
	}
	return latest
}

// headWalk steps through the heads of one layer, past the section's end too.
type headWalk struct {
	*walker
	cycle Cycle // without groups and attacks
	as    playedAs
	head  beat.Time
	isCut func(at beat.Time) // called at each cut inside a cycle; may be nil
}

func newHeadWalk(s *Section, layer int) *headWalk {
	w := &headWalk{walker: newWalker(s, layer)}
	w.limit = s.reach + 1
	w.make()
	return w
}

// make makes the current cycle, anew where a realignment at its start was not known.
func (w *headWalk) make() {
	w.cycle, w.as, _ = w.time()
	w.head = w.cycle.Start + w.cycle.Head
}

func (w *headWalk) step() {
	if w.cycle.Cut == CutByLoop && w.isCut != nil {
		w.isCut(w.cycle.End())
	}
	w.advance(&w.cycle)
	w.make()
}

// to moves to the first head at or after t that no cut takes away; false when
// there is none within reach.
func (w *headWalk) to(t beat.Time) bool {
	for w.head < t || w.cycle.Cut == CutByLoop && w.cycle.Head >= w.cycle.Sounds {
		if w.isOver(&w.cycle) { // but what a realignment resets just at t goes on
			return false
		}
		w.step()
	}
	return true
}
