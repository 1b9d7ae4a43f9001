package score

import (
	"fmt"
	"math"
	"slices"

	"tieover/score/beat"
)

// Written is how a layer is written in the score and in its part. It sounds the same.
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

// WrittenAs lists how the layer is written, in order, the first from the opening; no two
// neighbors are alike. The layers of one player on one instrument that are there in a
// bar are written in the way they all have, else as notes.
func (s *Section) WrittenAs(l *Layer) []WrittenFrom {
	if l.writing == nil {
		return []WrittenFrom{{s.Opening(), AsNotes}} // of a section that is not settled
	}
	return l.writing
}

// WrittenAt says how the layer is written at a moment.
func (s *Section) WrittenAt(l *Layer, t beat.Time) Written { return writtenAt(s.WrittenAs(l), t) }

func writtenAt(list []WrittenFrom, t beat.Time) (now Written) {
	for _, w := range list {
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

// ownWriting lists how the spec has the layer written; of two at one time the latter
// holds. A way of the plan that ends gives way to the one before it, unless another has
// begun in between.
func (s *Section) ownWriting(l *Layer) []WrittenFrom {
	list := []WrittenFrom{{s.Opening(), l.Written}}
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

// writings refuses ways of writing that change inside a bar, and finds how each layer
// is written.
func (st *settler) writings() {
	onBarline := func(t beat.Time) bool { return t >= st.s.Length || st.s.OnBarline(t) }
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
	own := map[*Layer][]WrittenFrom{}
	for _, l := range st.s.Layers {
		own[l] = st.s.ownWriting(l)
	}
	for _, l := range st.s.Layers {
		st.writing(l, own)
	}
}

// writing finds how a layer is written beside those of its player that are there in
// the same bars, and warns once where that is not what the spec says.
func (st *settler) writing(l *Layer, own map[*Layer][]WrittenFrom) {
	var times []beat.Time
	var beside []*Layer
	for _, other := range st.s.Layers {
		if other == l || l.Player != "" && other.Player == l.Player && other.Instrument == l.Instrument {
			beside = append(beside, other)
			from, to := st.barsOf(other)
			if times = append(times, from); to < math.MaxInt64 {
				times = append(times, to)
			}
			for _, w := range own[other] {
				times = append(times, w.Time)
			}
		}
	}
	slices.Sort(times)
	l.writing = nil
	warned := false
	for _, t := range times {
		present := slices.DeleteFunc(slices.Clone(beside), func(other *Layer) bool {
			from, to := st.barsOf(other)
			return t < from || t >= to
		})
		if len(present) == 0 {
			present = []*Layer{l}
		}
		now := writtenAt(own[present[0]], t)
		if slices.ContainsFunc(present, func(other *Layer) bool { return writtenAt(own[other], t) != now }) {
			now = AsNotes
		}
		if wanted := writtenAt(own[l], t); !warned && wanted != AsNotes && now == AsNotes && slices.Contains(present, l) {
			warned = true
			k := slices.IndexFunc(present, func(other *Layer) bool { return writtenAt(own[other], t) != wanted })
			st.warn(l.Pos, fmt.Sprintf("write the same for both, in the plan with for: %s, or give them two players", l.Player),
				"bar %d: %s is written as notes because %s of the same player is not written as %s",
				st.s.FirstBar+st.s.barring.at(max(t, l.Enters)).N-1, l.Name, present[k].Name, WrittenNames()[wanted])
		}
		if n := len(l.writing); n > 0 && l.writing[n-1].Time == t {
			l.writing = l.writing[:n-1]
		}
		if n := len(l.writing); n == 0 || l.writing[n-1].Written != now {
			l.writing = append(l.writing, WrittenFrom{t, now})
		}
	}
}

// barsOf returns the start of the bar in which a layer enters, and the end of that in
// which it leaves: no time at all where it stays, for then it may land.
func (st *settler) barsOf(l *Layer) (from, to beat.Time) {
	from, to = max(st.s.Opening(), st.s.barring.at(l.Enters).Start), math.MaxInt64
	if l.Leaves < st.s.Length {
		to = st.s.barring.nextBarline(l.Leaves)
	}
	return from, to
}
