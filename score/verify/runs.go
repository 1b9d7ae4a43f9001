package verify

import (
	"slices"

	"tieover/score/beat"
)

// run is a row of notes of one layer that sound earlier or later by one amount,
// as after an inserted rest.
type run struct {
	layer    int
	by       beat.Time
	from, to beat.Time // onsets of its first and last note, where they sound now
	notes    int
	lost     int  // further notes that would begin before the piece or after it
	last     bool // nothing of the layer comes after it
}

const (
	mostRuns    = 16
	fewestInRun = 4
	mostSeeds   = 4 // leftover notes of a layer that are tried as a run's first
	mostHoles   = 2 // notes in a row that a run may lack
)

// farthest is how far a note may have been moved to count as the same note: four
// whole notes.
func (c *comparison) farthest() beat.Time { return 4 * beat.Time(c.grid) }

// best looks for rows of notes that were all moved by one amount. Such a row is
// one difference, not one for each of its notes: what the spec wants is looked
// for where it was moved to.
func (c *comparison) best() *matching {
	m := c.exactly()
	for range mostRuns {
		want, got := c.leftover(m)
		if len(want) == 0 || len(got) == 0 {
			break
		}
		next, moved, ok := c.nextRun(want, got)
		if !ok {
			break
		}
		before := c.want
		c.want = moved
		tried := c.exactly()
		if want2, got2 := c.leftover(tried); len(want2)+len(got2)+1 >= len(want)+len(got) {
			c.want = before
			break
		}
		c.runs = append(c.runs, next)
		m = tried
	}
	return m
}

// row is a candidate for a run: the notes [from, to) of a layer's list.
type row struct {
	from, to int
	by       beat.Time
	worth    int // notes found there, less those that are not
}

// nextRun proposes the row of one layer's notes that explains most of what is
// left, and the wanted notes as they are if it is one.
func (c *comparison) nextRun(want, got []int) (r run, moved []note, ok bool) {
	places := map[moment]bool{}
	for _, n := range c.got {
		places[moment{n.onset, n.sound}] = true
	}
	var best row
	var list []int
	for k := range c.names {
		if own := c.ofLayer(k); len(own) >= fewestInRun {
			if found := c.longest(own, want, got, places); found.worth > best.worth {
				best, list = found, own
			}
		}
	}
	if best.worth < fewestInRun {
		return run{}, nil, false
	}
	r, moved = c.shift(list, best, places)
	return r, moved, true
}

func (c *comparison) ofLayer(k int) (list []int) {
	for i, w := range c.want {
		if w.layer == k {
			list = append(list, i)
		}
	}
	return list
}

// longest tries each move that would bring one of the layer's first leftover
// notes to a leftover one of the score.
func (c *comparison) longest(list, want, got []int, places map[moment]bool) (best row) {
	seeds := 0
	tried := map[[2]beat.Time]bool{}
	for _, i := range want {
		at, own := slices.BinarySearch(list, i)
		if !own || c.want[i].moved != 0 {
			continue
		}
		if seeds++; seeds > mostSeeds {
			break
		}
		low, _ := slices.BinarySearchFunc(got, c.want[i].onset-c.farthest(), func(j int, t beat.Time) int { return int(c.got[j].onset - t) })
		for _, j := range got[low:] {
			by := c.got[j].onset - c.want[i].onset
			if by > c.farthest() {
				break
			}
			if c.got[j].sound != c.want[i].sound || by == 0 || tried[[2]beat.Time{beat.Time(at), by}] {
				continue
			}
			tried[[2]beat.Time{beat.Time(at), by}] = true
			if r := c.follow(list, at, by, places); r.worth > best.worth || r.worth == best.worth && isNearer(by, best.by) {
				best = r
			}
		}
	}
	return best
}

func isNearer(a, b beat.Time) bool { return max(a, -a) < max(b, -b) }

// follow goes on from the layer's note at as long as the notes are found moved
// by that much, over a few that are not, and back over those that have no room
// before the piece.
func (c *comparison) follow(list []int, at int, by beat.Time, places map[moment]bool) row {
	r := row{from: at, to: at, by: by}
	for k, holes := at, 0; k < len(list) && holes <= mostHoles && c.want[list[k]].moved == 0; k++ {
		switch n := c.want[list[k]]; {
		case places[moment{n.onset + by, n.sound}]:
			r.worth += 1 - holes
			r.to, holes = k+1, 0
		case c.hasNoRoom(n.onset+by) && holes == 0:
			r.to = k + 1
		default:
			holes++
		}
	}
	for r.from > 0 {
		n := c.want[list[r.from-1]]
		if n.moved != 0 || !c.hasNoRoom(n.onset+by) {
			break
		}
		r.from--
	}
	return r
}

func (c *comparison) hasNoRoom(at beat.Time) bool { return at < 0 || at >= c.end }

// shift moves the row's notes and drops those that have no room.
func (c *comparison) shift(list []int, of row, places map[moment]bool) (run, []note) {
	r := run{layer: c.want[list[of.from]].layer, by: of.by, from: -1, last: of.to == len(list)}
	moved := slices.Clone(c.want)
	lost := map[int]bool{}
	for _, i := range list[of.from:of.to] {
		n := &moved[i]
		n.onset += of.by
		n.moved = of.by
		if c.hasNoRoom(n.onset) && !places[moment{n.onset, n.sound}] {
			lost[i] = true
			r.lost++
			continue
		}
		if r.from < 0 {
			r.from = n.onset
		}
		r.to = n.onset
		r.notes++
	}
	kept := moved[:0]
	for i, n := range moved {
		if !lost[i] {
			kept = append(kept, n)
		}
	}
	slices.SortStableFunc(kept, byOnset)
	return r, kept
}
