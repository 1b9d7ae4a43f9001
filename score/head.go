package score

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// heads is where the heads of a layer fall when they repeat for ever: at
// every moment from `from` on that leaves one of the residues modulo period.
type heads struct {
	residues []beat.Time // rising, in [0, period)
	period   beat.Time
	from     beat.Time // the first head that is not before the layer's entry
	cut      bool      // a loop rule cuts the layer
}

// mostClasses bounds how many residues are combined by arithmetic; beyond it
// realignments are found by walking.
const mostClasses = 4096

// headPattern returns the heads of a layer by arithmetic. ok is false when cycles
// change their length or their order without a fixed period, or start over in a way
// that has none: then the heads must be walked.
func (s *Section) headPattern(layer int) (h heads, ok bool) {
	switch s.Layers[layer].Loop {
	case CutBars:
		return s.cutPattern(layer)
	case CutRealignment:
		return heads{}, false
	}
	return s.Layers[layer].headPattern()
}

// headPattern returns the heads of the layer as if its loop ran on.
func (l *Layer) headPattern() (h heads, ok bool) {
	if !l.headsRepeat() {
		return heads{}, false
	}
	st := l.newState()
	start := l.First
	at := beat.Time(0)
	for cycle := 0; cycle < mostClasses; cycle++ {
		sh := st.Shape(cycle % len(l.Patterns))
		h.residues = append(h.residues, at+beat.Time(sh.Head)*l.Unit)
		at += beat.Time(sh.Pulses) * l.Unit
		st.Step()
		if (cycle+1)%len(l.Patterns) == 0 && st.HeadsAreHome() {
			h.period = at
			h.from = h.firstFrom(start, l.Enters)
			h.reduce(start)
			return h, true
		}
	}
	return heads{}, false
}

// firstFrom returns the first head at or after a moment; the residues still
// count from start.
func (h *heads) firstFrom(start, moment beat.Time) beat.Time {
	first := never
	for _, r := range h.residues {
		at := start + r
		if late := moment - at; late > 0 {
			at += (late + h.period - 1) / h.period * h.period
		}
		first = min(first, at)
	}
	return first
}

// headsRepeat reports whether the head positions depend only on the cycle's
// number: no changing lengths, no resets of what moves the head.
func (l *Layer) headsRepeat() bool {
	moves, resizes := false, false
	for _, p := range l.Process {
		switch p.Kind {
		case process.Append:
			return false
		case process.Grow:
			if p.From == 0 {
				return false
			}
			resizes = true
		case process.Rotate:
			moves = true
		case process.Shift:
			moves = true
		}
	}
	if moves && (resizes || l.Until == UntilRealignment) {
		return false
	}
	for _, e := range l.Except {
		if e.Cycle > 0 && e.Pattern != nil {
			return false
		}
	}
	return true
}

// reduce counts the residues from time 0 instead of the layer's start, and shortens
// the period where they repeat inside it.
func (h *heads) reduce(start beat.Time) {
	for i := range h.residues {
		h.residues[i] = (h.residues[i] + start).Mod(h.period)
	}
	slices.Sort(h.residues)
	h.residues = slices.Compact(h.residues)
	for n := len(h.residues); n > 1; n = len(h.residues) { // fold [0, p/k) when the pattern repeats inside the period
		k := foldable(h.residues, h.period)
		if k == 1 {
			return
		}
		h.residues = h.residues[:n/k]
		h.period /= beat.Time(k)
	}
}

// foldable returns the largest k for which the residues repeat k times in the
// period, 1 when they do not.
func foldable(residues []beat.Time, period beat.Time) int {
	n := len(residues)
	for k := n; k > 1; k-- {
		if n%k != 0 || period%beat.Time(k) != 0 {
			continue
		}
		part, step := n/k, period/beat.Time(k)
		same := true
		for i := part; i < n && same; i++ {
			same = residues[i] == residues[i-part]+step
		}
		if same {
			return k
		}
	}
	return 1
}

// heads returns the barlines as heads, one rotation of the meter a period. ok is false
// when the plan changes the meter.
func (b *barring) heads() (h heads, ok bool) {
	if len(b.runs) != 1 {
		return heads{}, false
	}
	run := b.runs[0]
	h.period = run.rotation()
	h.residues = append(h.residues, 0)
	h.residues = append(h.residues, run.ends[:len(run.ends)-1]...)
	h.reduce(0)
	return h, true
}
