package layout

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// sizes writes each group's size over its first note. A group that the barline
// cuts has, in the study edition, a corner at both halves, and its size again
// over the second one.
func (w *partWalk) sizes(fb *frameBar, i int, c *cursor) {
	study := w.o.Edition == sheet.Study
	if study && len(c.groups) > 0 && len(c.sounds) > 0 && c.groups[0].at < fb.from && c.sounds[0].at < c.groups[0].end {
		w.bar.Marks = append(w.bar.Marks, sheet.Mark{Kind: sheet.GroupSize, Voice: i, N: c.groups[0].size, Text: sheet.GoneOn})
	}
	for k, ev := range w.events(i) {
		n, ok := ev.(*sheet.Note)
		if !ok || n.Group == 0 {
			continue
		}
		m := sheet.Mark{Kind: sheet.GroupSize, Voice: i, Before: k, N: n.Group}
		if last := &c.groups[len(c.groups)-1]; study && last.at == fb.from+n.Start && last.end > fb.to {
			m.Text = sheet.GoesOn
		}
		w.bar.Marks = append(w.bar.Marks, m)
	}
}

// number writes a cycle's iteration, and its grouping where that is new. The play
// edition counts no cycles if all are whole bars, and has a grouping only where it
// differs from the one printed before.
func (w *partWalk) number(fb *frameBar, i int, st *voiceState, e *score.Cycle) {
	number := sheet.Mark{Kind: sheet.CycleNumber, Voice: i, N: e.Number}
	grouping := sheet.Mark{Kind: sheet.Grouping, Voice: i, Text: st.grouping(e.Groups)}
	if w.o.Edition == sheet.Play {
		if !w.wholeBars(fb, e) || w.beginsInside(fb.s, i) {
			number.Text = "()"
			w.put(fb, e.Start, number)
		}
		if grouping.Text != st.printed {
			st.printed = grouping.Text
			w.put(fb, e.Start, grouping)
		}
		return
	}
	w.put(fb, e.Start, number)
	if realigned := fb.realignedBy(e.Start); e.Changed || realigned > st.grouped {
		w.put(fb, e.Start, grouping)
		st.grouped = max(st.grouped, realigned)
	}
}

// others names the further layers of a side, each once, with its grouping, where
// its first cycle begins.
func (w *partWalk) others(fb *frameBar, i int, st *voiceState, c *cursor) {
	for _, other := range c.side[1:] {
		for _, e := range other.starts {
			if other.named || e.Landing || e.Start < other.layer.Enters {
				continue
			}
			other.named = true
			w.put(fb, e.Start, sheet.Mark{Kind: sheet.Words, Voice: i, Text: other.layer.Name + " " + st.grouping(e.Groups)})
		}
	}
}

// wholeBars reports whether a cycle fills whole bars.
func (w *partWalk) wholeBars(fb *frameBar, e *score.Cycle) bool {
	return e.Start == fb.from && (e.End() == fb.to || w.frame.bars == nil && fb.s.OnBarline(e.End()))
}

// beginsInside reports whether some cycle of a voice begins inside a bar of the
// section, so that all of them are counted from the first on.
func (w *partWalk) beginsInside(s *score.Section, voice int) bool {
	if w.frame.bars != nil {
		return false
	}
	st := &w.voices[voice]
	if st.inside == nil {
		l := w.cursors[voice].layers()[0]
		st.inside = new(bool)
		for c := range s.Cycles(slices.Index(s.Layers, l)) {
			if c.Start >= l.Enters && !c.Landing && !s.OnBarline(c.Start) {
				*st.inside = true
				break
			}
		}
	}
	return *st.inside
}

// grouping writes the sizes of a cycle, silent groups in parentheses.
func (st *voiceState) grouping(groups []score.Group) string {
	if text, ok := st.labels[&groups[0]]; ok {
		return text
	}
	var sizes []string
	for _, g := range groups {
		size := strconv.Itoa(g.Size)
		if g.Blank {
			size = "(" + size + ")"
		}
		if !g.Tail {
			sizes = append(sizes, size)
		}
	}
	text := strings.Join(sizes, "+")
	if len(st.labels) < memoSize {
		st.labels[&groups[0]] = text
	}
	return text
}

// bracketed reports whether a cycle gets a bracket: it begins in sight and has
// more than one note.
func (w *partWalk) bracketed(fb *frameBar, i int, e *score.Cycle, c *cursor) bool {
	if w.o.Edition != sheet.Study || w.o.Marks.all()&MarkCycles == 0 {
		return false
	}
	if e.Landing || e.Start < c.layer.Enters {
		return false
	}
	if e.Start < fb.from || e.End() > fb.to {
		return true
	}
	n := 0
	events := w.events(i)
	for k := startAfter(events, e.Start-fb.from); k < len(events) && events[k].At() < e.End()-fb.from && n < 2; k++ {
		if _, ok := events[k].(*sheet.Note); ok {
			n++
		}
	}
	return n > 1
}

// lastIn is the last note that begins in [from, to), else the last event.
func lastIn(events []sheet.Event, from, to beat.Time) int {
	last := max(0, startAfter(events, to)-1)
	for i := last; i >= 0 && events[i].At() >= from; i-- {
		if _, ok := events[i].(*sheet.Note); ok {
			return i
		}
	}
	return last
}

// startAfter returns the first event that starts at or after a moment.
func startAfter(events []sheet.Event, at beat.Time) int {
	return sort.Search(len(events), func(i int) bool { return events[i].At() >= at })
}

// strokes marks cycle starts, and realignments, that fall inside the bar.
func (w *partWalk) strokes(fb *frameBar, i int, c *cursor) {
	if w.o.Marks.all() == 0 {
		return
	}
	for _, e := range c.starts {
		if e.Start > fb.from && !e.Landing && w.o.Marks.all()&MarkCycles != 0 {
			w.put(fb, e.Start, sheet.Mark{Kind: sheet.Stroke, Voice: i})
		}
	}
	for _, l := range fb.labels {
		if l.within == "" || i != slices.IndexFunc(w.cursors, func(c *cursor) bool { return c != nil }) {
			continue
		}
		if !slices.ContainsFunc(c.starts, func(e score.Cycle) bool { return e.Start == l.At }) {
			w.put(fb, l.At, sheet.Mark{Kind: sheet.Stroke, Voice: i})
		}
	}
}
