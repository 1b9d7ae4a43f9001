package report

import (
	"fmt"
	"math"

	"tieover/score/analysis"
)

// index is one of the named indices: a float of six places.
type index float64

func (x index) MarshalJSON() ([]byte, error) {
	return []byte(fmt.Sprintf("%.6f", math.Round(float64(x)*1e6)/1e6+0)), nil
}

// grouped is what is known about one pattern.
type grouped struct {
	Groups      string   `json:"groups"`
	Pulses      int      `json:"pulses"`
	Onsets      []int    `json:"onsets"`
	Necklace    []int    `json:"necklace"`
	Rotation    int      `json:"rotation"`
	Mirror      bool     `json:"sameBackwards"`
	Bracelet    []int    `json:"bracelet"`
	Euclidean   bool     `json:"euclidean"`
	Euclid      []int    `json:"euclid"`
	Class       string   `json:"euclideanClass"`
	Aksak       string   `json:"aksak,omitempty"`
	Evenness    index    `json:"evennessMilne"`
	Balance     index    `json:"balance"`
	DFT         index    `json:"dftK"`
	Spectrum    []index  `json:"spectrum,omitempty"`
	Chords      *index   `json:"sumOfChords,omitempty"`
	NPVI        index    `json:"nPVI"`
	OffBeatness int      `json:"offBeatness"`
	Oddity      bool     `json:"oddity"`
	Keith       int      `json:"keith"`
	LHL         *int     `json:"lhl"`
	Divisions   []int    `json:"lhlDivisions,omitempty"` // of the cycle, from the largest part down
	WNBD        *string  `json:"wnbd"`
	Deep        *bool    `json:"deep"`
	Distances   []int    `json:"distances,omitempty"`
	Gaps        int      `json:"differentGaps"`
	Ways        string   `json:"ordersOf2And3,omitempty"`
	Necklaces   string   `json:"necklacesOf2And3,omitempty"`
	Bracelets   string   `json:"braceletsOf2And3,omitempty"`
	Alike       string   `json:"necklacesOfAsMany,omitempty"`
	AlikeTurned string   `json:"braceletsOfAsMany,omitempty"`
	Names       []naming `json:"names"`
}

func groupedOf(g analysis.Grouping) grouped {
	out := grouped{Groups: written(g), Pulses: g.Rhythm.Units, Onsets: g.Rhythm.Onsets,
		Necklace: g.Necklace, Rotation: g.Rotation, Mirror: g.Mirror, Bracelet: g.Bracelet,
		Euclidean: g.Euclidean, Euclid: g.Euclid, Class: string(g.Class), Aksak: string(g.Aksak),
		Evenness: index(g.Evenness), Balance: index(g.Balance), DFT: index(g.DFT), NPVI: index(g.NPVI),
		OffBeatness: g.OffBeatness, Oddity: g.Oddity, Keith: g.Keith, LHL: g.LHL, Divisions: g.Divisions,
		Gaps: g.DistinctGaps, Names: []naming{}}
	for _, x := range g.Spectrum {
		out.Spectrum = append(out.Spectrum, index(x))
	}
	if g.WNBD != nil {
		w := g.WNBD.RatString()
		out.WNBD = &w
	}
	if p := g.Pairwise; p != nil {
		chords := index(p.Chords)
		out.Deep, out.Chords, out.Distances = &p.Deep, &chords, p.Distances[min(1, len(p.Distances)):]
	}
	if c := g.TwosAndThrees; c != nil {
		out.Ways, out.Necklaces, out.Bracelets = c.Orders.String(), c.Necklaces.String(), c.Bracelets.String()
	}
	if c := g.AsMany; c != nil {
		out.Alike, out.AlikeTurned = c.Necklaces.String(), c.Bracelets.String()
	}
	for _, m := range g.Names {
		out.Names = append(out.Names, naming{m.Pattern.Name, m.Pattern.Source.Full, m.Turn, fmt.Sprintf("%d/%d", m.Times, m.Over)})
	}
	return out
}

// naming is a named pattern that the groups are a rotation of.
type naming struct {
	Name   string `json:"name"`
	Source string `json:"source"`
	Turn   int    `json:"turn"`  // pulses from the groups' start to the pattern's
	Values string `json:"times"` // the pattern's length over the groups'
}
