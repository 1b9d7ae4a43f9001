package verify

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// Bar 2 is slashes, bar 3 a rhythm: the one is not compared, of the other the onsets are. Where
// the way of writing changes, a sound over the barline lasts as long as it likes.
func TestSlashesAndRhythmsAreComparedInPart(t *testing.T) {
	p := piece(t, strings.Replace(barge, "3+5", "3+6", 1)+"plan:\n  - {at: bar 2, written: slashes, to: bar 3}\n  - {at: bar 3, written: rhythm, to: bar 4}\n")
	// 0 3 9 12 18 21 27 30: C5 3 and G5 6 by turns; the G5 at 3 rings into bar 2, that at 21 into bar 4
	slashed := func(notes string, from, to int64) *heard.Score {
		s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", notes)}}
		for i := range s.Parts[0].Attacks {
			a := &s.Parts[0].Attacks[i]
			a.Slash = a.Onset.Cmp(beat.Of(from, 8)) >= 0 && a.Onset.Cmp(beat.Of(to, 8)) < 0
		}
		return s
	}
	const whole = "0 3 C5, 3 5 G5, 8 2 B4, 10 2 B4, 12 2 B4, 14 2 B4, 18 3 B4, 21 3 B4, 27 3 C5, 30 2 G5"
	r, err := Compare(p, slashed(whole, 8, 24), Options{})
	require.NoError(t, err)
	assert.Empty(t, r.Differences)
	assert.Equal(t, []string{"Barge bar 2 is slashes and not compared", "Barge bar 3 is a rhythm, of which only the onsets are compared"}, r.Remarks)
	assert.Equal(t, 6, r.Notes, "the two of bar 2 are not wanted")

	assert.Equal(t, []string{"moved bar 3 beat 2½: Barge has a note 1/8 late, spec says bar 3 beat 2"},
		told(t, p, slashed(strings.Replace(whole, "18 3", "19 2", 1), 8, 24), Options{}))
	assert.Equal(t, []string{"pitch bar 3 beat 2: Barge has B4, spec says a note", "pitch bar 3 beat 3½: Barge has B4, spec says a note"},
		told(t, p, slashed(whole, 8, 18), Options{}), "a note with a pitch is no rhythm")
	assert.Equal(t, []string{"missing bar 4 beat 4: Barge lacks G5"},
		told(t, p, slashed(strings.Replace(whole, ", 30 2 G5", "", 1), 8, 24), Options{}))
}

// Two layers of one drummer strike the snare together: the part has it once, and how long it
// lasts is up to what comes next.
func TestADrummersHandsShareASound(t *testing.T) {
	p := piece(t, `title: Lock
meter: 4/4
length: 4 bars
layers:
  - {name: Left, player: Kit, instrument: drums, groups: 4+4, pitches: snare}
  - {name: Right, player: Kit, instrument: drums, groups: 8, pitches: snare}
`)
	drum := func(notes string) *heard.Score {
		s := &heard.Score{Parts: []*heard.Part{part(t, "Kit", notes)}}
		for i := range s.Parts[0].Attacks {
			s.Parts[0].Attacks[i].Tones = []heard.Tone{{Name: "snare"}}
		}
		for k := range int64(4) {
			s.Marks = append(s.Marks, heard.Mark{At: beat.Of(k, 1), Text: "A" + string(rune('0'+k))})
		}
		return s
	}
	const struck = "0 2, 4 4, 8 4, 12 4, 16 4, 20 1, 24 4, 28 4"
	assert.Empty(t, told(t, p, drum(struck), Options{}))
	assert.Equal(t, []string{"missing bar 2 beat 3: Left lacks snare"}, told(t, p, drum(strings.Replace(struck, "12 4, ", "", 1)), Options{}))
}

// A drum is known by its key, else its name, else its place on the staff, else as the only one;
// a key that is another's is not made up for by the name.
func TestADrumIsKnownByWhatTheFileSays(t *testing.T) {
	kit := []instrument.Drum{{Key: 38, Name: "snare", Label: "Snare", Step: 'C', Octave: 5}, {Key: 36, Name: "kick", Label: "Bass drum", Step: 'F', Octave: 4}}
	for want, tone := range map[string]heard.Tone{
		"drum 36":      {MIDI: 37, Name: "snare"},
		"drum 38":      {Name: "Snare", Shown: "F4"},
		"x on F5":      {Shown: "F5"},
		"key 40":       {MIDI: 41},
		"60":           {Step: 'C', Octave: 4},
		"C4 between":   {Name: "C4 between"},
		"x":            {},
		"drum 36 by F": {Shown: "F4"},
	} {
		sound, _ := sounds(tone, kit)
		assert.Equal(t, strings.TrimSuffix(want, " by F"), sound)
	}
	sound, name := sounds(heard.Tone{}, kit[:1])
	assert.Equal(t, []string{"drum 38", "snare"}, []string{sound, name}, "there is only one")
	sound, _ = sounds(heard.Tone{Name: "rim"}, kit[:1])
	assert.Equal(t, "rim", sound)
}

// A note that ends early because another stands there, or late because one is missing, is no
// difference of its own; one that is short for no reason is.
func TestALengthThatFollowsIsNotTold(t *testing.T) {
	p := piece(t, barge)
	of := func(old, now string) []string {
		return told(t, p, &heard.Score{Parts: []*heard.Part{part(t, "Barge", strings.Replace(bargePlayed, old, now, 1))}}, Options{})
	}
	assert.Equal(t, []string{"missing bar 2 beat 1: Barge lacks C5"}, of("3 5 G5, 8 3 C5", "3 8 G5"), "it fills the gap")
	assert.Equal(t, []string{"extra bar 1 beat 4: Barge has an extra D5"}, of("3 5 G5", "3 3 G5, 6 2 D5"))
	assert.Equal(t, []string{"length bar 1 beat 2½: Barge holds G5 longer: for 3/4, spec says 5/8"}, of("3 5 G5", "3 6 G5"))
	assert.Equal(t, []string{"length bar 1 beat 2½: Barge holds G5 shorter: for 1/2, spec says 5/8"}, of("3 5 G5", "3 4 G5"))
}

// How far off: by words where there are any.
func TestIntervalsAreSaid(t *testing.T) {
	for semitones, want := range map[int]string{1: "a semitone too high", -1: "a semitone too low", 12: "an octave too high", -24: "2 octaves too low", 7: "7 semitones too high"} {
		assert.Equal(t, want, tooHigh(semitones))
	}
}

// Each kind has a name for programs, none twice.
func TestKindsAreNamed(t *testing.T) {
	names := map[string]bool{}
	for k := Missing; k <= RepeatMissing; k++ {
		names[k.String()] = true
	}
	assert.Len(t, names, 19)
}
