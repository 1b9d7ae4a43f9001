package report

import (
	"fmt"
	"math"
	"math/big"

	"tieover/score/analysis"
	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
)

// index is one of the named indices: a float of six places.
type index float64

func (x index) MarshalJSON() ([]byte, error) {
	return []byte(fmt.Sprintf("%.6f", math.Round(float64(x)*1e6)/1e6+0)), nil
}

// counted picks one of several counts that may not be known.
func counted(c *grouping.Counts, of func(*grouping.Counts) *big.Int) any {
	if c == nil {
		return absent{}
	}
	return of(c).String()
}

var groupingKeys = []field[analysis.Grouping]{
	{"groups", "as the spec has them", func(_ *facts, g analysis.Grouping) any { return groupsOf(g) }},
	{"pulses", "of the cycle", func(_ *facts, g analysis.Grouping) any { return g.Rhythm.Units }},
	{"onsets", "pulses, from 0", func(_ *facts, g analysis.Grouping) any { return g.Rhythm.Onsets }},
	{"necklace", "of the sounding groups: the rotation that comes first in numerical order", func(_ *facts, g analysis.Grouping) any { return g.Necklace }},
	{"rotation", "the necklace begins with this sounding group, from 1", func(_ *facts, g analysis.Grouping) any { return g.Rotation }},
	{"sameBackwards", "the mirror image is the same necklace", func(_ *facts, g analysis.Grouping) any { return g.Mirror }},
	{"bracelet", "the necklace that may be turned over", func(_ *facts, g analysis.Grouping) any { return g.Bracelet }},
	{"euclidean", "as even as whole pulses allow", func(_ *facts, g analysis.Grouping) any { return g.Euclidean }},
	{"euclid", "the groups of Euclid's rhythm with as many attacks", func(_ *facts, g analysis.Grouping) any { return g.Euclid }},
	{"euclideanClass", "E (a Euclidean string), R (the reverse of one), -", func(_ *facts, g analysis.Grouping) any { return string(g.Class) }},
	{"aksak", "of 2s and 3s: authentic, quasi, pseudo", func(_ *facts, g analysis.Grouping) any { return unless(g.Aksak == "", string(g.Aksak)) }},
	{"evennessMilne", "six places, as the other indices", func(_ *facts, g analysis.Grouping) any { return index(g.Evenness) }},
	{"balance", "1 is balanced", func(_ *facts, g analysis.Grouping) any { return index(g.Balance) }},
	{"dftK", "of the order of the number of attacks", func(_ *facts, g analysis.Grouping) any { return index(g.DFT) }},
	{"spectrum", "Fourier magnitudes of order 0, 1 … pulses/2, up to 128 pulses", func(_ *facts, g analysis.Grouping) any {
		var all []index
		for _, x := range g.Spectrum {
			all = append(all, index(x))
		}
		return unless(all == nil, all)
	}},
	{"sumOfChords", "of all pairs of attacks", func(_ *facts, g analysis.Grouping) any {
		if g.Pairwise == nil {
			return absent{}
		}
		return index(g.Pairwise.Chords)
	}},
	{"nPVI", "how much each duration differs from its neighbor", func(_ *facts, g analysis.Grouping) any { return index(g.NPVI) }},
	{"offBeatness", "attacks at pulses that share no divisor with the cycle", func(_ *facts, g analysis.Grouping) any { return g.OffBeatness }},
	{"oddity", "no two attacks lie half a cycle apart", func(_ *facts, g analysis.Grouping) any { return g.Oddity }},
	{"keith", "attacks off the multiples of their length", func(_ *facts, g analysis.Grouping) any { return g.Keith }},
	{"lhl", "syncopation after Longuet-Higgins and Lee; null: not defined", func(_ *facts, g analysis.Grouping) any { return g.LHL }},
	{"lhlDivisions", "of the cycle by which it was computed, largest part first", func(_ *facts, g analysis.Grouping) any { return unless(len(g.Divisions) == 0, g.Divisions) }},
	{"wnbd", "weighted distance to the nearest beat; null: not defined", func(_ *facts, g analysis.Grouping) any {
		if g.WNBD == nil {
			return nil
		}
		return g.WNBD.RatString()
	}},
	{"deep", "each distance occurs a different number of times; null for very long cycles", func(_ *facts, g analysis.Grouping) any {
		if g.Pairwise == nil {
			return nil
		}
		return g.Pairwise.Deep
	}},
	{"distances", "pairs of attacks 1, 2, … pulses apart", func(_ *facts, g analysis.Grouping) any {
		if g.Pairwise == nil || len(g.Pairwise.Distances) < 2 {
			return absent{}
		}
		return g.Pairwise.Distances[1:]
	}},
	{"differentGaps", "between neighbors", func(_ *facts, g analysis.Grouping) any { return g.DistinctGaps }},
	{"ordersOf2And3", "that are as long, if these are 2s and 3s", func(_ *facts, g analysis.Grouping) any {
		return counted(g.TwosAndThrees, func(c *grouping.Counts) *big.Int { return c.Orders })
	}},
	{"necklacesOf2And3", "likewise up to rotation", func(_ *facts, g analysis.Grouping) any {
		return counted(g.TwosAndThrees, func(c *grouping.Counts) *big.Int { return c.Necklaces })
	}},
	{"braceletsOf2And3", "likewise with mirror images as one", func(_ *facts, g analysis.Grouping) any {
		return counted(g.TwosAndThrees, func(c *grouping.Counts) *big.Int { return c.Bracelets })
	}},
	{"necklacesOfAsMany", "attacks in as many pulses", func(_ *facts, g analysis.Grouping) any {
		return counted(g.AsMany, func(c *grouping.Counts) *big.Int { return c.Necklaces })
	}},
	{"braceletsOfAsMany", "likewise with mirror images as one", func(_ *facts, g analysis.Grouping) any {
		return counted(g.AsMany, func(c *grouping.Counts) *big.Int { return c.Bracelets })
	}},
	{"names", "named patterns that it is a rotation of, see below", func(j *facts, g analysis.Grouping) any {
		all := []object{}
		for _, m := range g.Names {
			all = append(all, line(j, nameKeys, m))
		}
		return all
	}},
}

var nameKeys = []field[timeline.Match]{
	{"name", "of the pattern", func(_ *facts, m timeline.Match) any { return m.Pattern.Name }},
	{"source", "where it is published", func(_ *facts, m timeline.Match) any { return m.Pattern.Source.Full }},
	{"turn", "pulses from the groups' start to the pattern's", func(_ *facts, m timeline.Match) any { return m.Turn }},
	{"times", "the pattern's length over the groups'", func(_ *facts, m timeline.Match) any { return fmt.Sprintf("%d/%d", m.Times, m.Over) }},
}
