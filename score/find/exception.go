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
