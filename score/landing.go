package score

import "tieover/score/beat"

// landing returns what a layer plays when the section ends with `land`: its head
// attack once, at the section's end, as a cycle of its own. ok is false when
// there is none.
func (w *walker) landing() (c Cycle, ok bool) {
	if w.s.End != Land || w.l.Leaves < w.s.Length {
		return Cycle{}, false
	}
	pattern := &w.l.Patterns[(w.index-1)%len(w.l.Patterns)]
	bar := w.s.asWritten().BarAt(w.s.Length)
	c = Cycle{Layer: w.layer, Index: w.index, Number: 1, Start: w.s.Length, Landing: true}
	c.Length = bar.End() - c.Start
	c.Sounds = c.Length

	b := w.l.build(pattern, pattern.shape())
	head := b.groups[0]
	head.Length = min(head.Length, c.Length)
	c.Groups = append(c.Groups, head)
	if rest := c.Length - head.Length; rest > 0 {
		c.Groups = append(c.Groups, Group{At: head.Length, Length: rest, Spec: 2,
			Size: int(max(1, rest/w.l.Unit)), Blank: true})
	}
	if len(b.attacks) > 0 && b.attacks[0].at == 0 {
		a := b.attacks[0]
		a.length = min(a.length, c.Length)
		c.Attacks = append(c.Attacks, w.deal.attack(&c, a, w.series(w.sinceAt(w.s.Length)), nil))
	}
	return c, true
}

// sinceAt returns which cycle since the last realignment begins at t, the next
// one's start or, when the section ends inside a cycle, its end.
func (w *walker) sinceAt(t beat.Time) int {
	if w.s.meeting.count(t) > w.seen {
		return 1
	}
	return w.since
}

// begins returns when the layer can first be heard: its entry, or its first
// cycle when an offset makes that later.
func (l *Layer) begins() beat.Time {
	return max(l.Enters, l.First)
}
