package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
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
	assert.Equal(t, []string{"7.0 Lant., sounds 2 octaves higher"}, marksOf(&s.Parts[0], sheet.Cue), "before the first small note")
	for b := range s.Parts[0].Bars() {
		if b.Number == 8 {
			v := b.Measure.Voices
			assert.Equal(t, "q.:E4 q.:C4 q:A3", sheet.VoiceText(&v[1], true))
			assert.True(t, v[1].Small)
			assert.Equal(t, []sheet.Stem{sheet.StemDown, sheet.StemUp}, []sheet.Stem{v[0].Stem, v[1].Stem})
		}
	}
}

// An entry at a realignment has its cue although a double bar comes before it,
// and rests at the end of a piece are gathered up to the final barline.
func TestRestsEndAtBarlines(t *testing.T) {
	s := single(t, Options{}, 2, `title: Night Watch
section: N
meter: 4/4
length: 17 bars
realign: [A, B]
layers:
  - {name: A, instrument: flute, groups: 3+3+2, pitches: E6}
  - {name: B, instrument: clarinet, groups: 3+2+2, pitches: E4}
  - {name: C, instrument: cello, groups: 8, pitches: A2, enters: bar 8, leaves: bar 16}
`)
	var rests []string
	for b := range s.Parts[0].Bars() {
		if b.Rest > 0 || b.Barline != sheet.Plain {
			rests = append(rests, fmt.Sprint(b.Number, " ", b.Rest, " ", b.Barline))
		}
	}
	// 8 against 7 eighths meet after 7 bars and after 14, with a double bar before each
	assert.Equal(t, []string{"1 6 0", "7 0 1", "14 0 1", "16 2 0", "17 0 2"}, rests)
	assert.Equal(t, []string{"7.0 B at bar 7"}, marksOf(&s.Parts[0], sheet.Cue))
}
