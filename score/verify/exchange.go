package verify

import "fmt"

// exchanges tells neighbors of one layer that changed places, each two once,
// and returns what is left.
func (c *comparison) exchanges(want, got []int) (restWant, restGot []int) {
	free := map[moment]int{} // played notes that are left
	for _, j := range got {
		free[moment{c.got[j].onset, c.got[j].sound}] = j
	}
	next := c.nextOfLayer()
	left := map[int]bool{}
	for _, i := range want {
		left[i] = true
	}
	used := map[int]bool{}
	for _, i := range want {
		k := next[i]
		if k < 0 || !left[i] || !left[k] || c.want[i].sound == c.want[k].sound {
			continue
		}
		if first, second, whole, ok := c.exchanged(c.want[i], c.want[k], free); ok {
			left[i], left[k], used[first], used[second] = false, false, true, true
			delete(free, moment{c.got[first].onset, c.got[first].sound})
			delete(free, moment{c.got[second].onset, c.got[second].sound})
			c.tellExchange(c.want[i], c.want[k], whole)
		}
	}
	for _, i := range want {
		if left[i] {
			restWant = append(restWant, i)
		}
	}
	for _, j := range got {
		if !used[j] {
			restGot = append(restGot, j)
		}
	}
	return restWant, restGot
}

// nextOfLayer returns for each wanted note the one that its layer has next, -1
// where there is none or one of them is a chord.
func (c *comparison) nextOfLayer() []int {
	next := make([]int, len(c.want))
	chords := make([][][]int, len(c.names)) // what begins together, by layer
	for i, w := range c.want {
		next[i] = -1
		own := chords[w.layer]
		if n := len(own); n > 0 && c.want[own[n-1][0]].onset == w.onset {
			own[n-1] = append(own[n-1], i)
			continue
		}
		chords[w.layer] = append(own, []int{i})
	}
	for _, own := range chords {
		for k := 1; k < len(own); k++ {
			if len(own[k-1]) == 1 && len(own[k]) == 1 {
				next[own[k-1][0]] = own[k][0]
			}
		}
	}
	return next
}

// exchanged finds the two played notes that are two wanted ones in the other
// order: each with the other's pitch, or each as a whole, its length included.
func (c *comparison) exchanged(a, b note, free map[moment]int) (first, second int, whole, ok bool) {
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

func (c *comparison) tellExchange(a, b note, whole bool) {
	layer := c.names[a.layer]
	first, second := c.words.String(a.name), c.words.String(b.name)
	text := fmt.Sprintf("%s has %s before %s, spec says %s before %s", layer, second, first, first, second)
	if whole {
		text += ", each with its length"
	}
	c.add(Exchanged, a.onset, layer, first+" "+second, second+" "+first, text)
}
