package grammar

import (
	"strings"

	"tieover/score"
)

const keyForm = "write none, a key such as D dorian or Bb major, or a count such as 2 sharps"

// Key reads "none", "D dorian", "F# minor", "2 sharps", "1 flat".
func Key(text string) (score.Key, *Slip) {
	k, bad := tonality(text)
	if bad != nil && bad.Hint == keyForm {
		bad.Hint = keyHint(strings.TrimSpace(text))
	}
	return k, bad
}

func tonality(text string) (score.Key, *Slip) {
	fields := strings.Fields(text)
	if len(fields) == 1 && fields[0] == "none" {
		return score.Key{None: true}, nil
	}
	if len(fields) != 2 {
		return score.Key{}, Wrong(0, keyForm, "%q is no key", Shortened(text))
	}
	if n, ok := Whole(fields[0]); ok {
		switch sign := strings.TrimSuffix(fields[1], "s"); {
		case sign != "sharp" && sign != "flat":
			return score.Key{}, Wrong(0, keyForm, "%q is no key", Shortened(text))
		case n > 7:
			return score.Key{}, Wrong(0, "use at most 7", "a key cannot have %s %s", fields[0], fields[1])
		case sign == "flat":
			return score.Key{Fifths: -int(n)}, nil
		}
		return score.Key{Fifths: int(n)}, nil
	}
	// Fifths from C of the white keys, and of each mode against major.
	steps := map[byte]int{'F': -1, 'C': 0, 'G': 1, 'D': 2, 'A': 3, 'E': 4, 'B': 5}
	modes := map[string]int{"lydian": 1, "major": 0, "ionian": 0, "mixolydian": -1, "dorian": -2, "minor": -3, "aeolian": -3, "phrygian": -4, "locrian": -5}
	tonic, mode := fields[0], strings.ToLower(fields[1])
	fifths, known := steps[tonic[0]]
	shift, isMode := modes[mode]
	accidentals := strings.NewReplacer("♯", "#", "♭", "b").Replace(tonic[1:])
	switch accidentals {
	case "":
	case "#":
		fifths += 7
	case "b":
		fifths -= 7
	default:
		known = false
	}
	if !known || !isMode {
		return score.Key{}, Wrong(0, keyForm, "%q is no key", Shortened(text))
	}
	if fifths += shift; fifths < -7 || fifths > 7 {
		return score.Key{}, Wrong(0, "spell the tonic otherwise, as in Db major for C# major", "%q needs more than 7 sharps or flats", Shortened(text))
	}
	return score.Key{Fifths: fifths, Mode: mode}, nil
}

// keyHint says what to write in place of a text that is no key.
func keyHint(text string) string {
	minor := strings.TrimSuffix(text, "m")
	for _, other := range []string{
		text + " major",
		minor + " minor",
		strings.ToUpper(text[:min(1, len(text))]) + text[min(1, len(text)):],
		strings.ToUpper(text) + " major",
		strings.TrimSuffix(text, "#") + " sharps",
	} {
		if _, bad := tonality(other); bad == nil {
			return "write " + other
		}
	}
	return keyForm
}
