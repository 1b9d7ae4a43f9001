package rows

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
func (st *Chart) moments(layer int) iter.Seq[moment] {
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
	pulses := int64(0)
	if w.l.Line == nil {
		pulses = int64(c.Length / w.l.Unit)
	}
	attacks, group := c.Attacks, 0
	step := beat.Time(0) // the next pulse, from the cycle's start
	if c.Start < from {
		step = (from - c.Start + w.l.Unit - 1) / w.l.Unit * w.l.Unit
	}
	for {
		t := step
		var struck *score.Attack
		if len(attacks) > 0 && attacks[0].At <= t {
			struck = &attacks[0]
			t = struck.At
		}
		if off := w.sounds - c.Start; off > w.done-c.Start && off < t {
			t, struck = off, nil // the sound stops between two pulses
		}
		if t >= c.Sounds {
			break
		}
		for group+1 < len(c.Groups) && c.Groups[group+1].At <= t {
			group++
		}
		if struck != nil {
			attacks = attacks[1:]
		}
		if t == step {
			step += w.l.Unit
		}
		cell := w.cell(c, group, t, struck)
		w.done = cell.At
		if !w.yield(moment{cell: cell, ends: w.sounds, starts: start, pulses: pulses}) {
			return false
		}
		start = nil
	}
	w.done = c.End()
	w.cut = c.Cut == score.CutByLoop
	return true
}

// cell makes what stands at t of a cycle, in one of its groups: an attack, or
// what sounds on from the one before.
func (w *layerWalk) cell(c *score.Cycle, group int, t beat.Time, struck *score.Attack) Cell {
	cell := Cell{At: c.Start + t}
	switch {
	case struck != nil:
		cell.Sign = StruckAs(c, group, t)
		cell.Tones, cell.Accent, cell.Touch, cell.Led = struck.Tones, struck.Accent, struck.Touch, len(struck.Graces) > 0
		w.count = Counted(c.Groups, group, t, w.l.Unit)
		w.sounds = cell.At + struck.Length
	case w.sounds > cell.At:
		cell.Sign = Sounding
		if c.Groups[group].Tail { // what sounds was struck in the cycle before
			w.count++
		} else {
			w.count = Counted(c.Groups, group, t, w.l.Unit)
		}
		cell.Count = w.count
	}
	return cell
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
