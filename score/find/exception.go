package find

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find/align"
)

// String says which cycle is not as the loop has it, and how it differs.
func (t Turn) String() string { return "cycle " + strconv.Itoa(t.Cycle+1) + ": " + t.Instead() }

// Instead says the groups that are played in place of the loop's, and why they differ.
func (t Turn) Instead() string {
	slips := strings.Join(t.Slips, ", ")
	if len(t.Groups) == 0 {
		return slips
	}
	s := GroupsText(t.Groups) + " instead"
	if slips != "" {
		s += " (" + slips + ")"
	}
	return s
}

// slipText says what a step does instead of its group.
func slipText(s *align.Segment, step align.Step, attacks []Hit) string {
	size := func(on int) int { return s.Loop[(step.Group+on)%len(s.Loop)] }
	number := func(on int) int { // of the group in its cycle
		_, group, _ := s.CycleOf(step.Group + on)
		return group + 1
	}
	group := "group " + strconv.Itoa(number(0))
	switch step.Move {
	case align.Missing:
		sizes := make([]int, s.Groups(step))
		for i := range sizes {
			sizes[i] = size(i)
		}
		if len(sizes) == 2 && attacks[step.Attack].Length == int64(size(0)) && step.Pulses == size(0)+size(1) {
			return "group " + strconv.Itoa(number(1)) + " silent"
		}
		return fmt.Sprintf("%s as %d", beat.Sum(sizes), step.Pulses)
	case align.TooMany:
		var sizes []int
		for a := step.Attack; a < step.Attack+step.Attacks; a++ {
			sizes = append(sizes, int(attacks[a+1].At-attacks[a].At))
		}
		return fmt.Sprintf("%d as %s", size(0), beat.Sum(sizes))
	case align.Resized:
		return group + " " + resizedText(step.Pulses-size(0))
	case align.Again:
		return group + " twice"
	case align.LeftOut:
		return group + " left out"
	case align.Swapped:
		return fmt.Sprintf("groups %d and %d swapped", number(0), number(1))
	}
	return fmt.Sprintf("a pause of %.1f s", step.Pause/1000)
}

// resizedText says by how many pulses something is longer, or shorter if negative.
func resizedText(by int) string {
	how := "shorter"
	if by > 0 {
		how = "longer"
	}
	if by = max(by, -by); by == 1 {
		return "a pulse " + how
	}
	return pulses(int64(by)) + " " + how
}

// Exceptions counts what differs in all stretches.
func (d *Description) Exceptions() (n int) {
	for _, s := range d.Stretches {
		n += s.differences()
	}
	return n
}

// differences counts each slip, and each cycle that has none but sounds shorter or longer.
func (s Stretch) differences() (n int) {
	for _, e := range s.Exceptions {
		n += max(1, len(e.Slips))
	}
	return n
}

// isLoopWithOneSlip reports whether the description is one loop with a single exception, which
// chance hardly makes: then it may save little.
func (d *Description) isLoopWithOneSlip() bool {
	return len(d.Stretches) == 1 && d.Stretches[0].isPlain() && d.Exceptions() == 1 && d.isMostlyPlain()
}

// isMostlyPlain reports whether more than half of the cycles of every loop are as it
// has them, and a single group often enough to be heard as a loop.
func (d *Description) isMostlyPlain() bool {
	for _, s := range d.Stretches {
		plain := s.Cycles - len(s.Exceptions)
		if s.Groups != nil && (2*plain <= s.Cycles || len(s.Groups) == 1 && plain < fullBeforeCut(1)) {
			return false
		}
	}
	return true
}

// OtherPitches is a cycle whose pitches are not those of a series that starts over with
// each.
type OtherPitches struct {
	Turn, Cycle int   // from 0: which of those that are heard, and of the loop's
	At          int64 // where it begins, in pulses from the start of the list
	Chords      []int // what it has instead, indexes into List.Chords
}

// Words says the pitches: "C5 F5 G5".
func (p OtherPitches) Words(l *List) string {
	names := make([]string, len(p.Chords))
	for i, c := range p.Chords {
		names[i] = chordText(l.Chords[c])
	}
	return strings.Join(names, " ")
}

// allowOtherPitches gives the description the series that most of its cycles have, the
// others being exceptions, if that takes clearly fewer bits than the series it has. It must
// be settled.
func (d *Description) allowOtherPitches(l *List, o Options) {
	s := d.Loop()
	if d.Series == nil || len(d.Stretches) > 1 || !s.isPlain() || s.ByCycle || s.Strike == All {
		return
	}
	cycles := l.pitchesByCycle(s)
	usual := usualPitches(s, cycles)
	if usual == nil {
		return
	}
	series := &Series{Chords: usual}
	for _, c := range cycles {
		if !deals(usual, c.Chords) {
			series.Others = append(series.Others, c)
		}
	}
	n := len(series.Others)
	few := o.Exceptions == 0 || n+d.Exceptions() <= max(o.Exceptions, 0)
	if bits := l.seriesBits(series); few && 2*n < len(cycles) && bits+leastBits < d.PitchBits {
		d.Saved += d.PitchBits - bits
		d.Series, d.PitchBits = series, bits
	}
}

// pitchesByCycle returns the pitches of each cycle of a loop that is all there is; nil where
// a cycle has none.
func (l *List) pitchesByCycle(s *Stretch) (all []OtherPitches) {
	for i, t := range s.Turns {
		c := OtherPitches{Turn: i, Cycle: t.Cycle, At: t.At}
		for _, h := range l.Hits[t.First:t.Next] {
			c.Chords = append(c.Chords, h.Chord)
		}
		if all = append(all, c); len(c.Chords) == 0 {
			return nil
		}
	}
	if s.Turns != nil {
		return all
	}
	i := 0
	s.Strokes(l.End, func(stroke Stroke) bool {
		for len(all) <= stroke.Cycle {
			n := len(all)
			all = append(all, OtherPitches{Turn: n, Cycle: n, At: s.At + int64(n)*s.Length()})
		}
		c := &all[stroke.Cycle]
		c.Chords = append(c.Chords, l.Hits[i].Chord)
		i++
		return true
	})
	return all
}

// usualPitches returns the series that most cycles agree on; nil where none has all its
// attacks.
func usualPitches(s *Stretch, cycles []OtherPitches) []int {
	var votes []map[int]int
	for _, item := range s.Groups {
		if !item.Blank {
			votes = append(votes, map[int]int{})
		}
	}
	for i, c := range cycles {
		if len(c.Chords) != len(votes) || s.Turns != nil && s.Turns[i].Differs {
			continue
		}
		for k, chord := range c.Chords {
			votes[k][chord]++
		}
	}
	usual := make([]int, len(votes))
	for k, count := range votes {
		if len(count) == 0 {
			return nil
		}
		usual[k] = -1
		for chord, n := range count {
			if best := usual[k]; n > count[best] || n == count[best] && chord < best {
				usual[k] = chord
			}
		}
	}
	return shortestSeries(usual)
}
