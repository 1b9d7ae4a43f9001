package layout

import (
	"fmt"
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// frameBar is what a bar has in common in all parts.
type frameBar struct {
	section  int
	s        *score.Section
	first    bool // of its section
	from, to beat.Time
	number   int
	scoreBar int // the common bar that begins here; 0 in bars of one's own that do not meet one
	sig      score.Signature
	landing  bool

	newMeter, newKey, newSection bool
	barline, left                Barline
	times                        int
	brk                          Break
	labels                       []label
	entries                      []*score.PlanEntry // of the plan, at moments in the bar
	tempos                       []score.TempoAt
	realigned                    []beat.Time // realignments up to the bar's end: those in it, after the last one before it
	last                         bool        // of the piece
	starts                       bool        // realigned at its start
}

// label is a boxed sign at a moment.
type label struct {
	at      beat.Time // in section time
	text    string
	within  string // "beat 3", for a moment inside the bar
	realign bool
	onBar   bool
}

// framer walks the bars of a piece with all that the parts share.
type framer struct {
	p       *score.Piece
	o       *Options
	bars    func(section int) iter.Seq[score.Bar] // nil: the section's own meter
	lookups []*sectionLook
}

// sectionLook is what is found once for each section.
type sectionLook struct {
	capacity int // bars a system has room for
	tempos   []score.TempoAt
}

func newFramer(p *score.Piece, o *Options) *framer {
	f := &framer{p: p, o: o}
	for _, s := range p.Sections {
		f.lookups = append(f.lookups, &sectionLook{capacity: capacityOf(s), tempos: s.Tempos()})
	}
	return f
}

// walk yields the frame of each bar. The bar is only good until the next.
func (f *framer) walk(yield func(*frameBar) bool) {
	br := breaker{how: f.o.Breaks}
	var before score.Signature
	var key *score.Key
	for i, s := range f.p.Sections {
		w := newSectionWalk(f, i, s, &br)
		for fb := range w.bars {
			fb.newMeter = len(before.Terms) == 0 || !sameSignature(&before, &fb.sig)
			fb.newKey = key == nil || *key != s.Key
			before, key = fb.sig, &s.Key
			if !yield(fb) {
				w.stop()
				return
			}
		}
		w.stop()
	}
}

// sameSignature compares without writing the signatures out when they are one
// value of the spec.
func sameSignature(a, b *score.Signature) bool {
	return len(a.Terms) > 0 && len(b.Terms) > 0 && &a.Terms[0] == &b.Terms[0] || a.Equal(*b)
}

// sectionWalk is the walk over one section.
type sectionWalk struct {
	f       *framer
	section int
	s       *score.Section
	look    *sectionLook
	br      *breaker

	nextRealign func() (score.Realignment, bool)
	stop        func()
	queue       []score.Realignment // read, not passed
	over        bool
	entry       int // of the plan, the next
	tempo       int // the next
	previous    beat.Time
	realigned   beat.Time
	end         beat.Time // of the section's last bar
}

func newSectionWalk(f *framer, i int, s *score.Section, br *breaker) *sectionWalk {
	w := &sectionWalk{f: f, section: i, s: s, look: f.lookups[i], br: br, realigned: -1}
	w.nextRealign, w.stop = iter.Pull(s.Moments())
	w.end = s.Extent()
	return w
}

// peek returns the kth realignment that has not been passed.
func (w *sectionWalk) peek(k int) (score.Realignment, bool) {
	for len(w.queue) <= k && !w.over {
		r, ok := w.nextRealign()
		if !ok {
			w.over = true
			break
		}
		w.queue = append(w.queue, r)
	}
	if k < len(w.queue) {
		return w.queue[k], true
	}
	return score.Realignment{}, false
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
	n := 0
	var held score.Bar // one bar back, for the last one differs
	for bar := range w.source() {
		if n++; n > 1 && !w.bar(fb, held, n-1, true, yield) {
			return
		}
		held = bar
	}
	if n > 0 {
		w.bar(fb, held, n, false, yield)
	}
}

// bar frames bar n of the section and yields it.
func (w *sectionWalk) bar(fb *frameBar, bar score.Bar, n int, more bool, yield func(*frameBar) bool) bool {
	lastSection := w.section == len(w.f.p.Sections)-1
	fb.section, fb.s, fb.first, fb.newSection = w.section, w.s, n == 1, n == 1
	fb.from, fb.to, fb.number, fb.sig, fb.landing = bar.Start, bar.End(), bar.Number, bar.Signature, bar.Landing
	fb.last, fb.starts, fb.scoreBar, fb.times, fb.brk, fb.barline, fb.left = lastSection && !more, false, 0, 0, NoBreak, Plain, Plain
	fb.labels, fb.entries, fb.tempos = fb.labels[:0], fb.entries[:0], fb.tempos[:0]
	w.br.bars++
	switch {
	case w.f.bars == nil:
		fb.scoreBar = bar.Number
	case fb.from < w.end && w.s.OnBarline(fb.from):
		fb.number, fb.scoreBar = w.br.bars, w.s.BarAt(fb.from).Number
	default:
		fb.number = w.br.bars
	}
	w.brk(fb, n)
	w.labels(fb, !more)
	w.plan(fb, !more)
	w.barlines(fb, more, lastSection)
	w.br.passed(fb.brk != NoBreak)
	return yield(fb)
}

// labels takes the realignments of the bar off the queue; at the section's end
// also the one exactly there.
func (w *sectionWalk) labels(fb *frameBar, lastBar bool) {
	if fb.first && w.s.Name != "" {
		fb.labels = append(fb.labels, label{at: 0, text: w.s.Name, onBar: true})
	}
	fb.realigned = fb.realigned[:0]
	if w.realigned >= 0 {
		fb.realigned = append(fb.realigned, w.realigned)
	}
	for {
		r, ok := w.peek(0)
		if !ok || r.Time >= fb.to && !(lastBar && r.Time == fb.to) {
			break
		}
		w.queue = append(w.queue[:0], w.queue[1:]...)
		if r.Time < fb.to {
			w.previous = r.Time
		}
		if r.Index == 0 {
			w.realigned = r.Time
			fb.realigned = append(fb.realigned, r.Time)
			fb.starts = r.Time == fb.from
		}
		if r.Label == "" {
			continue
		}
		w.realigned = r.Time
		fb.realigned = append(fb.realigned, r.Time)
		fb.starts = fb.starts || r.Time == fb.from
		l := label{at: r.Time, text: r.Label, realign: true, onBar: r.Time == fb.from}
		if r.Time > fb.from && r.Time < fb.to {
			l.within = within(fb.sig, w.s.Grid.Span(r.Time-fb.from))
		}
		if r.Time == fb.to && w.s.End == score.Repeat {
			l.text += " = beginning"
		}
		fb.labels = append(fb.labels, l)
	}
}

// realignedBy returns the last realignment up to a moment of the bar, -1 when
// there is none.
func (fb *frameBar) realignedBy(at beat.Time) beat.Time {
	for _, r := range slices.Backward(fb.realigned) {
		if r <= at {
			return r
		}
	}
	return -1
}

// within says where inside a bar a moment lies: "beat 3", or "beat 3+" past it.
func within(sig score.Signature, into beat.Span) string {
	n := 1
	for _, length := range sig.Beats() {
		if into.Cmp(length) < 0 {
			break
		}
		into = into.Sub(length)
		n++
	}
	if into.Sign() > 0 {
		return fmt.Sprintf("beat %d+", n)
	}
	return fmt.Sprintf("beat %d", n)
}

// plan takes what the spec's plan and tempo marks put into the bar.
func (w *sectionWalk) plan(fb *frameBar, lastBar bool) {
	for ; w.entry < len(w.s.Plan); w.entry++ {
		e := &w.s.Plan[w.entry]
		if e.Time >= fb.to && !lastBar {
			break
		}
		fb.entries = append(fb.entries, e)
		if e.Mark != "" && !fb.labeled(e.Time, e.Mark) {
			l := label{at: e.Time, text: e.Mark, onBar: e.Time == fb.from}
			fb.labels = append(fb.labels, l)
		}
	}
	for ; w.tempo < len(w.look.tempos) && w.look.tempos[w.tempo].Time < fb.to; w.tempo++ {
		fb.tempos = append(fb.tempos, w.look.tempos[w.tempo])
	}
}

func (fb *frameBar) labeled(at beat.Time, text string) bool {
	for _, l := range fb.labels {
		if l.at == at && l.text == text {
			return true
		}
	}
	return false
}

// barlines decides the lines at both edges: a double bar at a section's end,
// and before a realignment on a barline if its period is four bars or more.
func (w *sectionWalk) barlines(fb *frameBar, more, lastSection bool) {
	if fb.first && w.s.End == score.Repeat {
		fb.left = RepeatStart
	}
	switch {
	case !more && w.s.End == score.Repeat:
		fb.barline, fb.times = RepeatEnd, 2
	case !more && lastSection:
		fb.barline = Final
	case !more:
		fb.barline = Double
	default:
		r, ok := w.peek(0)
		if ok && r.Label != "" && r.Time == fb.to && r.Time-w.previous >= 4*(fb.to-fb.from) {
			fb.barline = Double
		}
	}
}
