package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
)

// Two layers of the hands are one voice, the feet another (worked by hand: hi-hat
// 0 2 4 6, ride 0 3 6, kick 0 5).
func TestHandsAreOneVoice(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 2 bars
layers:
  - {name: Hat, player: Kit, instrument: drum set, groups: 2+2+2+2, pitches: closed hi-hat}
  - {name: Ride, player: Kit, instrument: drum set, groups: 3+3+2, pitches: ride}
  - {name: Kick, player: Kit, instrument: drum set, groups: 5+3, pitches: kick}
`)
	part := &s.Parts[0]
	require.NoError(t, sheet.Check(s, part))
	assert.Equal(t, []string{"Hat", "Ride", "Kick"}, part.Layers)
	b := firstBar(part)
	require.Len(t, b.Measure.Voices, 2)
	up, down := &b.Measure.Voices[0], &b.Measure.Voices[1]
	assert.Equal(t, "q (e e) q q", sheet.Rhythm(up), "the eighths are beamed")
	assert.Equal(t, "h re q.", sheet.Rhythm(down))
	assert.Equal(t, sheet.StemUp, up.Stem)
	assert.Equal(t, sheet.StemDown, down.Stem)
	var heads []int
	var who [][]string
	for _, e := range up.Events {
		n := e.(*sheet.Note)
		heads, who = append(heads, len(n.Heads)), append(who, n.Layers)
	}
	assert.Equal(t, []int{2, 1, 1, 1, 2}, heads)
	assert.Equal(t, [][]string{{"Hat", "Ride"}, {"Hat"}, {"Ride"}, {"Hat"}, {"Hat", "Ride"}}, who)
	var groupings []string
	for b := range part.Bars() {
		for _, m := range b.Marks {
			if (m.Kind == sheet.Grouping || m.Kind == sheet.Words) && m.Voice == 0 {
				groupings = append(groupings, m.Text)
			}
		}
	}
	assert.Equal(t, []string{"2+2+2+2", "Ride 3+3+2"}, groupings, "the second layer's once")
}

// The same sound of two layers has one head; a sign lasts to the side's next
// attack and at most as long as its longest sound (by hand: 0 3 6 and 0 5; an
// eighth each, so that rests stand between).
func TestOneHeadForOneSound(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 1 bars
layers:
  - {name: One, player: Kit, instrument: drum set, groups: 3+3+2, strike: short, pitches: snare}
  - {name: Two, player: Kit, instrument: drum set, groups: 5+3, pitches: snare}
`)
	m := firstBar(&s.Parts[0]).Measure
	require.Len(t, m.Voices, 1)
	assert.Equal(t, "q. e re (e e) re", sheet.Rhythm(&m.Voices[0]), "the first lasts as the second layer's, to 3")
	for _, e := range m.Voices[0].Events {
		if n, ok := e.(*sheet.Note); ok {
			assert.Len(t, n.Heads, 1)
		}
	}
}

// Triplets against sixteenths keep voices of their own, and so does a pitched
// staff with two lines.
func TestOtherLayersKeepTheirVoices(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 1 bars
layers:
  - {name: One, player: Kit, instrument: drum set, groups: 3+3+2, pulse: 1/16, pitches: snare}
  - {name: Two, player: Kit, instrument: drum set, groups: 3+3, pulse: 1/8 in 3:2, pitches: ride}
  - {name: High, player: Bars, instrument: marimba, groups: 4+4, pitches: C5}
  - {name: Low, player: Bars, instrument: marimba, groups: 5+3, pitches: C4}
`)
	assert.Len(t, firstBar(&s.Parts[0]).Measure.Voices, 2)
	assert.Len(t, firstBar(&s.Parts[1]).Measure.Voices, 2)
}

// What is struck together has the accents, dots and dashes of all who strike it, and
// parentheses around the heads of ghost notes alone; what two strike is a ghost note
// only where both play it faintly.
func TestTouchesOfSharedVoices(t *testing.T) {
	for name, c := range map[string]struct {
		hat, snare string
		is         []string
	}{
		"ghost under an accent": {"accent plain", "ghost plain ghost tenuto", []string{"(snare) hat >", "snare hat", "(snare) hat >", "snare hat -"}},
		"a faint hat":           {"ghost", "tenuto", []string{"snare (hat) -", "snare (hat) -", "snare (hat) -", "snare (hat) -"}},
		"both":                  {"ghost staccato", "accent+ghost marcato", []string{"(snare) (hat) >", "snare hat ^'", "(snare) (hat) >", "snare hat ^'"}},
	} {
		s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 1 bars
layers:
  - {name: Hat, player: Kit, instrument: drum set, groups: 2+2+2+2, pitches: closed hi-hat, touches: `+c.hat+`}
  - {name: Snare, player: Kit, instrument: drum set, groups: 2+2+2+2, pitches: snare, touches: `+c.snare+`}
`)
		part := &s.Parts[0]
		require.NoError(t, sheet.Check(s, part))
		var got []string
		for _, e := range firstBar(part).Measure.Voices[0].Events {
			n := e.(*sheet.Note)
			var words []string
			for _, h := range n.Heads {
				word := map[bool]string{true: "hat", false: "snare"}[part.Instrument.Drums[h.Drum-1].Name == "closed hi-hat"]
				if h.Ghost {
					word = "(" + word + ")"
				}
				words = append(words, word)
			}
			signs := ""
			for _, one := range []struct {
				touch score.Touch
				sign  string
			}{{score.Accented, ">"}, {score.Marcato, "^"}, {score.Staccato, "'"}, {score.Tenuto, "-"}, {score.Ghost, "?"}} {
				if n.Touch.Has(one.touch) {
					signs += one.sign
				}
			}
			if signs != "" {
				words = append(words, signs)
			}
			got = append(got, strings.Join(words, " "))
		}
		assert.Equal(t, c.is, got, name)
	}
}

// A sound that two strike, one of them faintly, is no ghost note.
func TestAGhostUnderAFullStroke(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 1 bars
layers:
  - {name: One, player: Kit, instrument: drum set, groups: 4+4, pitches: snare, touches: ghost}
  - {name: Two, player: Kit, instrument: drum set, groups: 8, pitches: snare}
`)
	var ghosts []bool
	for _, e := range firstBar(&s.Parts[0]).Measure.Voices[0].Events {
		ghosts = append(ghosts, e.(*sheet.Note).Heads[0].Ghost)
	}
	assert.Equal(t, []bool{false, true}, ghosts)
}
