package facts

import (
	"fmt"
	"math"

	"tieover/score/analysis"
	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
)

// index is one of the named indices: a float of six places.
type index float64

func (x index) MarshalJSON() ([]byte, error) {
	return []byte(fmt.Sprintf("%.6f", math.Round(float64(x)*1e6)/1e6+0)), nil
}

// counts are absent where they are not known.
func counts(c *grouping.Counts) (orders, necklaces, bracelets any) {
	if c == nil {
		return absent{}, absent{}, absent{}
	}
	return c.Orders, c.Necklaces, c.Bracelets
}

func (j *section) grouping(g analysis.Grouping) object {
	orders23, necklaces23, bracelets23 := counts(g.TwosAndThrees)
	_, necklaces, bracelets := counts(g.AsMany)
	var spectrum []index
	for _, x := range g.Spectrum {
		spectrum = append(spectrum, index(x))
	}
	var deep, chords, distances any = nil, absent{}, absent{}
	if p := g.Pairwise; p != nil {
		deep, chords = p.Deep, index(p.Chords)
		distances = unless(len(p.Distances) < 2, p.Distances[1:])
	}
	return object{
		{"groups", "as the spec has them", g},
		{"pulses", "of the cycle", g.Rhythm.Units},
		{"onsets", "pulses, from 0", g.Rhythm.Onsets},
		{"necklace", "of the sounding groups: the rotation that comes first in numerical order", g.Necklace},
		{"rotation", "the necklace begins with this sounding group, from 1", g.Rotation},
		{"sameBackwards", "the mirror image is the same necklace", g.Mirror},
		{"bracelet", "the necklace that may be turned over", g.Bracelet},
		{"euclidean", "as even as whole pulses allow", g.Euclidean},
		{"euclid", "the groups of Euclid's rhythm with as many attacks", g.Euclid},
		{"euclideanClass", "E (a Euclidean string), R (the reverse of one), -", string(g.Class)},
		{"aksak", "of 2s and 3s: authentic, quasi, pseudo", unless(g.Aksak == "", string(g.Aksak))},
		{"evennessMilne", "six places, as the other indices", index(g.Evenness)},
		{"balance", "1 is balanced", index(g.Balance)},
		{"dftK", "of the order of the number of attacks", index(g.DFT)},
		{"spectrum", "Fourier magnitudes of order 0, 1 … pulses/2, up to 128 pulses", unless(spectrum == nil, spectrum)},
		{"sumOfChords", "of all pairs of attacks", chords},
		{"nPVI", "how much each duration differs from its neighbor", index(g.NPVI)},
		{"offBeatness", "attacks at pulses that share no divisor with the cycle", g.OffBeatness},
		{"oddity", "no two attacks lie half a cycle apart", g.Oddity},
		{"keith", "attacks off the multiples of their length", g.Keith},
		{"lhl", "syncopation after Longuet-Higgins and Lee; null: not defined", g.LHL},
		{"lhlDivisions", "of the cycle by which it was computed, largest part first", unless(len(g.Divisions) == 0, g.Divisions)},
		{"wnbd", "weighted distance to the nearest beat; null: not defined", nullIf(g.WNBD == nil, g.WNBD)},
		{"deep", "each distance occurs a different number of times; null for very long cycles", deep},
		{"distances", "pairs of attacks 1, 2, … pulses apart", distances},
		{"differentGaps", "between neighbors", g.DistinctGaps},
		{"ordersOf2And3", "that are as long, if these are 2s and 3s", orders23},
		{"necklacesOf2And3", "likewise up to rotation", necklaces23},
		{"braceletsOf2And3", "likewise with mirror images as one", bracelets23},
		{"necklacesOfAsMany", "attacks in as many pulses", necklaces},
		{"braceletsOfAsMany", "likewise with mirror images as one", bracelets},
		{"names", "named patterns that it is a rotation of, see below", inLine(g.Names, name)},
	}
}

func name(m timeline.Match) object {
	return object{
		{"name", "of the pattern", m.Pattern.Name},
		{"source", "where it is published", m.Pattern.Source.Full},
		{"turn", "pulses from the groups' start to the pattern's", m.Turn},
		{"times", "the pattern's length over the groups'", fmt.Sprintf("%d/%d", m.Times, m.Over)},
	}
}
