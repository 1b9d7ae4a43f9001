package layout

import (
	"tieover/layout/sheet"
	"tieover/layout/systems"
)

// breaks is what a walk remembers, over all sections, to say where systems begin.
type breaks struct {
	bars    int // so far, the bar at hand among them
	pickups int // of these
	score   systems.Breaker
	planned func() (systems.System, bool) // the systems chosen for a part; nil without
	next    systems.System                // the first of them that has not begun
}

// brk has a new system begin with bar n of the section: where the section starts, and
// where a realignment that divides it makes one sensible. A pickup, bar 0, is before the
// first system's bars.
func (w *sectionWalk) brk(fb *frameBar, n int) {
	fb.brk = sheet.NoBreak
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
