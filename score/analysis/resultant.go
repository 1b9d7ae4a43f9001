package analysis

import (
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/analysis/grouping"
	"tieover/score/beat"
	"tieover/score/process"
)

// Resultant is the rhythm that the heads of the realigning set make by
// themselves, counted in the section's pulse.
type Resultant struct {
	Generators []int // how far apart the heads of each are: its cycle's length
	Series     []int // durations until all coincide again

	// Of three or more without a common divisor: the least common cycle divided
	// by each, and the resultant of these.
	Factors, Complement []int

	Fractioned []int // of two: the resultant with fractioning
}

// maxTerms bounds how many durations a resultant has that is written out.
const maxTerms = 1024

// resultantOf is nil where heads do not start together or are not equally far
// apart or loops are cut, and where it would be very long.
func resultantOf(s *score.Section, layers []Layer, m score.Meeting) *Resultant {
	if len(s.Set) < 2 || m.Walked || m.Never || !m.Start {
		return nil
	}
	r := &Resultant{}
	period := big.NewInt(1)
	common := 0
	for _, i := range s.Set {
		n, whole := s.Grid.Span(layers[i].Length).Over(s.Pulse.Span()).IsWhole()
		if !whole || n == 0 || s.Layers[i].Loop != score.Run || !equidistant(s.Layers[i], layers[i]) {
			return nil
		}
		r.Generators = append(r.Generators, int(n))
		common = int(beat.GCD(int64(common), n))
		period = beat.BigLCM(period, big.NewInt(n))
	}
	terms := new(big.Int)
	for _, n := range r.Generators {
		terms.Add(terms, new(big.Int).Quo(period, big.NewInt(int64(n))))
	}
	if terms.Cmp(big.NewInt(maxTerms)) > 0 {
		return nil
	}
	r.Series = grouping.Resultant(r.Generators...)
	if len(r.Generators) > 2 && common == 1 && total(r.Generators) <= maxTerms {
		for _, n := range r.Generators {
			r.Factors = append(r.Factors, int(period.Int64())/n)
		}
		r.Complement = grouping.Complementary(r.Generators...)
	}
	a, b := slices.Max(r.Generators), slices.Min(r.Generators)
	if reduced := a / common; len(r.Generators) == 2 && a > b && reduced*(reduced-b/common+2) <= maxTerms {
		r.Fractioned = grouping.Fractioning(a, b)
	}
	return r
}

// equidistant reports whether the heads of a layer whose cycles never change
// their length are equally far apart.
func equidistant(l *score.Layer, known Layer) bool {
	return known.Even() && l.Offset == 0 && !slices.ContainsFunc(l.Process, func(p score.Process) bool {
		return p.Kind == process.Rotate || p.Kind == process.Shift
	})
}
