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
	switch {
	case !two:
		return !h.other
	case h.lower:
		s.Tones = lower
	default:
		s.Tones = upper
	}
	if h.other { // grace notes, words and slurs are the own hand's
		s.Graces, s.Lyrics, s.Slur = nil, nil, score.Slur{}
	}
	return true
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
