package bar

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// container is a stretch of a bar: plain time, or the room of one tuplet.
type container struct {
	from, to beat.Time
	tuplet   *sheet.Tuplet // nil for plain time
}

// packer finds the containers of one voice in one bar.
type packer struct {
	NoteValues
	*MetricGrid
	numbers bool
	pulse   beat.Pulse
	length  beat.Time   // of the layer's own container
	pieces  []piece     // what sounds and is silent, in order
	inside  []beat.Time // where pieces meet, without the bar's ends
	hasOdd  bool
}

// piece is one sound or silence of a bar before it is cut into signs.
type piece struct {
	from, to beat.Time
	segment  int // index into the voice's segments; -1 for silence
}

// containers tiles the bar. ok is false when no single level of tuplets can
// hold what stands in it.
func (p *packer) containers() (tiles []container, ok bool) {
	switch {
	case p.hasOdd:
		return newTiling(p).search()
	case p.pulse.IsTuplet() && isPowerOfTwo(p.pulse.Actual):
		return p.dottedBeats(), true
	}
	return []container{{0, p.Length, nil}}, true
}

// dottedBeats makes a tuplet of a power of two (4:3, 2:3) in each dotted beat
// that is exactly one container; anywhere else such pulses are dotted values.
func (p *packer) dottedBeats() []container {
	var tiles []container
	plainFrom := beat.Time(0)
	for i := 0; p.compound && p.beats[1]-p.beats[0] == p.length && i+1 < len(p.beats); i++ {
		from, to := p.beats[i], p.beats[i+1]
		if from < 0 { // the pickup has but its end
			continue
		}
		t, _, ok := p.tupletAt(from, to, p.pulse.Actual)
		if !ok {
			continue
		}
		if plainFrom < from {
			tiles = append(tiles, container{plainFrom, from, nil})
		}
		tiles = append(tiles, container{from, to, t})
		plainFrom = to
	}
	if plainFrom < p.Length {
		tiles = append(tiles, container{plainFrom, p.Length, nil})
	}
	return tiles
}

// candidates returns the lengths a container may have and a step that all of
// them, and the bar, are multiples of.
func (p *packer) candidates() (step beat.Time, lengths []beat.Time) {
	step = p.Length
	for _, part := range [...]struct{ num, den beat.Time }{
		{1, 1}, {2, 1}, {4, 1}, {8, 1},
		{1, 3}, {1, 6}, {1, 12}, // of a dotted container
		{1, 2}, {1, 4}, {1, 8},
	} {
		whole := p.length * part.num
		if l := whole / part.den; whole%part.den == 0 && p.plain(l) {
			lengths, step = append(lengths, l), beat.GCD(step, l)
		}
	}
	for _, t := range p.inside {
		if p.plain(t) {
			step = beat.GCD(step, t)
		}
	}
	return step, lengths
}

// ratios returns the numbers of parts that containers may be divided into: the
// pulse's own, or for a plain pulse those that the moments in the bar need.
func (p *packer) ratios() []int {
	if p.pulse.IsTuplet() && !isPowerOfTwo(p.pulse.Actual) {
		return []int{p.pulse.Actual}
	}
	var found []int
	for _, t := range p.inside {
		if a := int(p.odd(t)); a > 1 && a < 16 && !slices.Contains(found, a) {
			found = append(found, a)
		}
	}
	slices.Sort(found)
	if all := commonMultiple(found); len(found) > 1 && all < 16 && !slices.Contains(found, all) {
		found = append(found, all) // threes and fives in one container: fifteen parts
	}
	return found
}

// commonMultiple returns the least number that all of the given divide, 16 if none
// is below.
func commonMultiple(ratios []int) int {
	n := int64(1)
	for _, a := range ratios {
		n, _ = beat.LCM(n, int64(a))
		n = min(n, 16)
	}
	return int(n)
}

// fits reports whether a container may stand at the place: a joined one starts
// on its own grid and does not lie over a strong division of the bar unless it
// fills the bar.
func (p *packer) fits(from, to beat.Time) bool {
	if to-from <= p.length || to-from == p.Length {
		return true
	}
	if from%(to-from) != 0 {
		return false
	}
	for i, at := range p.points {
		if p.levels[i] == 1 && from < at && at < to {
			return false
		}
	}
	return true
}
