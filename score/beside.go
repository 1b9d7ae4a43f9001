package score

import (
	"cmp"
	"slices"

	"tieover/score/beat"
	"tieover/score/source"
)

// Twin is a loop in two versions: one is cut, the other whole.
type Twin struct {
	Of    int // the layer as the spec has it
	Layer int // its second version
}

// IsCut reports whether a loop rule starts some layer over.
func (s *Section) IsCut() bool {
	return slices.ContainsFunc(s.Layers, func(l *Layer) bool { return l.Loop != Run })
}

// Beside returns the section with second versions of its loops after all its
// layers: where some are cut, of these, as they are without their loop rules;
// else of every loop, as it is when cut every so many bars. Of several only those
// that are chosen; nil chooses all. The versions are settled in a section of the
// same layers, set and length; all else stays as it is. It fails where the layers
// cannot play so.
func (s *Section) Beside(every int, chosen []int) (both *Section, twins []Twin, problems source.Problems) {
	cut := s.IsCut()
	other := s.otherwise(func(l *Layer) {
		switch {
		case cut:
			l.Loop, l.CutEvery = Run, 0
		case l.Line == nil:
			l.Loop, l.CutEvery = CutBars, every
		}
	})
	if problems = (&Piece{Grid: s.Grid, Sections: []*Section{other}}).Settle(); len(problems) > 0 {
		return nil, nil, problems
	}
	c := *s
	c.Layers = slices.Clone(s.Layers)
	for i, l := range s.Layers {
		if l.Line != nil || cut && l.Loop == Run || chosen != nil && !slices.Contains(chosen, i) {
			continue
		}
		twins = append(twins, Twin{Of: i, Layer: len(c.Layers)})
		version := *other.Layers[i]
		version.walkedIn = other
		version.Name, version.Short = versionName(l.Name, cut), versionName(l.Short, cut)
		c.Layers = append(c.Layers, &version)
	}
	return &c, twins, nil
}

// versionName is what a second version is called.
func versionName(name string, cut bool) string {
	if cut {
		return name + ", whole"
	}
	return name + ", cut"
}

// otherwise copies what decides the cycles of a section, as it was before it was
// settled but for its length, with a change in every layer.
func (s *Section) otherwise(change func(*Layer)) *Section {
	c := &Section{
		Pos: s.Pos, Name: s.Name, Tempo: s.tempi[0].Tempo, Key: s.Key, Pulse: s.Pulse, Meter: s.Meter,
		Pickup: s.Pickup, PickupPos: s.PickupPos, End: s.End, Times: s.Times,
		LengthRule: LengthRule{Pos: s.LengthRule.Pos, Kind: Ticks, N: int64(s.Length)}, SetNames: []Named{},
	}
	c.Tempo.Old, c.Tempo.New = nil, nil // what it follows is in another section
	for _, e := range s.Plan {
		if e.Meter != nil {
			c.Plan = append(c.Plan, PlanEntry{At: e.At, Meter: e.Meter})
		}
	}
	for _, i := range s.Set {
		c.SetNames = append(c.SetNames, Named{Name: s.Layers[i].Name, Pos: s.Layers[i].Pos})
	}
	if s.WithBarline {
		c.SetNames = append(c.SetNames, Named{Name: "barline", Pos: s.Pos})
	}
	for _, l := range s.Layers {
		copied := *l
		change(&copied)
		c.Layers = append(c.Layers, &copied)
	}
	return c
}

// homeOf is the section in which a layer's cycles are walked.
func (s *Section) homeOf(layer int) *Section {
	if other := s.Layers[layer].walkedIn; other != nil {
		return other
	}
	return s
}

// Longer is the section as it would go on for one more bar in some layers.
func (s *Section) Longer(layers ...int) *Section {
	out := *s
	out.Length += s.asWritten().Bar(1).Length
	out.Layers = slices.Clone(s.Layers)
	for _, i := range layers {
		l := *s.Layers[i]
		if l.walkedIn != nil {
			other := *l.walkedIn
			other.Length = out.Length
			l.walkedIn = &other
		}
		if l.Leaves >= s.Length && l.Line == nil {
			l.Leaves = out.Length
		}
		out.Layers[i] = &l
	}
	return &out
}

// WithTexts returns the section with more texts in its plan, each at a moment.
func (s *Section) WithTexts(texts map[beat.Time]string) *Section {
	c := *s
	c.Plan = slices.Clone(s.Plan)
	for at, text := range texts {
		c.Plan = append(c.Plan, PlanEntry{Time: at, Text: text})
	}
	slices.SortStableFunc(c.Plan, func(a, b PlanEntry) int { return cmp.Compare(a.Time, b.Time) })
	return &c
}
