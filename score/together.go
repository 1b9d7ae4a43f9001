package score

import (
	"tieover/score/beat"
	"tieover/score/process"
)

// walk finds coincidences by stepping through the cycles of all layers at
// once, up to the section's end (or the reach, while the length is unknown).
func (s *Section) walk(layers []int, withBarline bool) *meeting {
	m := &meeting{Meeting: Meeting{Walked: true}, s: s, layers: layers}
	steps, t := make([]*headWalk, len(layers)), beat.Time(0)
	for i, l := range layers {
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
		if s.beforeCut(t, layers) {
			if m.aside == nil {
				m.aside = &meeting{Meeting: Meeting{Walked: true}}
			}
			m.aside.residues = append(m.aside.residues, t)
			t++
			continue
		}
		m.residues = append(m.residues, t)
		for _, w := range steps {
			w.realigned(t)
		}
		t++
	}
	for _, w := range steps { // cuts past the last coincidence
		for w.l.Loop == CutBars && !w.over && w.start <= s.reach {
			w.step()
		}
	}
	return m.found()
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

// found fills the outer answer from the walk.
func (m *meeting) found() *meeting {
	m.Start = len(m.residues) > 0 && m.residues[0] == 0
	if at := m.next(0); at != never {
		m.First = bigTime(at)
	}
	m.measure()
	return m
}

// headWalk steps through the heads of one layer.
type headWalk struct {
	s     *Section
	layer int
	l     *Layer
	st    *process.State

	index   int
	pattern *Pattern
	shape   process.Shape
	except  *Exception // of the current cycle, nil for none

	start   beat.Time // of the current cycle
	next    beat.Time // of the cycle after it
	head    beat.Time
	nextCut beat.Time // the first cut after start
	short   bool      // the current cycle is cut
	reset   bool      // the next cycle begins with processes reset
	over    bool      // processes have run out or left nothing to play

	isCut func(at beat.Time) // told of each cut inside a cycle; nil: nobody asks
}

func newHeadWalk(s *Section, layer int) *headWalk {
	l := s.Layers[layer]
	w := &headWalk{s: s, layer: layer, l: l, st: l.newState(), index: 1, start: l.First, nextCut: -never}
	w.place()
	return w
}

// place computes the current cycle from its start and the state.
func (w *headWalk) place() {
	i := (w.index - 1) % len(w.l.Patterns)
	w.pattern = &w.l.Patterns[i]
	sh := w.st.Shape(i)
	if _, w.except = w.l.exceptAt(w.index); w.except != nil && w.except.Pattern != nil {
		w.pattern, sh = w.except.Pattern, w.except.Pattern.shape()
	}
	w.shape = sh
	_, spent := w.st.Spent()
	w.over = spent || sh.Pulses == 0
	w.head = w.start + beat.Time(sh.Head)*w.l.Unit
	w.next = w.start + beat.Time(sh.Pulses)*w.l.Unit
	if w.nextCut <= w.start {
		w.nextCut = w.s.nextCut(w.l, w.start)
	}
	if w.short = w.nextCut < w.next; w.short {
		w.next = w.nextCut
	}
}

func (w *headWalk) step() {
	w.index++
	w.start = w.next
	if w.short && w.isCut != nil {
		w.isCut(w.start)
	}
	w.st.Step()
	if w.reset {
		w.st.Reset()
		w.reset = false
	}
	w.place()
}

// to moves to the first head at or after t that no cut takes away; false when
// there is none within reach.
func (w *headWalk) to(t beat.Time) bool {
	for w.head < t || w.short && w.head >= w.next {
		if w.over || w.start > w.s.reach { // but what a realignment resets just at t goes on
			return false
		}
		w.step()
	}
	return true
}

// realigned tells the layer of a realignment at t: its processes start over
// with its first cycle at or after t.
func (w *headWalk) realigned(t beat.Time) {
	if w.l.Until != UntilRealignment || t == 0 {
		return
	}
	if w.start < t {
		w.reset = true
		return
	}
	w.st.Reset()
	w.place()
}
