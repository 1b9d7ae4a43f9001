package score

import (
	"iter"

	"tieover/score/beat"
)

// SeriesChange is a realignment that chooses another pitch series of a layer.
type SeriesChange struct {
	Time   beat.Time
	Layer  int
	Number int // of the series that holds from there on, from 1
}

// SeriesChanges yields them in time order, while the layers sound.
func (s *Section) SeriesChanges() iter.Seq[SeriesChange] {
	return func(yield func(SeriesChange) bool) {
		for r := range s.RealignmentTimes() {
			for i := range s.Layers {
				if n, ok := s.ChangesSeries(i, r); ok && !yield(SeriesChange{r.Time, i, n}) {
					return
				}
			}
		}
	}
}

// ChangesSeries returns which series of a layer, from 1, begins with a
// realignment. ok is false where none does.
func (s *Section) ChangesSeries(layer int, r Realignment) (number int, ok bool) {
	l := s.Layers[layer]
	if !l.changesSeries() || r.Index == 0 || r.Time < l.Enters || r.Time >= min(l.Leaves, s.Length) {
		return 0, false
	}
	return r.Index%len(l.Series) + 1, true
}
