package staves

import (
	"slices"

	"tieover/layout/bar"
	"tieover/score"
)

// otherHands gives each layer that is alone on two staves a voice on the one where it is
// not, if it has chords that are too wide for one hand.
func (p *Plan) otherHands(piece *score.Piece, player score.Player) {
	for _, v := range slices.Clone(p.Voices) {
		if !dividesChords(piece, player, v.Layer) {
			continue
		}
		other := &bar.VoicePlan{Layer: v.Layer, Staff: 3 - v.Staff, Other: true}
		at := 0
		for _, u := range p.Voices {
			if u.Staff <= other.Staff {
				at++
			}
			if u.Staff == other.Staff {
				other.Number++
			}
		}
		other.Number += layersPerStaff*(other.Staff-1) + 1
		p.Voices = slices.Insert(p.Voices, at, other)
	}
}

// dividesChords reports whether a layer has chords for two hands, and the player nothing
// else in its sections.
func dividesChords(piece *score.Piece, player score.Player, layer string) (divides bool) {
	for i, l := range piece.LayersOf(player) {
		switch {
		case l.Name != layer:
		case len(player.Layers[i]) > 1:
			return false
		default:
			divides = divides || slices.ContainsFunc(chordsOf(l), func(c score.Chord) bool { _, _, two := c.Hands(); return two })
		}
	}
	return divides
}
