package found

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// written is a part of sounds in eighths: when each begins and how long its sign is.
func written(name string, on heard.Instrument, tone heard.Tone, sounds [][2]int64) *heard.Part {
	p := &heard.Part{Name: name, Instruments: []heard.Instrument{on}}
	for _, s := range sounds {
		p.Attacks = append(p.Attacks, heard.Attack{Onset: beat.Of(s[0], 8), Length: beat.Of(s[1], 8), Tones: []heard.Tone{tone}, Voice: "1"})
	}
	return p
}

// foundIn returns the first description of the part's only line.
func foundIn(t *testing.T, p *heard.Part) string {
	t.Helper()
	m, wrong := Selection{}.Read(&heard.Score{}, []*heard.Part{p})
	require.Empty(t, wrong)
	require.Len(t, m.Lines, 1)
	if ranked := m.Lines[0].Ranked; ranked != nil { // it was searched to choose the list
		return ranked[0].String()
	}
	return find.Search(m.Lines[0].List, find.Options{})[0].String()
}

var (
	snare     = heard.Instrument{Sound: "drum.snare-drum"}
	xylophone = heard.Instrument{Sound: "pitched-percussion.xylophone"}
)

// 5+4 eighths through nine bars of 4/4, of each sound the first sign: a half where it
// begins on a strong beat, else what is left to the middle of the bar or to its end.
func TestTailsOfADrumAreNoRests(t *testing.T) {
	var sounds [][2]int64
	for i, sign := range []int64{4, 3, 3, 2, 2, 1, 1, 4, 4, 3, 3, 4, 2, 1, 1, 4} {
		sounds = append(sounds, [2]int64{int64(i/2*9 + i%2*5), sign})
	}
	assert.Equal(t, "5+4 (9 pulses), 8 times", foundIn(t, written("Gate", snare, drum("", 38), sounds)))
	assert.Equal(t, "5+4 (9 pulses), 8 times", foundIn(t, written("Gate", xylophone, pitch('C', 6), sounds)))
	assert.Equal(t, "5+4 (9 pulses), 8 times", foundIn(t, written("Xylophone", heard.Instrument{}, pitch('C', 6), sounds)))
	assert.Contains(t, foundIn(t, written("Flute", heard.Instrument{}, pitch('C', 6), sounds)), "no pattern", "a flute rests where rests stand")
}

// x.xx=.x, of seven pulses in bars of eight: its sound of two pulses is cut where it
// begins with the last of a bar. The silences stay.
func TestRestsOfADrumStaySilences(t *testing.T) {
	var sounds [][2]int64
	for cycle := range int64(14) {
		for _, s := range [][2]int64{{0, 1}, {2, 1}, {3, 2}, {6, 1}} {
			at := 7*cycle + s[0]
			sounds = append(sounds, [2]int64{at, min(s[1], 8-at%8)})
		}
	}
	assert.Equal(t, "1+rest 1+1+2+rest 1+1 (7 pulses), 14 times", foundIn(t, written("Gate", snare, drum("", 38), sounds)))
}

// x.xx=.x. moved a pulse ahead after every two bars: distances between the same others
// come with and without a tail, so what is left are the onsets.
func TestAShiftOfADryLineIsFoundByItsOnsets(t *testing.T) {
	var sounds [][2]int64
	for bar := range int64(20) {
		for at := range int64(8) {
			if length := []int64{1, 0, 1, 2, 0, 0, 1, 0}[(at+bar/2)%8]; length > 0 {
				sounds = append(sounds, [2]int64{8*bar + at, min(length, 8-at)})
			}
		}
	}
	assert.Equal(t, "2+1+3+2 (8 pulses), 20 times, moved 1 pulse ahead inside the cycle after each 2 times, each struck for one pulse",
		foundIn(t, written("Gate", xylophone, pitch('C', 6), sounds)))
}

// A flutist who also has a triangle: what the flute plays is as long as it is written.
func TestOnlyDryInstrumentsOfAVoiceHaveTails(t *testing.T) {
	part := &heard.Part{Instruments: []heard.Instrument{{Name: "Flute"}, {Name: "Triangle"}}}
	for on, dry := range map[int]bool{1: false, 2: true} {
		v := voice{name: "Reeds, voice 2", player: "Reeds", attacks: []heard.Attack{{Tones: []heard.Tone{{Step: 'C', Octave: 5}}, On: on}}}
		list, err := find.FromAttacks([]heard.Attack{{Length: beat.Of(1, 8), Tones: v.attacks[0].Tones}}, beat.Span{}, beat.Of(1, 8))
		require.NoError(t, err)
		assert.Equal(t, dry, v.isDry(part, list), part.Instruments[on-1].Name)
	}
}

// A melody in a part called Snare Drum is as long as it is written.
func TestAPartWithPitchesIsNoDrum(t *testing.T) {
	list, err := find.FromAttacks([]heard.Attack{{Length: beat.Of(1, 8), Tones: []heard.Tone{{Step: 'B', Octave: 4}}}}, beat.Span{}, beat.Of(1, 4))
	require.NoError(t, err)
	assert.False(t, voice{name: "Snare Drum"}.isDry(&heard.Part{}, list))
	assert.True(t, voice{name: "Xylophone"}.isDry(&heard.Part{}, list))
}
