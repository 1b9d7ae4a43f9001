package grammar

import (
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/instrument"
)

// Bounds of a pitch series.
const (
	MaxChords = 4096
	maxTones  = 16
)

// Series reads a pitch series: pitches, or drum sounds of an unpitched
// instrument, one for each attack, chords joined by +, grace notes led in by /. It
// reports every slip.
func Series(text string, on *instrument.Instrument) ([]score.Chord, []*Slip) {
	var series []score.Chord
	var bad []*Slip
	all := Split(text, "+/")
	if len(all) == 0 {
		return nil, []*Slip{Wrong(0, "write at least one", "there are no pitches")}
	}
	joined := "" // the last word, if it was a + or a /
	for i := 0; i < len(all); {
		w := all[i]
		if w.Text == "+" || w.Text == "/" {
			switch last := len(series) - 1; {
			case joined != "" || last < 0:
				bad = append(bad, danglingSign(w, "before"))
			case w.Text == "/" && !leadIn(series[last]):
				bad = append(bad, Wrong(w.At, "leave some out", "more than %d grace notes before one", score.MaxGraces))
			}
			if len(series) > 0 {
				joined = w.Text
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
		case slip == nil && slices.Contains(series[last], tone):
			bad = append(bad, Wrong(w.At, "write it once", "%q stands twice in a chord", w.Text))
		case len(series[last]) == maxTones:
			bad = append(bad, Wrong(w.At, "divide it among several layers", "a chord of more than %d notes", maxTones))
		default:
			series[last] = append(series[last], tone)
		}
		joined = ""
	}
	if joined != "" {
		bad = append(bad, danglingSign(all[len(all)-1], "after"))
	}
	if len(series) > MaxChords {
		bad = append(bad, Wrong(0, "shorten it", "a pitch series of more than %d", MaxChords))
	}
	return series, bad
}

// danglingSign reports a sign that joins with nothing on one side.
func danglingSign(w Word, side string) *Slip {
	if w.Text == "/" {
		return Wrong(w.At, "write one there, or remove the /", `a note is missing %s "/"`, side)
	}
	return Wrong(w.At, "write a pitch there, or remove the +", "a pitch is missing %s +", side)
}

// leadIn makes grace notes of the chord so far, if one more may come before a note.
func leadIn(chord score.Chord) bool {
	if chord[0].Grace == score.MaxGraces {
		return false
	}
	for i := range chord {
		chord[i].Grace++
	}
	return true
}

// parsePitch reads "E5", "F#4", "Bb3", "C##5", "F♯4".
func parsePitch(text string) (score.Tone, *Slip) {
	tone, bad := pitch(text)
	if bad != nil && bad.Hint == "" {
		bad.Hint = pitchHint(text)
	}
	return tone, bad
}

// alterations are the signs behind a letter, and by how many half steps each alters it.
var alterations = [...]struct {
	text string
	by   int
}{{"#", 1}, {"♯", 1}, {"b", -1}, {"♭", -1}, {"𝄪", 2}, {"𝄫", -2}}

// pitch is parsePitch without a hint where the text is none at all.
func pitch(text string) (score.Tone, *Slip) {
	if text == "" || text[0] < 'A' || text[0] > 'G' {
		return score.Tone{}, Wrong(0, "", "%q is no pitch", Shortened(text))
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
			return score.Tone{}, Wrong(0, "use either sharps or flats", "%q has sharps and flats", Shortened(text))
		}
		alter += sign
	}
	if alter < -2 || alter > 2 {
		return score.Tone{}, Wrong(0, "use at most two sharps or flats", "%q has too many accidentals", Shortened(text))
	}
	digits, low := strings.CutPrefix(rest, "-")
	octave, ok := Whole(digits)
	if low {
		octave = -octave
	}
	if !ok || octave < -1 || octave > 9 || low && octave == 0 {
		return score.Tone{}, Wrong(0, "", "%q is no pitch", Shortened(text))
	}
	tone := score.Tone{Step: step, Alter: int8(alter), Octave: int8(octave)}
	if key := tone.Key(); key < 0 || key > 127 {
		return score.Tone{}, Wrong(0, "write a pitch from C-1 to G9", "%q is out of reach", Shortened(text))
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
