package spec

import (
	"strings"

	"tieover/score"
	"tieover/score/instrument"
)

// Bounds of a pitch series.
const (
	maxChords = 4096
	maxTones  = 16
)

// parseSeries reads a pitch series: pitches, or drum sounds of an unpitched
// instrument, one for each attack, chords joined by +. It reports every slip.
func parseSeries(text string, on *instrument.Instrument) ([]score.Chord, []*slip) {
	var series []score.Chord
	var bad []*slip
	all := split(text, "+")
	if len(all) == 0 {
		return nil, []*slip{wrong(0, "write at least one", "there are no pitches")}
	}
	joined := false // the last word was a +
	for i := 0; i < len(all); {
		w := all[i]
		if w.text == "+" {
			if joined || len(series) == 0 {
				bad = append(bad, wrong(w.at, "write a pitch there, or remove the +", "a pitch is missing before +"))
			}
			joined = len(series) > 0
			i++
			continue
		}
		tone, used, slip := parseTone(all[i:], on)
		i += used
		if slip != nil {
			bad = append(bad, slip)
			tone = score.Tone{}
		}
		switch last := len(series) - 1; {
		case !joined:
			series = append(series, score.Chord{tone})
		case slip == nil && contains2(series[last], tone):
			bad = append(bad, wrong(w.at, "write it once", "%q stands twice in a chord", w.text))
		case len(series[last]) == maxTones:
			bad = append(bad, wrong(w.at, "divide it among several layers", "a chord of more than %d notes", maxTones))
		default:
			series[last] = append(series[last], tone)
		}
		joined = false
	}
	if joined {
		bad = append(bad, wrong(all[len(all)-1].at, "write a pitch there, or remove the +", "a pitch is missing after +"))
	}
	if len(series) > maxChords {
		bad = append(bad, wrong(0, "shorten it", "a pitch series of more than %d", maxChords))
	}
	return series, bad
}

func contains2(chord score.Chord, tone score.Tone) bool {
	for _, t := range chord {
		if t == tone {
			return true
		}
	}
	return false
}

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
	return score.Tone{}, 1, unknownSound(all[0], on)
}

func unknownSound(w word, on *instrument.Instrument) *slip {
	names := make([]string, len(on.Drums))
	for i, d := range on.Drums {
		names[i] = d.Name
	}
	hint := "its sounds are " + strings.Join(names, ", ")
	if len(names) == 1 {
		hint = "leave pitches out; its only sound is " + names[0]
	}
	if isPitch(w.text) {
		return wrong(w.at, hint, "%s has no pitches such as %s", on.Name, short(w.text))
	}
	if near := instrument.Nearest(w.text, names); len(near) > 0 {
		hint = "did you mean " + list(near) + "?"
	}
	return wrong(w.at, hint, "%s has no sound %q", on.Name, short(w.text))
}

// parsePitch reads "E5", "F#4", "Bb3", "C##5", "F♯4".
func parsePitch(text string) (score.Tone, *slip) {
	if text == "" || text[0] < 'A' || text[0] > 'G' {
		return score.Tone{}, badPitch(text)
	}
	step := text[0]
	rest, alter := text[1:], 0
	for rest != "" {
		sign := 0
		for mark, by := range map[string]int{"#": 1, "♯": 1, "b": -1, "♭": -1, "𝄪": 2, "𝄫": -2} {
			if after, ok := strings.CutPrefix(rest, mark); ok {
				rest, sign = after, by
				break
			}
		}
		if sign == 0 {
			break
		}
		if alter*sign < 0 {
			return score.Tone{}, wrong(0, "use either sharps or flats", "%q has sharps and flats", short(text))
		}
		alter += sign
	}
	if alter < -2 || alter > 2 {
		return score.Tone{}, wrong(0, "use at most two sharps or flats", "%q has too many accidentals", short(text))
	}
	digits, low := strings.CutPrefix(rest, "-")
	octave, ok := whole(digits)
	if low {
		octave = -octave
	}
	if !ok || octave < -1 || octave > 9 || low && octave == 0 {
		return score.Tone{}, badPitch(text)
	}
	tone := score.Tone{Step: step, Alter: int8(alter), Octave: int8(octave)}
	if key := tone.Key(); key < 0 || key > 127 {
		return score.Tone{}, wrong(0, "write a pitch from C-1 to G9", "%q is out of reach", short(text))
	}
	return tone, nil
}

func badPitch(text string) *slip {
	hint := "write a letter A to G, # or b if any, and the octave, as in F#4 (C4 is middle C)"
	upper := text
	if text != "" && text[0] >= 'a' && text[0] <= 'g' {
		upper = strings.ToUpper(text[:1]) + text[1:]
	}
	switch {
	case text == "":
	case strings.ContainsAny(text, "()"):
		hint = "join the notes of a chord by +, as in G3+D4"
	case strings.HasSuffix(text, ","):
		hint = "separate pitches by blanks, not commas"
	case text == "-" || text == "." || text == "rest" || text == "r":
		hint = "a series holds sounding notes only; write rests in groups, figures or box"
	case upper != text && isPitch(upper):
		hint = "write the letter as a capital: " + upper
	case text[0] == 'H' || text[0] == 'h':
		hint = "write B, or Bb"
	case len(text) == 1 || strings.Trim(text[1:], "#b♯♭") == "":
		hint = "add the octave, as in " + text + "4"
	}
	return wrong(0, hint, "%q is no pitch", short(text))
}

// isPitch reports whether the text is a pitch.
func isPitch(text string) bool {
	_, bad := parsePitch(text)
	return bad == nil
}
