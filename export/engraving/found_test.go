package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/score/spec/spectest"
)

// What random pieces once showed, made small: each drawing keeps the invariants.
func TestFaultsThatWereFound(t *testing.T) {
	for name, c := range map[string]struct {
		text    string
		options layout.Options
		width   int
		part    bool
	}{
		"a bracket ends in a bar that is a sign": {text: `title: A
meter: 3/2
pulse: 1/8 in 3:2
length: 8 bars
layers:
  - {name: Pole, written: repeats, box: .xxxxxx=., groups: 4+5, process: {rotate: {by: 1}}}
plan:
  - {at: bar 2, hairpin: crescendo, to: bar 4}
  - {at: bar 4, key: Eb major}
`},
		"a bracket's number at the line's end": {text: `title: A
meter: 2+2+3+2+2/16
length: 3 realignments
key: Bb major
realign: [Clarinet, Timpani]
layers:
  - name: Clarinet
    instrument: clarinet
    tails: tied
    groups: 2+4+3+3
    strike: all
    pitches: Bb4 F#4 G#4
  - name: Timpani
    instrument: timpani
    short: Kp.
    pan: 60
    groups: 1+4+2
    pitches: G2 D2 D2
  - name: Marimba
    instrument: marimba
    clef: treble
    tails: tied
    groups: 1x2
    touches: tenuto
    lyrics: Ha-rken now =
    pitches: Bb3 B4 E5
    enters: cycle 1
    leaves: realignment 3
  - name: "Horn & Gate"
    instrument: horn
    pan: 0
    written: slashes
    pulse: 1/16 in 7:4
    groups: 3x1
    pitches: Eb4 G4 F3
    offset: -1
    enters: cycle 1
    leaves: realignment 3
`, options: layout.Options{Strict: true, BeamOverBarlines: true, Concert: true}, width: 6000},
		"a slur over grace notes": {text: `title: A
meter: 6/8
pulse: 1/8
length: 9 bars
realign: [Vibraphone, Flute, Guitar, Low string, barline]
layers:
  - name: Vibraphone
    instrument: vibraphone
    short: Kp.
    slurs: 2+1
    tails: tied
    pulse: 1/16 in 5:4
    groups: 2+4+3
    lyrics: Ha-rken now =
    pitches: A4/Eb5 A3+E4 A3+E4 F#4 A3+E4 A3+E4 F#4
    restart: cycle
    process: {shift: {by: 1}}
    except:
      - {cycle: 2, pitches: F#4}
      - {bar: 4, groups: 3}
  - name: Flute
    instrument: flute
    short: "L & R"
    slurs: 3
    tails: tied
    pan: -5
    groups: 4+3+2+1
    pitches: D5 G5 B5 E5 B5
    restart: realignment
    process: {shift: {by: -1}, until: never}
  - name: Guitar
    instrument: guitar
    clef: treble
    slurs: 1+2
    tails: tied
    pulse: 1/16 in 7:4
    groups: 1+3+1
    strike: short
    syllables: {2: ta ka, 3: ta ki ta}
    pitches: G3/B3+E4 B3
    restart: cycle
  - name: Low string
    instrument: double bass
    dynamic: p
    groups: 3+4+1+1
    pitches: {realignment: [E1 D2 G2 A1 G2 D2 D2/A1 D2 E1, A1 E1 E1 E1 G2/D2 E1/D2]}
    process:
      - {grow: {group: 1, by: 1, from: none, stop-when-empty: yes, after: 3}, until: never}
      - {rotate: {by: 1}, until: never}
    except:
      - {cycle: 2, rest: yes}
      - {bar: 3, groups: 2+1}
`, options: layout.Options{BeamOverBarlines: true, Marks: layout.MarkCycles}, width: 16000},
		"a slur at a trill": {text: `title: A
length: 12 bars
layers:
  - {name: Clarinet, instrument: clarinet, slurs: 1+2, tails: tied, pulse: 1/8 in 3:2, box: ...xxxxxx, groups: 4+5,
     touches: tremolo plain trill+accent, pitches: F#4 D5 Bb4, process: {shift: {by: -1}}}
`, options: layout.Options{Spelling: layout.SpellGroup}, width: 6000, part: true},
		"a roll of slashes": {text: `title: A
meter: 2+2+3/8
length: 2 realignments
realign: [Congas, Feet]
layers:
  - name: Congas
    instrument: congas
    short: Kp.
    written: rhythm
    groups: 2+1+3+4
    strike: short
    touches: drag+accent roll
    pitches: [low high slap, low]
  - name: Feet
    instrument: drum set
    player: Drummer
    short: "L & R"
    dynamic: f
    box: x...x...x..
    pitches: pedal hi-hat kick pedal hi-hat kick pedal hi-hat kick kick
  - name: Hands
    instrument: drum set
    player: Drummer
    short: X
    line: rest 2, rest dotted quarter
`, options: layout.Options{DoubleDots: true, BeamOverBarlines: true, Breaks: layout.BreakRealign}, part: true},
	} {
		p := spectest.Read(t, c.text)
		s, problems := layout.Lay(p, c.options)
		if c.part {
			s, problems = layout.LayPart(p, c.options, 0)
		}
		require.NoError(t, problems.Err(), name)
		assert.Empty(t, faults(s, Options{Width: c.width}), name)
	}
}
