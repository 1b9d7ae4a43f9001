package staves

import (
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// stemsOf gives the layers of one staff their stem directions. A single one's are free,
// but for feet and rhythms on one line. Of several the higher half has its stems up and
// the others down; of percussion the hands have them up and the feet down.
func stemsOf(layers []*score.Layer, ins *instrument.Instrument) []sheet.Stem {
	order := make([]int, len(layers)) // highest first; of percussion as the spec lists them
	for i := range order {
		order[i] = i
	}
	if !ins.IsUnpitched() {
		slices.SortStableFunc(order, func(a, b int) int { return medianKey(layers[b]) - medianKey(layers[a]) })
	}
	stems := make([]sheet.Stem, len(layers))
	for rank, i := range order {
		switch several := len(layers) > 1; {
		case ins.IsUnpitched() && mostlyFeet(layers[i], ins):
			stems[i] = sheet.StemDown
		case ins.Lines == 1, several && (ins.IsUnpitched() || rank < (len(layers)+1)/2):
			stems[i] = sheet.StemUp
		case several:
			stems[i] = sheet.StemDown
		}
	}
	return stems
}

// mostlyFeet reports whether most tones of the layer are played with the feet.
func mostlyFeet(l *score.Layer, ins *instrument.Instrument) bool {
	feet, all := 0, 0
	for _, t := range tonesOf(l) {
		if t.Drum > 0 && int(t.Drum) <= len(ins.Drums) { // not a sound of another drum set
			all++
			if ins.Drums[t.Drum-1].Feet {
				feet++
			}
		}
	}
	return 2*feet > all
}

// joinSides makes one voice of the layers on each side of a percussion staff: a player's
// hands, and the feet. Free lines, rolls, which are tied, and loops whose pulses divide
// the beat otherwise than those of the side's first, keep voices of their own.
func (p *Plan) joinSides(piece *score.Piece, player score.Player) {
	var joined []*bar.VoicePlan
	for _, v := range p.Voices {
		first := slices.IndexFunc(joined, func(to *bar.VoicePlan) bool {
			return to.Stem == v.Stem && canShare(piece, player, to.Layer, v.Layer)
		})
		if first < 0 {
			joined = append(joined, v)
			v.Number = len(joined)
			continue
		}
		to := joined[first]
		to.Layers = append(layersOf(to), v.Layer)
	}
	p.Voices = joined
}

// canShare reports whether two layers of the player can share a voice in all sections.
func canShare(piece *score.Piece, player score.Player, name, other string) bool {
	var first *beat.Pulse
	for _, l := range piece.LayersOf(player) {
		if l.Name != name && l.Name != other {
			continue
		}
		if first == nil {
			first = &l.Pulse
		}
		if l.Line != nil || rolls(l) || (l.Pulse.IsTuplet() || first.IsTuplet()) && l.Pulse != *first {
			return false
		}
	}
	return true
}

// rolls reports whether some of a layer's sounds are rolls or tremolos.
func rolls(l *score.Layer) bool {
	return slices.ContainsFunc(l.Touches, func(t score.Touch) bool { return t.Has(score.Rolled) })
}
