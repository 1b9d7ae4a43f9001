package bar

import "tieover/score/beat"

// tupletEnds returns where the signs of a piece inside a tuplet end: a sound that has no
// sign of its own is cut at group starts, then into the fewest, most equal signs,
// longest first; a rest into undotted signs on their own grid.
func (p *packer) tupletEnds(tile container, pc piece, edges []beat.Time) ([]beat.Time, bool) {
	length := pc.to - pc.from
	if pc.segment >= 0 {
		if _, ok := p.valueIn(tile.tuplet, length); ok {
			return []beat.Time{pc.to}, true
		}
		var ends []beat.Time
		at := pc.from
		for _, e := range edges {
			if at < e && e < pc.to {
				inner, ok := p.tupletEnds(tile, piece{at, e, pc.segment}, nil)
				if !ok {
					return nil, false
				}
				ends = append(ends, inner...)
				at = e
			}
		}
		if at > pc.from {
			inner, ok := p.tupletEnds(tile, piece{at, pc.to, pc.segment}, nil)
			return append(ends, inner...), ok
		}
	}
	// The coarsest unit of the tuplet that measures the piece and its start.
	start := pc.from - tile.from
	unit := beat.GCD(beat.GCD((tile.to-tile.from)/beat.Time(tile.tuplet.Actual), length), start)
	sizes := fewest(int(length / unit))
	if pc.segment < 0 {
		sizes = aligned(int(start/unit), int(length/unit))
	}
	ends := make([]beat.Time, len(sizes))
	at := pc.from
	for i, n := range sizes {
		if _, ok := p.valueIn(tile.tuplet, beat.Time(n)*unit); !ok {
			return nil, false
		}
		at += beat.Time(n) * unit
		ends[i] = at
	}
	return ends, true
}

// fewest splits n units into the fewest signs of 2^k or 3·2^k units, the most
// equal ones, longest first: 5 is 3+2, 7 is 4+3, 9 is 6+3.
func fewest(n int) []int {
	if isSign(n) {
		return []int{n}
	}
	for long := (n + 1) / 2; long < n; long++ {
		if isSign(long) && isSign(n-long) {
			return []int{long, n - long}
		}
	}
	big := n
	for !isSign(big) {
		big--
	}
	return append([]int{big}, fewest(n-big)...)
}

// aligned splits n units from place at into powers of two that each start on a
// multiple of themselves.
func aligned(at, n int) []int {
	var sizes []int
	for n > 0 {
		size := 1
		for 2*size <= n && at%(2*size) == 0 {
			size *= 2
		}
		sizes = append(sizes, size)
		at, n = at+size, n-size
	}
	return sizes
}

func isSign(n int) bool {
	for n%2 == 0 {
		n /= 2
	}
	return n == 1 || n == 3
}
