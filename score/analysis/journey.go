package analysis

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
	"tieover/score/process"
)

// Journey is a layer that moves away from where it began, step by step by the
// same shift, until so many steps have brought it round.
type Journey struct {
	Layer   int
	Partner int       // a layer that plays the same rhythm and stays; Barline where there is none
	By      beat.Time // one step; early is negative
	After   int       // cycles between two steps
	Steps   int       // that bring it home
	Cycle   beat.Time // its length
}

// JourneyStep is one place on the way.
type JourneyStep struct {
	Step     int       // steps since the start, which is 0
	Start    beat.Time // section time of its first cycle
	Cycles   int       // in the section, whole or cut
	Place    beat.Time // how far the layer has moved, less than a cycle; early is negative
	Home     bool      // at the place of the start
	Attacks  int       // of the layer
	Together int       // of these, with the partner
}

// journeysOf lists the layers that only shift.
func journeysOf(s *score.Section) []Journey {
	var all []Journey
	for i, l := range s.Layers {
		if len(l.Process) != 1 || l.Process[0].Kind != process.Shift || l.Until != score.UntilNever || l.Loop != score.Run ||
			len(l.Patterns) != 1 || len(l.Except) > 0 {
			continue
		}
		j := Journey{Layer: i, Partner: partnerOf(s, i), By: beat.Time(l.Process[0].By) * l.Unit, After: l.Process[0].After,
			Cycle: beat.Time(score.CountPulses(l.Patterns[0].Groups)) * l.Unit}
		j.Steps = int(int64(j.Cycle) / beat.GCD(int64(j.By), int64(j.Cycle)))
		if j.Steps > 1 {
			all = append(all, j)
		}
	}
	return all
}

// partnerOf finds the first layer that strikes the same rhythm and never moves.
func partnerOf(s *score.Section, layer int) int {
	l := s.Layers[layer]
	for i, o := range s.Layers {
		if i != layer && o.Line == nil && len(o.Process) == 0 && o.Loop == score.Run && len(o.Patterns) == 1 && o.Unit == l.Unit &&
			slices.Equal(o.Patterns[0].Box, l.Patterns[0].Box) &&
			(l.Patterns[0].Box != nil || slices.Equal(o.Patterns[0].Groups, l.Patterns[0].Groups)) {
			return i
		}
	}
	return Barline
}

// Walk yields the steps of the journey in the section, the start first.
func (j Journey) Walk(s *score.Section) iter.Seq[JourneyStep] {
	return func(yield func(JourneyStep) bool) {
		with := onsetsOf(s, j.Partner)
		defer with.Stop()
		now := JourneyStep{Step: -1}
		for c := range s.Cycles(j.Layer) {
			if c.Landing {
				continue
			}
			if step := (c.Index - 1) / j.After; step != now.Step {
				if now.Step >= 0 && !yield(now) {
					return
				}
				now = j.at(step, max(c.Start, s.Layers[j.Layer].Opening()))
			}
			now.Cycles++
			now.Attacks += len(c.Attacks)
			for k := range c.Attacks {
				if strikesAt(with, c.Start+c.Attacks[k].At) {
					now.Together++
				}
			}
		}
		if now.Step >= 0 {
			yield(now)
		}
	}
}

// at is a step before anything is counted.
func (j Journey) at(step int, start beat.Time) JourneyStep {
	place := (beat.Time(step) * max(j.By, -j.By)).Mod(j.Cycle)
	if j.By < 0 {
		place = -place
	}
	return JourneyStep{Step: step, Start: start, Place: place, Home: step%j.Steps == 0}
}

// onsetsOf reads when a layer strikes; the barline strikes nothing.
func onsetsOf(s *score.Section, layer int) *peek.Peeker[beat.Time] {
	return peek.Of(func(yield func(beat.Time) bool) {
		if layer == Barline {
			return
		}
		for at := range s.Attacks(layer) {
			if !yield(at) {
				return
			}
		}
	})
}

// strikesAt reports whether one of the onsets is at a moment; moments come in order.
func strikesAt(onsets *peek.Peeker[beat.Time], t beat.Time) bool {
	for range onsets.While(func(at beat.Time) bool { return at < t }) {
	}
	at, more := onsets.Peek()
	return more && at == t
}
