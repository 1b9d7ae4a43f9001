package layout

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// breaker decides where new systems begin: periods between realignments that
// fit together share a system, long ones are cut in equal pieces, and a system
// has a single bar only where two cannot be squeezed into it.
type breaker struct {
	how     Breaking
	system  int // bars since the last break
	starts  int // bar where the period at hand starts
	length  int // its bars
	pieces  int // systems it is cut into
	breakAt bool
	room    int
	bars    int // of the piece so far
	pickups int // of these

	planned func() (system, bool) // the systems chosen for a part; nil without
	next    system
}

// period is told that a period of so many bars begins at bar n (of its
// section), and how many bars a system has room for. length 0 is unknown.
func (b *breaker) period(n, length, room int, newSection bool) {
	b.starts, b.length, b.room, b.pieces = n, length, room, 1
	switch {
	case b.how == BreakNone:
		b.breakAt = false
		return
	case b.how == BreakRealign || length == 0:
		b.breakAt = newSection || b.system >= 2
		return
	}
	b.breakAt = b.system >= 2 && (newSection || b.system+length > room)
	if length > room {
		if !b.breakAt && !newSection { // it joins a lone bar before
			b.starts, b.length = n-b.system, length+b.system
		}
		most := max(1, b.length/2)
		if b.length*sheet.Squeezed > most*room*sheet.Full {
			most = b.length
		}
		b.pieces = min((b.length+room-1)/room, most)
	}
}

// at reports whether a system begins at bar n, which is in the period.
func (b *breaker) at(n int) bool {
	if b.how == BreakNone {
		return false
	}
	if n == b.starts {
		return b.breakAt
	}
	if b.pieces == 1 || n > b.starts+b.length {
		return false
	}
	past := n - b.starts // is it where some piece starts, piece·length/pieces rounded down?
	piece := (past*b.pieces + b.length - 1) / b.length
	return piece < b.pieces && piece*b.length/b.pieces == past
}

// plans returns the break that is planned before the bar at hand.
func (b *breaker) plans() sheet.Break {
	if b.bars == 1 {
		b.next, _ = b.planned()
	}
	if b.bars != b.next.bar {
		return sheet.NoBreak
	}
	how := b.next.how
	b.next, _ = b.planned()
	return how
}

// passed counts a bar.
func (b *breaker) passed(broke bool) {
	if broke {
		b.system = 0
	}
	b.system++
}

// capacityOf estimates how many bars of a section fit on a system of the score,
// by the distances of the moments at which anybody attacks or a rest begins: eight
// at most, and two if they can be squeezed into it.
func (r lineRoom) capacityOf(s *score.Section) int {
	bars := min(s.BarCount(), averaged)
	end := s.Bar(bars).End()
	signs, graces := signsUntil(s, end)
	width, before := bars*sheet.BarEdges+graces, beat.Time(-1)
	gap := func(to beat.Time) {
		if before >= 0 {
			width += sheet.Gap(to-before, s.Grid)
		}
		before = to
	}
	for _, at := range signs {
		gap(at)
	}
	gap(end)
	var sig score.Signature
	for k := 1; k <= bars; k++ {
		if next := s.Bar(k).Signature; !sameSignature(&sig, &next) {
			width += sheet.SignatureEdge + sheet.SignatureWidth(next)
			sig = next
		}
	}
	if 2*width <= bars*r.tight() {
		return min(8, max(2, int(r)*bars/width))
	}
	return 1
}

// signsUntil lists the moments before one at which anybody attacks, or falls
// silent so that a rest begins, and adds up what the grace notes before it take.
func signsUntil(s *score.Section, end beat.Time) (all []beat.Time, graces int) {
	for strike := range s.Moments() {
		if strike.Time >= end {
			break
		}
		all = append(all, strike.Time)
		most := 0
		for _, a := range strike.Attacks {
			if over := strike.Time + a.Length; over < end {
				all = append(all, over)
			}
			most = max(most, len(a.Graces))
		}
		graces += sheet.GraceRoom(most)
	}
	slices.Sort(all)
	return slices.Compact(all), graces
}

// averaged is how many bars of a section, at most, give the length of its bars.
const averaged = 24

// brk asks for a new system where the section starts and where a realignment
// that divides it makes one sensible. A pickup stands before the first system's bars.
func (w *sectionWalk) brk(fb *frameBar, n int) {
	switch {
	case w.br.planned != nil:
		fb.brk = w.br.plans()
		fb.breaksNext = w.br.next.bar == w.br.bars+1
		return
	case w.br.how == BreakNone || n == 0:
		return
	}
	r, ok := w.peek(0)
	starts := n == 1 || ok && r.Divides && r.Time == fb.from
	if starts {
		w.br.period(n, w.barsToNext(fb), w.look.capacity(), n == 1)
	}
	if w.br.at(n) && !(n == 1 && w.section == 0) {
		fb.brk = sheet.NewSystem
	}
}

// barsToNext counts the bars from this one to the next realignment that
// divides the section, or to its end; 0 when the bars cannot be counted ahead.
func (w *sectionWalk) barsToNext(fb *frameBar) int {
	if w.f.bars != nil {
		return 0
	}
	for k := 0; ; k++ {
		r, ok := w.peek(k)
		if !ok || r.Time >= w.end {
			return w.s.BarCount() + 1 - w.s.BarAt(fb.from).N
		}
		if r.Divides && r.Time > fb.from {
			return w.s.BarAt(r.Time).N - w.s.BarAt(fb.from).N
		}
		if k > 4096 {
			return 0
		}
	}
}
