package layout

import (
	"iter"

	"tieover/layout/sheet"
	"tieover/layout/systems"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// sectionWalk is the walk over one section.
type sectionWalk struct {
	f       *framer
	section int
	s       *score.Section
	look    *sectionLook
	br      *breaks

	signs     *peek.Peeker[score.Signpost]
	realigns  *peek.Peeker[score.Realignment]
	queue     []score.Realignment // read, not passed: breaks look several ahead
	entry     int                 // of the plan, the next
	tempo     int                 // the next
	gradual   score.TempoAt       // the last that was gradual, its Steps those to come
	key       int                 // of the section's, that which holds
	realigned beat.Time
	end       beat.Time // of the section's last bar
}

func newSectionWalk(f *framer, i int, s *score.Section, br *breaks) *sectionWalk {
	w := &sectionWalk{f: f, section: i, s: s, look: &f.lookups[i], br: br, realigned: -1}
	w.signs, w.realigns = peek.Of(s.Signposts()), peek.Of(s.RealignmentTimes())
	w.end = s.Extent()
	return w
}

func (w *sectionWalk) stop() {
	w.signs.Stop()
	w.realigns.Stop()
}

// peek returns the kth realignment that has not been passed.
func (w *sectionWalk) peek(k int) (score.Realignment, bool) {
	for len(w.queue) <= k {
		r, ok := w.realigns.Next()
		if !ok {
			return score.Realignment{}, false
		}
		w.queue = append(w.queue, r)
	}
	return w.queue[k], true
}

func (w *sectionWalk) source() iter.Seq[score.Bar] {
	if w.f.bars != nil {
		return w.f.bars(w.section)
	}
	return w.s.Bars()
}

// bars yields the section's bars.
func (w *sectionWalk) bars(yield func(*frameBar) bool) {
	fb := &frameBar{}
	n := 0             // a pickup is not counted
	var held score.Bar // one bar back, for the last one differs
	any := false
	for bar := range w.source() {
		if any && !w.bar(fb, held, n, true, yield) {
			return
		}
		held, any = bar, true
		if bar.Skipped == 0 {
			n++
		}
	}
	if any {
		w.bar(fb, held, n, false, yield)
	}
}

// bar frames bar n of the section, 0 for its pickup, and yields it.
func (w *sectionWalk) bar(fb *frameBar, bar score.Bar, n int, more bool, yield func(*frameBar) bool) bool {
	lastSection := w.section == len(w.f.p.Sections)-1
	*fb = frameBar{section: w.section, s: w.s, newSection: bar.Start == w.s.Opening(), skipped: bar.Skipped, again: bar.Start == 0 && w.s.End == score.Repeat,
		from: bar.Start, to: bar.End(), number: bar.Number, sig: bar.Signature, landing: bar.Landing,
		labels: fb.labels[:0], entries: fb.entries[:0], tempos: fb.tempos[:0], ended: fb.ended[:0], steps: fb.steps[:0],
		realigned: fb.realigned[:0], changed: fb.changed[:0]}
	keys := w.s.Keys()
	for w.key+1 < len(keys) && keys[w.key+1].Time <= fb.from {
		w.key++
	}
	fb.key = keys[w.key].Key
	w.br.bars++
	if n == 0 {
		w.br.pickups++
	}
	switch {
	case w.f.bars == nil:
		fb.scoreBar = bar.Number
	case fb.from < w.end && w.s.OnBarline(fb.from):
		fb.number, fb.scoreBar = w.br.bars-w.br.pickups, w.s.BarAt(fb.from).Number
	default:
		fb.number = w.br.bars - w.br.pickups
	}
	w.brk(fb, n)
	w.realignments(fb, !more)
	w.labels(fb, !more)
	w.plan(fb, !more)
	w.barlines(fb, more, lastSection)
	return yield(fb)
}

// barlines decides the lines at both edges: a double bar at a section's end,
// before the realignments that divide it, and before another key.
func (w *sectionWalk) barlines(fb *frameBar, more, lastSection bool) {
	if fb.again {
		fb.left, fb.times = sheet.RepeatStart, w.s.Played()
	}
	switch {
	case !more && w.s.End == score.Repeat:
		fb.barline, fb.times = sheet.RepeatEnd, w.s.Played()
	case !more && lastSection:
		fb.barline = sheet.Final
	case !more:
		fb.barline = sheet.Double
	default:
		r, ok := w.peek(0)
		keys := w.s.Keys()
		if ok && r.Divides && r.Time == fb.to || w.key+1 < len(keys) && keys[w.key+1].Time <= fb.to {
			fb.barline = sheet.Double
		}
	}
}

// breaks is what a walk remembers, over all sections, to say where systems begin.
type breaks struct {
	bars    int // so far, the current bar among them
	pickups int // of these
	score   systems.Breaker
	planned func() (systems.System, bool) // the systems chosen for a part; nil without
	next    systems.System                // the first of them that has not begun
}

// brk has a new system begin with bar n of the section: where the section starts, and
// where a realignment that divides it makes one sensible. A pickup, bar 0, is before the
// first system's bars.
func (w *sectionWalk) brk(fb *frameBar, n int) {
	switch br := w.br; {
	case br.planned != nil:
		if br.bars == br.next.Bar {
			fb.brk = br.next.Break
			br.next, _ = br.planned()
		}
		fb.breaksNext = br.bars+1 == br.next.Bar
	case w.f.o.Breaks != BreakNone && n > 0:
		if r, ok := w.peek(0); n == 1 || ok && r.Divides && r.Time == fb.from {
			length, room := 0, 0
			if w.f.o.Breaks == BreakAuto {
				length, room = w.barsToNext(fb), w.look.room()
			}
			br.score.Period(n, length, room, n == 1)
		}
		if br.score.Bar(n) {
			fb.brk = sheet.NewSystem
		}
	}
}

// mostAhead is how many realignments are looked through for one that divides a section.
const mostAhead = 4096

// barsToNext counts the bars from this one to the next realignment that divides the
// section, or to its end; 0 where the bars cannot be counted ahead.
func (w *sectionWalk) barsToNext(fb *frameBar) int {
	if w.f.bars != nil {
		return 0
	}
	here := w.s.BarAt(fb.from).N
	for k := range mostAhead {
		switch r, ok := w.peek(k); {
		case !ok || r.Time >= w.end:
			return w.s.BarCount() + 1 - here
		case r.Divides && r.Time > fb.from:
			return w.s.BarAt(r.Time).N - here
		}
	}
	return 0
}
