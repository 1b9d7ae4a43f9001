package grammar

import (
	"cmp"
	"strings"

	"tieover/score"
	"tieover/score/instrument"
)

// parseTone reads one pitch or sound from the front of the words and says how
// many of them it used: the names of sounds may have blanks in them.
func parseTone(all []Word, on *instrument.Instrument) (score.Tone, int, *Slip) {
	if !on.IsUnpitched() {
		tone, bad := parsePitch(all[0].Text)
		return tone, 1, bad.move(all[0].At)
	}
	for used := min(3, len(all)); used > 0; used-- {
		var parts []string
		for _, w := range all[:used] {
			parts = append(parts, w.Text)
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
func unknownSound(all []Word, on *instrument.Instrument) (int, *Slip) {
	for used := min(2, len(all)); used > 0; used-- {
		name := all[0].Text
		if used == 2 {
			name += " " + all[1].Text
		}
		meant := usualSounds()[strings.ToLower(name)]
		if _, ok := on.Drum(meant); ok {
			return used, Wrong(all[0].At, "write "+meant, "%s has no sound %q", on.Name, Shortened(name))
		}
	}
	w := all[0]
	if plain := strings.Trim(w.Text, "\"'"); plain != w.Text {
		return 1, Wrong(w.At, "write the names of sounds without quotes", "%s has no sound %q", on.Name, Shortened(w.Text))
	}
	return 1, unlikeAny(w, on)
}

func unlikeAny(w Word, on *instrument.Instrument) *Slip {
	names := make([]string, len(on.Drums))
	for i, d := range on.Drums {
		names[i] = d.Name
	}
	hint := "its sounds are " + strings.Join(names, ", ")
	if len(names) == 1 {
		hint = "leave pitches out; its only sound is " + names[0]
	}
	if isPitch(w.Text) {
		return Wrong(w.At, hint, "%s has no pitches such as %s", on.Name, Shortened(w.Text))
	}
	return Wrong(w.At, cmp.Or(DidYouMean(w.Text, names), hint), "%s has no sound %q", on.Name, Shortened(w.Text))
}
