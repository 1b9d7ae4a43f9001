package align

import "math"

// Segment is a stretch of one loop, or of none.
type Segment struct {
	Loop    []int    // from the group that the first attack begins; nil: free
	Process *Process // the process that plays Loop from end to end; nil: Loop goes round
	From    int      // its first attack
	Steps   []Step
}

// Step leads from one attack to a later one. The last attack of all has none:
// how long it lasts is not known.
type Step struct {
	Move
	Attack  int // where it begins, from 0
	Attacks int // that it goes on
	Pulses  int
	Group   int     // of the loop, or of all that a process plays, where it begins, from 0
	Cycle   int     // of the segment, from 0
	Pause   float64 // milliseconds of a pause
}

// Groups is how many groups of the loop a step takes.
func (s Segment) Groups(step Step) int {
	switch step.Move {
	case Again, freeGap:
		return 0
	case LeftOut, Swapped:
		return 2
	case Missing: // as many as its pulses fill
		n, left := 0, step.Pulses
		for left > 0 {
			left -= s.Loop[(step.Group+n)%len(s.Loop)]
			n++
		}
		return n
	}
	return 1
}

// number sets group and cycle of each step.
func (s *Segment) number() {
	at := 0
	for i := range s.Steps {
		step := &s.Steps[i]
		step.Group = at % len(s.Loop)
		step.Cycle, _, _ = s.CycleOf(at)
		at += s.Groups(*step)
	}
}

// CycleOf returns the cycle (from 0) to which a group belongs, counted from the first
// attack on, which group of it that is (from 0), and how many it has.
func (s *Segment) CycleOf(at int) (cycle, group, groups int) {
	if s.Process != nil {
		return s.Process.cycleOf(at)
	}
	m := len(s.Loop)
	return at / m, at % m, m
}

// loopBits is what it takes to say the loop, or the process.
func (s *Segment) loopBits() float64 {
	if s.Process != nil {
		return s.Process.bits
	}
	return GroupsBits(s.Loop)
}

// IsException reports whether a step is not as the loop has it.
func (s Step) IsException() bool { return s.Move >= Missing && s.Move <= Paused }

// bits is what an exception costs without its place.
func (s Segment) bits(step Step) float64 {
	switch step.Move {
	case Missing:
		return SlipBits + Gamma(int64(s.Groups(step)-1))
	case TooMany:
		n := step.Attacks - 1
		return SlipBits + Gamma(int64(n)) + float64(n)*math.Log2(float64(step.Pulses-1))
	case Resized:
		return SlipBits + Gamma(int64(step.Pulses-s.Loop[step.Group])) + SignBits
	case Paused:
		return RareBits + math.Log2(step.Pause) + pauseBits
	}
	return RareBits
}

// freeBits is what a segment without a loop costs without its kind.
func (s Segment) freeBits(sizes map[int]bool) float64 {
	cost := alphabetBits(sizes)
	for _, step := range s.Steps {
		cost += max(math.Log2(float64(len(sizes))), 0.5)
		if !sizes[step.Pulses] {
			cost += Gamma(int64(step.Pulses)) + 3
		}
	}
	return cost
}

// plain counts the groups of a segment that are as its loop has them.
func (s Segment) plain() (n int) {
	for _, step := range s.Steps {
		if step.Move == nextGroup {
			n++
		}
	}
	return n
}
