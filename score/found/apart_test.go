package found

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// drummed is one voice of a drummer: each sound is struck where its groups of eighths
// begin, again and again until a moment, and every stroke lasts until the next of any
// sound, as a voice without ties has it.
func drummed(until int64, sounds map[string][]int64) voice {
	at := map[int64][]heard.Tone{}
	for name, groups := range sounds {
		place := int64(0)
		for i := 0; place < until; i++ {
			at[place] = append(at[place], heard.Tone{Name: name})
			place += groups[i%len(groups)]
		}
	}
	v := voice{name: "Kit"}
	for now := range until {
		tones := at[now]
		if n := len(v.attacks); len(tones) == 0 {
			v.attacks[n-1].Length = v.attacks[n-1].Length.Add(beat.Of(1, 8))
			continue
		}
		v.attacks = append(v.attacks, heard.Attack{Onset: beat.Of(now, 8), Length: beat.Of(1, 8), Tones: tones})
	}
	return v
}

// Five eighths against seven come together after 35, which are not heard twice: only by
// itself each sound is a loop.
func TestDrummerIsTakenApart(t *testing.T) {
	to := beat.Of(70, 8)
	lines := drummed(64, map[string][]int64{"closed hi-hat": {3, 2}, "snare": {4, 3}}).splitSounds(beat.Span{}, beat.Of(64, 8))
	said := map[string]string{}
	for _, line := range lines {
		assert.Equal(t, "Kit", line.player)
		list, err := find.FromAttacks(line.attacks, beat.Span{}, to)
		assert.NoError(t, err)
		said[line.name] = find.Search(list, find.Options{})[0].String()
	}
	assert.Equal(t, map[string]string{
		"Kit, closed hi-hat": "3+2 (5 pulses), 12 times and 4 pulses of the next, last group cut to 1",
		"Kit, snare":         "4+3 (7 pulses), 9 times and 1 pulse of the next, last group cut to 1",
	}, said)
}

// Kick and snare by turns are one figure of a drummer, and so are the notes of a
// tune, and what nobody knows the sound of.
func TestOneFigureStaysTogether(t *testing.T) {
	kicks := drummed(60, map[string][]int64{"kick": {5}})
	for i := range kicks.attacks { // the snare three eighths after each kick
		kicks.attacks[i].Length = beat.Of(3, 8)
	}
	figure := voice{name: "Kit"}
	for _, a := range kicks.attacks {
		snare := heard.Attack{Onset: a.Onset.Add(a.Length), Length: beat.Of(2, 8), Tones: []heard.Tone{{Name: "snare"}}}
		figure.attacks = append(figure.attacks, a, snare)
	}
	tune, bare := drummed(64, map[string][]int64{"closed hi-hat": {3, 2}, "snare": {4, 3}}), drummed(64, map[string][]int64{"": {3, 2}})
	for i := range tune.attacks {
		tune.attacks[i].Tones = []heard.Tone{{Step: 'C', Octave: 4}, {Step: 'E', Octave: 4}}
	}
	for _, v := range []voice{figure, tune, bare} {
		if lines := v.splitSounds(beat.Span{}, beat.Of(64, 8)); assert.Len(t, lines, 1) {
			assert.Equal(t, v.attacks, lines[0].attacks)
		}
	}
}
