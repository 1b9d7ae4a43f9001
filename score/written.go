package score

import (
	"slices"

	"tieover/score/beat"
)

// Written is how a layer stands in the score and in its part. What it sounds is
// the same.
type Written int

const (
	AsNotes   Written = iota
	AsRhythm          // slash heads on the middle line
	AsSlashes         // one slash a beat, whatever is played
	AsRepeats         // a sign for each bar that is equal to the one before
)

// WrittenNames are the words of a spec, in the order of the constants.
func WrittenNames() []string { return []string{"notes", "rhythm", "slashes", "repeats"} }

// WrittenFrom is a way of writing that holds from a moment on.
type WrittenFrom struct {
	Time    beat.Time
	Written Written
}

// WrittenAs lists how the layer is written, in order, the first from 0; of two at
// one time the latter holds. What the plan says with an end gives way there to what
// was before, unless something else has been said since.
func (s *Section) WrittenAs(l *Layer) []WrittenFrom {
	list := []WrittenFrom{{0, l.Written}}
	for i := range s.Plan {
		e := &s.Plan[i]
		if e.Written == nil || !e.Serves(l) {
			continue
		}
		list = slices.DeleteFunc(list, func(w WrittenFrom) bool { return w.Time > e.Time })
		before := list[len(list)-1].Written
		list = append(list, WrittenFrom{e.Time, *e.Written})
		if e.To != nil {
			list = append(list, WrittenFrom{e.ToTime, before})
		}
	}
	return list
}

// WrittenAt says how the layer is written at a moment. The layers of one player are
// written in the way they all have, else as notes.
func (s *Section) WrittenAt(l *Layer, t beat.Time) Written {
	now := s.ownWriting(l, t)
	if l.Player == "" || now == AsNotes {
		return now
	}
	for _, other := range s.Layers {
		if other.Player == l.Player && s.ownWriting(other, t) != now {
			return AsNotes
		}
	}
	return now
}

func (s *Section) ownWriting(l *Layer, t beat.Time) (now Written) {
	for _, w := range s.WrittenAs(l) {
		if w.Time <= t {
			now = w.Written
		}
	}
	return now
}

// EverWritten reports whether the layer is ever written otherwise than as notes.
func (s *Section) EverWritten(l *Layer) bool {
	return slices.ContainsFunc(s.WrittenAs(l), func(w WrittenFrom) bool { return w.Written != AsNotes })
}

// writings sees to it that ways of writing change at barlines.
func (st *settler) writings() {
	onBarline := func(t beat.Time) bool { return t >= st.s.Length || st.s.barring.at(t).Start == t }
	for i := range st.s.Plan {
		e := &st.s.Plan[i]
		switch {
		case e.Written == nil:
		case !onBarline(e.Time):
			st.fail(e.At.Pos, "put it at the bar's start", "written can change only at a barline")
		case e.To != nil && !onBarline(e.ToTime):
			st.fail(e.To.Pos, "let it end at a bar's start", "written can change only at a barline")
		}
	}
}
