package find

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find/align"
)

// Stretch is a part of a list that has one loop, or none.
type Stretch struct {
	Groups     []Item // from its first attack on; nil: no loop
	At, Until  int64  // pulses from the start of the list
	First      int    // its first attack, from 0
	Edge       Edge   // where else it may begin
	Cycles     int    // begun, the first and the last included
	Rest       int64  // pulses of the last cycle; 0 when it is complete
	Exceptions []Exception

	last  int64 // pulses of the last attack, where it is longer than the loop wants; else 0
	turns []turn
	spec  map[int][]Item // what a spec's cycles have instead, by number from 1
}

// Exception is a cycle, or several run together, at which a stretch leaves its
// loop.
type Exception struct {
	Cycle  int    // of the stretch, from 1
	At     int64  // where it begins, in pulses from the start of the list
	Played []Item // instead of the loop's groups
	Slips  []string
}

// turn is a cycle as it was heard, from one struck head to the next.
type turn struct {
	cycle       int // from 0; one less than the next one's where a head is missing
	first, next int // attacks
	at, until   int64
	slips       []string
}

// stretched is a reading as a description of the line. onsets are the line's
// attacks.
func (ln *line) stretched(r *align.Reading) *Description {
	d := &Description{Lead: ln.lead, Strike: ln.strike, RhythmBits: r.PlaceBits() + ln.strike.bits()}
	attacks := ln.attacks()
	d.attacks = len(attacks)
	for k, segment := range r.Segments {
		s := Stretch{First: segment.From, At: attacks[segment.From].At, Until: ln.end, Edge: edgeAt(r.Segments, k, attacks)}
		if k+1 < len(r.Segments) {
			s.Until = attacks[r.Segments[k+1].From].At
		}
		if segment.Loop != nil {
			s.Groups = itemsOf(segment, attacks)
			s.turn(segment, attacks)
			s.except(attacks)
		}
		d.Stretches = append(d.Stretches, s)
	}
	for _, s := range d.Stretches {
		if s.Groups != nil {
			d.Groups, d.Cycles, d.Rest = s.Groups, s.Cycles, s.Rest
			break
		}
	}
	return d
}

// attacks returns where the sounding items of the line begin and how long they
// last.
func (ln *line) attacks() []Hit {
	var all []Hit
	now := ln.lead
	for _, item := range ln.items {
		if !item.Blank {
			all = append(all, Hit{At: now, Length: item.Size})
		}
		now += item.Size
	}
	return all
}

// itemsOf is the loop of a segment with its silences: each group sounds as long
// as most of those that are as the loop has them.
func itemsOf(s align.Segment, attacks []Hit) []Item {
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

// turn cuts the stretch where a cycle's first group is struck.
func (s *Stretch) turn(segment align.Segment, attacks []Hit) {
	m := len(segment.Loop)
	again, at := false, 0
	for _, step := range segment.Steps {
		cycle := step.Cycle
		head := step.Group == 0 && !again
		if step.Move == align.LeftOut && step.Group == m-1 { // the last group: this is the next cycle's first
			if n := len(s.turns); n > 0 {
				s.turns[n-1].slips = append(s.turns[n-1].slips, slipWords(segment, step, attacks))
			}
			head, cycle = true, cycle+1
		}
		if head || len(s.turns) == 0 {
			s.turns = append(s.turns, turn{cycle: cycle, first: step.Attack, at: attacks[step.Attack].At})
		}
		if last := &s.turns[len(s.turns)-1]; step.IsException() && cycle == step.Cycle {
			last.slips = append(last.slips, slipWords(segment, step, attacks))
		}
		again = step.Move == align.Again
		at = step.Cycle*m + step.Group + segment.Groups(step)
	}
	last := segment.From
	if n := len(segment.Steps); n > 0 {
		last = segment.Steps[n-1].Attack + segment.Steps[n-1].Attacks
	}
	ends := last+1 == len(attacks) // then the last attack begins a group, else another stretch
	if ends && at%m == 0 && !again {
		s.turns = append(s.turns, turn{cycle: at / m, first: last, at: attacks[last].At})
	}
	if ends {
		last, at = len(attacks), at+1
	}
	for i := range s.turns {
		t := &s.turns[i]
		t.next, t.until = last, s.Until
		if i+1 < len(s.turns) {
			t.next, t.until = s.turns[i+1].first, s.turns[i+1].at
		}
	}
	s.Cycles = s.turns[len(s.turns)-1].cycle + 1
	if at%m != 0 {
		s.Rest = s.Until - s.turns[len(s.turns)-1].at
	}
}

// except notes the cycles that are not as the loop has them. The last may be
// shorter.
func (s *Stretch) except(attacks []Hit) {
	s.spec = map[int][]Item{}
	for i, t := range s.turns {
		items := itemsFrom(attacks[t.first:t.next], t.until)
		if slices.Equal(items, s.Groups) || i == len(s.turns)-1 && isCut(items, s.Groups) && len(t.slips) == 0 {
			continue
		}
		s.spec[i+1] = items
		if n := len(items); i == len(s.turns)-1 && len(t.slips) == 0 && slices.Equal(items[:n-1], s.Groups[:min(n-1, len(s.Groups))]) {
			s.last = items[n-1].Size // how long the last attack lasts says nothing of the loop
			continue
		}
		s.Exceptions = append(s.Exceptions, Exception{Cycle: t.cycle + 1, At: t.at, Played: items, Slips: t.slips})
	}
}

// itemsFrom returns attacks that follow each other as sounds and silences, until
// a moment.
func itemsFrom(attacks []Hit, until int64) []Item {
	var items []Item
	for i, a := range attacks {
		next := until
		if i+1 < len(attacks) {
			next = attacks[i+1].At
		}
		length := min(a.Length, next-a.At)
		items = append(items, Item{Size: length})
		if silent := next - a.At - length; silent > 0 {
			items = append(items, Item{silent, true})
		}
	}
	return items
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

// slipWords says what a step does instead of its group.
func slipWords(s align.Segment, step align.Step, attacks []Hit) string {
	size := func(on int) int { return s.Loop[(step.Group+on)%len(s.Loop)] }
	group := "group " + strconv.Itoa(step.Group+1)
	switch step.Move {
	case align.Missing:
		sizes := make([]int, s.Groups(step))
		for i := range sizes {
			sizes[i] = size(i)
		}
		return fmt.Sprintf("%s as %d", beat.Sum(sizes), step.Pulses)
	case align.TooMany:
		var sizes []int
		for a := step.Attack; a < step.Attack+step.Attacks; a++ {
			sizes = append(sizes, int(attacks[a+1].At-attacks[a].At))
		}
		return fmt.Sprintf("%d as %s", size(0), beat.Sum(sizes))
	case align.Resized:
		if by := step.Pulses - size(0); by > 0 {
			return fmt.Sprintf("%s %s longer", group, aPulse(by))
		}
		return fmt.Sprintf("%s %s shorter", group, aPulse(size(0)-step.Pulses))
	case align.Again:
		return group + " twice"
	case align.LeftOut:
		return group + " left out"
	case align.Swapped:
		return fmt.Sprintf("groups %d and %d swapped", step.Group+1, (step.Group+1)%len(s.Loop)+1)
	}
	return fmt.Sprintf("a pause of %.1f s", step.Pause/1000)
}

func aPulse(n int) string {
	if n == 1 {
		return "a pulse"
	}
	return pulses(int64(n))
}

// String says the cycle that is played instead, and why it differs.
func (e Exception) String() string {
	return "cycle " + strconv.Itoa(e.Cycle) + ": " + e.Instead()
}

// Instead says what is played in place of the loop's groups, and why it differs.
func (e Exception) Instead() string {
	s := GroupsText(e.Played) + " instead"
	if len(e.Slips) > 0 {
		s += " (" + strings.Join(e.Slips, ", ") + ")"
	}
	return s
}

// Exceptions counts what differs: each slip, and each cycle that has none but
// sounds shorter or longer.
func (d *Description) Exceptions() (n int) {
	for _, s := range d.Stretches {
		for _, e := range s.Exceptions {
			n += max(1, len(e.Slips))
		}
	}
	return n
}

// isMostly reports whether more than half of the cycles of every loop are as it
// has them, and a single group often enough to be heard as a loop.
func (d *Description) isMostly() bool {
	for _, s := range d.Stretches {
		plain := s.Cycles - len(s.Exceptions)
		if s.Groups != nil && (2*plain <= s.Cycles || len(s.Groups) == 1 && plain < fullBeforeCut(1)) {
			return false
		}
	}
	return true
}

// words says the stretch.
func (s Stretch) words(attacks int) string {
	if s.Groups == nil {
		return counted(attacks, "value") + " without a loop"
	}
	text := GroupsText(s.Groups) + " (" + pulses(total(s.Groups)) + "), "
	if s.Rest > 0 {
		text += fmt.Sprintf("%s and %s of the next", counted(s.Cycles-1, "time"), pulses(s.Rest))
	} else {
		text += counted(s.Cycles, "time")
	}
	n := 0
	for _, e := range s.Exceptions {
		n += max(1, len(e.Slips))
	}
	if n > 0 {
		text += ", " + counted(n, "exception")
	}
	if s.last > 0 {
		text += ", last attack " + pulses(s.last)
	}
	return text
}
