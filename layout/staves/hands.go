package staves

import (
	"slices"

	"tieover/layout/bar"
	"tieover/score"
)

// otherHands gives each staff a voice for the other hands of the layers that have their
// own voice on the other staff, and chords that are too wide for one hand. They share it,
// since no two of them are in one section.
func (p *Plan) otherHands(piece *score.Piece, player score.Player) {
	for staff := 1; staff <= len(p.Staves); staff++ {
		var names []string
		after, number := 0, layersPerStaff*(staff-1)+1
		for i, v := range p.Voices {
			switch {
			case v.Staff == staff:
				number++
			case !v.Other && dividesChords(piece, player, v.Layer):
				names = append(names, v.Layer)
			}
			if v.Staff <= staff {
				after = i + 1
			}
		}
		if names == nil {
			continue
		}
		if number > layersPerStaff*staff { // it sounds only while the staff's layers are silent
			number = 4*layersPerStaff + staff // past the numbers of cues
		}
		other := &bar.VoicePlan{Layer: names[0], Staff: staff, Number: number, Other: true}
		if len(names) > 1 {
			other.Layers = names
		}
		p.Voices = slices.Insert(p.Voices, after, other)
	}
}

// dividesChords reports whether a layer has chords for two hands in a section in which
// the player has nothing else.
func dividesChords(piece *score.Piece, player score.Player, layer string) bool {
	for i, l := range piece.LayersOf(player) {
		if l.Name == layer && len(player.Layers[i]) == 1 &&
			slices.ContainsFunc(l.Chords(), func(c score.Chord) bool { _, _, two := c.Hands(); return two }) {
			return true
		}
	}
	return false
}
