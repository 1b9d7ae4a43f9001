package heard

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
)

func TestToneNames(t *testing.T) {
	for want, tone := range map[string]Tone{
		"F#4": {Step: 'F', Alter: 1, Octave: 4}, "Bb3": {Step: 'B', Alter: -1, Octave: 3}, "C##5": {Step: 'C', Alter: 2, Octave: 5},
		"snare": {Name: "snare", MIDI: 39}, "key 60": {MIDI: 61}, "x on C5": {Shown: "C5"}, "x": {},
	} {
		assert.Equal(t, want, tone.String())
	}
}

func TestKeys(t *testing.T) { // middle C is 60; common practice
	key, ok := Tone{Step: 'C', Octave: 4}.Key()
	assert.True(t, ok)
	assert.Equal(t, 60, key)
	key, _ = Tone{Step: 'B', Alter: 1, Octave: 3}.Key()
	assert.Equal(t, 60, key)
	key, _ = Tone{MIDI: 39}.Key()
	assert.Equal(t, 38, key)
	_, ok = Tone{Name: "snare"}.Key()
	assert.False(t, ok)
}

// Bars of 4/4, 6/8 and 3+2/8, one after another; the last is played twice.
func TestWhere(t *testing.T) {
	p := Part{Bars: []Bar{
		{Number: "1", Pass: 1, Length: beat.Of(1, 1), Beats: Beats([]int{4}, 4)},
		{Number: "2", Pass: 1, Start: beat.Of(1, 1), Length: beat.Of(3, 4), Beats: Beats([]int{6}, 8)},
		{Number: "3", Pass: 1, Start: beat.Of(7, 4), Length: beat.Of(5, 8), Beats: Beats([]int{3, 2}, 8)},
		{Number: "3", Pass: 2, Start: beat.Of(19, 8), Length: beat.Of(5, 8), Beats: Beats([]int{3, 2}, 8)},
	}}
	for at, want := range map[beat.Span]string{
		beat.Of(0, 1):  "bar 1 beat 1",
		beat.Of(3, 8):  "bar 1 beat 2½",
		beat.Of(5, 16): "bar 1 beat 2 +1/16",
		beat.Of(11, 8): "bar 2 beat 2",      // 6/8 has two beats of a dotted quarter
		beat.Of(5, 4):  "bar 2 beat 1 +1/4", // two of its three eighths
		beat.Of(17, 8): "bar 3 beat 2",      // additive: one beat a summand
		beat.Of(9, 4):  "bar 3 beat 2½",
		beat.Of(19, 8): "bar 3 (time 2) beat 1",
		beat.Of(3, 1):  "the end (bar 3 (time 2) beat 3)",
		beat.Of(25, 8): "past the end (bar 3 (time 2) beat 3½)",
	} {
		assert.Equal(t, want, p.Where(at).String())
	}
}

func TestEndAndFind(t *testing.T) {
	p := &Part{ID: "P1", Name: "Barge", Short: "Bg.", Attacks: []Attack{{Onset: beat.Of(1, 2), Length: beat.Of(1, 1)}},
		Bars: []Bar{{Number: "1", Length: beat.Of(1, 1)}}}
	assert.Equal(t, beat.Of(3, 2), p.End(), "a sound goes on past the last bar")
	s := Score{Parts: []*Part{p}}
	for _, name := range []string{"Barge", "P1", "Bg."} {
		got, ok := s.Find(name)
		assert.True(t, ok)
		assert.Same(t, p, got)
	}
	_, ok := s.Find("")
	assert.False(t, ok)
}
