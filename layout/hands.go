package layout

import (
	"slices"

	"tieover/layout/bar"
	"tieover/score"
)

// share is what one hand takes of the chords of a layer that is written on two staves.
// The zero value takes all.
type share struct {
	divided bool
	lower   bool // the left hand's
	other   bool // what is too wide for the layer's own hand, and nothing else
}

// take leaves a sound what the hand has of it, and reports whether that is anything.
func (h share) take(s *sound) bool {
	if !h.divided {
		return true
	}
	lower, upper, two := s.Tones.Hands()
	if !two {
		return !h.other
	}
	if s.Tones = upper; h.lower {
		s.Tones = lower
	}
	if h.other { // words and slurs are the own hand's
		s.Lyrics, s.Slur = nil, score.Slur{}
	}
	s.Graces = h.graces(s.Graces, lower, upper)
	return true
}

// graces leaves the hand what it has of the grace notes before a divided chord: its share
// of one that is divided too, as a flam is, and one that lies nearer to its tones.
func (h share) graces(all []score.Chord, lower, upper score.Chord) (own []score.Chord) {
	for _, g := range all {
		below, above, two := g.Hands()
		if !two {
			below, above = g, nil
			if g[0].Key()-lower[len(lower)-1].Key() > upper[0].Key()-g[0].Key() {
				below, above = nil, g
			}
		}
		if h.lower {
			above = below
		}
		if above != nil {
			own = append(own, above)
		}
	}
	return own
}

// shared lets a voice read its hand's share of a layer.
func shared(voices []*bar.VoicePlan, v *bar.VoicePlan, whole feed) feed {
	if !slices.ContainsFunc(voices, func(u *bar.VoicePlan) bool { return u.Other && u.Layer == v.Layer }) {
		return whole
	}
	return func(section int) *cursor {
		c := whole(section)
		if c != nil {
			c.share = share{divided: true, lower: v.Staff == 2, other: v.Other}
		}
		return c
	}
}
