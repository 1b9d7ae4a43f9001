package analysis

import (
	"iter"

	"tieover/score"
	"tieover/score/analysis/timeline"
	"tieover/score/beat"
)

// Felt is where a realignment seems to fall to somebody who hears a layer from
// another place than its head: whose cycle begins Turn pulses away and who
// counts the bars of the meter from the first such place that sounds.
type Felt struct {
	Index int       // of the realignment
	Time  beat.Time // section time

	Pulse   int  // of the heard cycle, from 1
	Group   int  // of the heard groups, from 1
	OnGroup bool // at that group's start

	Early bool // it comes before the first felt downbeat, so no bar is felt yet

	// The apparent place in the meter; only when Metric.
	Metric  bool
	Where   score.Where // bars counted from the first heard downbeat that sounds
	OnBeat  bool
	Barline bool
}

// FeltRealignments yields where the section's realignments seem to fall in a
// hearing of a layer with one pattern whose cycles run on unchanged. Places in
// the meter are given while the meter never changes.
func FeltRealignments(s *score.Section, layer int, h timeline.Hearing) iter.Seq[Felt] {
	l := s.Layers[layer]
	return func(yield func(Felt) bool) {
		if len(l.Patterns) != 1 || len(l.Process) > 0 || l.Loop != score.Run {
			return
		}
		length := 0
		for _, g := range h.Groups {
			length += g
		}
		first := l.Enters + (beat.Time(l.Offset+int64(h.Turn)) * l.Unit).Mod(beat.Time(length)*l.Unit)
		for r := range s.Realignments() {
			f := Felt{Index: r.Index, Time: r.Time}
			pulse := ((-h.Turn % length) + length) % length
			f.Pulse = pulse + 1
			f.Group, f.OnGroup = groupAt(h.Groups, pulse)
			at := r.Time - first
			f.Early = at < 0
			if !f.Early && Steady(s) {
				f.Metric = true
				f.Where = s.Where(at)
				f.Where.Bar -= s.FirstBar - 1
				f.OnBeat = f.Where.Past.Sign() == 0
				f.Barline = f.OnBeat && f.Where.Beat == 1
			}
			if !yield(f) {
				return
			}
		}
	}
}

func groupAt(groups []int, pulse int) (n int, start bool) {
	for i, g := range groups {
		if pulse < g {
			return i + 1, pulse == 0
		}
		pulse -= g
	}
	return len(groups), false
}

// Steady reports whether all bars of the section are alike.
func Steady(s *score.Section) bool {
	if len(s.Meter) > 1 {
		return false
	}
	for _, e := range s.Plan {
		if e.Meter != nil {
			return false
		}
	}
	return true
}
