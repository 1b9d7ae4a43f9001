package align

import "math"

// leave moves every hypothesis of an attack on, and returns the bits of the cheapest.
func (a *aligner) leave(i int) (least float64) {
	row := a.recent[i%recentRows]
	best := cheapest(row, func(int) bool { return true })
	if best < 0 {
		return 0 // moves of two attacks lead past this one
	}
	least = row[best].cost
	limit := least + hopeless
	for h := range row {
		if row[h].cost > limit {
			continue
		}
		m := mover{aligner: a, i: i, from: h, state: a.states[h/a.kept], h: row[h]}
		m.near = m.nearest(i + 1)
		if m.loop < 0 {
			m.tryFree()
			continue
		}
		if row[h].cost > least+doubtful {
			m.step(0, nextGroup, m.size(0), 1)
			continue
		}
		m.playOrRepeat()
		m.tryMissing()
		m.tryTooMany()
		m.tryResized()
		m.tryOutOfOrder()
		m.tryPause()
	}
	return least
}

// mover is one hypothesis that is moved on from an attack.
type mover struct {
	*aligner
	i, from int
	state
	h    hypothesis
	near int // pulses to the next attack
}

// nearest returns how many pulses off an attack is.
func (m *mover) nearest(attack int) int {
	if m.places != nil {
		return int(m.places[attack] - m.places[m.i])
	}
	return int(math.Round((m.taps[attack] - m.h.place) / m.h.pulse))
}

// hear returns a hypothesis so many pulses on, from one attack to another. ok is false
// where numbers have no attack there.
func (m *mover) hear(h hypothesis, second bool, from, to, pulses int) (next hypothesis, ok bool) {
	if m.places != nil {
		return h, m.places[to]-m.places[from] == int64(pulses)
	}
	known := m.fresh.at(m.i, second, h.tracker, to, pulses)
	if known != nil && known.cost > 0 {
		return hypothesis{known.tracker, h.cost + known.cost}, true
	}
	var bits float64
	next.tracker, bits, _ = m.pulse.hear(h.tracker, m.pulse.span(second, pulses), m.taps[to], m.scatter)
	if known != nil {
		*known = hypothesis{next.tracker, bits}
	}
	next.cost = h.cost + bits
	return next, true
}

// fresh remembers what the tracker hears with which other loops may begin at an attack: most
// states of a row share it. There is one for each pulse of a pair.
type fresh [2]struct {
	attack  int
	tracker tracker
	heard   [recentRows - 1][freshPulses]hypothesis // cost is what the tap's moment takes
}

// freshPulses bounds the distances that are remembered.
const freshPulses = 24

func (f *fresh) renew(attack int, second bool, k tracker) {
	one := &f[index(second)]
	one.attack, one.tracker, one.heard = attack, k, [recentRows - 1][freshPulses]hypothesis{}
}

// at returns the memory of what a tracker hears at an attack so many pulses on; nil if it
// is another tracker or too far.
func (f *fresh) at(attack int, second bool, k tracker, to, pulses int) *hypothesis {
	one := &f[index(second)]
	if one.attack != attack || pulses < 0 || pulses >= freshPulses || one.tracker != k {
		return nil
	}
	return &one.heard[to-attack-1][pulses]
}

func index(second bool) int {
	if second {
		return 1
	}
	return 0
}

// reach offers the hypothesis h, at `attacks` attacks on, for `pulses` pulses and
// `groups` groups on.
func (m *mover) reach(h hypothesis, bits float64, move Move, attacks, pulses, groups int) {
	if m.process != nil && m.group+groups >= len(m.process.groups) {
		return
	}
	h.cost += bits
	s := m.at(m.loop, m.group+groups, m.second != (pulses%2 != 0))
	m.push(m.i+attacks, s, h, newBack(m.from, move, attacks, pulses))
}

// step hears the next attack and reaches it.
func (m *mover) step(bits float64, move Move, pulses, groups int) {
	if h, ok := m.hear(m.h, m.second, m.i, m.i+1, pulses); ok {
		m.reach(h, bits, move, 1, pulses, groups)
	}
}

// size returns the loop's group so many on.
func (m *mover) size(on int) int {
	loop := m.loops[m.loop]
	return loop[(m.group+on)%len(loop)]
}

func (m *mover) tryFree() {
	each := max(math.Log2(float64(len(m.sizes))), 0.5)
	for _, d := range []int{m.near, m.near + 1, m.near - 1} {
		if d < 1 || d > farthest {
			continue
		}
		bits := each
		if !m.sizes[d] {
			bits += Gamma(int64(d)) + 3
		}
		m.step(bits, freeGap, d, 0)
	}
}

// playOrRepeat plays the group, which may be played once more.
func (m *mover) playOrRepeat() {
	h, ok := m.hear(m.h, m.second, m.i, m.i+1, m.size(0))
	if !ok {
		return
	}
	m.reach(h, 0, nextGroup, 1, m.size(0), 1)
	if len(m.loops[m.loop]) > 1 {
		m.reach(h, m.where+RareBits, Again, 1, m.size(0), 0)
	}
}

// mostMissing and mostBesides bound how many attacks are missing or too many at
// once.
const (
	mostMissing = 3
	mostBesides = 2
)

func (m *mover) tryMissing() {
	pulses := m.size(0)
	for n := 1; n <= min(mostMissing, len(m.loops[m.loop])); n++ {
		pulses += m.size(n)
		if m.isPast(pulses, m.i+1) {
			return
		}
		m.step(m.where+SlipBits+Gamma(int64(n)), Missing, pulses, n+1)
	}
}

// isPast reports whether so many pulses reach clearly beyond an attack.
func (m *mover) isPast(pulses, attack int) bool {
	if m.places != nil {
		return pulses > m.near
	}
	return (float64(pulses)-1.5)*m.h.pulse > m.taps[attack]-m.h.place
}

// tryTooMany takes the next attacks for ones that the loop does not have, each on an inner
// pulse of the group.
func (m *mover) tryTooMany() {
	d := m.size(0)
	for n := 1; n <= min(mostBesides, d-1) && m.i+1+n < m.n; n++ {
		if m.endsBefore(d, m.i+1+n) {
			return
		}
		h, ok := m.hear(m.h, m.second, m.i, m.i+1+n, d)
		if !ok {
			continue
		}
		bits := m.where + SlipBits + Gamma(int64(n))
		for k := 1; k <= n; k++ {
			at, _ := m.hear(m.h, m.second, m.i, m.i+k, m.innerPulse(m.i+k, d))
			bits += math.Log2(float64(d-1)) + at.cost - m.h.cost
		}
		m.reach(h, bits, TooMany, n+1, d, 1)
	}
}

// endsBefore reports whether so many pulses end clearly before an attack.
func (m *mover) endsBefore(pulses, attack int) bool {
	if m.places != nil {
		return int64(pulses) < m.places[attack]-m.places[m.i]
	}
	return m.taps[attack]-m.h.place > (float64(pulses)+1.5)*m.h.pulse
}

// innerPulse returns the pulse inside a group on which an attack is.
func (m *mover) innerPulse(attack, size int) int { return min(max(m.nearest(attack), 1), size-1) }

func (m *mover) tryResized() {
	if d := m.size(0); m.near >= 1 && m.near != d && m.near <= farthest {
		m.step(m.where+SlipBits+Gamma(int64(m.near-d))+SignBits, Resized, m.near, 1)
	}
}

// tryOutOfOrder leaves the group out, or exchanges it for the next.
func (m *mover) tryOutOfOrder() {
	if len(m.loops[m.loop]) == 1 {
		return
	}
	d, e := m.size(0), m.size(1)
	if d == e {
		return
	}
	h, ok := m.hear(m.h, m.second, m.i, m.i+1, e)
	if !ok {
		return
	}
	m.reach(h, m.where+RareBits, LeftOut, 1, e, 2)
	if m.i+2 >= m.n {
		return
	}
	if h, ok = m.hear(h, m.second != (e%2 != 0), m.i+1, m.i+2, d); ok {
		m.reach(h, m.where+RareBits, Swapped, 2, d+e, 2)
	}
}

// leastPause is by how many milliseconds at least a pause is longer than its group; it
// must be longer by a pulse, too.
const leastPause = 300

// tryPause goes on at the next tap after a pause, in the same tempo.
func (m *mover) tryPause() {
	if m.places != nil {
		return
	}
	d := m.size(0)
	gap := m.taps[m.i+1] - m.h.place
	if gap <= float64(d)*m.h.pulse+max(m.h.pulse, leastPause) {
		return
	}
	h := m.h
	h.place, h.varPlace, h.varBoth = m.taps[m.i+1], m.scatter*m.scatter, 0
	m.reach(h, m.where+RareBits+math.Log2(gap)+pauseBits, Paused, 1, d, 1)
}
