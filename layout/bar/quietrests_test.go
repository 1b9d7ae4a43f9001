package bar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// Which rests are printed where a staff has several voices, each with its staff,
// its stems (u, d, or - for free) and its eighths in 2/4; * hides a rest. By
// hand from the comments of hideRests and dropRests; common practice.
func TestRestsOfVoices(t *testing.T) {
	for _, c := range []struct{ why, voices, is string }{
		// Bars of nothing.
		{"alone", "1- ....", "rbar"},
		{"two silent: once", "1- .... / 1- ....", "rbar / r*bar"},
		{"three: once", "1- .... / 1- .... / 1- ....", "rbar / r*bar / r*bar"},
		{"the first sounds", "1- x=x= / 1- ....", "q q / r*bar"},
		{"the second sounds", "1- .... / 1- x=x=", "r*bar / q q"},
		{"all through the bar", "1- .... / 1- x===", "r*bar / h"},
		{"or only late in it", "1- .... / 1- ..x=", "r*bar / rq q"},
		{"a staff each", "1- .... / 2- ....", "rbar / rbar"},
		{"another staff is another matter", "1- x=x= / 2- ....", "q q / rbar"},
		{"stems apart: once", "1u .... / 1d ....", "rbar / r*bar"},
		{"two of the lower staff", "1- x=x= / 2- .... / 2- ....", "q q / rbar / r*bar"},

		// Rests inside the bar.
		{"stems apart: each its own", "1u x=.. / 1d ..x=", "q rq / rq q"},
		{"free stems: each its own", "1- x=.. / 1- x=..", "q rq / q rq"},
		{"staves apart: each its own", "1u x=.. / 2u x=..", "q rq / q rq"},
		{"stems alike: none while the other sounds", "1u x=.. / 1u ..x=", "q r*q / r*q q"},
		{"stems down too", "1d x=.. / 1d ..x=", "q r*q / r*q q"},
		{"both silent at the end: once", "1u x=.. / 1u x=..", "q rq / q r*q"},
		{"both silent at the beginning: once", "1u ..x= / 1u ..x=", "rq q / r*q q"},
		{"the other sounds in a part of it", "1u ..x= / 1u x.x=", "r*q q / e re q"},
		{"whichever comes first", "1u x.x= / 1u ..x=", "e re q / r*q q"},
		{"nor does it hide what sounds beyond it", "1u x=.. / 1d x=x= / 1u ..x=", "q r*q / q q / r*q q"},
		{"a third on the other side does not matter", "1u x=.. / 1d x=x= / 1u x=..", "q rq / q q / q r*q"},
	} {
		in := drawing{meter: "2/4", step: "1/8", steps: "...."}.input(t)
		in.Voices = nil
		for i, text := range strings.Split(c.voices, " / ") {
			v := drawing{meter: "2/4", step: "1/8", steps: text[len("1u "):]}.input(t).Voices[0]
			v.Voice = &VoicePlan{Staff: int(text[0] - '0'), Number: i + 1, Stem: map[byte]sheet.Stem{'u': sheet.StemUp, 'd': sheet.StemDown}[text[1]]}
			in.Voices = append(in.Voices, v)
		}
		assert.Equal(t, c.is, rhythms(t, in), c.why)
	}
}

// Rests of a tuplet stay, whoever sounds beside them.
func TestRestsOfTupletsStay(t *testing.T) {
	in := drawing{meter: "2/4", step: "1/8 3:2", steps: "x.x..."}.input(t)
	in.Voices = append(in.Voices, drawing{meter: "2/4", step: "1/8", steps: "x=x="}.input(t).Voices[0])
	for i := range in.Voices {
		in.Voices[i].Voice = &VoicePlan{Staff: 1, Number: i + 1, Stem: sheet.StemUp}
	}
	assert.Equal(t, "[3:2 (e re e)] r*q / q q", rhythms(t, in))
}

// rhythms writes all voices of the bar as Dump does.
func rhythms(t *testing.T, in *Input) string {
	t.Helper()
	w := Writer{NoteValues: NoteValues{Grid: testGrid}}
	m, _, err := w.Write(in)
	require.NoError(t, err)
	var all []string
	for i := range m.Voices {
		all = append(all, sheet.Rhythm(&m.Voices[i]))
	}
	return strings.Join(all, " / ")
}
