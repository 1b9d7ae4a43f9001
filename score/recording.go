package score

import (
	"cmp"
	"math/big"
	"slices"

	"tieover/score/beat"
	"tieover/score/source"
)

// Recording says when moments of a section sound in a recording of it. The
// program never sees the recording itself.
type Recording struct {
	File  string          // its name; may be empty
	Marks []RecordingMark // in time order once settled, their seconds rising too
}

// RecordingMark is a moment of the section and when it sounds, in seconds from
// the recording's beginning.
type RecordingMark struct {
	At      Place
	Time    beat.Time // settled
	Seconds beat.Span
	Pos     source.Pos // of the seconds
}

// recording finds the moments of the marks, and that later ones sound later.
func (st *settler) recording() {
	r := st.s.Recording
	if r == nil {
		return
	}
	for i := range r.Marks {
		r.Marks[i].Time = st.locate(r.Marks[i].At, -1)
	}
	slices.SortStableFunc(r.Marks, func(a, b RecordingMark) int { return cmp.Compare(a.Time, b.Time) })
	for i := 1; i < len(r.Marks) && len(st.problems) == 0; i++ {
		a, b := r.Marks[i-1], r.Marks[i]
		if a.Time == b.Time {
			st.fail(b.Pos, "keep one of the two", "this moment of the recording is marked twice")
		} else if a.Seconds.Cmp(b.Seconds) >= 0 {
			st.fail(b.Pos, "let what comes later sound later", "this sounds at %s s, but an earlier moment at %s s", milliseconds(b.Seconds), milliseconds(a.Seconds))
		}
	}
}

// milliseconds writes seconds with three decimals.
func milliseconds(s beat.Span) string { return big.NewRat(s.Num(), s.Den()).FloatString(3) }
