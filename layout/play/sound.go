package play

import (
	"slices"

	"tieover/score"
	"tieover/score/instrument"
)

// bareKeys are the General MIDI percussion keys dealt to rhythms without an
// instrument, chosen so that neighbors differ in color: claves, low conga,
// cowbell, mute high conga, high agogo, low bongo, low agogo, high bongo,
// tambourine, side stick, hand clap, maracas. The wood blocks are the click's.
var bareKeys = []int{75, 64, 56, 62, 67, 61, 68, 60, 54, 37, 39, 70}

func hasStaccato(p *score.Piece) bool {
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if slices.ContainsFunc(l.Touches, func(t score.Touch) bool { return t.Has(score.Staccato) }) {
				return true
			}
		}
	}
	return false
}

func mannerOf(i *instrument.Instrument) Manner {
	if i.IsUnpitched() {
		return Drums
	}
	switch i.Family {
	case instrument.Percussion:
		return Struck
	case instrument.Plucked, instrument.Keyboard:
		return Plucked
	}
	return Held
}
