package sheet

import (
	"reflect"
	"slices"

	"tieover/score"
)

// LeadsOut reports whether a tie or beam goes on over the bar's right edge.
func LeadsOut(m *Measure) bool {
	for i := range m.Voices {
		n, ok := m.Voices[i].Events[len(m.Voices[i].Events)-1].(*Note)
		if ok && (n.TieOut || n.BeamOut) {
			return true
		}
	}
	return false
}

// SameMeasure reports whether two bars of a part say the same but for courtesy
// signs, which depend on the bar before.
func SameMeasure(a, b *Measure) bool {
	return a == b || sameFrame(a, b) && slices.Equal(a.Clefs, b.Clefs) && slices.EqualFunc(a.Voices, b.Voices, sameVoice)
}

// sameFrame reports whether two bars have one length, key, meter and instrument.
func sameFrame(a, b *Measure) bool {
	return a.Length == b.Length && a.Key == b.Key && a.Instrument == b.Instrument && a.Signature.Equal(b.Signature)
}

func sameVoice(a, b Voice) bool {
	return a.Staff == b.Staff && a.Number == b.Number && a.Stem == b.Stem && a.Small == b.Small && a.As == b.As &&
		slices.EqualFunc(a.Events, b.Events, func(e, f Event) bool { return reflect.DeepEqual(withoutCourtesy(e), withoutCourtesy(f)) })
}

// FirstVoice is the index of the first voice of a staff, 0 if it has none.
func FirstVoice(m *Measure, staff int) int {
	return max(0, slices.IndexFunc(m.Voices, func(v Voice) bool { return v.Staff == staff }))
}

// RepeatsStaff reports whether a staff shows in b just the notes that it shows in
// a, and nothing there leads over a barline.
func RepeatsStaff(a, b *Measure, staff int) (notes bool) {
	if !sameFrame(a, b) || len(a.Voices) != len(b.Voices) {
		return false
	}
	for i := range a.Voices {
		v, u := &a.Voices[i], &b.Voices[i]
		if u.Staff != staff && v.Staff != staff {
			continue
		}
		if !sameVoice(*v, *u) || u.As != score.AsNotes {
			return false
		}
		for _, e := range u.Events {
			n, ok := e.(*Note)
			notes = notes || ok
			if ok && (n.Start == 0 && (n.TieIn || n.BeamIn) || n.Start+n.Length == b.Length && (n.TieOut || n.BeamOut)) {
				return false
			}
		}
	}
	return notes
}

// withoutCourtesy copies a note without signs in parentheses.
func withoutCourtesy(e Event) Event {
	n, ok := e.(*Note)
	if !ok {
		return e
	}
	plain := *n
	plain.Graces = slices.Clone(n.Graces)
	for i, g := range plain.Graces {
		plain.Graces[i] = withoutCourtesy(g).(*Note)
	}
	plain.Heads = slices.Clone(n.Heads)
	for i := range plain.Heads {
		if h := &plain.Heads[i]; h.Accidental&Courtesy != 0 {
			h.Accidental = NoSign
		}
	}
	return &plain
}
