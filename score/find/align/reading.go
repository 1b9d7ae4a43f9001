package align

import (
	"math"
	"slices"
)

// Reading is one way to say the attacks.
type Reading struct {
	Pulse    *Pulse  // nil where the attacks came as numbers
	Scatter  float64 // standard deviation of the taps from their places, in milliseconds
	Segments []Segment
	Places   []int64   // of every attack, in pulses from the first
	Late     []float64 // how late each tap is, in milliseconds; nil for numbers
	Bits     float64
	Saved    float64 // bits less than the attacks without a loop, on whatever pulse

	row    row
	timing float64 // bits of the taps' moments and of the pulse
	second bool    // the first attack is on the second pulse of a pair
	sizes  map[int]bool
	where  float64
}

// Segment is a stretch of one loop, or of none.
type Segment struct {
	Loop  []int // from the group that the first attack begins; nil: free
	From  int   // its first attack
	Steps []Step
}

// Step leads from one attack to a later one. The last attack of all has none:
// how long it lasts is not known.
type Step struct {
	Move
	Attack  int // where it begins, from 0
	Attacks int // that it goes on
	Pulses  int
	Group   int     // of the loop, where it begins, from 0
	Cycle   int     // of the segment, from 0
	Pause   float64 // milliseconds of a pause
}

// traced follows the moves back from a hypothesis at the last attack.
func (a *aligner) traced(h int) *Reading {
	r := &Reading{Pulse: a.pulse, Scatter: a.scatter, row: a.row, sizes: a.sizes, where: a.where}
	perRow := len(a.states) * a.kept
	var steps []Step
	var loops []int // of each step, where it arrives
	i := a.n - 1
	for {
		b := a.backs[i*perRow+h]
		st := a.states[h/a.kept]
		steps = append(steps, Step{Move: b.move(), Attack: i - b.attacks(), Attacks: b.attacks(), Pulses: b.pulses(), Group: st.group})
		loops = append(loops, st.loop)
		if b.move() == start {
			r.second = st.second
			break
		}
		i, h = i-b.attacks(), b.from()
	}
	slices.Reverse(steps)
	slices.Reverse(loops)
	for k, s := range steps {
		if s.Move == start || s.Move == switched {
			seg := Segment{From: s.Attack}
			if loops[k] >= 0 {
				seg.Loop = turned(a.loops[loops[k]], s.Group)
			}
			r.Segments = append(r.Segments, seg)
			continue
		}
		seg := &r.Segments[len(r.Segments)-1]
		seg.Steps = append(seg.Steps, s)
	}
	r.settle()
	return r
}

// Groups is how many groups of the loop a step takes.
func (s Segment) Groups(step Step) int {
	switch step.Move {
	case Again, freely:
		return 0
	case LeftOut, Swapped:
		return 2
	case Missing: // as many as its pulses fill
		n, left := 0, step.Pulses
		for left > 0 {
			left -= s.Loop[(step.Group+n)%len(s.Loop)]
			n++
		}
		return n
	}
	return 1
}

// settle numbers cycles and groups, hears all taps once more along the steps, and
// counts the bits.
func (r *Reading) settle() {
	r.Places, r.Late = make([]int64, 1, r.row.n), nil
	cost := Gamma(int64(r.row.n))
	if r.timing = r.hear(); r.Pulse != nil {
		r.timing += r.Pulse.bits
	}
	exceptions := 0
	for k := range r.Segments {
		s := &r.Segments[k]
		cost += kindBits
		if k > 0 {
			cost += math.Log2(float64(r.row.n))
		}
		if s.Loop == nil {
			cost += s.freeBits(r.sizes)
			continue
		}
		if k == 0 && r.second {
			cost += kindBits
		}
		cost += groupsBits(s.Loop)
		s.number()
		for _, step := range s.Steps {
			if step.IsException() {
				exceptions++
				cost += s.bits(step)
			}
		}
	}
	cost += whereBits(r.row.n, exceptions)
	if r.Pulse != nil && r.commonSize() > 1 {
		r.timing += coarser
	}
	r.Bits = cost + r.timing
}

// PlaceBits is what a reading takes but for the taps' moments: what it takes to say
// the places.
func (r *Reading) PlaceBits() float64 { return r.Bits - r.timing }

// BareBits is what the places take without loops.
func (r *Reading) BareBits() float64 { return kindBits + groupsBits(gapsOf(r.Places)) }

// coarser is what a pulse costs on which all groups have a common divisor: a
// coarser one says the same.
const coarser = 8

// number sets group and cycle of each step.
func (s *Segment) number() {
	at := 0
	for i := range s.Steps {
		step := &s.Steps[i]
		step.Group, step.Cycle = at%len(s.Loop), at/len(s.Loop)
		at += s.Groups(*step)
	}
}

// IsException reports whether a step is not as the loop has it.
func (s Step) IsException() bool { return s.Move >= Missing && s.Move <= Paused }

// bits is what an exception costs but for its place.
func (s Segment) bits(step Step) float64 {
	switch step.Move {
	case Missing:
		return slipBits + Gamma(int64(s.Groups(step)-1))
	case TooMany:
		n := step.Attacks - 1
		return slipBits + Gamma(int64(n)) + float64(n)*math.Log2(float64(step.Pulses-1))
	case Resized:
		return slipBits + Gamma(int64(step.Pulses-s.Loop[step.Group])) + signBits
	case Paused:
		return rareBits + math.Log2(step.Pause) + pauseBits
	}
	return rareBits
}

// freeBits is what a stretch without a loop costs but for its kind.
func (s Segment) freeBits(sizes map[int]bool) float64 {
	cost := alphabetBits(sizes)
	for _, step := range s.Steps {
		cost += max(math.Log2(float64(len(sizes))), 0.5)
		if !sizes[step.Pulses] {
			cost += Gamma(int64(step.Pulses)) + 3
		}
	}
	return cost
}

// hear gives every attack its place and says how late it is. It returns the bits
// of the taps' moments.
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

// listen moves the tracker over one step of taps.
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

// commonSize is the greatest common divisor of all groups of the loops, 0
// without a loop.
func (r *Reading) commonSize() (size int) {
	for _, s := range r.Segments {
		for _, group := range s.Loop {
			for group != 0 {
				size, group = group, size%group
			}
		}
	}
	return size
}

// LastGroup is how long the loop wants the last attack to be, 0 when it is in no
// loop.
func (r *Reading) LastGroup() int {
	s := r.Segments[len(r.Segments)-1]
	if s.Loop == nil {
		return 0
	}
	at := 0
	for _, step := range s.Steps {
		at += s.Groups(step)
	}
	return s.Loop[at%len(s.Loop)]
}

// HasLoop reports whether any segment has a loop.
func (r *Reading) HasLoop() bool {
	return slices.ContainsFunc(r.Segments, func(s Segment) bool { return s.Loop != nil })
}

// IsEven reports whether all attacks are equally far apart.
func (r *Reading) IsEven() bool { return len(sizesOf(gapsOf(r.Places))) == 1 }

// Exceptions counts the steps that are not as the loops have them.
func (r *Reading) Exceptions() (n int) {
	for _, s := range r.Segments {
		for _, step := range s.Steps {
			if step.IsException() {
				n++
			}
		}
	}
	return n
}

// plain counts the groups of a segment that are as its loop has them.
func (s Segment) plain() (n int) {
	for _, step := range s.Steps {
		if step.Move == onward {
			n++
		}
	}
	return n
}
