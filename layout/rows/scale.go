package rows

import (
	"tieover/score"
	"tieover/score/beat"
)

// Step returns the coarsest step on which every cell of the chart, every beat
// and every barline falls.
func (st *Chart) Step() beat.Time {
	s := st.Section
	step := st.beats()
	for _, i := range st.Layers {
		l := s.Layers[i]
		step = common(step, st.Finest(i))
		step = common(step, l.Enters)
		if l.Leaves < s.Length {
			step = common(step, l.Leaves)
		}
	}
	for _, i := range s.Set { // a layer may start over at any of its heads
		step = common(step, s.Layers[i].Unit)
	}
	return common(common(step, s.Length), s.Bar(1).Length)
}

// Plain returns the coarsest step that holds the beats and the pulses of the
// layers without tuplets: what the count is spoken in.
func (st *Chart) Plain() beat.Time {
	step := st.beats()
	for _, i := range st.Layers {
		if l := st.Section.Layers[i]; !l.Pulse.IsTuplet() {
			step = common(step, l.Unit)
		}
	}
	return step
}

func (st *Chart) beats() beat.Time {
	s := st.Section
	step := beat.Time(0)
	for _, sig := range st.signatures {
		for _, b := range sig.Beats() {
			step = common(step, s.Grid.Must(b))
		}
	}
	return step
}

// Finest returns the least distance of two cells that a layer's own rhythm
// needs: its pulse, or less where a figure or a line divides it.
func (st *Chart) Finest(layer int) beat.Time {
	l := st.Section.Layers[layer]
	step := l.Unit
	for size, signs := range l.Figures {
		step = common(step, l.Unit*beat.Time(size)/beat.Time(len(signs)))
	}
	for _, n := range l.Line {
		step = common(step, n.Length)
	}
	return step
}

func common(a, b beat.Time) beat.Time { return beat.Time(beat.GCD(int64(a), int64(b))) }

// Phase returns the coarsest step, counted from every barline, on which all
// cells of a layer fall.
func (st *Chart) Phase(layer int) beat.Time {
	s := st.Section
	l := s.Layers[layer]
	step := common(common(common(st.Finest(layer), st.beats()), l.Enters), s.Bar(1).Length)
	if l.Loop == score.CutRealignment {
		for _, i := range s.Set {
			step = common(step, s.Layers[i].Unit)
		}
	}
	return step
}

// LongestBeat returns the longest beat of all the section's meters.
func (st *Chart) LongestBeat() beat.Time {
	longest := beat.Time(0)
	for _, sig := range st.signatures {
		for _, b := range sig.Beats() {
			longest = max(longest, st.Section.Grid.Must(b))
		}
	}
	return longest
}

// BarLengths lists the lengths that the section's bars have.
func (st *Chart) BarLengths() []beat.Time {
	var lengths []beat.Time
	for _, sig := range st.signatures {
		lengths = append(lengths, st.Section.Grid.Must(sig.Span()))
	}
	return lengths
}
