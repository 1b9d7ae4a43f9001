package bar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// A fermata stands on the sign that each voice has at the moment, a piece of a
// tied sound or a printed rest too, and on no other (common practice).
func TestFermatas(t *testing.T) {
	for _, c := range []struct{ why, at, steps, is string }{
		{"where a note begins", "1/4", "x=x=", "q q!"},
		{"at the bar's start", "0/1", "x=x=", "q! q"},
		{"inside a note", "3/8", "x=x=", "q q!"},
		{"on a rest", "1/4", "x=..", "q rq!"},
		{"two, none on the tied piece between", "0/1 3/8", "x==x", "q! e e!"},
		{"on a tied piece", "1/4", "x==x", "q e! e"},
		{"once where both fall on one sign", "0/1 1/8", "x=xx", "q! e e"},
		{"none", "", "x=x=", "q q"},
		{"past the bar", "1/2", "x=x=", "q q"},
		{"not over a hidden rest, but over what sounds there", "1/4", "x=.. / ..x=", "q r*q / r*q q!"},
		{"over all voices", "1/4", "x=x= / xx==", "q q! / e e q!"},
	} {
		in := drawing{meter: "2/4", step: "1/8", steps: "...."}.input(t)
		in.Voices, in.Fermatas = nil, moments(t, c.at)
		for i, steps := range strings.Split(c.steps, " / ") {
			v := drawing{meter: "2/4", step: "1/8", steps: steps}.input(t).Voices[0]
			v.Voice = &VoicePlan{Staff: 1, Number: i + 1, Stem: sheet.StemUp}
			in.Voices = append(in.Voices, v)
		}
		w := Writer{NoteValues: NoteValues{Grid: testGrid}}
		m, _, err := w.Write(in)
		require.NoError(t, err)
		assert.Equal(t, c.is, heldAt(m), c.why)
	}
}

// heldAt writes the bar's signs, with ! where a fermata stands.
func heldAt(m *sheet.Measure) string {
	var voices []string
	for i := range m.Voices {
		var signs []string
		for _, e := range m.Voices[i].Events {
			text, held := "", false
			switch e := e.(type) {
			case *sheet.Note:
				text, held = e.Value.String(), e.Fermata
			case *sheet.Rest:
				text, held = "r"+e.Value.String(), e.Fermata
				if e.Hidden {
					text = "r*" + e.Value.String()
				}
			}
			if held {
				text += "!"
			}
			signs = append(signs, text)
		}
		voices = append(voices, strings.Join(signs, " "))
	}
	return strings.Join(voices, " / ")
}
