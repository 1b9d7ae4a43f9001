package analysis

import (
	"iter"
	"math/big"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// Pair is what is known about two layers together.
type Pair struct {
	A, B      int // A < B
	Together  score.Meeting
	OnBarline score.Meeting
	Attacks   int // moments in the section at which both strike

	// One of the two has left before the first such moment: it is never heard.
	Over, OverOnBarline bool
}

func pairOf(s *score.Section, a, b, attacks int) Pair {
	p := Pair{A: a, B: b, Attacks: attacks}
	if s.Layers[a].Line != nil || s.Layers[b].Line != nil {
		return p
	}
	p.Together, p.OnBarline = s.Meet([]int{a, b}, false), s.Meet([]int{a, b}, true)
	cut := s.Layers[a].Loop != score.Run || s.Layers[b].Loop != score.Run
	reset := s.Layers[a].Until == score.UntilRealignment || s.Layers[b].Until == score.UntilRealignment
	if cut || reset && (p.Together.Walked || p.OnBarline.Walked) {
		together, onBarline := meetingByWalk(s, a, b)
		if cut || p.Together.Walked {
			p.Together = together
		}
		p.OnBarline = onBarline
	}
	p.Over, p.OverOnBarline = leftBefore(s, a, b, p.Together), leftBefore(s, a, b, p.OnBarline)
	return p
}

// leftBefore reports whether one of the layers has left when they first come together.
func leftBefore(s *score.Section, a, b int, m score.Meeting) bool {
	if m.First == nil {
		return false
	}
	for _, i := range []int{a, b} {
		if l := s.Layers[i]; l.LeaveAt != nil && m.First.Cmp(big.NewInt(int64(l.Leaves))) >= 0 {
			return true
		}
	}
	return false
}

// meetingByWalk finds the first coincidence of the heads of two layers, and the first
// on a barline, by stepping through the section's cycles: a cut or a process that
// is reset at the section's realignments starts a layer over, so that arithmetic
// would not do.
func meetingByWalk(s *score.Section, a, b int) (together, onBarline score.Meeting) {
	together.Walked, onBarline.Walked = true, true
	others := peek.Of(heads(s, b))
	defer others.Stop()
	for at := range heads(s, a) {
		for range others.While(func(t beat.Time) bool { return t < at }) {
		}
		other, more := others.Peek()
		switch {
		case !more || together.First != nil && onBarline.First != nil:
			return together, onBarline
		case other != at:
			continue
		case at <= 0:
			together.Start, onBarline.Start = at == 0, at == 0
			continue
		}
		if together.First == nil {
			together.First = big.NewInt(int64(at))
		}
		if onBarline.First == nil && s.OnBarline(at) {
			onBarline.First = big.NewInt(int64(at))
		}
	}
	return together, onBarline
}

// heads yields the heads of a layer that sound or stand silent in the section.
func heads(s *score.Section, layer int) iter.Seq[beat.Time] {
	return func(yield func(beat.Time) bool) {
		for c := range s.Passes(layer) {
			if at := c.Start + c.Head; c.Head < c.Sounds && at >= s.Layers[layer].Enters && !yield(at) {
				return
			}
		}
	}
}
