package musicxml

import (
	"slices"

	"tieover/score/beat"
)

// turn is one bar of the performance: which bar, and which time through.
type turn struct{ bar, pass int }

// order plays the form out: repeats, endings, da capo, dal segno, fine, coda.
// On the way back from a jump repeats are not taken again (common practice).
// The form of a score is that of all its parts together.
func (in *reading) order(bars int) ([]turn, error) {
	form := make([]readForm, bars)
	for _, p := range in.parts {
		for i, bar := range p.bars {
			form[i].merge(bar.form)
		}
	}
	walk := formWalk{form: form, times: make([]int32, bars), pass: 1}
	notes := in.notesByBar(bars)
	var order []turn
	total := 0
	for walk.at < bars {
		if walk.skipEnding() {
			continue
		}
		here := walk.at
		walk.times[here]++
		order = append(order, turn{here, int(walk.times[here])})
		if total += notes[here]; total > maxNotes || len(order) > maxBars {
			return nil, failed(in.lineOf(here), "with its repeats played out the score has more than %d notes or %d bars", maxNotes, maxBars)
		}
		if walk.step() {
			break
		}
	}
	return order, nil
}

func (f *readForm) merge(other readForm) {
	f.forward = f.forward || other.forward
	f.backward = f.backward || other.backward
	f.times = max(f.times, other.times)
	if f.ending == nil {
		f.ending = other.ending
	}
	f.endingOver = f.endingOver || other.endingOver
	f.daCapo, f.fine = f.daCapo || other.daCapo, f.fine || other.fine
	for _, name := range []struct{ to, from *string }{
		{&f.segno, &other.segno}, {&f.coda, &other.coda}, {&f.toCoda, &other.toCoda}, {&f.dalSegno, &other.dalSegno},
	} {
		if *name.to == "" {
			*name.to = *name.from
		}
	}
}

// formWalk is a player's place in the form.
type formWalk struct {
	form   []readForm
	times  []int32 // how often each bar has been played
	at     int
	start  int  // where the current repeat began
	pass   int  // which time through it
	jumped bool // a da capo or dal segno has been taken
}

// skipEnding moves on if the bar belongs to an ending for another time
// through. It reports whether it moved.
func (w *formWalk) skipEnding() bool {
	f := w.form[w.at]
	if f.forward && w.at != w.start {
		w.start, w.pass = w.at, 1
	}
	pass := w.pass
	if w.jumped { // only the last time through is played now
		pass = w.lastPass()
	}
	if f.ending == nil || slices.Contains(f.ending, pass) {
		return false
	}
	w.at++
	return true
}

// lastPass returns the highest number among the endings around the place.
func (w *formWalk) lastPass() int {
	from := w.at
	for from > 0 && w.form[from-1].ending != nil {
		from--
	}
	last := 1
	for i := from; i < len(w.form) && w.form[i].ending != nil; i++ {
		last = max(last, slices.Max(w.form[i].ending))
	}
	return last
}

// step goes on from the bar just played. It reports whether the piece is over.
func (w *formWalk) step() (over bool) {
	f := w.form[w.at]
	if w.jumped && f.fine {
		return true
	}
	if w.jumped && f.toCoda != "" {
		if to := w.find(func(g readForm) bool { return g.coda != "" && (g.coda == f.toCoda) }); to > w.at {
			w.at, w.start, w.pass = to, to, 1
			return false
		}
	}
	if f.backward && !w.jumped && w.pass < w.total(f) {
		w.pass++
		w.at = w.start
		return false
	}
	if f.backward {
		w.start, w.pass = w.at+1, 1
		w.closeEndings()
	} else if f.endingOver {
		w.start, w.pass = w.at+1, 1
	}
	if !w.jumped && (f.daCapo || f.dalSegno != "") {
		to := 0
		if !f.daCapo {
			to = w.find(func(g readForm) bool { return g.segno == f.dalSegno })
		}
		if to >= 0 {
			w.jumped, w.at, w.start, w.pass = true, to, to, 1
			return false
		}
	}
	w.at++
	return false
}

// total returns how often the repeat that ends here is played: as often as its
// endings say, else as the repeat says, else twice.
func (w *formWalk) total(f readForm) int {
	if f.ending != nil {
		last := slices.Max(f.ending)
		for i := w.at + 1; i < len(w.form) && w.form[i].ending != nil && last < slices.Max(w.form[i].ending); i++ {
			last = slices.Max(w.form[i].ending)
		}
		if last > 1 {
			return last
		}
	}
	if f.times > 0 {
		return f.times
	}
	return 2
}

// closeEndings is called when a repeat has been played for the last time: the
// endings that follow it were for the times before or have just been played.
func (w *formWalk) closeEndings() {
	if w.form[w.at].ending == nil {
		return
	}
	for w.at+1 < len(w.form) && w.form[w.at+1].ending != nil {
		w.at++
	}
	w.start = w.at + 1
}

func (w *formWalk) find(is func(readForm) bool) int { return slices.IndexFunc(w.form, is) }

func (in *reading) notesByBar(bars int) []int {
	notes := make([]int, bars)
	for _, p := range in.parts {
		for i, bar := range p.bars {
			notes[i] += len(bar.notes)
		}
	}
	return notes
}

func (in *reading) lineOf(bar int) int {
	for _, p := range in.parts {
		if bar < len(p.bars) {
			return p.bars[bar].line
		}
	}
	return 0
}

// isPickup reports whether a first bar is not counted.
func (b *readBar) isPickup() bool { return b.implicit || b.number == "0" }

// skipped is how much of a whole bar comes before one that lasts so long: nothing, but
// of a pickup.
func (s *stage) skipped(n int, length int64) beat.Span {
	if bar := s.part.bars[n]; n == 0 && bar.isPickup() {
		return s.span(max(0, s.in.meterTicks(bar)-length))
	}
	return beat.Span{}
}
