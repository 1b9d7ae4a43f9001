package align

import "math"

// hear gives every attack its place and how late it is. It returns the bits of the taps'
// moments.
func (r *Reading) hear() (bits float64) {
	p := r.Pulse
	var k tracker
	if p != nil {
		k = p.start(r.row.taps[0], r.Scatter)
		r.Late = []float64{0}
	}
	second := r.second
	for n := range r.Segments {
		for i := range r.Segments[n].Steps {
			step := &r.Segments[n].Steps[i]
			if p == nil {
				for a := 1; a <= step.Attacks; a++ {
					r.Places = append(r.Places, r.row.places[step.Attack+a]-r.row.places[0])
				}
				continue
			}
			var cost float64
			k, cost = r.listen(k, second, step, r.Segments[n].Loop)
			bits += cost
			second = second != (step.Pulses%2 != 0)
		}
	}
	return bits
}

// listen moves the tracker over one step of taps, and returns the bits of their moments.
func (r *Reading) listen(k tracker, second bool, step *Step, loop []int) (next tracker, bits float64) {
	p, taps, from := r.Pulse, r.row.taps, r.Places[len(r.Places)-1]
	to := step.Attack + step.Attacks
	add := func(pulses int, late float64) {
		r.Places, r.Late = append(r.Places, from+int64(pulses)), append(r.Late, late)
	}
	hear := func(k tracker, second bool, pulses, attack int) (tracker, float64) {
		n, cost, late := p.hear(k, p.span(second, pulses), taps[attack], r.Scatter)
		bits += cost
		return n, late
	}
	switch step.Move {
	case Paused:
		step.Pause = taps[to] - k.place
		add(max(int(math.Round(step.Pause/k.pulse)), step.Pulses+1), 0)
		k.place, k.varPlace, k.varBoth = taps[to], r.Scatter*r.Scatter, 0
		return k, bits
	case TooMany:
		before := 0
		for a := step.Attack + 1; a < to; a++ {
			near := int(math.Round((taps[a] - k.place) / k.pulse))
			inner := min(max(near, before+1), step.Pulses-(to-a))
			before = inner
			_, late := hear(k, second, inner, a)
			add(inner, late)
		}
	case Swapped:
		first := loop[(step.Group+1)%len(loop)]
		n, late := hear(k, second, first, step.Attack+1)
		add(first, late)
		n, late = hear(n, second != (first%2 != 0), step.Pulses-first, to)
		add(step.Pulses, late)
		return n, bits
	}
	n, late := hear(k, second, step.Pulses, to)
	add(step.Pulses, late)
	return n, bits
}
