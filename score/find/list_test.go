package find

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Quarters of which one lasts a 17th of a whole note: no pulse counts that length. A second
// attack there has no pulse for its moment, either.
func TestWhichHasNoCommonPulse(t *testing.T) {
	quarter, odd := beat.Of(1, 4), beat.Of(1, 17)
	for want, attacks := range map[string][]heard.Attack{
		"the lengths of the attacks have no common pulse: 1/68 of a whole note would be needed": {{Length: odd}, {Onset: quarter, Length: quarter}},
		"the attacks have no common pulse: 1/68 of a whole note would be needed":                {{Length: odd}, {Onset: odd, Length: quarter}},
	} {
		for i := range attacks {
			attacks[i].Tones = []heard.Tone{{Step: 'C', Octave: 4}}
		}
		_, err := FromAttacks(attacks, beat.Span{}, beat.Of(1, 1))
		assert.EqualError(t, err, want)
		assert.ErrorIs(t, err, ErrNoPulse)
	}
}

// A note that begins with another is its chord's, the longer of two lengths counts, and a
// sound ends where the next begins or the list does.
func TestAttacksBecomeOneLine(t *testing.T) {
	tone := func(step byte) []heard.Tone { return []heard.Tone{{Step: step, Octave: 4}} }
	l, err := FromAttacks([]heard.Attack{
		{Length: beat.Of(1, 8), Tones: tone('C')},
		{Length: beat.Of(1, 2), Tones: tone('E'), Accent: true},
		{Onset: beat.Of(1, 4), Length: beat.Of(1, 8), Tones: tone('C')},
		{Onset: beat.Of(1, 2), Length: beat.Of(1, 1), Tones: tone('C')},
		{Onset: beat.Of(1, 1), Length: beat.Of(1, 8), Tones: tone('C')},
	}, beat.Span{}, beat.Of(3, 4))
	assert.NoError(t, err)
	assert.Equal(t, beat.Plain(beat.Of(1, 8)), l.Pulse)
	assert.Equal(t, []Hit{{At: 0, Length: 2, Accent: true}, {At: 2, Length: 1, Chord: 1}, {At: 4, Length: 2, Chord: 1}}, l.Hits)
	assert.Equal(t, [][]heard.Tone{{{Step: 'C', Octave: 4}, {Step: 'E', Octave: 4}}, {{Step: 'C', Octave: 4}}}, l.Chords)
	assert.EqualValues(t, 6, l.End)
	assert.True(t, l.Joined)
}
