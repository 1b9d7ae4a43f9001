package bar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// Heads of an attack: pitches on a staff of pitches, drums on a staff of drums,
// each once, and one bare head if nothing is left.
func TestHeads(t *testing.T) {
	for _, c := range []struct {
		why           string
		pitched, bare bool
		tones, is     string
	}{
		{"a chord as given", true, false, "C4 E4 G#4", "C4 E4 G#4"},
		{"one pitch of two layers", true, false, "C4 E4 C4 E4", "C4 E4"},
		{"an octave is another head", true, false, "C4 C5", "C4 C5"},
		{"no pitch", true, false, "x", "x0"},
		{"nothing", true, false, "", "x0"},
		{"a drum among pitches is left out", true, false, "d1 C4 d2 E4", "C4 E4"},
		{"drums", false, false, "d1 d3 d1", "x1 x3"},
		{"a pitch among drums is left out", false, false, "C4 d2 E4 d3", "x2 x3"},
		{"a pitch on a staff of rhythm", false, false, "C4", "x0"},
		{"bare, whatever sounds", true, true, "C4 E4", "x0"},
		{"bare drums", false, true, "d1 d2", "x0"},
	} {
		w := Writer{Pitched: c.pitched}
		var s Segment
		for _, p := range strings.Fields(c.tones) {
			s.Tones = append(s.Tones, tone(t, p))
		}
		var got []string
		for _, h := range w.Heads(&s, c.bare) {
			got = append(got, h.String())
		}
		assert.Equal(t, c.is, strings.Join(got, " "), c.why)
	}
}

// A respelling is told once. A note tied in from another key keeps its spelling.
func TestHeadsTransposed(t *testing.T) {
	clarinet := transposing["clarinet"]
	inC, inE := NewTransposer(&clarinet, false), NewTransposer(&clarinet, false)
	inC.KeyOf(score.Key{})
	inE.KeyOf(score.Key{Fifths: 4})
	w := Writer{Player: "Reed", Pitched: true, Wanted: inC}
	s := Segment{Tones: score.Chord{tone(t, "D#4"), tone(t, "A#3")}}
	for range 2 {
		assert.Equal(t, []sheet.Head{{Step: 'F', Octave: 4}, {Step: 'C', Octave: 4}}, w.Heads(&s, false))
	}
	assert.Equal(t, []sheet.Respelling{
		{Part: "Reed", Sounding: tone(t, "D#4"), Instead: tone(t, "E#4"), Written: tone(t, "F4")},
		{Part: "Reed", Sounding: tone(t, "A#3"), Instead: tone(t, "B#3"), Written: tone(t, "C4")},
	}, w.Respelt)
	s.Spelling = &inE
	assert.Equal(t, sheet.Head{Step: 'E', Alter: 1, Octave: 4}, w.Heads(&s, false)[0])
}

// What stands at a sound's beginning stands only there: not at what is tied on
// inside the bar, nor at what is tied into it.
func TestSignsOfABeginning(t *testing.T) {
	begun := func(tieIn, bare bool) (all []string) {
		in := drawing{meter: "4/4", step: "1/8", steps: "...x===="}.input(t)
		v := &in.Voices[0]
		v.Voice.Bare = bare
		v.Segments[0] = Segment{At: v.Segments[0].At, Length: v.Segments[0].Length, TieIn: tieIn, Group: 5, Accent: true, Touch: score.Ghost,
			Lyrics: []score.Lyric{{Text: "ho"}}, Layers: []string{"Winch"}}
		w := Writer{NoteValues: NoteValues{Grid: testGrid}}
		m, _, err := w.Write(in)
		require.NoError(t, err)
		for _, e := range m.Voices[0].Events {
			n, ok := e.(*sheet.Note)
			if !ok {
				continue
			}
			assert.Equal(t, []string{"Winch"}, n.Layers)
			text := n.Value.String()
			if n.Group == 5 {
				text += " group"
			}
			if n.Accent {
				text += " accent"
			}
			if n.Touch == score.Plain && n.Heads[0].Ghost {
				text += " ghost"
			}
			for _, y := range n.Lyrics {
				text += " " + y.Text
			}
			all = append(all, text)
		}
		return all
	}
	assert.Equal(t, []string{"e group accent ghost ho", "h"}, begun(false, false))
	assert.Equal(t, []string{"e", "h"}, begun(true, false))
	assert.Equal(t, []string{"e group", "h"}, begun(false, true), "a bare staff shows the groups alone")
}

// A slur begins with a sound's first sign and ends with its last; one tied over a
// barline has the one here and the other there.
func TestSlursOfTiedPieces(t *testing.T) {
	for _, c := range []struct {
		tieIn, tieOut, bare bool
		is                  []score.Slur
	}{
		{false, false, false, []score.Slur{{Starts: true}, {Stops: true}}},
		{true, false, false, []score.Slur{{}, {Stops: true}}},
		{false, true, false, []score.Slur{{Starts: true}, {}}},
		{false, false, true, []score.Slur{{}, {}}},
	} {
		in := drawing{meter: "4/4", step: "1/8", steps: "...x===="}.input(t)
		in.Voices[0].Voice.Bare = c.bare
		s := &in.Voices[0].Segments[0]
		s.Slur, s.TieIn, s.TieOut = score.Slur{Starts: true, Stops: true}, c.tieIn, c.tieOut
		w := Writer{NoteValues: NoteValues{Grid: testGrid}}
		m, _, err := w.Write(in)
		require.NoError(t, err)
		var got []score.Slur
		for _, e := range m.Voices[0].Events {
			if n, ok := e.(*sheet.Note); ok {
				got = append(got, n.Slur)
			}
		}
		assert.Equal(t, c.is, got, "%+v", c)
	}
}

// A roll shows on each tied piece, other touches at the beginning alone.
func TestTouchesOfTiedPieces(t *testing.T) {
	in := drawing{meter: "4/4", step: "1/8", steps: "...x===="}.input(t)
	in.Voices[0].Segments[0].Touch = score.Roll | score.Ghost | score.Tenuto
	w := Writer{NoteValues: NoteValues{Grid: testGrid}}
	m, _, err := w.Write(in)
	require.NoError(t, err)
	var got []score.Touch
	var ghosts []bool
	for _, e := range m.Voices[0].Events {
		if n, ok := e.(*sheet.Note); ok {
			got, ghosts = append(got, n.Touch), append(ghosts, n.Heads[0].Ghost)
		}
	}
	assert.Equal(t, []score.Touch{score.Roll | score.Tenuto, score.Roll}, got)
	assert.Equal(t, []bool{true, false}, ghosts)
}

// One grace note is an eighth with a flag, several are 16ths under two beams
// (common practice).
func TestGraces(t *testing.T) {
	const begin, on, end = sheet.BeamBegin, sheet.BeamContinue, sheet.BeamEnd
	for tones, beams := range map[string][][]sheet.Beam{"": nil, "D4": {nil}, "D4 E4": {{begin, begin}, {end, end}}, "D4 E4 F4": {{begin, begin}, {on, on}, {end, end}}} {
		w := Writer{NoteValues: NoteValues{Grid: testGrid}, Pitched: true}
		s := Segment{At: 7}
		for _, p := range strings.Fields(tones) {
			s.Graces = append(s.Graces, score.Chord{tone(t, p)})
		}
		var heads []string
		var got [][]sheet.Beam
		for _, n := range w.graces(&s) {
			assert.Equal(t, beat.Time(7), n.Start)
			assert.Equal(t, map[bool]string{true: "e", false: "s"}[len(beams) == 1], n.Value.String())
			heads, got = append(heads, n.Heads[0].String()), append(got, n.Beams)
		}
		assert.Equal(t, beams, got)
		assert.Equal(t, tones, strings.Join(heads, " "))
	}
}
