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
	lower   bool     // the left hand's
	other   bool     // what is too wide for the layer's own hand, and nothing else
	named   []string // the layer, where other layers have the voice in other sections
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
		s.Lyrics, s.Slur, s.Layers = nil, score.Slur{}, h.named
	}
	s.Graces = h.graces(s.Graces, lower, upper)
	return true
}

// graces leaves the hand what it has of the grace notes before a divided chord: its share
// of one that is divided too, as a flam is, and one that lies nearer to its tones: the
// lower hand's by the lowest, the upper hand's by the highest.
func (h share) graces(all []score.Chord, lower, upper score.Chord) (own []score.Chord) {
	for _, g := range all {
		below, above, two := g.Hands()
		if !two {
			below, above = g, nil
			low, high := slices.MinFunc(g, score.Tone.Compare), slices.MaxFunc(g, score.Tone.Compare)
			if low.Key()-lower[len(lower)-1].Key() > upper[0].Key()-high.Key() {
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

// ownHand lets a layer's voice read its hand's share of the layer in the sections in which
// the layer is divided: where the player has nothing else.
func ownHand(player score.Player, voices []*bar.VoicePlan, v *bar.VoicePlan, whole feed) feed {
	if !slices.ContainsFunc(voices, func(u *bar.VoicePlan) bool { return u.Other && u.Staff != v.Staff }) {
		return whole
	}
	return func(section int) *cursor {
		c := whole(section)
		if c != nil && len(player.Layers[section]) == 1 {
			c.share = share{divided: true, lower: v.Staff == 2}
		}
		return c
	}
}

// otherHand lets a voice read what the layers that it serves have for the other hand.
func otherHand(p *score.Piece, player score.Player, v *bar.VoicePlan) feed {
	return func(section int) *cursor {
		if len(player.Layers[section]) != 1 {
			return nil
		}
		c := newCursor(p.Sections[section], player.Layers[section][0])
		if c.layer.Name != v.Layer && !slices.Contains(v.Layers, c.layer.Name) {
			return nil
		}
		c.share = share{divided: true, lower: v.Staff == 2, other: true}
		if v.Layers != nil {
			c.share.named = []string{c.layer.Name}
		}
		return c
	}
}
