package bar

import (
	"cmp"
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
)

// place is one line or space of a staff in one octave, where an accidental holds.
type place struct {
	staff  int
	step   byte
	octave int8
}

// accidentalState is what holds in a bar. An accidental holds for its staff,
// letter and octave to the bar's end. A note tied in prints none and sets
// nothing. A courtesy sign, in parentheses, comes where a reader may doubt: at
// the first such note after a bar (or a tied-in note) that altered it, and
// where the other octave of the letter is altered in the same bar.
type accidentalState struct {
	key    score.Key
	holds  map[place]int8
	doubts map[place]int8 // what the bar before, or a tied-in note, altered
	last   map[place]int8 // the alteration of the last note
}

// accidentals puts accidentals on the bar's heads and returns what it altered against
// the key, as Input.Altered of the next bar.
func (wr *Writer) accidentals(in *Input, m *sheet.Measure) []byte {
	if !wr.Pitched {
		return nil
	}
	st := accidentalState{key: in.Key, holds: map[place]int8{}, doubts: map[place]int8{}, last: map[place]int8{}}
	for i := 0; i+4 <= len(in.Altered); i += 4 {
		b := in.Altered[i : i+4]
		st.doubts[place{int(b[0]), b[1], int8(b[2])}] = int8(b[3])
	}
	for _, at := range wr.inTimeOrder(m) {
		st.note(at.staff, at.note, in.NewSystem && at.note.Start == 0)
	}
	return st.altered()
}

type staffNote struct {
	staff int
	note  *sheet.Note
}

// inTimeOrder returns the bar's notes by onset, higher voices first, good until the
// next bar.
func (wr *Writer) inTimeOrder(m *sheet.Measure) []staffNote {
	notes := wr.order[:0]
	for i := range m.Voices {
		for _, e := range m.Voices[i].Events {
			if n, ok := e.(*sheet.Note); ok {
				notes = append(notes, staffNote{m.Voices[i].Staff, n})
			}
		}
	}
	slices.SortStableFunc(notes, func(a, b staffNote) int { return int(a.note.Start - b.note.Start) })
	wr.order = notes
	return notes
}

func (st *accidentalState) note(staff int, n *sheet.Note, newSystem bool) {
	for _, g := range n.Graces {
		st.note(staff, g, false)
	}
	for i := range n.Heads {
		h := &n.Heads[i]
		if h.Step == 0 {
			continue
		}
		at := place{staff, h.Step, h.Octave}
		native := sheet.KeyAlter(st.key, h.Step)
		if n.TieIn {
			if n.Start == 0 && h.Alter != native {
				st.doubts[at] = h.Alter
				if newSystem {
					h.Accidental = sheet.SignOf(h.Alter) | sheet.Courtesy
				}
			}
			st.last[at] = h.Alter
			continue
		}
		holds, set := st.holds[at]
		if !set {
			holds = native
		}
		switch {
		case holds != h.Alter:
			h.Accidental = sheet.SignOf(h.Alter)
		case !set && st.doubtful(at, h.Alter):
			h.Accidental = sheet.SignOf(h.Alter) | sheet.Courtesy
		}
		if h.Accidental != sheet.NoSign {
			st.holds[at] = h.Alter
		}
		st.last[at] = h.Alter
	}
}

// doubtful reports whether the place was altered otherwise just before, or the
// letter is altered otherwise in another octave of the bar.
func (st *accidentalState) doubtful(at place, alter int8) bool {
	if a, ok := st.doubts[at]; ok && a != alter {
		return true
	}
	for other, a := range st.holds {
		if other.staff == at.staff && other.step == at.step && other.octave != at.octave && a != alter {
			return true
		}
	}
	return false
}

// altered lists the places whose last note deviates from the key, four bytes each:
// staff, letter, octave, alteration.
func (st *accidentalState) altered() []byte {
	var places []place
	for at, a := range st.last {
		if a != sheet.KeyAlter(st.key, at.step) {
			places = append(places, at)
		}
	}
	slices.SortFunc(places, func(a, b place) int {
		return cmp.Or(a.staff-b.staff, cmp.Compare(a.step, b.step), cmp.Compare(a.octave, b.octave))
	})
	var out []byte
	for _, at := range places {
		out = append(out, byte(at.staff), at.step, byte(at.octave), byte(st.last[at]))
	}
	return out
}
