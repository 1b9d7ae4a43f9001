package play

import (
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// bareKeys are the General MIDI percussion keys dealt to rhythms without an
// instrument, chosen so that neighbors differ in color: claves, low conga,
// cowbell, mute high conga, high agogo, low bongo, low agogo, high bongo,
// tambourine, side stick, hand clap, maracas. The wood blocks are the click's.
var bareKeys = []int{75, 64, 56, 62, 67, 61, 68, 60, 54, 37, 39, 70}

// MostTicks is the finest division of a quarter that a Standard MIDI File can
// state in its 15 bits.
const MostTicks = 32767

// fineness is how many ticks of the performance one of the piece has: two where staccato
// halves a length; with grace notes twice their greatest number, so that half of the time
// between attacks is shared out in whole ticks, or two where a file cannot be so fine.
func fineness(p *score.Piece) beat.Time {
	fine, graces := beat.Time(1), 0
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			own := 0
			for _, t := range l.Touches {
				switch {
				case t.Has(score.Staccato):
					fine = 2
				case t.Has(score.Drag):
					own = 2
				case t.Has(score.Flam):
					own = max(own, 1)
				}
			}
			graces = max(graces, own+l.MostGraces())
		}
	}
	if graces == 0 {
		return fine
	}
	if shared := beat.Time(2 * graces); beat.Time(p.Grid)*shared <= 4*MostTicks {
		return shared
	}
	return 2
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
