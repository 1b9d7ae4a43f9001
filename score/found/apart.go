package found

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Bounds of the sounds that a drummer's voice is split into, and the bits that this must
// save: fewer may be chance.
const (
	mostSounds = 8
	leastSaved = 8
)

// splitSounds returns the voice as one line for each of its sounds, if each has a loop and
// together they take fewer bits: the hands of a drummer, which share a voice. There the
// written length of a drum only leads to the next attack, so each sound is taken to last
// until its own next.
func (v voice) splitSounds(from, to beat.Span) []voice {
	player := cmp.Or(v.player, v.name)
	var lines []voice
	at := map[heard.Tone]int{}
	for _, a := range v.attacks {
		if a.Onset.Cmp(from) < 0 || a.Onset.Cmp(to) >= 0 {
			continue
		}
		for _, t := range a.Tones {
			if t.Step != 0 || t == (heard.Tone{}) {
				return []voice{v}
			}
			i, known := at[t]
			if !known {
				i = len(lines)
				at[t] = i
				lines = append(lines, voice{name: player + ", " + soundName(t), player: player, on: v.on})
			}
			if n := len(lines[i].attacks); n > 0 {
				last := &lines[i].attacks[n-1]
				last.Length = a.Onset.Sub(last.Onset)
			}
			own := a
			own.Tones, own.Length = []heard.Tone{t}, to.Sub(a.Onset)
			lines[i].attacks = append(lines[i].attacks, own)
		}
	}
	if len(lines) < 2 || len(lines) > mostSounds || findKit(findInstrument(player), slices.Collect(maps.Keys(at))) == nil {
		return []voice{v}
	}
	whole, err := v.read(from, to)
	if err != nil {
		return []voice{v}
	}
	saved := whole.best().Bits() - leastSaved
	for i := range lines {
		own, err := lines[i].read(from, to)
		if err != nil || own.best().Literal {
			return []voice{v}
		}
		if saved -= own.best().Bits(); saved < 0 {
			return []voice{v}
		}
	}
	return lines
}

func soundName(t heard.Tone) string {
	if t.Name == "" && t.Shown == "" {
		return fmt.Sprintf("key %d", int(t.MIDI)-1)
	}
	return cmp.Or(Tidy(t.Name), t.Shown)
}
