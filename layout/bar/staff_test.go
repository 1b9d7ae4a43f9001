package bar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// tone reads a pitch as String writes it: F#4, Bb3, C##5; d2 is the second sound
// of a kit, x nothing but a rhythm.
func tone(t *testing.T, text string) score.Tone {
	t.Helper()
	switch text[0] {
	case 'x':
		return score.Tone{}
	case 'd':
		return score.Tone{Drum: text[1] - '0'}
	}
	last := len(text) - 1
	signs := text[1:last]
	alter := strings.Count(signs, "#") - strings.Count(signs, "b")
	require.Equal(t, len(signs), max(alter, -alter), text)
	return score.Tone{Step: text[0], Alter: int8(alter), Octave: int8(text[last] - '0')}
}

// staves lays bars of quarters on two staves, as a player reads them. Bars stand
// between | (or || where a new system begins), voices between /, the second on
// the lower staff unless it begins with ^; ~ ties a note to the one before, -
// is a quarter's rest, + joins a chord.
func staves(t *testing.T, key score.Key, text string) (written string, altered [][]byte) {
	t.Helper()
	w := Writer{NoteValues: NoteValues{Grid: testGrid}, Pitched: true}
	var bars []string
	var before []byte
	for _, bar := range strings.Split(strings.ReplaceAll(text, "||", "|!"), "|") {
		bar, newSystem := strings.CutPrefix(bar, "!")
		in := drawing{meter: "4/4", step: "1/4", steps: "...."}.input(t)
		in.Key, in.NewSystem, in.Altered, in.Voices = key, newSystem, before, nil
		for j, line := range strings.Split(bar, "/") {
			line, upper := strings.CutPrefix(strings.TrimSpace(line), "^")
			v := VoiceInput{Voice: &VoicePlan{Staff: min(j+1, 2), Number: j + 1}, Pulse: pulseOf(t, "1/4"), Unit: testGrid.Must(fraction(t, "1/4"))}
			if upper {
				v.Voice.Staff = 1
			}
			for k, word := range strings.Fields(line) {
				if word == "-" {
					continue
				}
				word, tied := strings.CutPrefix(word, "~")
				s := Segment{At: v.Unit * beat.Time(k), Length: v.Unit, TieIn: tied}
				for _, p := range strings.Split(word, "+") {
					s.Tones = append(s.Tones, tone(t, p))
				}
				v.Segments = append(v.Segments, s)
			}
			in.Voices = append(in.Voices, v)
		}
		m, after, err := w.Write(in)
		require.NoError(t, err)
		before, altered = after, append(altered, after)
		bars = append(bars, headsOf(m))
	}
	return strings.Join(bars, " | "), altered
}

// headsOf is the bar's heads as staves reads them, with the signs that are
// printed in parentheses; a rest of any length is one -.
func headsOf(m *sheet.Measure) string {
	var voices []string
	for i := range m.Voices {
		var heads []string
		for _, e := range m.Voices[i].Events {
			n, ok := e.(*sheet.Note)
			if !ok {
				heads = append(heads, "-")
				continue
			}
			var chord []string
			for _, h := range n.Heads {
				chord = append(chord, h.String())
			}
			tie := ""
			if n.TieIn {
				tie = "~"
			}
			heads = append(heads, tie+strings.Join(chord, "+"))
		}
		voices = append(voices, strings.Join(heads, " "))
	}
	return strings.Join(voices, " / ")
}
