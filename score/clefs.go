package score

import (
	"tieover/score/beat"
	"tieover/score/instrument"
)

// ClefAt is a clef and where it begins, on a barline.
type ClefAt struct {
	Time beat.Time
	Clef instrument.Clef
}

// Clefs returns the clefs that the spec chooses for a layer, in order; the first
// at 0 if the layer has its own. Where none is in force the instrument's is.
func (s *Section) Clefs(l *Layer) []ClefAt {
	var all []ClefAt
	if l.Clef != nil {
		all = append(all, ClefAt{0, *l.Clef})
	}
	for i := range s.Plan {
		if e := &s.Plan[i]; e.Clef != nil && e.Serves(l) {
			all = append(all, ClefAt{e.Time, *e.Clef})
		}
	}
	return all
}

// clefChanges sees to it that clefs change at barlines.
func (st *settler) clefChanges() {
	for i := range st.s.Plan {
		if e := &st.s.Plan[i]; e.Clef != nil && st.s.barring.at(e.Time).Start != e.Time {
			st.fail(e.At.Pos, "put it at the bar's start", "a clef can change only at a barline")
			return
		}
	}
}
