package analysis

import (
	"tieover/score"
	"tieover/score/beat"
)

// Cutting is what a layer's own rule does to its cycles: each cut inside a cycle
// leaves out the end of it and puts the head back.
type Cutting struct {
	Layer int
	Times int      // cuts inside a cycle, in the section
	Kinds []Cutoff // the different ones in order of appearance, no more than mostCutoffs
}

// Cutoff is one way in which a cycle is cut.
type Cutoff struct {
	Times   int
	First   beat.Time // section time of the first such cut
	Missing beat.Time // of the cycle
	Group   int       // in which it stops, from 1 in played order
	Kept    beat.Time // of that group
	Of      beat.Time // that group's length
	Drift   beat.Time // against the barline, of the cut cycle since the layer last started over, at most half a bar; early is negative
}

// mostCutoffs bounds how many ways are told apart.
const mostCutoffs = 16

// same reports whether two cuts leave out the same.
func (c Cutoff) same(d Cutoff) bool {
	return c.Missing == d.Missing && c.Group == d.Group && c.Kept == d.Kept && c.Of == d.Of && c.Drift == d.Drift
}

// cuttingsOf looks at the layers that a rule cuts.
func cuttingsOf(s *score.Section) []Cutting {
	var all []Cutting
	for i, l := range s.Layers {
		if l.Line == nil && l.Loop != score.Run {
			all = append(all, cuttingOf(s, i))
		}
	}
	return all
}

func cuttingOf(s *score.Section, layer int) Cutting {
	all := Cutting{Layer: layer}
	track := Track(s, Barline)
	defer track.Stop()
	drift, fresh := beat.Time(0), true
	for c := range s.Cycles(layer) {
		step, placed := track.Step(c)
		switch {
		case fresh:
			drift = 0
		case placed:
			drift += step.Step
		}
		if 2*max(drift, -drift) > step.Length && placed { // more than half a bar is nearer from the other side
			drift = drift.Signed(step.Length)
		}
		if fresh = c.Cut == score.CutByLoop; fresh {
			all.add(c, drift)
		}
	}
	return all
}

func (all *Cutting) add(c *score.Cycle, drift beat.Time) {
	all.Times++
	e := endOf(c)
	now := Cutoff{Times: 1, First: c.End(), Missing: e.Missing, Group: e.Group, Kept: e.Kept, Of: e.Of, Drift: drift}
	for i := range all.Kinds {
		if all.Kinds[i].same(now) {
			all.Kinds[i].Times++
			return
		}
	}
	if len(all.Kinds) < mostCutoffs {
		all.Kinds = append(all.Kinds, now)
	}
}
