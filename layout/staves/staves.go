package staves

import (
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
)

// Plan is how a player reads what is on one instrument.
type Plan struct {
	Voices  []*bar.VoicePlan // in order of staff and number
	Staves  []sheet.Staff    // with the clefs of bars for which the spec chooses none
	Pitched bool             // pitches are read, not sounds of percussion
}

// layersPerStaff is how many voices a staff has at most.
const layersPerStaff = 4

// ForPlayer divides a player's layers over the staves of the instrument. On two staves
// the first half of the layers is above and the others are below; a single layer is
// where its pitches are, below middle C on the lower staff, with a voice of rests above;
// chords that are too wide for one hand are divided (see otherHands).
// Layers on one side of a percussion staff share a voice (see joinSides). More than four
// voices on a staff are a problem.
func ForPlayer(p *score.Piece, player score.Player, t bar.Transposer, problems *source.Problems) Plan {
	var layers []*score.Layer // the first of each name
	for _, l := range p.LayersOf(player) {
		if !slices.ContainsFunc(layers, func(other *score.Layer) bool { return other.Name == l.Name }) {
			layers = append(layers, l)
		}
	}
	plan := divide(layers, player.Instrument, t)
	if len(plan.Staves) == 2 {
		plan.otherHands(p, player)
	}
	if len(plan.Staves) == 2 && plan.Voices[0].Staff == 2 {
		plan.Voices = append([]*bar.VoicePlan{{Staff: 1, Number: 1}}, plan.Voices...)
	}
	if !plan.Pitched {
		plan.joinSides(p, player)
	}
	if slices.ContainsFunc(plan.Voices, func(v *bar.VoicePlan) bool { return !v.Other && v.Number > layersPerStaff*v.Staff }) {
		problems.Add(layers[0].Pos, "player \""+player.Name+"\" has more than four layers on one staff", "give some of them another player")
	}
	return plan
}

// ForLayer puts a single layer on one staff: that of the instrument's on which ForPlayer
// would put it.
func ForLayer(l *score.Layer, ins *instrument.Instrument, t bar.Transposer) Plan {
	plan := divide([]*score.Layer{l}, ins, t)
	v := plan.Voices[0]
	plan.Staves = plan.Staves[v.Staff-1 : v.Staff]
	v.Staff, v.Number = 1, 1
	return plan
}

// divide gives each layer a voice of its own on one of the staves.
func divide(layers []*score.Layer, ins *instrument.Instrument, t bar.Transposer) Plan {
	plan := Plan{Pitched: !ins.IsUnpitched() && ins.Lines != 1}
	on := make([][]*score.Layer, max(1, ins.Staves)) // by staff
	for i, l := range layers {
		staff := 0
		if ins.Staves == 2 && (len(layers) > 1 && i >= (len(layers)+1)/2 || len(layers) == 1 && medianKey(l) < middleC) {
			staff = 1
		}
		on[staff] = append(on[staff], l)
	}
	for k, layers := range on {
		stems := stemsOf(layers, ins)
		for i, l := range layers {
			plan.Voices = append(plan.Voices, &bar.VoicePlan{Layer: l.Name, Staff: k + 1, Number: layersPerStaff*k + i + 1, Stem: stems[i]})
		}
		plan.Staves = append(plan.Staves, sheet.Staff{Clef: clefOf(k+1, layers, ins, t), Lines: max(1, ins.Lines)})
	}
	return plan
}

// Layers lists the names of the layers that are written, voice by voice.
func (p *Plan) Layers() (all []string) {
	for _, v := range p.Voices {
		all = append(all, layersOf(v)...)
	}
	return all
}

// layersOf lists the names of the layers of a voice: none of one that has only rests, or
// what layers of other voices have for the other hand.
func layersOf(v *bar.VoicePlan) []string {
	switch {
	case v.Layer == "" || v.Other:
		return nil
	case v.Layers != nil:
		return v.Layers
	}
	return []string{v.Layer}
}

// StaffOf returns the staff, from 1, on which a layer is written, 0 if it is on none.
func (p *Plan) StaffOf(layer string) int {
	for _, v := range p.Voices {
		if slices.Contains(layersOf(v), layer) {
			return v.Staff
		}
	}
	return 0
}

// LyricLines counts, for each layer of the player, the lines of words between the staff
// and its own: those of the layers before it on the staff.
func (p *Plan) LyricLines(piece *score.Piece, player score.Player) map[string]int {
	above, taken := map[string]int{}, make([]int, len(p.Staves))
	for _, v := range p.Voices {
		for _, name := range layersOf(v) {
			above[name] = taken[v.Staff-1]
			most := 0
			for _, l := range piece.LayersOf(player) {
				if l.Name == name {
					most = max(most, len(l.Verses), min(1, len(l.Syllables)))
				}
			}
			taken[v.Staff-1] += most
		}
	}
	return above
}
