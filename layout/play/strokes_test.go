package play

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// rolled is two bars of 5/8 of a chord, 3+2, with a touch for each attack; a tick
// is a 32nd, so an eighth is 4.
func rolled(t *testing.T, touches ...score.Touch) []Event {
	s := lock()
	s.Layers[0].Touches = touches
	s.Layers[0].Series = [][]score.Chord{{{{Step: 'G', Octave: 4}, {Step: 'C', Octave: 4}}}}
	p := &score.Piece{Title: "Sluice", Grid: 32, Sections: []*score.Section{s}}
	s.Layers[0].Unit = 4
	require.Empty(t, p.Settle())
	return events(&Of(p, 0).Voices[0])
}

// Three eighths are twelve 32nds, of which the first is the attack; two plain
// eighths follow. Of a staccato roll half is struck: six.
func TestARollIsStruckIn32nds(t *testing.T) {
	all := rolled(t, score.Roll, score.Plain)
	require.Len(t, all, 2*(12+1))
	for k, e := range all[:12] {
		want := Event{At: beat.Time(k), Length: 1, Keys: []int{67, 60}, Velocity: 81, Inner: k > 0}
		if k == 0 {
			want.Lasts = 12
		}
		assert.Equal(t, want, e)
	}
	assert.Equal(t, Event{At: 12, Length: 8, Keys: []int{67, 60}, Velocity: 81}, all[12])
	assert.Len(t, rolled(t, score.Roll|score.Staccato, score.Plain), 2*(6+1))
}

// A trill goes from G (67) to A (69) and back, over a held C (60).
func TestATrillTurnsAMajorSecond(t *testing.T) {
	all := rolled(t, score.Plain, score.Trill)
	assert.Equal(t, Event{At: 12, Length: 8, Keys: []int{60}, Velocity: 81, Inner: true}, all[1])
	var keys []int
	for _, e := range all[2:10] {
		require.Len(t, e.Keys, 1)
		keys = append(keys, e.Keys[0])
	}
	assert.Equal(t, []int{67, 69, 67, 69, 67, 69, 67, 69}, keys)
	assert.Equal(t, beat.Time(8), all[2].Lasts)
}

// A drum has no second above: its trill is a roll. The last stroke is what is left:
// a triplet eighth, 8 ticks of 96, has strokes of 3, 3 and 2.
func TestTheLastStrokeIsWhatIsLeft(t *testing.T) {
	s := lock()
	drum, _ := instrument.Find("snare drum")
	l := s.Layers[0]
	l.Instrument, l.Series, l.Touches, l.Unit = drum, nil, []score.Touch{score.Trill}, 8
	l.Pulse = beat.Pulse{Base: beat.Of(1, 8), Actual: 3, Normal: 2}
	l.Patterns = []score.Pattern{{Groups: []score.Item{{Size: 1}}}}
	p := &score.Piece{Title: "Sluice", Grid: 96, Sections: []*score.Section{s}}
	require.Empty(t, p.Settle())
	var lengths []beat.Time
	for _, e := range events(&Of(p, 0).Voices[0])[:6] {
		lengths = append(lengths, e.Length)
		assert.Equal(t, []int{38}, e.Keys, "acoustic snare of the General MIDI drum map")
	}
	assert.Equal(t, []beat.Time{3, 3, 2, 3, 3, 2}, lengths)
}

// claves plays 4+4 eighths in 4/4, two bars.
func claves(t *testing.T, countIn int, touches ...score.Touch) (*Performance, []Event) {
	s := lock()
	ins, _ := instrument.Find("claves")
	l := s.Layers[0]
	l.Instrument, l.Series, l.Touches, l.Unit = ins, nil, touches, 4
	l.Patterns = []score.Pattern{{Groups: []score.Item{{Size: 4}, {Size: 4}}}}
	s.Meter = score.Meter{score.PlainSignature(4, 4)}
	p := &score.Piece{Title: "Sluice", Grid: 32, Sections: []*score.Section{s}}
	require.Empty(t, p.Settle())
	f := Of(p, countIn)
	return f, events(&f.Voices[0])
}

// flam plain: the first of each bar is led in to. A whole note is 64 ticks, twice the
// 32 of the piece: a 32nd is 2. What leads in ends the sound before it. Nothing
// comes before the first bar; in a count-in there is room. Claves are key 75 of the
// General MIDI drum map.
func TestAFlamIsA32ndBefore(t *testing.T) {
	f, all := claves(t, 0, score.Flam, score.Plain)
	assert.Equal(t, beat.Grid(64), f.Grid)
	key := []int{75}
	assert.Equal(t, []Event{
		{At: 0, Length: 32, Keys: key, Drums: true, Velocity: 81},
		{At: 32, Length: 30, Keys: key, Drums: true, Velocity: 81},
		{At: 62, Length: 2, Keys: key, Drums: true, Velocity: 81, Inner: true},
		{At: 64, Length: 32, Keys: key, Drums: true, Velocity: 81},
		{At: 96, Length: 32, Keys: key, Drums: true, Velocity: 81},
	}, all)
	_, all = claves(t, 1, score.Flam|score.Accented, score.Plain)
	require.Len(t, all, 6)
	assert.Equal(t, Event{At: 62, Length: 2, Keys: key, Drums: true, Velocity: 81, Inner: true}, all[0])
	assert.Equal(t, 90, all[1].Velocity)
}

// At most half of the gap: before a drag on every 16th there is a 32nd for two notes,
// a 64th each. The grid is four times the piece's 32, so a 16th is 8 and a 64th 2.
func TestGraceNotesTakeHalfTheGapAtMost(t *testing.T) {
	s := lock()
	l := s.Layers[0]
	l.Pulse, l.Unit, l.Touches = beat.Plain(beat.Of(1, 16)), 2, []score.Touch{score.Drag}
	l.Patterns = []score.Pattern{{Groups: []score.Item{{Size: 1}}}}
	p := &score.Piece{Title: "Sluice", Grid: 32, Sections: []*score.Section{s}}
	require.Empty(t, p.Settle())
	f := Of(p, 0)
	require.Equal(t, beat.Grid(128), f.Grid)
	all := events(&f.Voices[0])[:7]
	var at, lengths []beat.Time
	for _, e := range all {
		at, lengths = append(at, e.At), append(lengths, e.Length)
	}
	assert.Equal(t, []beat.Time{0, 4, 6, 8, 12, 14, 16}, at)
	assert.Equal(t, []beat.Time{4, 2, 2, 4, 2, 2, 4}, lengths)
}

// A roll stops where the next attack is led in to: 3 eighths are 12 32nds, less one.
func TestARollStopsForGraceNotes(t *testing.T) {
	all := rolled(t, score.Roll, score.Flam)
	strokes := 0
	for _, e := range all[:12] {
		if e.At < 22 && e.Length == 2 {
			strokes++
		}
	}
	assert.Equal(t, 11, strokes)
	assert.Equal(t, Event{At: 22, Length: 2, Keys: []int{67, 60}, Velocity: 81, Inner: true}, all[11])
	assert.Equal(t, beat.Time(24), all[12].At)
}
