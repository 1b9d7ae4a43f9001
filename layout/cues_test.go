package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A flute's cue in a cello part is written where the cellist reads, and says
// where it sounds; the player's own rest stands below it. The median C6 is two
// octaves over the first place that is a ledger line off the bass staff at most.
func TestCuesAreReadable(t *testing.T) {
	s := single(t, Options{Cues: CueNotes}, 1, `title: Night Watch
meter: 4/4
length: 9 bars
realign: [Lantern]
layers:
  - {name: Lantern, short: Lant., instrument: flute, groups: 3+3+2, pitches: E6 C6 A5}
  - {name: Oar, instrument: cello, groups: 8, pitches: A2, enters: bar 9}
`)
	assert.Equal(t, []string{"8.0 Lant. at bar 8, sounds 2 octaves higher"}, marksOf(&s.Parts[0], Cue))
	for b := range s.Parts[0].Bars() {
		if b.Number == 8 {
			v := b.Measure.Voices
			assert.Equal(t, "q.:E4 q.:C4 q:A3", voiceText(&v[1], true))
			assert.True(t, v[1].Small)
			assert.Equal(t, []Stem{StemDown, StemUp}, []Stem{v[0].Stem, v[1].Stem})
		}
	}
}
