package strip

import (
	"iter"

	"tieover/score"
	"tieover/score/beat"
)

// moment is a cell in section time, with what else begins there.
type moment struct {
	cell   Cell      // At counts from the section's start
	ends   beat.Time // when the sound of an attack stops
	starts *Start    // nil unless something begins; At is in section time
	pulses int64     // of the cycle it is in, in the layer's pulses; 0 outside cycles
}

// layerWalk makes the moments of one layer, from the section's start to the
// end of its last bar.
type layerWalk struct {
	s     *score.Section
	l     *score.Layer
	late  latecomer
	yield func(moment) bool

	sounds beat.Time // when what was last struck stops
	count  int       // pulse of its group that the last moment was in; 0 when it was silent
	done   beat.Time // everything before this is made
	first  bool
	cut    bool // the cycle before was cut by a loop rule
}

// moments walks a layer. Every pulse of a cycle is a moment, and silence
// before, between and after cycles is counted out in the layer's pulses.
func (st *Strip) moments(layer int) iter.Seq[moment] {
	return func(yield func(moment) bool) {
		s := st.Section
		w := layerWalk{s: s, l: s.Layers[layer], late: newLatecomer(s, s.Layers[layer]), yield: yield, first: true}
		for c := range s.Cycles(layer) {
			if c.Landing && s.OnBarline(c.Start) {
				break // it has the landing column to itself
			}
			if !w.cycle(c) {
				return
			}
		}
		w.rest(s.Extent(), w.done)
	}
}

// cycle makes the moments of one cycle.
func (w *layerWalk) cycle(c *score.Cycle) bool {
	from := max(c.Start, w.l.Enters, 0)
	if c.End() <= from { // over before the layer is heard
		w.late.next(c)
		return true
	}
	if !w.rest(from, c.Start) {
		return false
	}
	start := w.start(c)
	unit := w.l.Unit
	next, group := 0, 0
	step := beat.Time(0) // the next pulse, from the cycle's start
	if c.Start < from {
		step = (from - c.Start + unit - 1) / unit * unit
	}
	for {
		t, isAttack := step, false
		if next < len(c.Attacks) && c.Attacks[next].At <= t {
			t, isAttack = c.Attacks[next].At, true
		}
		if off := w.sounds - c.Start; off > w.done-c.Start && off < t {
			t, isAttack = off, false // the sound stops between two pulses
		}
		if t >= c.Sounds {
			break
		}
		for group+1 < len(c.Groups) && c.Groups[group+1].At <= t {
			group++
		}
		m := moment{starts: start}
		if w.l.Line == nil {
			m.pulses = int64(c.Length / unit)
		}
		start = nil
		m.cell = Cell{At: c.Start + t}
		switch {
		case isAttack:
			a := &c.Attacks[next]
			next++
			m.cell.Tones, m.cell.Accent, m.cell.Touch = a.Tones, a.Accent, a.Touch
			m.cell.Sign = StruckAs(c, group, t)
			w.count = Counted(c.Groups, group, t, unit)
			w.sounds = c.Start + t + a.Length
			m.ends = w.sounds
		case w.sounds > m.cell.At:
			m.cell.Sign = Sounding
			if c.Groups[group].Tail { // what sounds was struck in the cycle before
				w.count++
			} else {
				w.count = Counted(c.Groups, group, t, unit)
			}
			m.cell.Count = w.count
		}
		if t == step {
			step += unit
		}
		w.done = m.cell.At
		if !w.yield(m) {
			return false
		}
	}
	w.done = c.End()
	w.cut = c.Cut == score.CutByLoop
	return true
}

// start says what the head of a cycle shows.
func (w *layerWalk) start(c *score.Cycle) *Start {
	s := &Start{At: max(c.Start, w.l.Enters, 0)}
	s.Enters = w.first && s.At > 0
	if w.l.Line != nil { // it has no cycles to count
		if !s.Enters {
			return nil
		}
		return s
	}
	s.Number, s.Lateness, s.Restart = c.Number, w.late.next(c), w.cut
	if c.Changed && !w.first {
		s.Groups = Whole(c.Groups, w.l.Unit)
	}
	w.first = false
	return s
}

// rest makes silent moments up to `to`, a pulse apart, in step with phase.
func (w *layerWalk) rest(to, phase beat.Time) bool {
	var leaves *Start
	if w.done == w.l.Leaves && w.done > 0 && w.done < w.s.Length {
		leaves = &Start{At: w.done, Leaves: true}
	}
	t := w.done + (phase - w.done).Mod(w.l.Unit)
	for ; t < to; t += w.l.Unit {
		if !w.yield(moment{cell: Cell{At: t}, starts: leaves}) {
			return false
		}
		leaves = nil
	}
	w.done = max(w.done, to)
	return true
}

// StruckAs tells which sign an attack at t of a cycle gets, which lies in the
// given group.
func StruckAs(c *score.Cycle, group int, t beat.Time) Sign {
	g := c.Groups[group]
	switch {
	case t == c.Head:
		return Cycle
	case t == g.At && !g.Tail:
		return Group
	}
	return Inner
}

// Counted says which pulse of its group t is in, from 1.
func Counted(groups []score.Group, group int, t, unit beat.Time) int {
	g := groups[group]
	n := int((t-g.At)/unit) + 1
	if g.Tail {
		n += g.Size - int(g.Length/unit)
	}
	return n
}
