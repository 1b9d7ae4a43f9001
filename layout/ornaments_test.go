package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
)

// A snare's tails are cut, but a roll is tied: 5+3 eighths of 4/4 by the meter are
// h~e q., with strokes on all three signs; plain strokes are one sign and rests. Of
// 7+4 the plain seven are h and rests (h~q. whole), and e off the beat in bar 2 (e~h);
// the rolled four are tied over the barline.
func TestRollsAreTied(t *testing.T) {
	snare := func(groups, touches string) string {
		return "title: Sluice\nmeter: 4/4\nlength: 2 bars\nlayers:\n  - {name: Snare, instrument: snare drum, groups: " + groups + ", touches: " + touches + "}\n"
	}
	first := func(s *sheet.Sheet, bar int) *sheet.Voice {
		for b := range s.Parts[0].Bars() {
			if b.Number == bar {
				return &b.Measure.Voices[0]
			}
		}
		return nil
	}
	s := laid(t, Options{}, snare("5+3", "roll"))
	assert.Equal(t, "h~e q.", sheet.Rhythm(first(s, 1)))
	for _, e := range first(s, 1).Events {
		assert.Equal(t, score.Roll, e.(*sheet.Note).Touch)
	}
	assert.Equal(t, "h re q.", sheet.Rhythm(first(laid(t, Options{}, snare("5+3", "plain")), 1)))
	assert.Equal(t, "h re q.", sheet.Rhythm(first(laid(t, Options{}, snare("5+3", "plain roll")), 1)))

	s = laid(t, Options{}, snare("7+4", "plain roll"))
	assert.Equal(t, "h rq re e", sheet.Rhythm(first(s, 1)))
	assert.Equal(t, "~q. e rh", sheet.Rhythm(first(s, 2)))
}

// The sign over a trill stands once, where it begins; a staccato before it too.
func TestATrillIsSignedOnce(t *testing.T) {
	s := laid(t, Options{}, melody("none", "E5, touches: trill+accent", "5+3", "1"))
	var got []score.Touch
	for b := range s.Parts[0].Bars() {
		for _, e := range b.Measure.Voices[0].Events {
			got = append(got, e.(*sheet.Note).Touch)
		}
	}
	assert.Equal(t, []score.Touch{score.Trill | score.Accented, 0, score.Trill | score.Accented}, got)
}

// Hands that roll keep a voice of their own: what is tied cannot share one.
func TestRollsDoNotShareAVoice(t *testing.T) {
	kit := "title: Sluice\nmeter: 4/4\nlength: 1 bars\nlayers:\n" +
		"  - {name: Ride, player: Kit, instrument: drum set, groups: 2+2+2+2, pitches: ride}\n" +
		"  - {name: Snare, player: Kit, instrument: drum set, groups: 5+3, pitches: snare, touches: "
	for b := range laid(t, Options{}, kit+"plain}\n").Parts[0].Bars() {
		assert.Len(t, b.Measure.Voices, 1)
	}
	for b := range laid(t, Options{}, kit+"roll}\n").Parts[0].Bars() {
		assert.Len(t, b.Measure.Voices, 2)
		assert.Equal(t, "h~e q.", sheet.Rhythm(&b.Measure.Voices[1]))
	}
}

// Grace notes stand before their attack and take no time: F#5/F5 has a sign
// at each, in the order in which they are read, and what is tied in has none. A series
// of two over four attacks.
func TestGraceNotes(t *testing.T) {
	s := laid(t, Options{Breaks: BreakNone}, melody("none", "D5/E5 F#5/F5", "5+3+4+4", "2"))
	var got []string
	for b := range s.Parts[0].Bars() {
		got = append(got, sheet.VoiceText(&b.Measure.Voices[0], true))
	}
	assert.Equal(t, []string{"D5/h:E5~e:E5 F(#)5/q.:F(n)5", "D5/h:E5 F(#)5/h:F(n)5"}, got)
}

// Of hands that share a voice the grace notes are joined, the last of each together.
func TestGraceNotesOfSharedVoices(t *testing.T) {
	s := laid(t, Options{}, "title: Sluice\nmeter: 4/4\nlength: 1 bars\nlayers:\n"+
		"  - {name: Ride, player: Kit, instrument: drum set, groups: 4+4, pitches: ride, touches: drag plain}\n"+
		"  - {name: Snare, player: Kit, instrument: drum set, groups: 4+4, pitches: snare, touches: flam}\n")
	for b := range s.Parts[0].Bars() {
		first := b.Measure.Voices[0].Events[0].(*sheet.Note)
		assert.Len(t, first.Graces, 2)
		assert.Len(t, first.Graces[0].Heads, 1)
		assert.Len(t, first.Graces[1].Heads, 2)
		assert.Len(t, b.Measure.Voices[0].Events[1].(*sheet.Note).Graces, 1)
	}
}
