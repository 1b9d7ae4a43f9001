package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/fingering"
)

// writtenAs is the notes of a bar that one sound fills.
func writtenAs(t *testing.T, pitched bool, as score.Written, s Segment) []*sheet.Note {
	t.Helper()
	in := drawing{meter: "1/4", step: "1/8", steps: "x="}.input(t)
	v := &in.Voices[0]
	s.Length = v.Segments[0].Length
	v.As, v.Segments = as, []Segment{s}
	w := Writer{NoteValues: NoteValues{Grid: testGrid}, Pitched: pitched}
	m, _, err := w.Write(in)
	require.NoError(t, err)
	var notes []*sheet.Note
	for _, e := range m.Voices[0].Events {
		notes = append(notes, e.(*sheet.Note))
	}
	return notes
}

// A rhythm has bare heads on a staff of pitches; on one of drums it keeps the first
// sound's, and neither has grace notes.
func TestHeadsOfARhythm(t *testing.T) {
	d := func(n byte) score.Tone { return score.Tone{Drum: n} }
	for _, c := range []struct {
		pitched bool
		as      score.Written
		tones   score.Chord
		heads   []sheet.Head
		graces  int
	}{
		{true, score.AsNotes, score.Chord{{Step: 'C', Octave: 4}, {Step: 'E', Octave: 4}}, []sheet.Head{{Step: 'C', Octave: 4}, {Step: 'E', Octave: 4}}, 1},
		{true, score.AsRhythm, score.Chord{{Step: 'C', Octave: 4}, {Step: 'E', Octave: 4}}, []sheet.Head{{}}, 0},
		{false, score.AsNotes, score.Chord{d(1), d(2)}, []sheet.Head{{Drum: 1}, {Drum: 2}}, 1},
		{false, score.AsRhythm, score.Chord{d(1), d(2)}, []sheet.Head{{Drum: 1}}, 0},
		{false, score.AsSlashes, score.Chord{d(1), d(2)}, []sheet.Head{{}}, 0},
	} {
		notes := writtenAs(t, c.pitched, c.as, Segment{Tones: c.tones, Graces: []score.Chord{c.tones}})
		require.Len(t, notes, 1)
		assert.Equal(t, c.heads, notes[0].Heads, "%+v", c)
		assert.Len(t, notes[0].Graces, c.graces, "%+v", c)
	}
}

// Of two drums that one sound strikes, the ghost note alone is faint; a drum of another
// number is not, nor a head without one. A ghost touch makes all of them so.
func TestFaintHeads(t *testing.T) {
	tones := score.Chord{{Drum: 1}, {Drum: 2}}
	ghosts := func(s Segment) (all []bool) {
		s.Tones = tones
		for _, h := range writtenAs(t, false, score.AsNotes, s)[0].Heads {
			all = append(all, h.Ghost)
		}
		return all
	}
	assert.Equal(t, []bool{false, false}, ghosts(Segment{}))
	assert.Equal(t, []bool{false, true}, ghosts(Segment{Faint: score.Chord{{Drum: 2}}}))
	assert.Equal(t, []bool{false, false}, ghosts(Segment{Faint: score.Chord{{Drum: 3}}}))
	assert.Equal(t, []bool{true, true}, ghosts(Segment{Touch: score.Ghost}))
	tones = nil // a bare head
	assert.Equal(t, []bool{false}, ghosts(Segment{Faint: score.Chord{{}}}))
	tones = score.Chord{{Drum: 1}}
	assert.Equal(t, []bool{true}, ghosts(Segment{Faint: score.Chord{{Drum: 1}}}), "the first sound of a kit is one too")
}

// Each head of a tablature has its string and fret, each grace note its own; one that
// repeats the sound has the sound's. A bare head has none.
func TestStops(t *testing.T) {
	c, d := score.Tone{Step: 'C', Octave: 4}, score.Tone{Step: 'D', Octave: 4}
	stop := func(str, fret int8) fingering.Stop { return fingering.Stop{String: str, Fret: fret} }
	s := Segment{Tones: score.Chord{c, d}, Graces: []score.Chord{{d}, {c, d}},
		Hand: &fingering.Hand{Struck: []fingering.Stop{stop(3, 5), stop(2, 3)}, Graces: [][]fingering.Stop{{stop(1, 7)}}}}
	stops := func(n *sheet.Note) (all []fingering.Stop) {
		for _, h := range n.Heads {
			all = append(all, h.Stop)
		}
		return all
	}
	n := writtenAs(t, true, score.AsNotes, s)[0]
	assert.Equal(t, []fingering.Stop{stop(3, 5), stop(2, 3)}, stops(n))
	require.Len(t, n.Graces, 2)
	assert.Equal(t, []fingering.Stop{stop(1, 7)}, stops(n.Graces[0]))
	assert.Equal(t, []fingering.Stop{stop(3, 5), stop(2, 3)}, stops(n.Graces[1]))
	assert.Equal(t, []fingering.Stop{{}}, stops(writtenAs(t, true, score.AsRhythm, s)[0]))
	s.Hand = nil
	assert.Equal(t, []fingering.Stop{{}, {}}, stops(writtenAs(t, true, score.AsNotes, s)[0]))
}
