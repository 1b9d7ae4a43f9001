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
	m := &meeting{s: s, layers: layers}
	m.find(withBarline)
	return m.Meeting
}

// MeetUncut returns when the realigning set would come together if no loop of it
// were cut. ok is false where arithmetic cannot tell.
func (s *Section) MeetUncut() (m Meeting, ok bool) {
	uncut := func(layer int) (heads, bool) { return s.Layers[layer].headPattern() }
	found, ok := s.compute(s.Set, s.WithBarline, uncut)
	if !ok {
		return Meeting{}, false
	}
	return found.Meeting, true
}

// find fills in when the meeting's layers coincide. Cycles that are walked start over
// at the realignments of the section, which may be these, as they are found.
func (m *meeting) find(withBarline bool) {
	if computed, ok := m.s.compute(m.layers, withBarline, m.s.headPattern); ok {
		*m = *computed
		return
	}
	m.walk(withBarline)
}

// compute finds by arithmetic when the heads of layers coincide; headsOf returns the
// heads of each. ok is false where arithmetic cannot do it.
func (s *Section) compute(layers []int, withBarline bool, headsOf func(layer int) (heads, bool)) (m *meeting, ok bool) {
	who := slices.Clone(layers)
	if withBarline {
		who = append(who, -1)
	}
	all := make([]heads, len(who))
	for k, i := range who {
		if i < 0 {
			all[k], ok = s.barring.heads()
		} else {
			all[k], ok = headsOf(i)
		}
		if !ok {
			return nil, false
		}
	}
	if m, ok = s.combine(all, who); ok {
		m.layers = layers
	}
	return m, ok
}

// combine intersects the heads of all. ok is false when there are too many
// residues to combine, or the period of cut layers is too long for them.
func (s *Section) combine(all []heads, who []int) (*meeting, bool) {
	residues, period := []*big.Int{new(big.Int)}, big.NewInt(1)
	m := &meeting{s: s}
	for i, h := range all {
		m.cut = m.cut || h.cut
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
	if m.cut {
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
