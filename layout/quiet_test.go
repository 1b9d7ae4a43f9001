package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// A kit's silent voice prints no rest of its own while the other one plays.
func TestQuietVoices(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 3 bars
layers:
  - {name: Hands, player: Kit, instrument: drum set, groups: 4+4, pitches: snare, enters: bar 2}
  - {name: Feet, player: Kit, instrument: drum set, groups: 8, pitches: kick, leaves: bar 3}
`)
	var hidden []string
	for b := range s.Parts[0].Bars() {
		for _, v := range b.Measure.Voices {
			r, ok := v.Events[0].(*sheet.Rest)
			hidden = append(hidden, fmt.Sprint(ok && r.Hidden))
		}
	}
	assert.Equal(t, []string{"true", "false", "false", "false", "false", "true"}, hidden)
}

// Three voices, two of them with stems up: a rest is printed only while both of
// them are silent, and once.
func TestRestsOfThreeVoices(t *testing.T) {
	s := laid(t, Options{}, `title: Bars
meter: 4/4
length: 1 bars
layers:
  - {name: High, player: Bars, instrument: marimba, groups: 3+3+2, strike: short, pitches: E5}
  - {name: Middle, player: Bars, instrument: marimba, groups: 5+3, strike: short, pitches: C5}
  - {name: Low, player: Bars, instrument: marimba, groups: 8, strike: short, pitches: C4}
`)
	m := firstBar(&s.Parts[0]).Measure
	assert.Equal(t, []sheet.Stem{sheet.StemUp, sheet.StemUp, sheet.StemDown}, []sheet.Stem{m.Voices[0].Stem, m.Voices[1].Stem, m.Voices[2].Stem})
	// high at 0 3 6, middle at 0 5, low at 0
	assert.Equal(t, "e re re e r*q e re", sheet.Rhythm(&m.Voices[0]), "the middle falls into the rest at 4")
	assert.Equal(t, "e r*e r*q re e r*q", sheet.Rhythm(&m.Voices[1]), "silent with the high, whose rests stand for both, but for 4")
	assert.Equal(t, "e re rq rh", sheet.Rhythm(&m.Voices[2]), "the low is alone below")
}

// Of several lines on a staff the higher have their stems up, whatever the
// order in the spec.
func TestStemsByPitch(t *testing.T) {
	s := laid(t, Options{}, `title: Gates
meter: 4/4
length: 1 bars
layers:
  - {name: Low, player: Gates, instrument: marimba, groups: 8, pitches: C4}
  - {name: High, player: Gates, instrument: marimba, groups: 8, pitches: E5}
  - {name: Middle, player: Gates, instrument: marimba, groups: 8, pitches: C5}
`)
	m := firstBar(&s.Parts[0]).Measure
	assert.Equal(t, []sheet.Stem{sheet.StemDown, sheet.StemUp, sheet.StemUp}, []sheet.Stem{m.Voices[0].Stem, m.Voices[1].Stem, m.Voices[2].Stem})
}
