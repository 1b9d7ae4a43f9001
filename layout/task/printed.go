package task

import (
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// byNeed is the order in which exercises are made: whoever can least make way
// for another comes first.
var byNeed = []Kind{Next, Composite, Realign, Cut, Groups, Beam}

// printed is what the sheet prints so far that could answer an exercise.
type printed struct {
	words  []string              // titles, names, signatures and groupings in words
	barred map[*score.Layer]bool // layers of the piece that are printed with barlines
	asked  *asked                // the cycle to be written, if one is asked for
}

// asked is a cycle that must not be printed: of this layer, with these groups.
type asked struct {
	layer  *score.Layer
	name   string
	groups string
}

// newPrinted begins with what every sheet prints.
func newPrinted(p *score.Piece) *printed {
	t := &printed{words: []string{p.Title}, barred: map[*score.Layer]bool{}}
	for _, s := range p.Sections {
		t.words = append(t.words, s.Name, s.Meter.String())
		for _, e := range s.Plan {
			if e.Meter != nil {
				t.words = append(t.words, e.Meter.String())
			}
		}
		for _, l := range s.Layers {
			t.words = append(t.words, l.Name)
			if needsGroupNames(l) {
				t.words = append(t.words, items(l.Patterns[0].Groups))
			}
		}
	}
	return t
}

// names reports whether some words of the sheet name a grouping.
func (t *printed) names(grouping string) bool {
	return slices.ContainsFunc(t.words, func(w string) bool { return strings.Contains(w, grouping) })
}

// addBarred notes that layers of a section are printed with barlines.
func (t *printed) addBarred(s *score.Section, layers ...int) {
	for _, i := range layers {
		t.barred[s.Layers[i]] = true
	}
}

// givesAway reports whether an excerpt of layers prints the cycle that is asked for,
// whole, between two moments.
func (t *printed) givesAway(s *score.Section, layers []int, excerpt *score.Section, from, end beat.Time) bool {
	if t.asked == nil {
		return false
	}
	for k, i := range layers {
		if s.Layers[i] != t.asked.layer {
			continue
		}
		for c := range excerpt.Cycles(k) {
			if c.Start >= from && c.Start+c.Length <= end && groupsOf(c, excerpt.Layers[k]) == t.asked.groups {
				return true
			}
		}
	}
	return false
}

// hintOnly says how an exercise can be had that made way for another.
func hintOnly(kind Kind) string { return "--only " + string(kind) + " makes it" }

// needsGroupNames reports whether a layer's groups must be named where it is printed
// without barlines, as their beginnings are not all struck.
func needsGroupNames(l *score.Layer) bool {
	if len(l.Patterns) == 0 {
		return false
	}
	if len(l.Figures) > 0 || l.Patterns[0].Box != nil {
		return true
	}
	for _, p := range l.Patterns {
		if slices.ContainsFunc(p.Groups, func(i score.Item) bool { return i.Blank }) {
			return true
		}
	}
	return false
}
