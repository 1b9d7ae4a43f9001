package analysis

import (
	"iter"

	"tieover/score"
	"tieover/score/analysis/timeline"
	"tieover/score/beat"
)

// Hearing is one way to hear a layer otherwise than it is written.
type Hearing struct {
	timeline.Hearing
	Layer int
	Unit  beat.Time // what its groups and turn count
}

// Hearings returns the ways to hear a layer of one pattern: those of its
// groups, and named patterns that the rhythm of a box or of figures is a
// rotation of.
func (l Layer) Hearings() []Hearing {
	if len(l.Groups) != 1 {
		return nil
	}
	var all []Hearing
	for _, h := range l.Groups[0].Hearings {
		all = append(all, Hearing{h, l.Index, l.Groups[0].Unit})
	}
	if l.Rhythm == nil {
		return all
	}
	for _, h := range l.Rhythm.Hearings {
		if len(h.Patterns) > 0 {
			all = append(all, Hearing{h, l.Index, l.Rhythm.Unit})
		}
	}
	return all
}

// Felt is where a realignment seems to fall to somebody who hears a layer from
// another place than its head: whose cycle begins Turn pulses away and who
// counts the bars of the meter from the first such place that sounds.
type Felt struct {
	Index int       // of the realignment
	Time  beat.Time // section time

	Pulse   int  // of the heard cycle, in units of the hearing, from 1
	OnPulse bool // at that pulse's start; a layer outside the realigning set may be elsewhere
	Group   int  // of the heard groups, from 1
	OnGroup bool // at that group's start

	Early bool // it comes before the first felt downbeat, so no bar is felt yet

	// The apparent place in the meter; only when Metric.
	Metric  bool
	Where   score.Where // bars counted from the first heard downbeat that sounds
	OnBeat  bool
	Barline bool
}

// FeltRealignments yields where the section's realignments, as long as the layer
// plays, seem to fall in a hearing of a layer with one pattern whose cycles run
// on unchanged. Places in the meter are given while the meter never changes.
func FeltRealignments(s *score.Section, h Hearing) iter.Seq[Felt] {
	l := s.Layers[h.Layer]
	return func(yield func(Felt) bool) {
		if len(l.Patterns) != 1 || len(l.Process) > 0 || l.Loop != score.Run {
			return
		}
		first := firstFelt(l, h)
		felt, _ := s.Felt(first)
		for r := range s.RealignmentTimes() {
			if r.Time < l.First || r.Time > l.Leaves {
				continue
			}
			if !yield(feltAt(felt, h, r, first)) {
				return
			}
		}
	}
}

// length is that of the heard cycle.
func (h Hearing) length() beat.Time { return beat.Time(total(h.Groups)) * h.Unit }

// firstFelt returns the first felt downbeat that sounds.
func firstFelt(l *score.Layer, h Hearing) beat.Time {
	first := l.First + (beat.Time(h.Turn) * h.Unit).Mod(h.length())
	if first < l.Enters { // begun before the section
		first = l.Enters + (first - l.Enters).Mod(h.length())
	}
	return first
}

// feltAt places one realignment for somebody who counts from first; felt has
// the bars, nil where there are none.
func feltAt(felt *score.Section, h Hearing, r score.Realignment, first beat.Time) Felt {
	f := Felt{Index: r.Index, Time: r.Time}
	into := (r.Time - first).Mod(h.length())
	pulse := int(into / h.Unit)
	f.Pulse, f.OnPulse = pulse+1, into%h.Unit == 0
	f.Group, f.OnGroup = groupAt(h.Groups, pulse)
	f.OnGroup = f.OnGroup && f.OnPulse
	f.Early = r.Time < first
	if !f.Early && felt != nil {
		f.Metric = true
		f.Where = felt.Where(r.Time)
		f.OnBeat = f.Where.Past.Sign() == 0
		f.Barline = f.OnBeat && f.Where.Beat == 1
	}
	return f
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
