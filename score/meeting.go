package score

import (
	"math/big"
	"slices"

	"tieover/score/beat"
)

// meeting is the inner form of Meeting, for looking moments up: those that leave one
// of the residues modulo the period, from a moment on.
type meeting struct {
	Meeting
	residues []beat.Time // rising, those that fit a Time; without a period the moments themselves
	period   beat.Time   // 0 when it does not fit, or there is none
	from     beat.Time   // no coincidence before all layers have begun
	before   int         // how many moments with a residue come before from, and the start
	aside    *meeting    // the coincidences that do not count; nil: none
	closest  beat.Time   // no coincidence follows another sooner
	farthest beat.Time   // nor later; 0 while unknown

	s       *Section
	layers  []int
	cut     bool   // computed, with layers that are cut
	cutBars []cuts // walked: by the bar that begins there
}

// settle notes the moments, and the first of them after the start.
func (m *meeting) settle(residues []*big.Int, period *big.Int) {
	m.Period = period
	limit := big.NewInt(int64(never))
	if period.Cmp(limit) < 0 {
		m.period = beat.Time(period.Int64())
	}
	for _, r := range residues {
		at := leastFrom(r, period, m.from)
		if at.Sign() == 0 {
			m.Start = true
			at = new(big.Int).Set(period)
		}
		if m.First == nil || at.Cmp(m.First) < 0 {
			m.First = at
		}
		if r.Cmp(limit) < 0 {
			m.residues = append(m.residues, beat.Time(r.Int64()))
		}
	}
	m.before = m.below(max(1, m.from))
	if m.period > 0 {
		m.measure()
	}
}

// measure notes how far apart the moments are, the first one from the start.
func (m *meeting) measure() {
	if m.First == nil || !m.First.IsInt64() {
		return
	}
	m.closest = beat.Time(m.First.Int64())
	m.farthest = m.closest
	gap := func(from, to beat.Time) {
		m.closest, m.farthest = min(m.closest, to-from), max(m.farthest, to-from)
	}
	last := len(m.residues) - 1
	for i := range last {
		gap(m.residues[i], m.residues[i+1])
	}
	if m.period > 0 {
		gap(m.residues[last], m.residues[0]+m.period)
	}
}

// leastFrom returns the least number >= from that leaves residue r modulo period.
func leastFrom(r, period *big.Int, from beat.Time) *big.Int {
	at := new(big.Int).Sub(r, big.NewInt(int64(from)))
	at.Mod(at, period)
	return at.Add(at, big.NewInt(int64(from)))
}

// next returns the first coincidence after t and after the start, never if there is
// none in reach.
func (m *meeting) next(t beat.Time) beat.Time {
	from := max(t+1, 1, m.from)
	turns := beat.Time(0) // the start of the period that holds from
	if m.period > 0 {
		turns = from - from.Mod(m.period)
	}
	i, _ := slices.BinarySearch(m.residues, from-turns)
	switch {
	case i < len(m.residues):
		return turns + m.residues[i]
	case m.period > 0 && len(m.residues) > 0:
		return turns + m.period + m.residues[0]
	}
	return never
}

// nth returns coincidence k after the start, from 1; never if there is none in
// reach.
func (m *meeting) nth(k int) beat.Time {
	n := len(m.residues)
	if n == 0 {
		return never
	}
	i := m.before + k - 1
	turns, r := beat.Time(i/n), m.residues[i%n]
	if turns > 0 && (m.period == 0 || turns > (never-r)/m.period) {
		return never
	}
	return turns*m.period + r
}

// count returns how many coincidences lie in (0, t].
func (m *meeting) count(t beat.Time) int {
	return max(0, m.below(t+1)-m.before)
}

// below returns how many moments of [0, t) leave one of the residues.
func (m *meeting) below(t beat.Time) int {
	turns := beat.Time(0)
	if m.period > 0 {
		turns = t / m.period
	}
	i, _ := slices.BinarySearch(m.residues, t-turns*m.period)
	return int(turns)*len(m.residues) + i
}
