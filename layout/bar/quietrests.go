package bar

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// hideRests hides the rests of silent voices that say nothing: of all voices of a
// staff but the first, and of the first too if another one sounds there.
func hideRests(m *sheet.Measure) {
	for i := range m.Voices {
		if !silent(&m.Voices[i]) {
			continue
		}
		for j := range m.Voices {
			if other := &m.Voices[j]; other.Staff == m.Voices[i].Staff && (j < i || !silent(other)) {
				for _, e := range m.Voices[i].Events {
					e.(*sheet.Rest).Hidden = true
				}
			}
		}
	}
}

// silent reports whether a voice rests for the whole bar, or the whole pickup.
func silent(v *sheet.Voice) bool {
	return !slices.ContainsFunc(v.Events, func(e sheet.Event) bool { _, rest := e.(*sheet.Rest); return !rest })
}

// dropRests hides rests where several voices of a staff have their stems on one side:
// a rest is printed only while all of them are silent, and only once. Rests of a
// tuplet stay, since they are part of its number.
func dropRests(m *sheet.Measure) {
	for i := range m.Voices {
		v := &m.Voices[i]
		for _, e := range v.Events {
			r, ok := e.(*sheet.Rest)
			if ok && r.Tuplet == nil && covered(m, i, r) {
				r.Hidden = true
			}
		}
	}
}

// covered reports whether a voice on the same side of the staff sounds during a
// rest of voice i, or an earlier one prints a rest there.
func covered(m *sheet.Measure, i int, r *sheet.Rest) bool {
	v := &m.Voices[i]
	for j := range m.Voices {
		other := &m.Voices[j]
		if other.Staff != v.Staff || other.Stem != v.Stem || v.Stem == sheet.StemFree {
			continue
		}
		for _, e := range other.Events {
			if !overlap(e, r.Start, r.Start+r.Length) {
				continue
			}
			if rest, ok := e.(*sheet.Rest); !ok || j < i && !rest.Hidden {
				return true
			}
		}
	}
	return false
}

func overlap(e sheet.Event, from, to beat.Time) bool { return e.At() < to && from < e.At()+e.Span() }
