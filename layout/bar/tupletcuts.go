package bar

import "tieover/score/beat"

// tupletCuts returns where a piece inside the tuplet of [from, to) is cut: a
// sound that has no sign of its own at group starts, then into the fewest, most
// equal signs, longest first; a rest into undotted signs on their own grid.
func (p *packer) tupletCuts(pc piece, from, to beat.Time, a, normal int, edges []beat.Time) ([]beat.Time, bool) {
	length := pc.to - pc.from
	if pc.segment >= 0 {
		if _, ok := p.value(length, a, normal); ok {
			return nil, true
		}
		var cuts []beat.Time
		at := pc.from
		for _, e := range edges {
			if at < e && e < pc.to {
				inner, ok := p.tupletCuts(piece{at, e, pc.segment}, from, to, a, normal, nil)
				if !ok {
					return nil, false
				}
				cuts = append(append(cuts, inner...), e)
				at = e
			}
		}
		if at > pc.from {
			inner, ok := p.tupletCuts(piece{at, pc.to, pc.segment}, from, to, a, normal, nil)
			return append(cuts, inner...), ok
		}
	}
	// The coarsest unit of the tuplet that measures the piece and its start.
	unit := beat.GCD(beat.GCD((to-from)/beat.Time(a), length), pc.from-from)
	sizes := fewest(int(length / unit))
	if pc.segment < 0 {
		sizes = aligned(int((pc.from-from)/unit), int(length/unit))
	}
	var cuts []beat.Time
	at := pc.from
	for _, n := range sizes {
		if _, ok := p.value(beat.Time(n)*unit, a, normal); !ok {
			return nil, false
		}
		at += beat.Time(n) * unit
		if at < pc.to {
			cuts = append(cuts, at)
		}
	}
	return cuts, true
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
