package find

import (
	"slices"

	"tieover/score/find/align"
	"tieover/score/process"
)

// Stretch is a part of a list that has one loop, or none.
type Stretch struct {
	Groups []Item // of the first cycle; nil: no loop
	Strike Strike
	At     int64 // where it begins, in pulses from the start of the list

	CutEvery int64          // pulses after which the cycle starts over; 0: never
	Process  []process.Rule // applied in order after each cycle, at most three
	Reset    int64          // cycles after which the processes start over; 0: never
	// Melody is how the cycles of equal groups get longer or shorter where only their
	// pitches show it and no process does the same; else nil.
	Melody *Melody

	Cycles int   // that begin, the first and the last included
	Rest   int64 // pulses of the last cycle; 0 when it is complete
	Tail   int64 // what is left of the last group, in pulses; 0 when it is whole
	Spent  bool  // the growth came to its end before the list did

	// The rest is only known where exceptions were looked for.
	Until       int64  // where it ends, in pulses from the start of the list
	First, Next int    // its first attack, from 0, and that of the next stretch, or how many there are
	Edge        Edge   // where else it may begin
	Exceptions  []Turn // those that are not as the loop has them
	Turns       []Turn // nil without a loop
	ByCycle     bool   // only its pitches show where its cycles begin

	played *align.Process // what the process plays; nil without one
	last   int64          // pulses of the last attack, where it is longer than in the loop; else 0
}

// isPlain reports whether the cycles of a loop are all the same.
func (s *Stretch) isPlain() bool { return len(s.Process) == 0 && s.CutEvery == 0 && s.Melody == nil }

// Has reports whether one of the processes is of the kind.
func (s *Stretch) Has(kind process.Kind) bool {
	return slices.ContainsFunc(s.Process, func(p process.Rule) bool { return p.Kind == kind })
}

// Length returns the pulses of the first cycle.
func (s *Stretch) Length() int64 { return total(s.Groups) }

// Turn is what was heard from one struck first group of a cycle to the next: a cycle,
// or several where the first group of the next is missing.
type Turn struct {
	Cycle       int    // the first of them, from 0
	At          int64  // where it begins, in pulses from the start of the list
	First, Next int    // its first attack and the next turn's
	Groups      []Item // nil where all of the cycle is left out
	Differs     bool   // these are not the groups that the loop has there
	Slips       []string
}

// describe makes a reading a description of the line.
func (ln *line) describe(r *align.Reading) *Description {
	d := &Description{RhythmBits: r.PlaceBits() + ln.strike.bits()}
	attacks := ln.attacks
	for k, segment := range r.Segments {
		s := Stretch{Strike: ln.strike, At: attacks[segment.From].At, Until: ln.end, First: segment.From, Next: len(attacks), Edge: findEdge(r.Segments, k, attacks)}
		if k+1 < len(r.Segments) {
			s.Next = r.Segments[k+1].From
			s.Until = attacks[s.Next].At
		}
		if segment.Loop != nil {
			if s.played = segment.Process; s.played != nil {
				s.Groups, s.Process = sizeItems(s.played.Cycle), []process.Rule{s.played.Rule}
			} else {
				s.Groups = loopItems(segment, attacks)
			}
			s.splitIntoCycles(&segment, attacks)
			s.noteExceptions()
		}
		d.Stretches = append(d.Stretches, s)
	}
	return d
}

// loopItems returns the loop of a segment with its silences: each group sounds as long as
// it does in most cycles without an exception there.
func loopItems(s align.Segment, attacks []Hit) []Item {
	votes := make([]map[int64]int, len(s.Loop))
	for i := range votes {
		votes[i] = map[int64]int{}
	}
	for _, step := range s.Steps {
		if !step.IsException() {
			votes[step.Group][min(attacks[step.Attack].Length, int64(s.Loop[step.Group]))]++
		}
	}
	var items []Item
	for i, size := range s.Loop {
		sounds := int64(size)
		for length, n := range votes[i] {
			if most := votes[i][sounds]; n > most || n == most && length > sounds {
				sounds = length
			}
		}
		items = append(items, Item{Size: sounds})
		if silent := int64(size) - sounds; silent > 0 {
			items = append(items, Item{silent, true})
		}
	}
	return items
}

func sizeItems(sizes []int) []Item {
	items := make([]Item, len(sizes))
	for i, size := range sizes {
		items[i].Size = int64(size)
	}
	return items
}

// expected returns the groups of a cycle, from 0, without exceptions.
func (s *Stretch) expected(cycle int) []Item {
	if s.played == nil {
		return s.Groups
	}
	return sizeItems(s.played.Groups(cycle))
}

// splitIntoCycles makes the stretch's turns: each begins where the first group of a cycle
// is struck.
func (s *Stretch) splitIntoCycles(segment *align.Segment, attacks []Hit) {
	again, at := false, 0
	for _, step := range segment.Steps {
		cycle, group, groups := segment.CycleOf(at)
		head := group == 0 && !again
		if step.Move == align.LeftOut && group == groups-1 { // the last group: this is the next cycle's first
			switch n := len(s.Turns); {
			case groups == 1: // all of it
				s.Turns = append(s.Turns, Turn{Cycle: cycle, First: step.Attack, At: attacks[step.Attack].At, Slips: []string{"left out"}})
			case n > 0:
				s.Turns[n-1].Slips = append(s.Turns[n-1].Slips, slipText(segment, step, attacks))
			}
			head, cycle = true, cycle+1
		}
		if head || len(s.Turns) == 0 {
			s.Turns = append(s.Turns, Turn{Cycle: cycle, First: step.Attack, At: attacks[step.Attack].At})
		}
		if last := &s.Turns[len(s.Turns)-1]; step.IsException() && cycle == step.Cycle {
			last.Slips = append(last.Slips, slipText(segment, step, attacks))
		}
		again = step.Move == align.Again
		at += segment.Groups(step)
	}
	last := segment.From
	if n := len(segment.Steps); n > 0 {
		last = segment.Steps[n-1].Attack + segment.Steps[n-1].Attacks
	}
	ends := last+1 == len(attacks) // then the last attack begins a group, else another stretch
	if cycle, group, _ := segment.CycleOf(at); ends && group == 0 && !again {
		s.Turns = append(s.Turns, Turn{Cycle: cycle, First: last, At: attacks[last].At})
	}
	if ends {
		last, at = len(attacks), at+1
	}
	s.endTurns(attacks, last)
	if _, group, _ := segment.CycleOf(at); group != 0 {
		s.Rest = s.Until - s.Turns[len(s.Turns)-1].At
	}
}

// endTurns ends each turn where the next one begins, and the last with the stretch, before
// the attack `next`. It counts the cycles.
func (s *Stretch) endTurns(attacks []Hit, next int) {
	for i := range s.Turns {
		t, until := &s.Turns[i], s.Until
		t.Next = next
		if i+1 < len(s.Turns) {
			t.Next, until = s.Turns[i+1].First, s.Turns[i+1].At
		}
		t.Groups = itemsBetween(attacks[t.First:t.Next], t.At, until, false)
	}
	s.Cycles = s.Turns[len(s.Turns)-1].Cycle + 1
}

// noteExceptions lists the turns that are not as the loop has them. The last may be
// shorter.
func (s *Stretch) noteExceptions() {
	for i := range s.Turns {
		t := &s.Turns[i]
		wanted, items := s.expected(t.Cycle), t.Groups
		if slices.Equal(items, wanted) && (s.played == nil || len(t.Slips) == 0) || i == len(s.Turns)-1 && isCut(items, wanted) && len(t.Slips) == 0 {
			continue
		}
		t.Differs = true
		if n := len(items); i == len(s.Turns)-1 && len(t.Slips) == 0 && slices.Equal(items[:n-1], wanted[:min(n-1, len(wanted))]) {
			s.last = items[n-1].Size // its length is no part of the loop
			continue
		}
		s.Exceptions = append(s.Exceptions, *t)
	}
}

// isCut reports whether items are the beginning of groups, the last of them
// perhaps shorter.
func isCut(items, groups []Item) bool {
	n := len(items)
	if n == 0 || n > len(groups) || !slices.Equal(items[:n-1], groups[:n-1]) {
		return false
	}
	return items[n-1].Blank == groups[n-1].Blank && items[n-1].Size <= groups[n-1].Size
}
