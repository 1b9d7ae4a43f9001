package score

import (
	"math/big"
	"slices"

	"tieover/score/beat"
)

// meeting is the inner form of Meeting, for looking moments up.
type meeting struct {
	Meeting
	residues []beat.Time // within one period, rising, those that fit a Time
	period   beat.Time   // 0 when it does not fit
	from     beat.Time   // no coincidence before all layers have begun
	walked   []beat.Time // the coincidences themselves, rising, if walked
	aside    *meeting    // the coincidences that do not count; nil: none
	closest  beat.Time   // no coincidence follows another sooner
	farthest beat.Time   // nor later; 0 while unknown

	s       *Section
	layers  []int
	cutters []heads // of the layers that are cut, by arithmetic
	cutBars []cuts  // by the bar that begins there, if walked
}

func (m *meeting) answer() Meeting { return m.Meeting }

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
	m.measure()
}

// measure notes how far apart the moments are, the first one from the start.
func (m *meeting) measure() {
	if m.Walked {
		last := beat.Time(0)
		for _, at := range m.walked {
			if at == 0 {
				continue
			}
			if last == 0 {
				m.closest = at
			}
			m.closest, m.farthest = min(m.closest, at-last), max(m.farthest, at-last)
			last = at
		}
		return
	}
	if m.period == 0 || !m.First.IsInt64() || len(m.residues) == 0 {
		return
	}
	last := m.residues[len(m.residues)-1] - m.period
	first := beat.Time(m.First.Int64())
	m.closest, m.farthest = first, first
	for _, r := range m.residues {
		m.closest, m.farthest = min(m.closest, r-last), max(m.farthest, r-last)
		last = r
	}
}

// leastFrom returns the least number >= from that leaves residue r modulo period.
func leastFrom(r, period *big.Int, from beat.Time) *big.Int {
	at := new(big.Int).Sub(r, big.NewInt(int64(from)))
	at.Mod(at, period)
	return at.Add(at, big.NewInt(int64(from)))
}

// next returns the first coincidence after t, never if there is none in reach.
func (m *meeting) next(t beat.Time) beat.Time {
	if m.walked != nil {
		if i, _ := slices.BinarySearch(m.walked, t+1); i < len(m.walked) {
			return m.walked[i]
		}
		return never
	}
	from := max(t+1, m.from)
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
	if m.walked != nil {
		i, _ := slices.BinarySearch(m.walked, beat.Time(1))
		if i+k > len(m.walked) {
			return never
		}
		return m.walked[i+k-1]
	}
	n := len(m.residues)
	if n == 0 {
		return never
	}
	i := m.below(max(1, m.from)) + k - 1
	turns, r := beat.Time(i/n), m.residues[i%n]
	if turns > 0 && (m.period == 0 || turns > (never-r)/m.period) {
		return never
	}
	return turns*m.period + r
}

// count returns how many coincidences lie in (0, t].
func (m *meeting) count(t beat.Time) int {
	if m.walked != nil {
		i, _ := slices.BinarySearch(m.walked, t+1)
		j, _ := slices.BinarySearch(m.walked, beat.Time(1))
		return i - j
	}
	return max(0, m.below(t+1)-m.below(max(1, m.from)))
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
