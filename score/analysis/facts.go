package analysis

import (
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Barline means the barline where a layer's index is expected.
const Barline = -1

// Facts is what is known about one settled section.
type Facts struct {
	Section *score.Section

	Layers []Layer // as the section's
	Pairs  []Pair  // every two layers, in order

	Together  score.Meeting // of the realigning set
	OnBarline score.Meeting // of the set, the barline added
	Resultant *Resultant    // of the set; nil where there is none
	Home      *big.Int      // ticks to the first time that the rotation of meters begins anew there too; nil if unknown or one meter

	Colors   []Color   // pitch series that run on over the rhythm
	Return   *big.Int  // ticks until heads, series and processes stand as they began; nil if never or unknown
	Cuttings []Cutting // layers that a rule cuts
	Journeys []Journey // layers that move on by steps
	Alike    []Alike   // pairs that share sounds or register

	Composite Composite
	Barrings  []Barring // best first
	Window    Window    // what the barrings were counted over
	Pivots    []Pivot
	Clean     Clean
}

// Layer is what is known about one layer.
type Layer struct {
	Index   int
	Groups  []Grouping // one for each pattern
	Rhythm  *Grouping  // of the attacks of its first cycle, where a box or figures make them other than the groups
	Length  beat.Time  // of a cycle; 0 when cycles differ in length
	Cycles  int        // that sound in the section, whole or cut
	Attacks Places
	End     Ending
	Drift   []Drift // against the barline, then against each other layer
	Plain   []int   // sizes of groups that have no figure though others have, rising
}

// Places counts attacks by where they fall.
type Places struct{ All, OnBarline, OnBeat, OffBeat int } // OnBeat without OnBarline

// Ending is how a layer's last cycle ends.
type Ending struct {
	Cycle    int // its index; 0 when the layer never sounds
	Complete bool
	By       score.Cut
	At       beat.Time // where it stops
	Missing  beat.Time // what is missing of the cycle
	Group    int       // not complete: the group in which it stops, from 1 in played order
	Kept     beat.Time // of that group
	Of       beat.Time // that group's length
}

// Of analyzes a settled section.
func Of(s *score.Section) *Facts {
	f := &Facts{Section: s, Together: s.Together(), OnBarline: s.Meet(s.Set, true)}
	for i := range s.Layers {
		f.Layers = append(f.Layers, layerOf(s, i))
	}
	f.Resultant = resultantOf(s, f.Layers, f.Together)
	f.Home = homeOf(s, f.Together)
	f.Colors = colorsOf(s)
	f.Return, _ = s.Return()
	f.Cuttings = cuttingsOf(s)
	f.Journeys = journeysOf(s)
	f.Alike = alikeOf(s)
	f.Composite = compositeOf(s)
	for a := range s.Layers {
		for b := a + 1; b < len(s.Layers); b++ {
			f.Pairs = append(f.Pairs, pairOf(s, a, b, f.Composite.together[a][b]))
		}
	}
	f.Barrings, f.Window = barringsOf(s)
	f.Pivots = pivotsOf(s)
	f.Clean = cleanOf(s, f.Layers)
	return f
}

// homeOf finds the first realignment that falls on the beginning of the meter's
// rotation: in the section, or by arithmetic where heads are equally far apart.
func homeOf(s *score.Section, m score.Meeting) *big.Int {
	if len(s.Meter) < 2 || !plainMeter(s) {
		return nil
	}
	turn := s.Barred(s.Meter).Bar(len(s.Meter)).End()
	for r := range s.RealignmentTimes() {
		if r.Time > 0 && r.Time%turn == 0 {
			return big.NewInt(int64(r.Time))
		}
	}
	if !m.Start || m.Period == nil || m.First.Cmp(m.Period) != 0 {
		return nil
	}
	return beat.BigLCM(m.Period, big.NewInt(int64(turn)))
}

func layerOf(s *score.Section, i int) Layer {
	l := Layer{Index: i}
	for k := range s.Layers[i].Patterns {
		l.Groups = append(l.Groups, groupingOf(s, i, k))
	}
	place := NewPlacer(s)
	var last score.Cycle
	for c := range s.Cycles(i) {
		l.Plain = withoutFigure(l.Plain, s.Layers[i], c)
		for k := range c.Attacks {
			l.Attacks.add(place.At(c.Start + c.Attacks[k].At))
		}
		if c.Landing {
			continue
		}
		switch {
		case l.Cycles == 0:
			l.Rhythm = rhythmOf(s, c)
			l.Length = c.Length
		case c.Length != l.Length:
			l.Length = 0
		}
		l.Cycles++
		last = *c
	}
	l.End = endOf(&last)
	if s.Layers[i].Line == nil {
		l.Drift = append(l.Drift, driftOf(s, i, Barline))
		for j := range s.Layers {
			if j != i && s.Layers[j].Line == nil {
				l.Drift = append(l.Drift, driftOf(s, i, j))
			}
		}
	}
	return l
}

// withoutFigure adds the sizes of sounding groups that have no figure, where
// the layer has any.
func withoutFigure(sizes []int, l *score.Layer, c *score.Cycle) []int {
	if len(l.Figures) == 0 || c.Landing {
		return sizes
	}
	for _, g := range c.Groups {
		if _, known := l.Figures[g.Size]; !known && !g.Blank {
			if k, there := slices.BinarySearch(sizes, g.Size); !there {
				sizes = slices.Insert(sizes, k, g.Size)
			}
		}
	}
	return sizes
}

func (p *Places) add(on Place) {
	p.All++
	switch {
	case on.OnBarline():
		p.OnBarline++
	case on.OnBeat():
		p.OnBeat++
	default:
		p.OffBeat++
	}
}

func endOf(c *score.Cycle) Ending {
	e := Ending{Cycle: c.Index, At: c.End(), Complete: c.Cut == score.NotCut, By: c.Cut, Missing: c.Length - c.Sounds}
	if e.Complete {
		return e
	}
	for k, g := range c.Groups {
		if g.At < c.Sounds {
			e.Group, e.Of, e.Kept = k+1, g.Length, min(g.Length, c.Sounds-g.At)
		}
	}
	return e
}

// Even reports whether all patterns of the layer are equally long.
func (l Layer) Even() bool {
	for _, g := range l.Groups {
		if g.Rhythm.Units != l.Groups[0].Rhythm.Units {
			return false
		}
	}
	return true
}

// DriftAgainst returns the layer's drift against another or the Barline; the
// zero Drift when there is none.
func (l Layer) DriftAgainst(other int) Drift {
	for _, d := range l.Drift {
		if d.Against == other {
			return d
		}
	}
	return Drift{Against: other}
}
