package analysis

import (
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
	"tieover/score/beat"
)

// Grouping is what is known about one pattern of a layer by itself, counted in
// the layer's pulses.
type Grouping struct {
	Unit   beat.Time       // what the numbers count: the layer's pulse, or less for a rhythm of figures
	Sizes  []int           // all groups, blanks included
	Blank  []bool          // which of them are silent
	Rhythm grouping.Rhythm // the starts of the groups that sound

	Necklace []int            // of the sounding groups
	Rotation int              // the necklace begins with this sounding group, from 1
	Mirror   bool             // the mirror image is the same necklace
	Bracelet []int            // of the sounding groups
	AsMany   *grouping.Counts // of rhythms with as many attacks in as many pulses; nil for a very long cycle

	Euclidean bool
	Euclid    []int          // the groups of Euclid's rhythm with as many attacks; nil for a very long cycle
	Class     grouping.Class // of the distances between attacks, from the first on
	Aksak     grouping.Aksak // "" unless built from 2s and 3s

	Evenness, Balance, DFT, NPVI float64

	DistinctGaps int // between neighbors
	OffBeatness  int
	Oddity       bool
	Pairwise     *Pairwise // nil for a cycle too long to compare all pairs
	Spectrum     []float64 // magnitudes of the Fourier coefficients; nil for a long cycle
	Keith        int
	LHL          *int     // nil where the meter does not divide the cycle by halves and thirds
	Divisions    []int    // by which it was computed, from the largest part down
	WNBD         *big.Rat // nil where the cycle is no whole number of equal beats

	TwosAndThrees *grouping.Counts // of cycles of 2s and 3s that are as long; nil for other sizes

	Names    []timeline.Match
	Hearings []timeline.Hearing
}

// Pairwise holds what needs all pairs of attacks.
type Pairwise struct {
	Distances []int // index d: pairs of attacks d pulses apart
	Distinct  int
	Deep      bool
	Chords    float64
}

// Cycles with more attacks are not compared pair by pair, and of longer ones
// neither distances nor spectrum are listed, nor are others counted.
const (
	maxPairwise = 1024 // attacks
	maxListed   = 4096 // pulses
	maxSpectrum = 128  // pulses
)

// String writes the groups as a spec does, blanks included.
func (g Grouping) String() string {
	k := -1
	return beat.SumOf(g.Sizes, func(n int) (int, bool) { k++; return n, g.Blank[k] })
}

func groupingOf(s *score.Section, layer, pattern int) Grouping {
	l := s.Layers[layer]
	var g Grouping
	for _, item := range l.Patterns[pattern].Groups {
		if !item.Blank {
			g.Rhythm.Onsets = append(g.Rhythm.Onsets, g.Rhythm.Units)
		}
		g.Sizes = append(g.Sizes, item.Size)
		g.Blank = append(g.Blank, item.Blank)
		g.Rhythm.Units += item.Size
	}
	g.analyze(s, l.Unit)
	return g
}

// rhythmOf is the rhythm of a cycle's attacks where a box or figures make them
// other than the starts of its groups; nil where not. It counts the longest
// unit that all attacks are multiples of, at most the pulse.
func rhythmOf(s *score.Section, c *score.Cycle) *Grouping {
	l := s.Layers[c.Layer]
	if l.Line != nil || len(l.Figures) == 0 && l.Patterns[0].Box == nil || c.Cut != score.NotCut || len(c.Attacks) == 0 {
		return nil
	}
	unit := int64(l.Unit)
	for _, a := range c.Attacks {
		unit = beat.GCD(unit, int64(a.At))
	}
	g := Grouping{Unit: beat.Time(unit)}
	g.Rhythm.Units = int(int64(c.Length) / unit)
	for _, a := range c.Attacks {
		g.Rhythm.Onsets = append(g.Rhythm.Onsets, int(int64(a.At)/unit))
	}
	starts := make([]int, 0, len(c.Groups))
	for _, group := range c.Groups {
		if !group.Blank {
			starts = append(starts, int(int64(group.At)/unit))
		}
	}
	if slices.Equal(starts, g.Rhythm.Onsets) {
		return nil
	}
	g.Sizes = g.Rhythm.Gaps()
	g.Blank = make([]bool, len(g.Sizes))
	g.analyze(s, g.Unit)
	return &g
}

// analyze computes the rest once sizes and rhythm are known.
func (g *Grouping) analyze(s *score.Section, unit beat.Time) {
	g.Unit = unit
	g.shape()
	if divisions, ok := Divisions(s.Grid, s.Meter[0], unit, g.Rhythm.Units); ok {
		lhl := g.Rhythm.LHL(divisions...)
		g.LHL, g.Divisions = &lhl, divisions
	}
	if per, ok := pulsesPerBeat(s.Grid, s.Meter[0], unit); ok && g.Rhythm.Units%per == 0 {
		g.WNBD = g.Rhythm.WNBD(per)
	}
}

// shape computes all that does not depend on the meter.
func (g *Grouping) shape() {
	r := g.Rhythm
	gaps := r.Gaps()
	g.Necklace = grouping.Necklace(gaps)
	g.Rotation = grouping.LeastRotation(gaps) + 1
	g.Mirror = slices.Equal(g.Necklace, grouping.Necklace(grouping.Mirror(gaps)))
	g.Bracelet = grouping.Bracelet(gaps)
	g.Euclidean = r.IsEuclidean()
	if r.Units <= maxListed {
		g.Euclid = grouping.Euclid(len(r.Onsets), r.Units).Gaps()
		asMany := grouping.CountAttacks(len(r.Onsets), r.Units)
		g.AsMany = &asMany
	}
	if r.Units <= maxSpectrum {
		g.Spectrum = r.Spectrum()
	}
	g.Class = grouping.ClassOf(gaps)
	g.Aksak, _ = grouping.AksakOf(g.Sizes)
	g.Evenness, g.Balance, g.DFT, g.NPVI = r.Evenness(), r.Balance(), r.DFT(), grouping.NPVI(gaps)
	g.DistinctGaps, g.OffBeatness, g.Oddity, g.Keith = r.DistinctGaps(), r.OffBeatness(), r.HasOddity(), r.Keith()
	if len(r.Onsets) <= maxPairwise && r.Units <= maxListed {
		g.Pairwise = &Pairwise{r.Distances(), r.DistinctDistances(), r.IsDeep(), r.Chords()}
	}
	if grouping.AreTwosAndThrees(g.Sizes) && r.Units <= maxListed {
		counts := grouping.Parts{2, 3}.Count(r.Units)
		g.TwosAndThrees = &counts
	}
	g.Names = timeline.Matches(r)
	g.Hearings = timeline.Hearings(r)
}

// pulsesPerBeat returns how many pulses the equal beats of the signature have.
func pulsesPerBeat(grid beat.Grid, sig score.Signature, unit beat.Time) (n int, ok bool) {
	if sig.IsAdditive() {
		return 0, false
	}
	length := grid.Must(sig.Beats()[0])
	return int(length / unit), length%unit == 0
}

// Divisions returns how the meter divides a cycle of so many pulses, from its
// largest parts to the pulse, for metrical weights: bars by twos, a bar of 2, 3
// or 4 beats (or 6, 8, 9, 12, 16, which divide by twos and threes) into beats,
// a beat by twos, a dotted one in three first. ok is false for anything else.
func Divisions(grid beat.Grid, sig score.Signature, unit beat.Time, pulses int) (divisions []int, ok bool) {
	per, ok := pulsesPerBeat(grid, sig, unit)
	if !ok {
		return nil, false
	}
	beats := len(sig.Beats())
	bar := per * beats
	if pulses%bar != 0 {
		return nil, false
	}
	halves, ok := byTwos(pulses / bar)
	if !ok {
		return nil, false
	}
	divisions = append(divisions, halves...)
	tops := 0
	for ; beats%2 == 0; beats /= 2 {
		divisions = append(divisions, 2)
	}
	for ; beats%3 == 0 && tops < 2; beats /= 3 {
		divisions = append(divisions, 3)
		tops++
	}
	if beats != 1 {
		return nil, false
	}
	if sig.IsCompound() && per%3 == 0 {
		divisions = append(divisions, 3)
		per /= 3
	}
	halves, ok = byTwos(per)
	return append(divisions, halves...), ok
}

func byTwos(n int) (halves []int, ok bool) {
	for ; n%2 == 0; n /= 2 {
		halves = append(halves, 2)
	}
	return halves, n == 1
}
