package rows

import (
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
// end of its last bar. Every pulse of a cycle is a moment, and silence before,
// between and after cycles is counted out in the layer's pulses.
type layerWalk struct {
	s      *score.Section
	l      *score.Layer
	late   latecomer
	cycles *score.CycleReader
	words  *score.Words
	over   bool // it has no more cycles
	slurs  *score.Slurs

	sounds beat.Time // when what was last struck stops
	count  int       // pulse of its group that the last moment was in; 0 when it was silent
	done   beat.Time // everything before this is made
	first  bool
	cut    bool // the cycle before was cut by a loop rule

	silent, until beat.Time // the next moment of a silence, and its end
	leaves        *Start    // for that moment

	cycle   score.Cycle // at hand
	in      bool        // some of it is left
	attacks []score.Attack
	group   int
	step    beat.Time // the next pulse, from its start
	head    *Start    // for its first moment
	pulses  int64
}

// walkLayer walks a layer.
func (ch *Chart) walkLayer(layer int) *layerWalk {
	s := ch.Section
	l := s.Layers[layer]
	return &layerWalk{s: s, l: l, late: ch.newLatecomer(l), cycles: s.ReadCycles(layer), words: l.Words(), slurs: l.Slurs(), first: true,
		done: s.Opening(), sounds: s.Opening()}
}

// next makes the next moment where it stands, for moments are many and large; false
// when there is none.
func (w *layerWalk) next(m *moment) bool {
	for {
		switch {
		case w.silent < w.until:
			*m = moment{cell: Cell{At: w.silent}, starts: w.leaves}
			w.silent, w.leaves = w.silent+w.l.Unit, nil
			return true
		case w.in:
			if w.inCycle(m) {
				return true
			}
		case w.over:
			return false
		default:
			w.nextCycle()
		}
	}
}

// nextCycle turns to the next cycle that is heard, or to what is left after the
// last.
func (w *layerWalk) nextCycle() {
	c, ok := w.cycles.Next()
	if !ok || c.Landing && w.s.OnBarline(c.Start) { // that has the landing column to itself
		w.over = true
		w.rest(w.s.Extent(), w.done)
		return
	}
	w.cycle = c
	from := max(c.Start, w.l.Enters)
	if c.End() <= from { // over before the layer is heard
		w.late.next(&w.cycle)
		return
	}
	w.rest(from, c.Start)
	w.in, w.attacks, w.group, w.step, w.pulses = true, c.Attacks, 0, 0, 0
	w.head = w.start(&w.cycle)
	if w.l.Line == nil {
		w.pulses = int64(c.Length / w.l.Unit)
	}
	if c.Start < from {
		w.step = (from - c.Start + w.l.Unit - 1) / w.l.Unit * w.l.Unit
	}
}

// inCycle makes the next moment of the cycle at hand; false when it is over.
func (w *layerWalk) inCycle(m *moment) bool {
	c := &w.cycle
	t := w.step
	var struck *score.Attack
	if len(w.attacks) > 0 && w.attacks[0].At <= t {
		struck = &w.attacks[0]
		t = struck.At
	}
	if off := w.sounds - c.Start; off > w.done-c.Start && off < t {
		t, struck = off, nil // the sound stops between two pulses
	}
	if t >= c.Sounds {
		w.in, w.done, w.cut = false, c.End(), c.Cut == score.CutByLoop
		return false
	}
	for w.group+1 < len(c.Groups) && c.Groups[w.group+1].At <= t {
		w.group++
	}
	if struck != nil {
		w.attacks = w.attacks[1:]
	}
	if t == w.step {
		w.step += w.l.Unit
	}
	*m = moment{cell: Cell{At: c.Start + t}, starts: w.head, pulses: w.pulses}
	w.fill(&m.cell, c, w.group, t, struck)
	if struck != nil {
		m.cell.Slur = w.slurs.Next(c, len(c.Attacks)-len(w.attacks)-1)
	}
	m.ends, w.done, w.head = w.sounds, m.cell.At, nil
	return true
}

// fill says what stands at t of a cycle, in one of its groups: an attack, or
// what sounds on from the one before.
func (w *layerWalk) fill(cell *Cell, c *score.Cycle, group int, t beat.Time, struck *score.Attack) {
	switch {
	case struck != nil:
		cell.Sign = StruckAs(c, group, t)
		cell.Tones, cell.Accent, cell.Touch, cell.Led = struck.Tones, struck.Accent, struck.Touch, len(struck.Graces) > 0
		cell.Words = w.words.Next(c, struck)
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
		cell.Words = w.words.Spoken(c.Groups[group].Size, w.count)
	}
}

// start says what the head of a cycle shows.
func (w *layerWalk) start(c *score.Cycle) *Start {
	s := &Start{At: max(c.Start, w.l.Enters)}
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
	s.Plain = w.goesRound(c) && !s.Enters && !s.Restart && s.Groups == nil
	w.first = false
	return s
}

// goesRound reports whether bars are alike and each has the same cycles of the
// layer, more than one.
func (w *layerWalk) goesRound(c *score.Cycle) bool {
	return w.late.bar > c.Length && w.late.bar%c.Length == 0 && w.l.IsEven() && len(w.l.Patterns) == 1
}

// rest begins silent moments up to `to`, a pulse apart, in step with phase.
func (w *layerWalk) rest(to, phase beat.Time) {
	w.leaves = nil
	if w.done == w.l.Leaves && w.done > 0 && w.done < w.s.Length {
		w.leaves = &Start{At: w.done, Leaves: true}
	}
	w.silent, w.until = w.done+(phase-w.done).Mod(w.l.Unit), to
	w.done = max(w.done, to)
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
