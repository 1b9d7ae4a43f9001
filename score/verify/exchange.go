package verify

import (
	"fmt"
	"slices"

	"tieover/score/beat"
)

// exchanges reports neighbors of one layer that changed places, each two once, and
// returns what is left. A note of a chord has no neighbor.
func (c *comparison) exchanges(want, got, next []int) (restWant, restGot []int) {
	free := map[moment]int{} // played notes that are left
	for _, j := range got {
		free[moment{c.got[j].onset, c.got[j].sound}] = j
	}
	type place struct {
		layer int
		onset beat.Time
	}
	struck := map[place]int{}
	for _, w := range c.want {
		struck[place{w.layer, w.onset}]++
	}
	left := map[int]bool{} // what is no chord and in no exchange yet
	for _, i := range want {
		left[i] = struck[place{c.want[i].layer, c.want[i].onset}] == 1
	}
	changed, used := map[int]bool{}, map[int]bool{}
	for _, i := range want {
		k := next[i]
		if k < 0 || !left[i] || !left[k] || c.want[i].sound == c.want[k].sound {
			continue
		}
		if first, second, whole, ok := c.findExchange(c.want[i], c.want[k], free); ok {
			left[i], left[k] = false, false
			changed[i], changed[k], used[first], used[second] = true, true, true, true
			delete(free, moment{c.got[first].onset, c.got[first].sound})
			delete(free, moment{c.got[second].onset, c.got[second].sound})
			c.reportExchange(c.want[i], c.want[k], whole)
		}
	}
	return without(want, changed), without(got, used)
}

// without drops what is gone from a list.
func without(list []int, gone map[int]bool) []int {
	return slices.DeleteFunc(list, func(i int) bool { return gone[i] })
}

// findExchange finds the two played notes that are two wanted ones in the other
// order: each with the other's pitch, or each as a whole, its length included.
func (c *comparison) findExchange(a, b note, free map[moment]int) (first, second int, whole, ok bool) {
	first, ok = free[moment{a.onset, b.sound}]
	if !ok {
		return 0, 0, false, false
	}
	if second, ok = free[moment{b.onset, a.sound}]; ok {
		return first, second, false, true
	}
	second, ok = free[moment{b.end() - a.length, a.sound}]
	return first, second, true, ok && c.got[first].length == b.length && c.got[second].length == a.length
}

func (c *comparison) reportExchange(a, b note, whole bool) {
	layer := c.names[a.layer]
	first, second := c.words.String(a.name), c.words.String(b.name)
	text := fmt.Sprintf("%s has %s before %s, spec says %s before %s", layer, second, first, first, second)
	if whole {
		text += ", each with its length"
	}
	c.add(a.onset, Difference{Kind: Exchanged, Layer: layer, Want: first + " " + second, Got: second + " " + first, text: text})
}
