package spec

import (
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// parseTone reads one pitch or sound from the front of the words and says how
// many of them it used: the names of sounds may have blanks in them.
func parseTone(all []word, on *instrument.Instrument) (score.Tone, int, *slip) {
	if !on.IsUnpitched() {
		tone, bad := parsePitch(all[0].text)
		if bad != nil {
			bad.at += all[0].at
		}
		return tone, 1, bad
	}
	for used := min(3, len(all)); used > 0; used-- {
		var parts []string
		for _, w := range all[:used] {
			parts = append(parts, w.text)
		}
		if k, ok := on.Drum(strings.Join(parts, " ")); ok {
			return score.Tone{Drum: uint8(k)}, used, nil
		}
	}
	used, bad := unknownSound(all, on)
	return score.Tone{}, used, bad
}

// usualSounds are what many call a sound of the drum set; in long names the
// first words come first.
func usualSounds() map[string]string {
	return map[string]string{
		"bd": "kick", "bass drum": "kick", "bassdrum": "kick", "sd": "snare", "snare drum": "snare", "sn": "snare",
		"hh": "closed hi-hat", "hi-hat": "closed hi-hat", "hihat": "closed hi-hat", "hat": "closed hi-hat", "oh": "open hi-hat",
		"rim": "side stick", "rimshot": "side stick", "cross stick": "side stick", "ride cymbal": "ride", "crash cymbal": "crash",
		"tom": "high tom", "tom 1": "high tom", "tom 2": "mid tom", "tom 3": "floor tom", "low tom": "floor tom",
	}
}

// unknownSound reports a sound that the instrument lacks and says how many of
// the words it took for it.
func unknownSound(all []word, on *instrument.Instrument) (int, *slip) {
	for used := min(2, len(all)); used > 0; used-- {
		name := all[0].text
		if used == 2 {
			name += " " + all[1].text
		}
		meant := usualSounds()[strings.ToLower(name)]
		if _, ok := on.Drum(meant); ok {
			return used, wrong(all[0].at, "write "+meant, "%s has no sound %q", on.Name, shortened(name))
		}
	}
	w := all[0]
	if plain := strings.Trim(w.text, "\"'"); plain != w.text {
		return 1, wrong(w.at, "write the names of sounds without quotes", "%s has no sound %q", on.Name, shortened(w.text))
	}
	return 1, unlikeAny(w, on)
}

func unlikeAny(w word, on *instrument.Instrument) *slip {
	names := make([]string, len(on.Drums))
	for i, d := range on.Drums {
		names[i] = d.Name
	}
	hint := "its sounds are " + strings.Join(names, ", ")
	if len(names) == 1 {
		hint = "leave pitches out; its only sound is " + names[0]
	}
	if isPitch(w.text) {
		return wrong(w.at, hint, "%s has no pitches such as %s", on.Name, shortened(w.text))
	}
	if near := instrument.Nearest(w.text, names); len(near) > 0 {
		hint = "did you mean " + beat.Listed(near, "or") + "?"
	}
	return wrong(w.at, hint, "%s has no sound %q", on.Name, shortened(w.text))
}
