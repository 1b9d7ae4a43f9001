package score

import (
	"iter"

	"tieover/score/beat"
)

// Moment is a time at which at least one layer has an attack. Its slices are reused
// for the next moment; the attacks stay valid.
type Moment struct {
	Time    beat.Time
	Layers  []int // indexes, in the order of ReadMoments
	Attacks []*Attack
}

// Moments merges the attacks of all layers into one rhythm in time order.
func (s *Section) Moments() iter.Seq[Moment] {
	return func(yield func(Moment) bool) {
		r := s.ReadMoments(nil)
		for m, ok := r.Next(); ok && yield(m); m, ok = r.Next() {
		}
	}
}

// MomentReader makes the moments of some layers one by one.
type MomentReader struct {
	layers []int
	at     []attackReader
	moment Moment // its slices are used again
}

// ReadMoments reads the moments of the given layers, of all when nil.
func (s *Section) ReadMoments(layers []int) *MomentReader {
	if layers == nil {
		for i := range s.Layers {
			layers = append(layers, i)
		}
	}
	r := &MomentReader{layers: layers, at: make([]attackReader, len(layers))}
	for i, l := range layers {
		r.at[i].cycles = s.ReadCycles(l)
		r.at[i].advance()
	}
	return r
}

// Next returns the next moment; false when there is none.
func (r *MomentReader) Next() (Moment, bool) {
	m := &r.moment
	m.Time, m.Layers, m.Attacks = never, m.Layers[:0], m.Attacks[:0]
	for i := range r.at {
		m.Time = min(m.Time, r.at[i].at)
	}
	if m.Time == never {
		return Moment{}, false
	}
	for i := range r.at {
		if a := &r.at[i]; a.at == m.Time {
			m.Layers, m.Attacks = append(m.Layers, r.layers[i]), append(m.Attacks, a.attack())
			a.advance()
		}
	}
	return *m, true
}

// attackReader reads the attacks of a layer; it holds one at a time.
type attackReader struct {
	cycles *CycleReader
	cycle  Cycle
	index  int       // of the attack after this one, in the cycle
	at     beat.Time // when this one is struck; never when there are no more
}

func (r *attackReader) attack() *Attack { return &r.cycle.Attacks[r.index-1] }

func (r *attackReader) advance() {
	for r.index == len(r.cycle.Attacks) {
		var ok bool
		if r.cycle, ok = r.cycles.Next(); !ok {
			r.at = never
			return
		}
		r.index = 0
	}
	r.at = r.cycle.Start + r.cycle.Attacks[r.index].At
	r.index++
}
