package task

import (
	"math"
	"slices"

	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// excerpt is a piece of some layers of one section, for a length of its own,
// with bars counted from 1, after the pickup if one of them begins in it. Of the plan only
// meters, keys and clefs are kept, and no slurs. It is nil when the layers cannot play that long.
func (m *setter) excerpt(s *score.Section, layers []int, rule score.LengthRule) *score.Piece {
	return m.excerptOf(s, layers, rule, func(*score.Layer) {})
}

// excerptOf is an excerpt in which something is changed in every layer.
func (m *setter) excerptOf(s *score.Section, layers []int, rule score.LengthRule, change func(*score.Layer)) *score.Piece {
	c := withoutLayers(s)
	c.LengthRule = rule
	last := int64(math.MaxInt64) // bar
	if rule.Kind == score.Bars {
		last = rule.N
	}
	c.Plan = slices.DeleteFunc(c.Plan, func(e score.PlanEntry) bool { return int64(e.At.N) > last })
	for _, i := range layers {
		l := *s.Layers[i]
		l.Except = slices.DeleteFunc(slices.Clone(l.Except), func(e score.Exception) bool { return int64(e.Bar) > last })
		if l.LeaveAt != nil && l.Leaves >= s.Bar(int(min(last, int64(s.BarCount())))).End() {
			l.LeaveAt = nil // where the excerpt is over
		}
		unadorned(&l)
		change(&l)
		c.Layers = append(c.Layers, &l)
		if l.InPickup() {
			c.Pickup = s.Pickup
		}
		if slices.Contains(s.Set, i) && l.Loop != score.CutRealignment {
			c.SetNames = append(c.SetNames, score.Named{Name: l.Name})
		}
	}
	if c.SetNames != nil && s.WithBarline {
		c.SetNames = append(c.SetNames, score.Named{Name: "barline"})
	}
	return m.settled(c)
}

// fromBar1 lets a loop play from bar 1 to the end, wherever it does in the piece.
func fromBar1(l *score.Layer) { l.EnterAt, l.LeaveAt = nil, nil }

// withoutLayers copies what a section has besides its layers.
func withoutLayers(s *score.Section) *score.Section {
	tempo := s.Tempo // a number, whatever it was taken from
	tempo.Kind, tempo.Words, tempo.Old, tempo.New = score.Steady, "", nil, nil
	c := &score.Section{Name: s.Name, Tempo: tempo, Key: s.Key, Pulse: s.Pulse, Meter: s.Meter}
	for _, e := range s.Plan {
		if (e.Meter != nil || e.Key != nil || e.Clef != nil) && e.At.Kind == score.AtBar {
			c.Plan = append(c.Plan, score.PlanEntry{At: e.At, Meter: e.Meter, Key: e.Key, Clef: e.Clef, For: e.For})
		}
	}
	return c
}

// settled makes a piece of one section; nil when it cannot be, and refused says why.
// What the plan has in the pickup holds from bar 1 where the section has none, unless
// bar 1 has its own.
func (m *setter) settled(s *score.Section) *score.Piece {
	if s.Pickup.Sign() == 0 {
		for i := range s.Plan {
			if e := &s.Plan[i]; e.At.N == 0 {
				yieldToBar1(s, e)
			}
		}
		for i := range s.Plan {
			if at := &s.Plan[i].At; at.N == 0 {
				at.N, at.Beat = 1, 0
			}
		}
	}
	p := &score.Piece{Title: m.p.Title, Grid: m.p.Grid, Sections: []*score.Section{s}}
	if problems := p.Settle(); len(problems) > 0 {
		m.refused = &problems[0]
		return nil
	}
	return p
}

// yieldToBar1 takes from an entry of the pickup the key, and of each layer the clef, that
// the plan sets anew at bar 1.
func yieldToBar1(s *score.Section, e *score.PlanEntry) {
	anew := func(has func(first *score.PlanEntry) bool) bool {
		return slices.ContainsFunc(s.Plan, func(first score.PlanEntry) bool { return first.At.N == 1 && first.At.Beat <= 1 && has(&first) })
	}
	if anew(func(first *score.PlanEntry) bool { return first.Key != nil }) {
		e.Key = nil
	}
	var left []string
	for _, l := range s.Layers {
		if e.Serves(l) && !anew(func(first *score.PlanEntry) bool { return first.Clef != nil && first.Serves(l) }) {
			left = append(left, l.Name)
		}
	}
	if e.For = left; left == nil {
		e.Clef = nil
	}
}

// line is a piece of one rhythm without cycles: the composite of a section's
// layers from bar 1 on, each attack lasting to the next.
func (m *setter) line(s *score.Section) *score.Piece {
	l := &score.Layer{Name: "Together", Short: "Together", Instrument: instrument.Rhythm, Pulse: s.Pulse}
	at := beat.Time(0)
	for hit := range s.Moments() {
		if hit.Time < 0 {
			continue
		}
		if n := len(l.Line); n > 0 || hit.Time > 0 {
			l.Line = extend(l.Line, hit.Time-at)
		}
		at = hit.Time
		l.Line = append(l.Line, score.LineNote{Tones: score.Chord{{Drum: 1}}})
	}
	l.Line = extend(l.Line, s.Length-at)
	c := withoutLayers(s)
	c.LengthRule = score.LengthRule{Kind: score.Bars, N: int64(s.BarCount())}
	c.Layers = []*score.Layer{l}
	return m.settled(c)
}

// extend gives the last note of a line its length; before the first note it
// adds a rest.
func extend(line []score.LineNote, length beat.Time) []score.LineNote {
	if len(line) == 0 {
		return []score.LineNote{{Length: length}}
	}
	line[len(line)-1].Length = length
	return line
}

// layOut lays a piece out without analytical marks; nil when it cannot be
// written.
func layOut(p *score.Piece, o layout.Options) *sheet.Sheet {
	if p == nil {
		return nil
	}
	laid, problems := layout.Lay(p, o)
	if len(problems) > 0 {
		return nil
	}
	return laid
}

var unmarkedOptions = layout.Options{Marks: layout.MarkNone, Edition: sheet.Play}
