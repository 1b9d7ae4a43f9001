// Package fit finds ways to make a loop end on a barline: by whole cycles, by
// a cut, by adding and leaving out small groups, and by closing formulas that
// land on the downbeat. All lengths are whole pulses.
package fit

import (
	"cmp"
	"slices"
)

// Cut says what is left of a loop that stops after a number of pulses.
type Cut struct {
	Cycles int // played whole
	Left   int // pulses of the cycle that is cut; 0: nothing is cut
	Group  int // the group the cut falls into, or follows, from 1
	Kept   int // pulses of that group that sound
	Of     int // its full size; Kept == Of when the cut falls between groups
}

// Truncate stops the loop after total pulses. The sizes are positive.
func Truncate(groups []int, total int) Cut {
	length := sum(groups)
	c := Cut{Cycles: total / length, Left: total % length}
	left := c.Left
	for i, g := range groups {
		if left == 0 {
			break
		}
		c.Group, c.Of, c.Kept = i+1, g, min(g, left)
		left -= c.Kept
	}
	return c
}

// Inside reports whether the cut falls inside a group.
func (c Cut) Inside() bool { return c.Kept < c.Of }

// Tail returns the groups of the cut cycle as they then sound.
func (c Cut) Tail(groups []int) []int {
	tail := slices.Clone(groups[:c.Group])
	if c.Group > 0 {
		tail[c.Group-1] = c.Kept
	}
	return tail
}

// Played returns all groups that sound within total pulses, the last one cut
// if need be.
func Played(groups []int, total int) []int {
	c := Truncate(groups, total)
	return append(slices.Repeat(groups, c.Cycles), c.Tail(groups)...)
}

// Extended returns the groups that sound if a group that would be cut is left
// out and the one before it takes its pulses. ok is false when no group is cut
// or none is before it.
func Extended(groups []int, total int) (played []int, ok bool) {
	played = Played(groups, total)
	n := len(played)
	if !Truncate(groups, total).Inside() || n < 2 {
		return nil, false
	}
	played[n-2] += played[n-1]
	return played[:n-1], true
}

// Change is a number of whole cycles together with groups of 2 and 3 that are
// added, or left out where the count is negative.
type Change struct {
	Cycles       int
	Twos, Threes int
}

// Size is how many groups are touched.
func (c Change) Size() int { return abs(c.Twos) + abs(c.Threes) }

// Pulses is by how much the change lengthens the cycles.
func (c Change) Pulses() int { return 2*c.Twos + 3*c.Threes }

// Changes returns the ways to bring a whole number of cycles to total pulses
// that touch the fewest groups, one for each number of cycles near the total:
// fewest groups first, then least change of length, then fewest cycles. No
// more 2s or 3s are left out than the cycles hold. An exact fit is a change of
// size 0.
func Changes(groups []int, total int) []Change {
	length := sum(groups)
	var found []Change
	for cycles := max(0, total/length-1); cycles <= total/length+2; cycles++ {
		twos, threes := cycles*count(groups, 2), cycles*count(groups, 3)
		if c, ok := smallest(cycles, total-cycles*length, twos, threes); ok && cycles > 0 {
			found = append(found, c)
		}
	}
	slices.SortFunc(found, func(a, b Change) int {
		return cmp.Or(a.Size()-b.Size(), abs(a.Pulses())-abs(b.Pulses()), a.Cycles-b.Cycles)
	})
	return found
}

// smallest solves 2a + 3b = by with the least |a| + |b|, of equals the one that
// adds more threes, a >= -twos, b >= -threes. The least has |a| < 3 unless the
// threes run out, so b is searched near by/3 and near its bound.
func smallest(cycles, by, twos, threes int) (best Change, ok bool) {
	try := func(b int) {
		if (by-3*b)%2 != 0 {
			return
		}
		c := Change{cycles, (by - 3*b) / 2, b}
		if c.Twos < -twos || c.Threes < -threes {
			return
		}
		if !ok || c.Size() < best.Size() || c.Size() == best.Size() && c.Threes > best.Threes {
			best, ok = c, true
		}
	}
	for near := -3; near <= 3; near++ {
		try(by/3 + near)
		try(-threes + near)
	}
	return best, ok
}

func sum(sizes []int) int {
	n := 0
	for _, s := range sizes {
		n += s
	}
	return n
}

func count(sizes []int, size int) int {
	n := 0
	for _, s := range sizes {
		if s == size {
			n++
		}
	}
	return n
}

func abs(n int) int { return max(n, -n) }
