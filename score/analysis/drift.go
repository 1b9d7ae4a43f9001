package analysis

import (
	"iter"

	"tieover/score"
	"tieover/score/beat"
)

// Step is one head of a layer, placed against a reference: the bar or the
// cycle of another layer in which it falls.
type Step struct {
	Cycle int       // index of the cycle whose head it is
	Head  beat.Time // section time

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
		t := Track(s, against)
		defer t.Stop()
		for c := range s.Passes(layer) {
			if step, ok := t.Step(c); ok && !yield(step) {
				return
			}
		}
	}
}

// Tracker places the heads of a layer against one reference.
type Tracker struct {
	s    *score.Section
	ref  reference
	last Step
	any  bool
}

// Track returns a tracker against a layer or Barline. Stop ends it.
func Track(s *score.Section, against int) *Tracker {
	return &Tracker{s: s, ref: newReference(s, against)}
}

// Stop lets go of the reference.
func (t *Tracker) Stop() { t.ref.stop() }

// Step places the head of the next cycle; cycles come in order. ok is false
// when that head has no place.
func (t *Tracker) Step(c *score.Cycle) (now Step, ok bool) {
	head := c.Start + c.Head
	if c.Landing || c.Head >= c.Sounds || head < t.s.Layers[c.Layer].Enters {
		return Step{}, false
	}
	start, length, ok := t.ref.at(head)
	if !ok {
		return Step{}, false
	}
	now = Step{Cycle: c.Index, Head: head, Place: head - start, Length: length, First: !t.any}
	if t.any {
		now.Step = (now.Place - t.last.Place).Signed(length)
		now.Total = t.last.Total + now.Step
	}
	t.last, t.any = now, true
	return now, true
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
