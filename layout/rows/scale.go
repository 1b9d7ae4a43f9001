package rows

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Step returns the coarsest step on which every cell of the chart, every beat
// and every barline falls.
func (ch *Chart) Step() beat.Time {
	s := ch.Section
	step := gcd(ch.beats(), s.Length, s.Bar(1).Length, s.Opening())
	for _, i := range ch.Layers {
		l := s.Layers[i]
		step = gcd(step, ch.Finest(i), l.Enters)
		if l.Leaves < s.Length {
			step = gcd(step, l.Leaves)
		}
	}
	for _, i := range s.Set { // a layer may start over at any of its heads
		step = gcd(step, s.Layers[i].Unit)
	}
	return step
}

// Plain returns the coarsest step that holds the beats and the pulses of the
// layers without tuplets: what the count is spoken in.
func (ch *Chart) Plain() beat.Time {
	step := ch.beats()
	for _, i := range ch.Layers {
		if l := ch.Section.Layers[i]; !l.Pulse.IsTuplet() {
			step = gcd(step, l.Unit)
		}
	}
	return step
}

// beats returns the coarsest step on which all beats fall.
func (ch *Chart) beats() beat.Time { return gcd(ch.beatLengths()...) }

// LongestBeat returns the longest beat of all the section's meters.
func (ch *Chart) LongestBeat() beat.Time { return slices.Max(ch.beatLengths()) }

func (ch *Chart) beatLengths() (lengths []beat.Time) {
	for _, sig := range ch.signatures {
		for _, b := range sig.Beats() {
			lengths = append(lengths, ch.Section.Grid.Must(b))
		}
	}
	return lengths
}

// Finest returns the least distance of two cells that a layer's own rhythm
// needs: its pulse, or less where a figure or a line divides it.
func (ch *Chart) Finest(layer int) beat.Time {
	l := ch.Section.Layers[layer]
	step := l.Unit
	for size, signs := range l.Figures {
		step = gcd(step, l.Unit*beat.Time(size)/beat.Time(len(signs)))
	}
	for _, n := range l.Line {
		step = gcd(step, n.Length)
	}
	return step
}

func gcd(times ...beat.Time) (step beat.Time) {
	for _, t := range times {
		step = beat.Time(beat.GCD(int64(step), int64(t)))
	}
	return step
}

// Phase returns the coarsest step, counted from every barline, on which all
// cells of a layer fall.
func (ch *Chart) Phase(layer int) beat.Time {
	s := ch.Section
	l := s.Layers[layer]
	step := gcd(ch.Finest(layer), ch.beats(), l.Enters, s.Bar(1).Length)
	if l.Loop == score.CutRealignment {
		for _, i := range s.Set {
			step = gcd(step, s.Layers[i].Unit)
		}
	}
	return step
}

// BarLengths lists the lengths that the section's bars have.
func (ch *Chart) BarLengths() []beat.Time {
	var lengths []beat.Time
	for _, sig := range ch.signatures {
		lengths = append(lengths, ch.Section.Grid.Must(sig.Span()))
	}
	return lengths
}
