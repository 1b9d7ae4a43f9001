package layout

import (
	"cmp"
	"slices"
	"sort"
	"strconv"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// marks writes the signs of the bar: first those for everybody, on the top
// part, then those of each voice.
func (w *partWalk) marks(fb *frameBar) {
	if w.top || w.alone {
		w.systemMarks(fb)
	}
	for i := range w.plan.voices {
		w.voiceMarks(fb, i)
	}
	for i := 1; i < len(w.bar.Marks); i++ {
		if order(&w.bar.Marks[i-1], &w.bar.Marks[i]) > 0 {
			slices.SortStableFunc(w.bar.Marks, func(a, b Mark) int { return order(&a, &b) })
			break
		}
	}
}

func order(a, b *Mark) int {
	return cmp.Or(a.Voice-b.Voice, a.Before-b.Before, int(a.Offset-b.Offset))
}

// put places a mark at a moment of the bar.
func (w *partWalk) put(fb *frameBar, at beat.Time, m Mark) {
	events := w.bar.Measure.Voices[m.Voice].Events
	m.Before, m.Offset = locate(events, at-fb.from)
	w.bar.Marks = append(w.bar.Marks, m)
}

// locate returns the event that a moment of the bar falls in, and how far in.
func locate(events []Event, at beat.Time) (before int, offset beat.Time) {
	i := sort.Search(len(events), func(i int) bool { return events[i].At()+events[i].Span() > at })
	if i == len(events) {
		return i, 0
	}
	return i, at - events[i].At()
}

// systemMarks writes labels, tempi, texts and chord symbols. One box stands on
// the barline; every further one, and each inside the bar, over its moment.
func (w *partWalk) systemMarks(fb *frameBar) {
	for _, t := range fb.tempos {
		tempo := t.Tempo
		w.put(fb, t.Time, Mark{Kind: TempoMark, Tempo: &tempo})
	}
	onBarline := w.rehearsal(fb)
	for i, l := range fb.labels {
		if i == onBarline {
			w.put(fb, l.at, Mark{Kind: Rehearsal, Text: l.text})
			if fb.scoreBar > 0 && w.frame.bars != nil {
				w.put(fb, l.at, Mark{Kind: ScoreBar, Text: "score bar " + strconv.Itoa(fb.scoreBar)})
			}
			continue
		}
		w.put(fb, l.at, Mark{Kind: Boxed, Text: l.text})
		if l.within != "" {
			w.put(fb, l.at, Mark{Kind: Words, Text: l.within})
		}
		if w.frame.bars != nil && l.at < fb.s.Length {
			w.put(fb, l.at, Mark{Kind: ScoreBar, Text: "score " + fb.s.Where(l.at).String()})
		}
	}
	for _, e := range fb.entries {
		if e.Text != "" {
			w.put(fb, e.Time, Mark{Kind: Words, Text: e.Text})
		}
		if e.Chord != "" {
			w.put(fb, e.Time, Mark{Kind: ChordSymbol, Text: e.Chord})
		}
	}
}

// rehearsal chooses the label that stands on the barline: a mark of the plan,
// else the section's name, else a realignment's. -1 when there is none.
func (w *partWalk) rehearsal(fb *frameBar) int {
	best, rank := -1, 0
	for i, l := range fb.labels {
		r := 0
		switch {
		case !l.onBar:
		case l.realign:
			r = 1
		case l.text == fb.s.Name && fb.first:
			r = 2
		default:
			r = 3
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// voiceMarks writes the marks of one voice: dynamics, and its cycles.
func (w *partWalk) voiceMarks(fb *frameBar, i int) {
	c := w.cursors[i]
	if c == nil || c.partner {
		return
	}
	st := &w.voices[i]
	w.dynamics(fb, i, c, st)
	if c.plainVoice {
		return
	}
	kinds := w.o.Marks.all()
	if w.o.Edition == Study {
		w.strokes(fb, i, c)
	}
	for _, e := range c.ends {
		if kinds&MarkCycles != 0 && w.o.Edition == Study && w.bracketed(fb, i, e, c) {
			w.bar.Marks = append(w.bar.Marks, Mark{Kind: CycleStop, Voice: i, Before: lastIn(w.events(i), e.start-fb.from, e.end-fb.from)})
		}
	}
	for _, e := range c.starts {
		if e.landing || e.start < c.layer.Enters {
			continue
		}
		if kinds&MarkCycles != 0 && w.o.Edition == Study && w.bracketed(fb, i, e, c) {
			w.bar.Marks = append(w.bar.Marks, Mark{Kind: CycleStart, Voice: i, Before: firstIn(w.events(i), e.start-fb.from)})
		}
		if kinds&MarkGroups != 0 {
			w.number(fb, i, st, e)
		}
	}
	if kinds&MarkSizes != 0 {
		w.sizes(fb, i, c)
	}
}

func (w *partWalk) events(voice int) []Event { return w.bar.Measure.Voices[voice].Events }

// sizes writes each group's size over its first note. A group that the barline
// cuts has, in the study edition, a corner at both halves, and its size again
// over the second one.
func (w *partWalk) sizes(fb *frameBar, i int, c *cursor) {
	study := w.o.Edition == Study
	if study && len(c.groups) > 0 && len(c.sounds) > 0 && c.groups[0].at < fb.from && c.sounds[0].at < min(c.groups[0].end, fb.to) {
		w.bar.Marks = append(w.bar.Marks, Mark{Kind: GroupSize, Voice: i, N: c.groups[0].size, Text: GoneOn})
	}
	for k, ev := range w.events(i) {
		n, ok := ev.(*Note)
		if !ok || n.Group == 0 {
			continue
		}
		m := Mark{Kind: GroupSize, Voice: i, Before: k, N: n.Group}
		if last := &c.groups[len(c.groups)-1]; study && last.at == fb.from+n.Start && last.end > fb.to {
			m.Text = GoesOn
		}
		w.bar.Marks = append(w.bar.Marks, m)
	}
}

// number writes a cycle's iteration, and its grouping where that is new.
func (w *partWalk) number(fb *frameBar, i int, st *voiceState, e cycleEdge) {
	m := Mark{Kind: CycleNumber, Voice: i, N: e.number}
	if w.o.Edition == Play {
		m.Text = "()"
	}
	w.put(fb, e.start, m)
	if len(e.groups) == 0 {
		return
	}
	realigned := fb.realignedBy(e.start)
	again := realigned > st.grouped
	if e.changed || again {
		w.put(fb, e.start, Mark{Kind: Grouping, Voice: i, Text: st.grouping(e.groups)})
		if again {
			st.grouped = realigned
		}
	}
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
func (w *partWalk) bracketed(fb *frameBar, i int, e cycleEdge, c *cursor) bool {
	if e.landing || e.start < max(0, c.layer.Enters) {
		return false
	}
	if e.start < fb.from || e.end > fb.to {
		return true
	}
	n := 0
	events := w.events(i)
	for k := startAfter(events, e.start-fb.from); k < len(events) && events[k].At() < e.end-fb.from && n < 2; k++ {
		if _, ok := events[k].(*Note); ok {
			n++
		}
	}
	return n > 1
}

// firstIn is the first note at or after a moment, else the event there.
func firstIn(events []Event, at beat.Time) int {
	for i := startAfter(events, at); i < len(events); i++ {
		if _, ok := events[i].(*Note); ok {
			return i
		}
	}
	i, _ := locate(events, at)
	return min(i, len(events)-1)
}

// lastIn is the last note that begins in [from, to), else the last event.
func lastIn(events []Event, from, to beat.Time) int {
	last := max(0, startAfter(events, to)-1)
	for i := last; i >= 0 && events[i].At() >= from; i-- {
		if _, ok := events[i].(*Note); ok {
			return i
		}
	}
	return last
}

// startAfter returns the first event that starts at or after a moment.
func startAfter(events []Event, at beat.Time) int {
	return sort.Search(len(events), func(i int) bool { return events[i].At() >= at })
}

// strokes marks cycle starts, and realignments, that fall inside the bar.
func (w *partWalk) strokes(fb *frameBar, i int, c *cursor) {
	if w.o.Marks.all() == 0 {
		return
	}
	for _, e := range c.starts {
		if e.start > fb.from && !e.landing && w.o.Marks.all()&MarkCycles != 0 {
			w.put(fb, e.start, Mark{Kind: Stroke, Voice: i})
		}
	}
	for _, l := range fb.labels {
		if !l.realign || l.within == "" || i > 0 {
			continue
		}
		if !slices.ContainsFunc(c.starts, func(e cycleEdge) bool { return e.start == l.at }) {
			w.put(fb, l.at, Mark{Kind: Stroke, Voice: i})
		}
	}
}
