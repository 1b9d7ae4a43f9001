package align

import (
	"math"
)

// aligner lays loops, exceptions and free stretches over attacks so that all of
// it takes the fewest bits: dynamic programming over attacks and places in the
// loops.
type aligner struct {
	row
	loops   [][]int
	process *Process     // aligned in place of loops; nil where there are loops
	sizes   map[int]bool // of the free reading, for free stretches
	where   float64      // bits reckoned for the place of an exception, until they are counted
	states  []state
	firsts  []int // of each loop, its first state; last the free stretch's
	kept    int   // hypotheses a state
	recent  [recentRows][]hypothesis
	backs   []back // attacks × states × kept
	fresh   fresh
	pair    []bool // whether it is the second, of the pulses of a pair that differ: one or two

	loopBits []float64
	freeBits float64 // to name the sizes of a free stretch
}

// row is the attacks to be aligned: places, or taps on a pulse.
type row struct {
	n       int
	places  []int64   // of numbers; nil for taps
	taps    []float64 // milliseconds
	pulse   *Pulse
	scatter float64
	bound   bool // no free stretch is allowed: loops all through
}

// state is where a reading is at an attack: at a group of a loop, on the first or second
// pulse of a pair. loop is -1 in a free stretch.
type state struct {
	loop, group int
	second      bool
}

// hypothesis is the cheapest way to a state, or the second cheapest if it has the player
// at another moment: with one alone, a tap taken as stray hides a slip.
type hypothesis struct {
	tracker
	cost float64
}

// recentRows is how many rows of hypotheses are kept: a move reaches at most three attacks
// on.
const recentRows = 4

// elsewhere is how far apart in pulses two hypotheses of a state must be.
const elsewhere = 0.3

// hopeless is how many bits behind the best a hypothesis is dropped.
const hopeless = 40

// doubtful is how many bits behind the best a hypothesis is allowed no exceptions: a new
// segment must first go on for some attacks.
const doubtful = 30

// miscounted is how many bits fewer the places of exceptions may take than are reckoned
// for them.
const miscounted = 20

// Move is how a reading gets from one attack to another.
type Move uint8

const (
	start      Move = iota
	nextGroup       // the next group, as the loop has it
	Missing         // attacks of the loop are missing
	TooMany         // attacks that the loop does not have
	Resized         // the group is longer or shorter
	Again           // the group once more
	LeftOut         // the group is not there
	Swapped         // the group and the next have changed places
	Paused          // a pause that is no number of pulses
	freeGap         // in a free stretch
	switchLoop      // another loop, or a free stretch, begins here
)

// back is a move packed into eight bytes: the hypothesis it came from, the
// attacks and the pulses that it took.
type back uint64

func newBack(from int, m Move, attacks, pulses int) back {
	return back(from)<<32 | back(m)<<28 | back(attacks)<<24 | back(pulses)
}

func (b back) from() int    { return int(b >> 32) }
func (b back) move() Move   { return Move(b >> 28 & 15) }
func (b back) attacks() int { return int(b >> 24 & 15) }
func (b back) pulses() int  { return int(b & (1<<24 - 1)) }

// align returns the shortest reading with the loops; nil if there is none of at most so
// many bits. where is the bits reckoned for the place of each exception.
func (r row) align(loops [][]int, sizes map[int]bool, where, most float64) *Reading {
	return r.path(&aligner{loops: loops, sizes: sizes, where: where}, most)
}

// alignProcess is align with the groups that a process plays in place of loops. The
// first attack begins them.
func (r row) alignProcess(w *Process, sizes map[int]bool, where, most float64) *Reading {
	r.bound = true
	return r.path(&aligner{process: w, loops: [][]int{w.groups}, sizes: sizes, where: where}, most)
}

// path finds the cheapest path of an aligner that has its loops.
func (r row) path(a *aligner, most float64) *Reading {
	a.row, a.kept = r, 2
	if r.places != nil { // every hypothesis is where the attack is
		a.kept = 1
	}
	a.setUp()
	a.begin()
	most += miscounted - Gamma(int64(a.n))
	each := 0.0 // what a tap takes at least
	if a.pulse != nil {
		most -= a.pulse.bits
		each, _ = momentBits(0, a.scatter*a.scatter, a.pulse.Milliseconds)
	}
	for i := range a.n - 1 {
		if i > 0 && a.process == nil {
			a.switchAt(i)
		}
		if a.leave(i) > most-float64(a.n-1-i)*each {
			return nil
		}
		a.forget(i)
	}
	last := a.recent[(a.n-1)%recentRows]
	best := cheapest(last, func(int) bool { return true })
	if best < 0 {
		return nil
	}
	return a.trace(best)
}

// setUp numbers the states.
func (a *aligner) setUp() {
	a.pair = []bool{false}
	if a.pulse.isSwung() {
		a.pair = []bool{false, true}
	}
	for k, loop := range a.loops {
		a.firsts = append(a.firsts, len(a.states))
		if a.process != nil {
			a.loopBits = append(a.loopBits, a.process.bits)
		} else {
			a.loopBits = append(a.loopBits, GroupsBits(loop))
		}
		for g := range loop {
			for _, second := range a.pair {
				a.states = append(a.states, state{k, g, second})
			}
		}
	}
	a.firsts = append(a.firsts, len(a.states))
	for _, second := range a.pair {
		a.states = append(a.states, state{-1, 0, second})
	}
	for i := range a.recent {
		a.recent[i] = make([]hypothesis, len(a.states)*a.kept)
		a.forget(i)
	}
	a.backs = make([]back, a.n*len(a.states)*a.kept)
	a.freeBits = alphabetBits(a.sizes)
}

// at returns the state at a group of a loop, which may be counted past its end,
// on the second pulse of a pair or not; of a free stretch if loop is -1.
func (a *aligner) at(loop, group int, second bool) int {
	first := a.firsts[len(a.firsts)-1]
	if loop >= 0 {
		first = a.firsts[loop]
		group %= len(a.loops[loop])
	}
	at := first + group*len(a.pair)
	if second && len(a.pair) > 1 {
		at++
	}
	return at
}

func (a *aligner) forget(i int) {
	row := a.recent[i%recentRows]
	for s := range row {
		row[s].cost = math.Inf(1)
	}
}

// begin enters every state at the first attack.
func (a *aligner) begin() {
	for s, st := range a.states {
		if a.bound && st.loop < 0 || a.process != nil && st.group > 0 {
			continue
		}
		h := hypothesis{cost: kindBits + a.freeBits}
		if st.loop >= 0 {
			h.cost = kindBits + a.loopBits[st.loop]
			if st.second {
				h.cost += kindBits
			}
		}
		if a.pulse != nil {
			h.tracker = a.pulse.start(a.taps[0], a.scatter)
		}
		a.push(0, s, h, newBack(0, start, 0, 0))
	}
}

// push offers a way to a state at an attack, which is kept if it is cheap enough.
func (a *aligner) push(i, s int, h hypothesis, b back) {
	row := a.recent[i%recentRows]
	base := i * len(a.states) * a.kept
	if a.kept == 1 {
		if h.cost < row[s].cost {
			row[s], a.backs[base+s] = h, b
		}
		return
	}
	s *= 2
	first, second := &row[s], &row[s+1]
	backs := a.backs[base+s : base+s+2]
	none := math.IsInf(first.cost, 1)
	same := none || math.Abs(h.place-first.place) < elsewhere*a.pulse.Milliseconds
	switch {
	case same && h.cost < first.cost:
		*first, backs[0] = h, b
	case same:
	case h.cost < first.cost:
		*second, backs[1] = *first, backs[0]
		*first, backs[0] = h, b
	case h.cost < second.cost:
		*second, backs[1] = h, b
	}
}

// cheapest returns the index of the cheapest hypothesis of a row among those that are
// allowed; -1 if there is none.
func cheapest(row []hypothesis, allowed func(h int) bool) int {
	best := -1
	for h := range row {
		if !math.IsInf(row[h].cost, 1) && (best < 0 || row[h].cost < row[best].cost) && allowed(h) {
			best = h
		}
	}
	return best
}

// switchAt lets another loop, or a free stretch, begin at an attack.
func (a *aligner) switchAt(i int) {
	row := a.recent[i%recentRows]
	for _, second := range a.pair {
		best := cheapest(row, func(h int) bool { return a.states[h/a.kept].second == second })
		if best < 0 {
			continue
		}
		from := a.states[best/a.kept]
		h := row[best]
		a.fresh.renew(i, second, h.tracker)
		before := h.cost + kindBits + math.Log2(float64(a.n))
		b := newBack(best, switchLoop, 0, 0)
		for k, loop := range a.loops {
			if k == from.loop {
				continue
			}
			h.cost = before + a.loopBits[k]
			for g := range loop {
				a.push(i, a.at(k, g, second), h, b)
			}
		}
		if from.loop >= 0 && !a.bound {
			h.cost = before + a.freeBits
			a.push(i, a.at(-1, 0, second), h, b)
		}
	}
}
