package score

import (
	"tieover/score/beat"
	"tieover/score/instrument"
)

// KeyAt is a key signature and where it begins, on a barline.
type KeyAt struct {
	Time beat.Time
	Key  Key
}

// Keys returns the section's key signatures in order, the first at its opening; no two
// neighbors are equal.
func (s *Section) Keys() []KeyAt { return s.keys }

// keyChanges applies the changes of key in the plan, in time order.
func (st *settler) keyChanges() {
	s := st.s
	s.keys = []KeyAt{{s.Opening(), s.Key}}
	for i := range s.Plan {
		e := &s.Plan[i]
		if e.Key == nil {
			continue
		}
		if !s.OnBarline(e.Time) {
			st.fail(e.At.Pos, "put it at the bar's start", "a key can change only at a barline")
			return
		}
		last := &s.keys[len(s.keys)-1]
		switch {
		case last.Time == e.Time:
			last.Key = *e.Key
		case last.Key != *e.Key:
			s.keys = append(s.keys, KeyAt{e.Time, *e.Key})
		}
	}
}

// modes are how many fifths a mode's signature lies from that of major.
var modes = map[string]int{
	"lydian": 1, "major": 0, "ionian": 0, "mixolydian": -1, "dorian": -2,
	"minor": -3, "aeolian": -3, "phrygian": -4, "locrian": -5,
}

// LooksLike reports whether both keys have one signature, as E flat major and C minor.
func (k Key) LooksLike(other Key) bool { return k.None == other.None && k.Fifths == other.Fifths }

// String writes the key as a spec does: "Eb major", "2 sharps", "no key".
func (k Key) String() string {
	switch {
	case k.None:
		return "no key"
	case k.Mode == "":
		if k.Fifths < 0 {
			return beat.Counted(-k.Fifths, "flat")
		}
		return beat.Counted(k.Fifths, "sharp")
	}
	place := k.Fifths - modes[k.Mode] + 1 // of the tonic in the row of fifths from F
	tonic := string("FCGDAEB"[beat.Mod(place, 7)])
	switch {
	case place >= 7:
		tonic += "#"
	case place < 0:
		tonic += "b"
	}
	return tonic + " " + k.Mode
}

// ClefAt is a clef and where it begins, on a barline.
type ClefAt struct {
	Time beat.Time
	Clef instrument.Clef
}

// Clefs returns the clefs that the spec chooses for a layer, in order; the first
// at the opening if the layer has its own. Where none is in force the instrument's is.
func (s *Section) Clefs(l *Layer) []ClefAt {
	var all []ClefAt
	if l.Clef != nil {
		all = append(all, ClefAt{s.Opening(), *l.Clef})
	}
	for i := range s.Plan {
		if e := &s.Plan[i]; e.Clef != nil && e.Serves(l) {
			all = append(all, ClefAt{e.Time, *e.Clef})
		}
	}
	return all
}

// clefChanges refuses clefs that change inside a bar.
func (st *settler) clefChanges() {
	for i := range st.s.Plan {
		if e := &st.s.Plan[i]; e.Clef != nil && !st.s.OnBarline(e.Time) {
			st.fail(e.At.Pos, "put it at the bar's start", "a clef can change only at a barline")
			return
		}
	}
}
