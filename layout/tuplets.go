package layout

import (
	"slices"
	"sort"

	"tieover/score/beat"
)

// container is a stretch of a bar: plain time, or the room of one tuplet.
type container struct {
	from, to beat.Time
	tuplet   *Tuplet // nil for plain time
}

// packer finds the containers of one voice in one bar.
type packer struct {
	signs
	*metre
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
	slice    int // index into the voice's slices; -1 for silence
}

// cost orders the ways to write a bar: the fewest ties made by containers, then
// the fewest signs, pieces of halved containers, tuplets, joined containers.
type cost struct{ ties, signs, halves, tuplets, joins int }

func (c cost) plus(d cost) cost {
	return cost{c.ties + d.ties, c.signs + d.signs, c.halves + d.halves, c.tuplets + d.tuplets, c.joins + d.joins}
}

func (c cost) less(d cost) bool {
	for _, pair := range [...][2]int{{c.ties, d.ties}, {c.signs, d.signs}, {c.halves, d.halves}, {c.tuplets, d.tuplets}, {c.joins, d.joins}} {
		if pair[0] != pair[1] {
			return pair[0] < pair[1]
		}
	}
	return false
}

// containers tiles the bar. ok is false when no single level of tuplets can
// hold what stands in it.
func (p *packer) containers() (tiles []container, ok bool) {
	if p.pulse.IsTuplet() && p.pulse.Actual&(p.pulse.Actual-1) == 0 && !p.hasOdd {
		return p.dottedBeats(), true
	}
	if !p.hasOdd {
		return []container{{0, p.metre.length, nil}}, true
	}
	return p.shortestPath()
}

// dottedBeats makes a tuplet of a power of two (4:3, 2:3) in each dotted beat
// that is exactly one container; anywhere else such pulses are dotted values.
func (p *packer) dottedBeats() []container {
	var tiles []container
	plainFrom := beat.Time(0)
	for i := 0; p.compound && i+1 < len(p.beats); i++ {
		from, to := p.beats[i], p.beats[i+1]
		if to-from != p.length {
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
	if plainFrom < p.metre.length {
		tiles = append(tiles, container{plainFrom, p.metre.length, nil})
	}
	return tiles
}

// shortestPath chooses containers from the bar's start to its end.
func (p *packer) shortestPath() ([]container, bool) {
	step, lengths := p.candidates()
	ratios := p.ratios()
	n := int(p.metre.length / step)
	type node struct {
		reached bool
		cost    cost
		from    int
		tuplet  *Tuplet
	}
	nodes := make([][2]node, n+1) // [plain or start][after a tuplet]
	nodes[0][1].reached = true
	relax := func(to, kind int, from int, c cost, t *Tuplet) {
		if at := &nodes[to][kind]; !at.reached || c.less(at.cost) {
			*at = node{true, c, from, t}
		}
	}
	for i := 0; i < n; i++ {
		from := beat.Time(i) * step
		for kind, here := range nodes[i] {
			if !here.reached {
				continue
			}
			if kind == 1 { // plain time follows only a tuplet or the start
				for j := i + 1; j <= n; j++ {
					to := beat.Time(j) * step
					c, ok := p.plainCost(from, to)
					if !ok {
						break
					}
					relax(j, 0, i<<1|kind, here.cost.plus(c), nil)
				}
			}
			for _, length := range lengths {
				to := from + length
				if to > p.metre.length {
					continue
				}
				for _, a := range ratios {
					if t, c, ok := p.tupletAt(from, to, a); ok && p.fits(from, to) {
						relax(int(to/step), 1, i<<1|kind, here.cost.plus(c), t)
					}
				}
			}
		}
	}
	kind := 0
	if a, b := nodes[n][0], nodes[n][1]; !a.reached || b.reached && b.cost.less(a.cost) {
		kind = 1
	}
	if !nodes[n][kind].reached {
		return nil, false
	}
	var tiles []container
	for i := n; i > 0; {
		here := nodes[i][kind]
		from := here.from >> 1
		tiles = append(tiles, container{beat.Time(from) * step, beat.Time(i) * step, here.tuplet})
		i, kind = from, here.from&1
	}
	slices.Reverse(tiles)
	return tiles, true
}

// candidates returns the lengths a container may have and a step that all of
// them, and the bar, are multiples of.
func (p *packer) candidates() (step beat.Time, lengths []beat.Time) {
	add := func(num, den int64) {
		if l := int64(p.length) * num; l%den == 0 && l/den <= int64(p.metre.length) && p.plain(beat.Time(l/den)) {
			lengths = append(lengths, beat.Time(l/den))
		}
	}
	add(1, 1)
	add(2, 1)
	add(4, 1)
	add(8, 1)
	if v, ok := p.value(p.length, 1, 1); ok && v.Dots == 1 {
		add(1, 3)
		add(1, 6)
		add(1, 12)
	}
	add(1, 2)
	add(1, 4)
	add(1, 8)
	step = p.metre.length
	for _, l := range lengths {
		step = beat.Time(beat.GCD(int64(step), int64(l)))
	}
	for _, t := range p.inside {
		if p.plain(t) {
			step = beat.Time(beat.GCD(int64(step), int64(t)))
		}
	}
	return step, lengths
}

// ratios returns the numbers of parts that containers may be divided into: the
// pulse's own, or for a plain pulse those that the moments in the bar need.
func (p *packer) ratios() []int {
	if p.pulse.IsTuplet() && p.pulse.Actual&(p.pulse.Actual-1) != 0 {
		return []int{p.pulse.Actual}
	}
	var found []int
	for _, t := range p.inside {
		if a := int(p.odd(t)); a > 1 && a < 16 && !slices.Contains(found, a) {
			found = append(found, a)
		}
	}
	slices.Sort(found)
	if all := together(found); len(found) > 1 && all < 16 && !slices.Contains(found, all) {
		found = append(found, all) // threes and fives in one container: fifteen parts
	}
	return found
}

// together returns the least number that all of the given divide, 16 if none
// is below.
func together(ratios []int) int {
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
	if to-from <= p.length || to-from == p.metre.length {
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

// tupletAt makes the tuplet of a parts in [from, to). ok is false if something
// inside does not fall on its parts, or nothing inside needs a tuplet.
func (p *packer) tupletAt(from, to beat.Time, a int) (*Tuplet, cost, bool) {
	length := to - from
	whole, ok := p.value(length, 1, 1)
	if !ok || whole.Dots > 1 {
		return nil, cost{}, false
	}
	normal := normalOf(a, whole.Dots == 1)
	unit, ok := p.unitValue(length, normal)
	if !ok || normal == a {
		return nil, cost{}, false
	}
	needed := false
	parts := beat.Time(a)
	powerOfTwo := a&(a-1) == 0
	first := sort.Search(len(p.inside), func(i int) bool { return p.inside[i] > from })
	for _, t := range p.inside[first:] {
		if to <= t {
			break
		}
		past := (t - from) * parts
		finest := length
		for k := 0; k < 3 && length <= p.length && past%finest != 0 && finest%2 == 0; k++ {
			finest /= 2 // only a container of the layer's own length has smaller notes
		}
		if past%finest != 0 {
			return nil, cost{}, false
		}
		needed = needed || powerOfTwo || p.odd(t-from) > 1
	}
	if !needed {
		return nil, cost{}, false
	}
	t := &Tuplet{Actual: a, Normal: normal, Unit: unit, Bracket: true, ShowNumber: p.numbers}
	t.ShowRatio = whole.Dots == 1 || a != 3 && a != 5 && a != 6 && a != 7
	c, ok := p.tupletCost(from, to, a, normal)
	return t, c, ok
}

// unitValue is the value of one of n equal parts of length.
func (p *packer) unitValue(length beat.Time, n int) (Value, bool) {
	return p.value(length, 1, n)
}

// normalOf returns the simplest number that a parts take the time of: the
// largest power of two below a in a simple container, in a dotted one the
// largest of 3, 6, 12 below it, and 3 for a duplet (9d of the common tables).
func normalOf(a int, dotted bool) int {
	if !dotted {
		n := 1
		for 2*n < a {
			n *= 2
		}
		return n
	}
	n := 3
	for 2*n < a {
		n *= 2
	}
	return n
}

// tupletCost counts what a tuplet in [from, to) costs.
func (p *packer) tupletCost(from, to beat.Time, a, normal int) (cost, bool) {
	c := cost{tuplets: 1, ties: p.tiedAt(to)}
	switch {
	case to-from < p.length:
		c.halves = 1
	case to-from > p.length:
		c.joins = 1
	}
	for _, pc := range p.within(from, to) {
		cuts, ok := p.tupletCuts(pc, from, to, a, normal, nil)
		if !ok {
			return cost{}, false
		}
		c.signs += len(cuts) + 1
	}
	return c, true
}

// plainCost counts what ordinary notes in [from, to) cost; ok is false if a
// moment inside needs a tuplet.
func (p *packer) plainCost(from, to beat.Time) (cost, bool) {
	c := cost{ties: p.tiedAt(to)}
	for _, pc := range p.within(from, to) {
		if !p.plain(pc.from) || !p.plain(pc.to) {
			return cost{}, false
		}
		c.signs++
		if !p.single(pc.to - pc.from) {
			c.signs++
		}
	}
	return c, true
}

// tiedAt is 1 if a sound goes on over the place inside the bar.
func (p *packer) tiedAt(at beat.Time) int {
	i := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].to > at })
	if i < len(p.pieces) && p.pieces[i].slice >= 0 && p.pieces[i].from < at {
		return 1
	}
	return 0
}

// within returns the pieces of [from, to), cut to it.
func (p *packer) within(from, to beat.Time) []piece {
	var in []piece
	first := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].to > from })
	for _, pc := range p.pieces[first:] {
		if to <= pc.from {
			break
		}
		in = append(in, piece{max(pc.from, from), min(pc.to, to), pc.slice})
	}
	return in
}
