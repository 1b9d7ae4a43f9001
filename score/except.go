package score

import (
	"cmp"
	"slices"
	"sort"

	"tieover/score/beat"
)

// exceptAt returns the exception of a cycle, and which of the layer's it is, from
// 1; 0 and nil when there is none.
func (l *Layer) exceptAt(cycle int) (n int, e *Exception) {
	if n = l.byCycle[cycle]; n == 0 {
		return 0, nil
	}
	return n, &l.Except[n-1]
}

// window is a bar in which the layer deviates: its loop goes on unheard, or with other
// tones.
type window struct {
	from, to beat.Time
	unit     beat.Time // one pulse of the layer
	groups   []Group   // timed from the bar
	attacks  []Attack  // timed from the bar
	tones    []Chord   // in place of the loop's, when only the pitches deviate
	dealt    int       // of those
}

// windowsOf returns the bars in which a layer deviates, in order.
func windowsOf(s *Section, l *Layer) (windows []window) {
	for i := range l.Except {
		e := &l.Except[i]
		if e.Bar == 0 {
			continue
		}
		bar := s.asWritten().Bar(e.Bar)
		if bar.End() <= l.begins() {
			continue // the layer is not there yet
		}
		w := window{from: bar.Start, to: bar.End(), unit: l.Unit}
		switch {
		case e.Pattern != nil:
			w.play(s, l, e)
		case !e.Rest:
			w.tones = e.Series
		}
		windows = append(windows, w)
	}
	slices.SortStableFunc(windows, func(a, b window) int { return cmp.Compare(a.from, b.from) })
	return windows
}

// play fills the window with the exception's own groups.
func (w *window) play(s *Section, l *Layer, e *Exception) {
	made := l.build(e.Pattern, e.Pattern.shape())
	d := dealer{l: l, realignments: s.meeting}
	c := Cycle{Start: w.from}
	until := min(w.to, l.Leaves, s.Length) - w.from
	own := e.Series
	if own == nil && len(l.Series) > 0 {
		own = l.Series[d.inForce(w.from)]
	}
	for _, a := range made.attacks {
		if a.at < until && w.from+a.at >= l.begins() {
			a.length = min(a.length, until-a.at)
			w.attacks = append(w.attacks, d.attack(&c, a, 0, own))
		}
	}
	w.groups = made.groups
	if n := len(w.groups); n > 0 {
		played := w.groups[n-1].At + w.groups[n-1].Length
		if left := w.to - w.from - played; left > 0 { // the rest of the bar is silent
			size := int((left + l.Unit - 1) / l.Unit)
			w.groups = append(w.groups, Group{At: played, Length: left, Size: size, Spec: n + 1, Blank: true})
		}
	}
}

// except returns the cycle with the windows put in place of what the loop plays
// there; the cycle itself when it meets none.
func except(windows []window, c Cycle) Cycle {
	i := sort.Search(len(windows), func(i int) bool { return windows[i].to > c.Start })
	for ; i < len(windows) && windows[i].from < ringing(&c); i++ {
		c = windows[i].apply(c)
	}
	return c
}

// ringing returns when a cycle is over and its last attack silent.
func ringing(c *Cycle) beat.Time {
	end := c.End()
	if n := len(c.Attacks); n > 0 {
		end = max(end, c.Start+c.Attacks[n-1].At+c.Attacks[n-1].Length)
	}
	return end
}

// apply returns the cycle with the window in it.
func (w *window) apply(c Cycle) Cycle {
	out := c
	from, to := w.from-c.Start, w.to-c.Start // may lie outside the cycle
	if w.tones != nil {
		out.Attacks = slices.Clone(c.Attacks)
		for i := range out.Attacks {
			if a := &out.Attacks[i]; a.At >= from && a.At < to {
				a.Graces, a.Tones = w.tones[w.dealt%len(w.tones)].Led()
				a.touch(a.Touch)
				w.dealt++
			}
		}
		return out
	}
	out.Groups, out.Attacks = nil, nil
	for _, g := range c.Groups {
		out.Groups = append(out.Groups, outside(g, from, to)...)
	}
	played := w.groups
	if played == nil {
		played = []Group{{Length: w.to - w.from, Spec: 1, Blank: true}}
	}
	for _, g := range played {
		g.At += from
		g = inside(g, max(0, from), min(c.Length, to))
		if w.groups == nil { // silence: as many pulses as there are of it here
			g.Size = int((g.Length + w.unit - 1) / w.unit)
		}
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
	return out
}
