package analysis

import (
	"iter"

	"tieover/score"
	"tieover/score/beat"
)

// Step is one head of a layer, placed against a reference: the bar or the
// cycle of another layer in which it falls.
type Step struct {
	Cycle  int       // index of the cycle whose head it is
	Number int       // as it is printed, since the last realignment
	Head   beat.Time // section time

	Place  beat.Time // from the start of the reference, in [0, Length)
	Length beat.Time // of the reference
	First  bool      // there is no head before it, so no step
	Step   beat.Time // change of place since the head before, in (-Length/2, Length/2]; early is negative
	Total  beat.Time // all steps so far, unwrapped
}

// Walk yields the heads of a layer against the barline or another layer, in
// order. A head that is cut off, lies outside the section, or meets no cycle of
// the other layer is passed over.
func Walk(s *score.Section, layer, against int) iter.Seq[Step] {
	return func(yield func(Step) bool) {
		ref := newReference(s, against)
		defer ref.stop()
		last := Step{First: true}
		for c := range s.Cycles(layer) {
			head := c.Start + c.Head
			if c.Landing || c.Head >= c.Sounds || head < s.Layers[layer].Enters {
				continue
			}
			start, length, ok := ref.at(head)
			if !ok {
				continue
			}
			now := Step{Cycle: c.Index, Number: c.Number, Head: head, Place: head - start, Length: length}
			if last.First && last.Length == 0 {
				now.First = true
			} else {
				now.Step = (now.Place - last.Place).Signed(length)
				now.Total = last.Total + now.Step
			}
			if !yield(now) {
				return
			}
			last = now
		}
	}
}

// reference follows the bars or the cycles of a layer in time order.
type reference struct {
	s          *score.Section
	barline    bool
	next       func() (*score.Cycle, bool)
	stop       func()
	start, end beat.Time // of the current cycle
	over       bool
}

func newReference(s *score.Section, against int) *reference {
	if against == Barline {
		return &reference{s: s, barline: true, stop: func() {}}
	}
	r := &reference{s: s}
	r.next, r.stop = iter.Pull(s.Cycles(against))
	return r
}

// at returns the start and the length of the bar or cycle that t falls in.
func (r *reference) at(t beat.Time) (start, length beat.Time, ok bool) {
	if r.barline {
		bar := r.s.BarAt(t)
		return bar.Start, bar.Length, true
	}
	for !r.over && t >= r.end {
		c, more := r.next()
		if !more || c.Landing {
			r.over = true
			break
		}
		// A cut cycle is a reference for as long as it sounds.
		r.start, r.end = c.Start, c.End()
	}
	if r.over || t < r.start {
		return 0, 0, false
	}
	return r.start, r.end - r.start, true
}

// Drift sums up how a layer moves against a reference.
type Drift struct {
	Against  int // a layer, or Barline
	Steps    int // how many were looked at; 0 when there are fewer than two heads
	All      bool
	Constant bool // all steps are equal, and the reference keeps its length
	Step     beat.Time
	Length   beat.Time // of the reference, if Constant
	Home     int       // if Constant: after how many cycles the place is the same again
}

// driftReach is how many steps are looked at to call a drift constant.
const driftReach = 2048

func driftOf(s *score.Section, layer, against int) Drift {
	d := Drift{Against: against, All: true, Constant: true}
	for step := range Walk(s, layer, against) {
		if d.Steps == driftReach {
			d.All = false
			break
		}
		switch {
		case step.First:
			d.Length = step.Length
			continue
		case d.Steps == 0:
			d.Step = step.Step
		}
		if step.Step != d.Step || step.Length != d.Length {
			d.Constant = false
		}
		d.Steps++
	}
	if d.Steps == 0 {
		d.Constant = false
	}
	if d.Constant {
		d.Home = int(d.Length) / int(beat.GCD(int64(d.Step), int64(d.Length)))
	}
	return d
}
