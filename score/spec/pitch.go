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
// instrument, one for each attack, chords joined by +, grace notes led in by /. It
// reports every slip.
func parseSeries(text string, on *instrument.Instrument) ([]score.Chord, []*slip) {
	var series []score.Chord
	var bad []*slip
	all := split(text, "+/")
	if len(all) == 0 {
		return nil, []*slip{wrong(0, "write at least one", "there are no pitches")}
	}
	joined := "" // the last word, if it was a + or a /
	for i := 0; i < len(all); {
		w := all[i]
		if w.text == "+" || w.text == "/" {
			switch last := len(series) - 1; {
			case joined != "" || last < 0:
				bad = append(bad, danglingSign(w, "before"))
			case w.text == "/" && !leadIn(series[last]):
				bad = append(bad, wrong(w.at, "leave some out", "more than %d grace notes before one", score.MaxGraces))
			}
			if len(series) > 0 {
				joined = w.text
			}
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
		case joined == "":
			series = append(series, score.Chord{tone})
		case slip == nil && contains2(series[last], tone):
			bad = append(bad, wrong(w.at, "write it once", "%q stands twice in a chord", w.text))
		case len(series[last]) == maxTones:
			bad = append(bad, wrong(w.at, "divide it among several layers", "a chord of more than %d notes", maxTones))
		default:
			series[last] = append(series[last], tone)
		}
		joined = ""
	}
	if joined != "" {
		bad = append(bad, danglingSign(all[len(all)-1], "after"))
	}
	if len(series) > maxChords {
		bad = append(bad, wrong(0, "shorten it", "a pitch series of more than %d", maxChords))
	}
	return series, bad
}

// danglingSign reports a sign that joins with nothing on one side.
func danglingSign(w word, side string) *slip {
	if w.text == "/" {
		return wrong(w.at, "write one there, or remove the /", `a note is missing %s "/"`, side)
	}
	return wrong(w.at, "write a pitch there, or remove the +", "a pitch is missing %s +", side)
}

// leadIn makes grace notes of what stands of a chord so far, if it can have one
// more.
func leadIn(chord score.Chord) bool {
	if chord[0].Grace == score.MaxGraces {
		return false
	}
	for i := range chord {
		chord[i].Grace++
	}
	return true
}

func contains2(chord score.Chord, tone score.Tone) bool {
	for _, t := range chord {
		if t == tone {
			return true
		}
	}
	return false
}

// parsePitch reads "E5", "F#4", "Bb3", "C##5", "F♯4".
func parsePitch(text string) (score.Tone, *slip) {
	tone, bad := pitch(text)
	if bad != nil && bad.hint == "" {
		bad.hint = pitchHint(text)
	}
	return tone, bad
}

// alterations are the signs behind a letter, and by how many half steps each alters it.
var alterations = [...]struct {
	text string
	by   int
}{{"#", 1}, {"♯", 1}, {"b", -1}, {"♭", -1}, {"𝄪", 2}, {"𝄫", -2}}

// pitch is parsePitch without a hint where the text is none at all.
func pitch(text string) (score.Tone, *slip) {
	if text == "" || text[0] < 'A' || text[0] > 'G' {
		return score.Tone{}, wrong(0, "", "%q is no pitch", shortened(text))
	}
	step := text[0]
	rest, alter := text[1:], 0
	for rest != "" {
		sign := 0
		for _, s := range alterations {
			if after, ok := strings.CutPrefix(rest, s.text); ok {
				rest, sign = after, s.by
				break
			}
		}
		if sign == 0 {
			break
		}
		if alter*sign < 0 {
			return score.Tone{}, wrong(0, "use either sharps or flats", "%q has sharps and flats", shortened(text))
		}
		alter += sign
	}
	if alter < -2 || alter > 2 {
		return score.Tone{}, wrong(0, "use at most two sharps or flats", "%q has too many accidentals", shortened(text))
	}
	digits, low := strings.CutPrefix(rest, "-")
	octave, ok := whole(digits)
	if low {
		octave = -octave
	}
	if !ok || octave < -1 || octave > 9 || low && octave == 0 {
		return score.Tone{}, wrong(0, "", "%q is no pitch", shortened(text))
	}
	tone := score.Tone{Step: step, Alter: int8(alter), Octave: int8(octave)}
	if key := tone.Key(); key < 0 || key > 127 {
		return score.Tone{}, wrong(0, "write a pitch from C-1 to G9", "%q is out of reach", shortened(text))
	}
	return tone, nil
}

// pitchHint says what to write in place of a text that is no pitch.
func pitchHint(text string) string {
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
	case isPitch(text + "4"):
		hint = "add the octave, as in " + text + "4"
	case strings.ContainsAny(text, "-&"):
		hint = "join the notes of a chord by +, as in G3+D4; write each note out"
	default:
		if other := pitchMeant(text); other != "" {
			hint = "write " + other
		}
	}
	return hint
}

// pitchMeant returns the pitch that a text such as Cis4, Fs4 or F4# means, "" if
// it means none.
func pitchMeant(text string) string {
	letter, rest := text[:1], text[1:]
	if letter == "E" || letter == "A" {
		if octave, ok := strings.CutPrefix(rest, "s"); ok && isPitch(letter+"b"+octave) { // Es and As are flats
			return letter + "b" + octave
		}
	}
	for _, c := range []struct{ name, sign string }{{"is", "#"}, {"s", "#"}, {"sharp", "#"}, {"es", "b"}, {"flat", "b"}} {
		if octave, ok := strings.CutPrefix(rest, c.name); ok && isPitch(letter+c.sign+octave) {
			return letter + c.sign + octave
		}
	}
	octave := strings.TrimRight(rest, "#b♯♭")
	if other := letter + rest[len(octave):] + octave; octave != rest && isPitch(other) {
		return other
	}
	if plain := strings.Trim(text, "“”\"'"); isPitch(plain) {
		return plain + " without quotes"
	}
	return ""
}

// isPitch reports whether the text is a pitch.
func isPitch(text string) bool {
	_, bad := pitch(text)
	return bad == nil
}
