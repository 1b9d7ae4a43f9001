package verify

import (
	"tieover/score/beat"
	"tieover/score/heard"
)

// bar is a bar of either side, in ticks.
type bar struct {
	number        string // as printed
	pass          int
	start, length beat.Time
}

func (b bar) end() beat.Time { return b.start + b.length }

// unlike counts in what two bars differ: the number, the pass.
func (b bar) unlike(other bar) (n int) {
	if b.number != other.number {
		n++
	}
	if b.pass != other.pass {
		n++
	}
	return n
}

// edits says which stretches of the spec's time the score has, and when; by
// default all, as they are.
type edits struct {
	kept  []stretch // nil: everything
	end   beat.Time // of the spec's time
	seams []seam
}

// stretch is a stretch of the spec's time that sounds in the score by so much
// later. It holds its end only if that is the end of all.
type stretch struct {
	from, to, by beat.Time
}

// seam is a place where bars were cut out or put in: the spec's moments before
// and after what is missing (the same when nothing is), and the score's before
// and after what is too many.
type seam struct {
	near, far       beat.Time
	gotNear, gotFar beat.Time
	bars            []string // the score's bars that meet here, by number
}

// edits turns the gaps into what was done to the score.
func (a *alignment) edits() (e edits) {
	from, by := beat.Time(0), beat.Time(0)
	e.end = a.wanted[len(a.wanted)-1].end()
	for _, g := range a.gaps {
		// the bars around the gap: of the spec before and after what is missing, of the
		// score before and after what is too many
		near, far, gotNear, gotFar := g.at, g.at+g.n, g.other, g.other
		if !g.missing {
			near, far, gotNear, gotFar = gotNear, gotFar, near, far
		}
		s := seam{near: startOf(a.wanted, near), far: startOf(a.wanted, far), gotNear: startOf(a.heard, gotNear), gotFar: startOf(a.heard, gotFar)}
		for i := max(0, gotNear-1); i <= gotFar && i < len(a.heard); i++ {
			s.bars = append(s.bars, a.heard[i].number)
		}
		e.seams = append(e.seams, s)
		if s.near > from {
			e.kept = append(e.kept, stretch{from, s.near, by})
		}
		from, by = s.far, s.gotFar-s.far
	}
	if from < e.end {
		e.kept = append(e.kept, stretch{from, e.end, by})
	}
	return e
}

// startOf returns when a bar begins, or the last one ends.
func startOf(bars []bar, i int) beat.Time {
	if i < len(bars) {
		return bars[i].start
	}
	return bars[len(bars)-1].end()
}

// place returns when a moment of the spec sounds in the score. ok is false in a
// bar that the score lacks.
func (e *edits) place(at beat.Time) (got beat.Time, ok bool) {
	if e.kept == nil {
		return at, true
	}
	for _, s := range e.kept {
		if s.from <= at && (at < s.to || at == s.to && at == e.end) {
			return at + s.by, true
		}
	}
	return 0, false
}

// edit returns both sides without what was cut out or put in, the spec's notes
// where the score has them. Where bars were cut, a note that rang over the edge
// lasts as long as it can, and what is left of it beyond may be struck anew.
func (c *comparison) edit(e edits) (want, got []note) {
	type stub struct {
		at    beat.Time
		sound word
	}
	stubs, struck := map[stub]bool{}, map[stub]bool{}
	for _, n := range c.want {
		for _, s := range e.seams {
			if n.onset < s.far && s.far < n.end() || s.near == s.far && n.onset < s.near && s.near < n.end() {
				stubs[stub{s.gotFar, n.sound}] = true
			}
			n.loose = n.loose || n.onset < s.near && s.near < n.end()
		}
		at, ok := e.place(n.onset)
		if !ok {
			continue
		}
		n.onset = at
		struck[stub{at, n.sound}] = true
		want = append(want, n)
	}
	for _, n := range c.got {
		here := stub{n.onset, n.sound}
		if e.putIn(n.onset) || stubs[here] && !struck[here] {
			continue
		}
		got = append(got, n)
	}
	return want, got
}

// putIn reports whether a moment of the score is in a bar that was put in.
func (e *edits) putIn(at beat.Time) bool {
	for _, s := range e.seams {
		if s.gotNear <= at && at < s.gotFar {
			return true
		}
	}
	return false
}

// findBars finds out whether bars were cut out, put in or repeated: in all parts,
// or in one that has another number of bars than the rest.
func (w *whole) findBars() {
	wanted := w.wantedBars()
	longest := w.parts[0]
	for _, c := range w.parts {
		if len(c.part.Bars) > len(longest.part.Bars) {
			longest = c
		}
	}
	for _, c := range w.parts {
		for i, b := range c.part.Bars {
			if b.Start != longest.part.Bars[i].Start { // parts with barlines of their own
				return
			}
		}
	}
	if len(longest.part.Bars) != len(wanted) {
		w.tryBars(w.parts, wanted, heardBars(longest.part.Bars, w.grid))
	}
	for _, c := range w.parts {
		if n := len(c.part.Bars); n != len(longest.part.Bars) && n != len(wanted) {
			w.tryBars([]*comparison{c}, wanted, heardBars(c.part.Bars, w.grid))
		}
	}
}

// wantedBars lists the spec's bars as they are to be played.
func (w *whole) wantedBars() []bar {
	var bars []bar
	for _, p := range w.piece.Passes() {
		bars = append(bars, barsOf(w.piece, p, w.grid)...)
	}
	return bars
}

// tryBars explains what is left over by bars that were cut out or put in, if
// that explains more than it says.
func (w *whole) tryBars(parts []*comparison, wanted, got []bar) {
	before := 0
	for _, c := range parts {
		before += c.countLeftover()
	}
	if before == 0 {
		return
	}
	for _, c := range parts {
		if c.right { // what is right as it stands may be wrong where the others are right
			c.read()
			c.right = false
		}
	}
	a, ok := align(w.contents(parts, wanted, got))
	if !ok {
		return
	}
	e := a.edits()
	after := len(a.gaps)
	saved := make([]comparison, len(parts))
	for i, c := range parts {
		saved[i] = *c
		c.want, c.got = c.edit(e)
		after += c.countLeftover()
	}
	if after >= before {
		for i, c := range parts {
			*c = saved[i]
		}
		return
	}
	in := ""
	switch {
	case len(parts) < len(w.parts):
		in = " in " + parts[0].part.Name
		w.own[parts[0].part.Name] = e
	case len(parts) > 1:
		in = " in all parts"
	}
	if len(parts) == len(w.parts) {
		w.edits = e
	}
	for _, g := range a.gaps {
		w.found = append(w.found, w.barEdit(a, g, in))
	}
}

// explains reports whether a remark of the reader follows from what was done to
// the bars, or from another difference: a tie that lost its other end, a part that has
// fewer bars than the others.
func (w *whole) explains(r heard.Remark) bool {
	own, cut := w.own[r.Part]
	if r.Bar == "" {
		return cut && r.Kind == heard.Misfit
	}
	for _, c := range w.parts {
		if r.Kind == heard.Loose && c.part.Name == r.Part && c.explained[w.grid.Must(r.At)] {
			return true
		}
	}
	for _, e := range []edits{w.edits, own} {
		for _, s := range e.seams {
			for _, number := range s.bars {
				if r.Kind == heard.Loose && number == r.Bar {
					return true
				}
			}
		}
	}
	return false
}
