package align

import (
	"cmp"
	"math"
	"slices"
)

// Bounds of the loops that are looked for.
const (
	longestLoop   = 64     // groups, or pulses of a fold
	longestFolded = 65_536 // pulses that are folded
	mostFolded    = 2000   // attacks
	sameInARow    = 6      // times in a row that make one value a loop
)

// candidate is a loop that might explain some of the attacks.
type candidate struct {
	groups []int
	key    string   // the same for every rotation
	runs   [][2]int // distances that are exactly the loop's, from and until
	nearly int      // attacks that are nearly the loop's
	bits   float64
	score  float64
	best   int // attacks at which no other saves as much
}

// candidates returns loops that may be heard in the distances, the most promising first:
// groups that come twice in a row, and what most cycles of a fold have. The best over all
// are kept, and the best at several attacks, so that a short segment has its own.
func candidates(gaps []int, places []int64, most int) [][]int {
	all := &candidateList{by: map[string]*candidate{}, gaps: gaps}
	all.addRepeats()
	all.addFolds(places)
	return all.choose(most)
}

type candidateList struct {
	gaps []int
	by   map[string]*candidate
}

// add notes a loop unless it is a shorter one several times.
func (l *candidateList) add(groups []int) *candidate {
	if !isPrimitive(groups) {
		return nil
	}
	key := rotationKey(groups)
	c := l.by[key]
	if c == nil {
		c = &candidate{groups: slices.Clone(groups), key: key, bits: GroupsBits(groups)}
		l.by[key] = c
	}
	return c
}

// addRepeats finds groups that come twice in a row.
func (l *candidateList) addRepeats() {
	n := len(l.gaps)
	for m := 1; m <= min(n/2, longestLoop); m++ {
		run := 0
		for i := 0; i+m <= n; i++ {
			if i+m < n && l.gaps[i] == l.gaps[i+m] {
				run++
				continue
			}
			if run >= m {
				if c := l.add(l.gaps[i-run : i-run+m]); c != nil {
					c.runs = append(c.runs, [2]int{i - run, min(i+m, n)})
				}
			}
			run = 0
		}
	}
}

// addFolds finds what most of five cycles have, for every length and from many
// places.
func (l *candidateList) addFolds(places []int64) {
	span := places[len(places)-1] - places[0] + 1
	if len(l.gaps) > mostFolded || span > longestFolded {
		return
	}
	for length := int64(2); length <= min(span/3, longestLoop); length++ {
		for from := places[0]; from+3*length <= places[0]+span; from += 2 * length {
			l.fold(places, length, from, min(5, (places[0]+span-from)/length))
		}
	}
}

// fold lets so many cycles from a place on vote where a cycle has its attacks.
func (l *candidateList) fold(places []int64, length, from, cycles int64) {
	const mostGroups = 40
	votes := make([]int64, length)
	first, _ := slices.BinarySearch(places, from)
	i := first
	for ; i < len(places) && places[i] < from+cycles*length; i++ {
		votes[(places[i]-from)%length]++
	}
	var kept []int64
	agreed := int64(0)
	for at, n := range votes {
		if 2*n > cycles {
			kept = append(kept, int64(at))
			agreed += n
		}
	}
	if len(kept) == 0 || len(kept) > mostGroups || agreed*10 < int64(i-first)*6 {
		return
	}
	groups := make([]int, len(kept))
	for k, at := range kept {
		groups[k] = int(kept[(k+1)%len(kept)] - at)
		if k == len(kept)-1 {
			groups[k] += int(length)
		}
	}
	if c := l.add(groups); c != nil {
		c.nearly += (i - first) * 2 / 3
	}
}

// choose ranks the loops by the bits that they save, and keeps so many that save most in
// all, those that save most somewhere, and any size that comes many times in a row.
func (l *candidateList) choose(most int) [][]int {
	all := make([]*candidate, 0, len(l.by))
	for _, c := range l.by {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b *candidate) int { return cmp.Or(cmp.Compare(a.bits, b.bits), cmp.Compare(a.key, b.key)) })
	l.weigh(all)
	var loops [][]int
	taken := map[*candidate]bool{}
	take := func(c *candidate) {
		if !taken[c] {
			taken[c] = true
			loops = append(loops, c.groups)
		}
	}
	slices.SortStableFunc(all, func(a, b *candidate) int { return cmp.Compare(b.score, a.score) })
	for _, c := range all[:min(most, len(all))] {
		take(c)
	}
	slices.SortStableFunc(all, func(a, b *candidate) int { return cmp.Compare(b.best, a.best) })
	const often = 4
	for _, c := range all[:min(most*2/3, len(all))] {
		if c.best >= often {
			take(c)
		}
	}
	for _, c := range all {
		if len(c.groups) == 1 && slices.ContainsFunc(c.runs, func(r [2]int) bool { return r[1]-r[0] >= sameInARow }) {
			take(c)
		}
	}
	return loops
}

// weigh scores the loops, the shortest first, by the bits they save.
func (l *candidateList) weigh(all []*candidate) {
	per := math.Log2(float64(len(sizeSet(l.gaps)))) + 0.3
	top := make([]float64, len(l.gaps))
	who := make([]*candidate, len(l.gaps))
	for _, c := range all {
		c.score = float64(c.nearly)*per - c.bits
		for _, run := range c.runs {
			saves := float64(run[1]-run[0]) * per
			c.score += saves
			saves -= c.bits
			for i := run[0]; i < run[1] && saves > 0; i++ {
				if saves > top[i] {
					top[i], who[i] = saves, c
				}
			}
		}
	}
	for _, c := range who {
		if c != nil {
			c.best++
		}
	}
}

// isPrimitive reports whether groups are not a shorter loop several times.
func isPrimitive(groups []int) bool {
	m := len(groups)
	for p := 1; p <= m/2; p++ {
		if m%p == 0 && slices.Equal(groups[p:], groups[:m-p]) {
			return false
		}
	}
	return true
}

// rotate returns the groups beginning with the one at i.
func rotate(groups []int, i int) []int {
	return append(slices.Clone(groups[i:]), groups[:i]...)
}

// rotationKey is the same for every rotation of the groups, and for no others.
func rotationKey(groups []int) string {
	least := groups
	for i := range groups {
		if t := rotate(groups, i); slices.Compare(t, least) < 0 {
			least = t
		}
	}
	return sizesKey(least)
}

// sizesKey is the same for the same numbers, and for no others within 24 bits.
func sizesKey(sizes []int) string {
	key := make([]byte, 0, 3*len(sizes))
	for _, size := range sizes {
		key = append(key, byte(size), byte(size>>8), byte(size>>16))
	}
	return string(key)
}
