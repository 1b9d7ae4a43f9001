package score

import "tieover/score/beat"

// landing is what a layer plays when the section ends with `land`: its head
// attack once, at the section's end, as a cycle of its own. ok is false when
// there is none.
func (w *walker) landing() (c Cycle, ok bool) {
	if w.s.End != Land || w.l.Leaves < w.s.Length {
		return Cycle{}, false
	}
	pattern := &w.l.Patterns[(w.index-1)%len(w.l.Patterns)]
	bar := w.s.BarAt(w.s.Length)
	c = Cycle{Layer: w.layer, Index: w.index, Number: 1, Start: w.s.Length, Landing: true}
	c.Length = bar.End() - c.Start
	c.Sounds = c.Length

	b := w.l.build(pattern, plainShape(pattern))
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
		series := 0
		if n := len(w.l.Series); n > 0 {
			series = (w.index - 1) % n
		}
		c.Attacks = append(c.Attacks, w.deal.attack(&c, a, series, nil))
	}
	return c, true
}

// barExceptions makes single bars of a layer deviate.
type barExceptions struct {
	windows []window
}

// window is a bar in which the loop is unheard.
type window struct {
	from, to beat.Time
	groups   []Group  // timed from the bar
	attacks  []Attack // timed from the bar
}

func newBarExceptions(s *Section, l *Layer) *barExceptions {
	var b barExceptions
	for i := range l.Except {
		e := &l.Except[i]
		if e.Bar == 0 {
			continue
		}
		bar := s.Bar(e.Bar)
		if bar.End() <= l.Enters {
			continue // the layer is not there yet
		}
		w := window{from: bar.Start, to: bar.End()}
		if e.Pattern != nil {
			made := l.build(e.Pattern, plainShape(e.Pattern))
			d := dealer{l: l, moments: s.newMoments()}
			c := Cycle{Start: bar.Start}
			for _, a := range made.attacks {
				if a.at < bar.Length && bar.Start+a.at >= l.Enters {
					a.length = min(a.length, bar.Length-a.at)
					own := e.Series
					if own == nil && len(l.Series) > 0 {
						own = l.Series[0]
					}
					w.attacks = append(w.attacks, d.attack(&c, a, 0, own))
				}
			}
			w.groups = made.groups
		}
		b.windows = append(b.windows, w)
	}
	return &b
}

// apply returns the cycle with the excepted bars put in place of what the loop
// plays there; the cycle itself when it meets none.
func (b *barExceptions) apply(c *Cycle) *Cycle {
	for i := range b.windows {
		if w := &b.windows[i]; w.meets(c) {
			c = w.apply(c)
		}
	}
	return c
}

func (w *window) meets(c *Cycle) bool {
	if c.Start < w.to && c.End() > w.from {
		return true
	}
	n := len(c.Attacks)
	return n > 0 && c.Start < w.to && c.Start+c.Attacks[n-1].At+c.Attacks[n-1].Length > w.from
}

func (w *window) apply(c *Cycle) *Cycle {
	out := *c
	from, to := w.from-c.Start, w.to-c.Start // may lie outside the cycle
	out.Groups, out.Attacks = nil, nil
	for _, g := range c.Groups {
		out.Groups = append(out.Groups, outside(g, from, to)...)
	}
	inside := w.groups
	if inside == nil {
		inside = []Group{{Length: w.to - w.from, Size: 1, Spec: 1, Blank: true}}
	}
	for _, g := range inside {
		g.At += from
		g = within(g, max(0, from), min(c.Length, to))
		if g.Length > 0 {
			out.Groups = append(out.Groups, g)
		}
	}
	sortGroups(out.Groups)
	for _, a := range c.Attacks {
		switch {
		case a.At >= from && a.At < to:
			continue
		case a.At < from:
			a.Length = min(a.Length, from-a.At)
		}
		out.Attacks = append(out.Attacks, a)
	}
	for _, a := range w.attacks {
		a.At += from
		if a.At >= 0 && a.At < c.Sounds {
			out.Attacks = append(out.Attacks, a)
		}
	}
	regroup(&out)
	return &out
}
