package score

import (
	"math/big"
	"slices"

	"tieover/score/beat"
)

// Meeting says when the heads of several layers coincide.
type Meeting struct {
	Never bool      // by arithmetic, they never do
	Apart beat.Time // Never: how far apart two of them stay, at the nearest
	A, B  int       // Never: these two layers; B is -1 for the barline

	First   *big.Int   // ticks from the section's start to the first coincidence after it; nil if unknown
	Period  *big.Int   // ticks after which all coincidences repeat; nil if walked
	Start   bool       // they also coincide at the section's start
	Walked  bool       // found by stepping through the cycles, since they are cut or their lengths change
	Lengths []*big.Int // the periods that were combined, in ticks, in the order of the layers; empty if walked
}

// Meet finds when the heads of the given layers coincide, with barlines too if
// asked. Constant cycles are combined by arithmetic (Chinese remainder), however
// far off the answer is; those that change or are cut are walked to the section's
// end. What lies inside the last bar before a cut does not count.
func (s *Section) Meet(layers []int, withBarline bool) Meeting {
	return s.meet(layers, withBarline).answer()
}

// MeetUncut says when the realigning set would come together if no loop of it
// were cut. ok is false where no arithmetic tells.
func (s *Section) MeetUncut() (m Meeting, ok bool) {
	var all []heads
	for _, i := range s.Set {
		uncut := *s.Layers[i]
		uncut.Loop = Run
		h, ok := uncut.headPattern()
		if !ok {
			return Meeting{}, false
		}
		all = append(all, h)
	}
	who := slices.Clone(s.Set)
	if s.WithBarline {
		h, ok := s.barring.heads()
		if !ok {
			return Meeting{}, false
		}
		all, who = append(all, h), append(who, -1)
	}
	combined, ok := s.combine(all, who)
	if !ok {
		return Meeting{}, false
	}
	return combined.answer(), true
}

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

func (s *Section) meet(layers []int, withBarline bool) *meeting {
	var all []heads
	for _, i := range layers {
		h, ok := s.headPattern(i)
		if !ok {
			return s.walk(layers, withBarline)
		}
		all = append(all, h)
	}
	who := slices.Clone(layers)
	if withBarline {
		h, ok := s.barring.heads()
		if !ok {
			return s.walk(layers, withBarline)
		}
		all, who = append(all, h), append(who, -1)
	}
	m, ok := s.combine(all, who)
	if !ok {
		return s.walk(layers, withBarline)
	}
	m.layers = layers
	return m
}

// combine intersects the heads of all. ok is false when there are too many
// residues to combine, or the period of cut layers is too long for them.
func (s *Section) combine(all []heads, who []int) (*meeting, bool) {
	residues, period := []*big.Int{new(big.Int)}, big.NewInt(1)
	m := &meeting{s: s}
	for i, h := range all {
		if h.cut {
			m.cutters = append(m.cutters, h)
		}
		m.from = max(m.from, h.from)
		m.Lengths = append(m.Lengths, big.NewInt(int64(h.period)))
		var met []*big.Int
		step := big.NewInt(int64(h.period))
		if len(residues)*len(h.residues) > mostClasses*16 {
			return nil, false
		}
		for _, a := range residues {
			for _, b := range h.residues {
				if r, ok := beat.Coincide(a, period, big.NewInt(int64(b)), step); ok {
					met = append(met, r)
				}
			}
		}
		if len(met) == 0 {
			m.Never = true
			m.Apart, m.A, m.B = nearest(all[:i+1], who)
			return m, true
		}
		if len(met) > mostClasses {
			return nil, false
		}
		residues, period = met, beat.BigLCM(period, step)
	}
	slices.SortFunc(residues, (*big.Int).Cmp)
	if len(m.cutters) > 0 {
		if period.Cmp(big.NewInt(int64(never))) >= 0 {
			return nil, false
		}
		residues = m.setAside(residues, period, who)
		if len(residues) == 0 {
			return nil, false
		}
	}
	m.settle(residues, period)
	return m, true
}

// setAside takes out the residues of what lies inside the last bar before a
// cut, and keeps them. The period is a whole number of every cut's spans.
func (m *meeting) setAside(residues []*big.Int, period *big.Int, who []int) (counted []*big.Int) {
	var aside []*big.Int
	for _, r := range residues {
		if m.s.beforeCut(beat.Time(r.Int64()), who) {
			aside = append(aside, r)
		} else {
			counted = append(counted, r)
		}
	}
	if len(aside) > 0 {
		m.aside = &meeting{s: m.s, from: m.from}
		m.aside.settle(aside, period)
	}
	return counted
}

// settle notes the moments, and the first of them after the start.
func (m *meeting) settle(residues []*big.Int, period *big.Int) {
	m.Period = period
	limit := big.NewInt(int64(never))
	if period.Cmp(limit) < 0 {
		m.period = beat.Time(period.Int64())
	}
	for _, r := range residues {
		at := lift(r, period, m.from)
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

// lift returns the least number >= from that leaves residue r modulo period.
func lift(r, period *big.Int, from beat.Time) *big.Int {
	at := new(big.Int).Sub(r, big.NewInt(int64(from)))
	at.Mod(at, period)
	return at.Add(at, big.NewInt(int64(from)))
}

// nearest finds two of the layers that never coincide, and how far apart they
// stay at least.
func nearest(all []heads, who []int) (apart beat.Time, a, b int) {
	for j := range all {
		for i := range j {
			if d := distance(all[i], all[j]); d > 0 {
				return d, who[i], who[j]
			}
		}
	}
	return 0, who[0], who[len(all)-1] // each pair meets, but never all at once
}

// distance returns how near the heads of two layers ever come, 0 if they meet.
func distance(a, b heads) beat.Time {
	g := beat.Time(beat.GCD(int64(a.period), int64(b.period)))
	best := g
	for _, x := range a.residues {
		for _, y := range b.residues {
			d := (x - y).Signed(g)
			best = min(best, max(d, -d))
		}
	}
	return best
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
