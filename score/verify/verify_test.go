package verify

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/spec"
)

// barge is one layer in 4/4, in eighths: 0 3 8 11 16 19 24 27, C5 and G5 by
// turns, lasting 3 and 5 by turns.
const barge = `title: Lock
meter: 4/4
length: 4 bars
layers:
  - name: Barge
    instrument: flute
    groups: 3+5
    pitches: C5 G5
`

const bargePlayed = "0 3 C5, 3 5 G5, 8 3 C5, 11 5 G5, 16 3 C5, 19 5 G5, 24 3 C5, 27 5 G5"

func piece(t *testing.T, texts ...string) *score.Piece {
	t.Helper()
	var files []spec.File
	for _, text := range texts {
		files = append(files, spec.File{Name: "spec.yaml", Text: []byte(text)})
	}
	p, problems := spec.Read(files)
	require.Empty(t, problems)
	return p
}

// part is a part in bars of 4/4 that plays notes "onset length pitch", in
// eighths; no pitch is a bare rhythm.
func part(t *testing.T, name, notes string) *heard.Part {
	t.Helper()
	p := &heard.Part{ID: "P-" + name, Name: name}
	for n := range 4 {
		p.Bars = append(p.Bars, heard.Bar{Number: fmt.Sprint(n + 1), Pass: 1, Start: beat.Of(int64(n), 1), Length: beat.Of(1, 1),
			Beats: heard.Beats([]int{4}, 4), Meter: "4/4"})
	}
	for _, text := range strings.Split(notes, ", ") {
		var onset, length int64
		var pitch string
		if n, _ := fmt.Sscanf(text, "%d %d %s", &onset, &length, &pitch); n < 2 {
			continue // an empty part
		}
		var tone heard.Tone
		if pitch != "" {
			tone = heard.Tone{Step: pitch[0], Octave: int8(pitch[len(pitch)-1] - '0')}
			tone.Alter = int8(strings.Count(pitch, "#"))
		}
		p.Attacks = append(p.Attacks, heard.Attack{Onset: beat.Of(onset, 8), Length: beat.Of(length, 8), Tones: []heard.Tone{tone}, Voice: "1"})
	}
	return p
}

// told compares and returns what is said of each difference.
func told(t *testing.T, p *score.Piece, s *heard.Score, o Options) (texts []string) {
	t.Helper()
	r, err := Compare(p, s, o)
	require.NoError(t, err)
	for _, d := range r.Differences {
		texts = append(texts, d.Kind.String()+" "+d.String())
	}
	return texts
}

// Each slip of a hand is told once, in the fewest words that say it.
func TestCompareTellsEachSlip(t *testing.T) {
	for name, c := range map[string]struct {
		played string
		want   []string
	}{
		"nothing":       {bargePlayed, nil},
		"left out":      {strings.Replace(bargePlayed, "8 3 C5, ", "", 1), []string{"missing bar 2 beat 1: Barge lacks C5"}},
		"put in":        {strings.Replace(bargePlayed, "8 3 C5", "8 1 C5, 9 2 D5", 1), []string{"extra bar 2 beat 1½: Barge has an extra D5"}},
		"other pitch":   {strings.Replace(bargePlayed, "8 3 C5", "8 3 C#5", 1), []string{"pitch bar 2 beat 1: Barge has C#5, spec says C5"}},
		"late":          {strings.Replace(bargePlayed, "8 3 C5", "9 2 C5", 1), []string{"moved bar 2 beat 1½: Barge has C5 1/8 late, spec says bar 2 beat 1"}},
		"cut short":     {strings.Replace(bargePlayed, "8 3 C5", "8 1 C5", 1), []string{"length bar 2 beat 1: Barge holds C5 shorter: for 1/8, spec says 3/8"}},
		"spelled B#":    {strings.Replace(bargePlayed, "8 3 C5", "8 3 B#4", 1), nil},
		"past the end":  {strings.Replace(bargePlayed, "27 5 G5", "27 5 G5, 33 1 G5", 1), []string{"extra past the end (bar 4 beat 5½): Barge has an extra G5"}},
		"a row is late": {"0 3 C5, 3 5 G5, 9 3 C5, 12 5 G5, 17 3 C5, 20 5 G5, 25 3 C5, 28 5 G5", []string{"moved-run bar 2 beat 1½: from here to bar 4 beat 3 Barge is 1/8 late (6 notes)"}},
		"transposed": {strings.NewReplacer("C5", "D5", "G5", "A5").Replace(bargePlayed),
			[]string{"transposed bar 1 beat 1: from here to bar 4 beat 2½ Barge sounds 2 semitones too high (8 notes; the first is D5, spec says C5)"}},
		"an octave low from bar 3": {"0 3 C5, 3 5 G5, 8 3 C5, 11 5 G5, 16 3 C4, 19 5 G4, 24 3 C4, 27 5 G4",
			[]string{"transposed bar 3 beat 1: from here to bar 4 beat 2½ Barge sounds an octave too low (4 notes; the first is C4, spec says C5)"}},
		// 0 C5 3, 3 G5 5 the other way round: G5 0 to 5, C5 5 to 8
		"two exchanged": {strings.Replace(bargePlayed, "0 3 C5, 3 5 G5", "0 5 G5, 5 3 C5", 1),
			[]string{"exchanged bar 1 beat 1: Barge has G5 before C5, spec says C5 before G5, each with its length"}},
		"two pitches exchanged": {strings.Replace(bargePlayed, "8 3 C5, 11 5 G5", "8 3 G5, 11 5 C5", 1),
			[]string{"exchanged bar 2 beat 1: Barge has G5 before C5, spec says C5 before G5"}},
		"exchanged over the barline": {strings.Replace(bargePlayed, "3 5 G5, 8 3 C5", "3 3 C5, 6 5 G5", 1),
			[]string{"exchanged bar 1 beat 2½: Barge has C5 before G5, spec says G5 before C5, each with its length"}},
		"exchanged twice": {"0 3 G5, 3 5 C5, 8 3 C5, 11 5 G5, 16 3 C5, 19 5 G5, 24 3 G5, 27 5 C5",
			[]string{"exchanged bar 1 beat 1: Barge has G5 before C5, spec says C5 before G5", "exchanged bar 4 beat 1: Barge has G5 before C5, spec says C5 before G5"}},
		"other pitch and length": {strings.Replace(bargePlayed, "8 3 C5", "8 1 D5", 1),
			[]string{"pitch bar 2 beat 1: Barge has D5 for 1/8, spec says C5 for 3/8"}},
		// the D5 ends where the G5 now begins
		"early, after a wrong note": {strings.Replace(bargePlayed, "8 3 C5, 11 5 G5", "8 2 D5, 10 6 G5", 1),
			[]string{"pitch bar 2 beat 1: Barge has D5, spec says C5", "moved bar 2 beat 2: Barge has G5 1/8 early, spec says bar 2 beat 2½"}},
		"early and short": {strings.Replace(bargePlayed, "11 5 G5", "10 2 G5", 1),
			[]string{"moved bar 2 beat 2: Barge has G5 1/8 early for 1/4, spec says bar 2 beat 2½ for 5/8"}},
		// what is missing in bar 1 is not the one too many in bar 2: two notes stand between
		"one less, one more": {strings.NewReplacer("3 5 G5, 8", "8", "11 5 G5", "11 4 G5, 15 1 G5").Replace(bargePlayed),
			[]string{"missing bar 1 beat 2½: Barge lacks G5", "extra bar 2 beat 4½: Barge has an extra G5"}},
		"three wrong notes are no transposition": {"0 3 D5, 3 5 A5, 8 3 D5, 11 5 G5, 16 3 C5, 19 5 G5, 24 3 C5, 27 5 G5",
			[]string{"pitch bar 1 beat 1: Barge has D5, spec says C5", "pitch bar 1 beat 2½: Barge has A5, spec says G5", "pitch bar 2 beat 1: Barge has D5, spec says C5"}},
	} {
		s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", c.played)}}
		assert.Equal(t, c.want, told(t, piece(t, barge), s, Options{}), name)
	}
}

func TestRhythmOnly(t *testing.T) {
	p := piece(t, barge)
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", strings.ReplaceAll(bargePlayed, "G5", "A5"))}}
	assert.Len(t, told(t, p, s, Options{}), 4)
	assert.Empty(t, told(t, p, s, Options{RhythmOnly: true}))
	s.Parts[0] = part(t, "Barge", strings.Replace(bargePlayed, "8 3 C5, ", "", 1))
	assert.Equal(t, []string{"missing bar 2 beat 1: Barge lacks a note"}, told(t, p, s, Options{RhythmOnly: true}))
}

// Lengths of a layer whose tails are cut at barlines do not matter.
func TestCutTails(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", strings.Replace(bargePlayed, "11 5 G5", "11 1 G5", 1))}}
	assert.Len(t, told(t, piece(t, barge), s, Options{}), 1)
	assert.Empty(t, told(t, piece(t, barge+"    tails: cut\n"), s, Options{}))
}

// A section that ends with a repeat is played twice: 32 eighths later again.
func TestRepeatIsPlayedTwice(t *testing.T) {
	p := piece(t, strings.Replace(barge, "length: 4 bars\n", "length: 2 bars\nend: repeat\n", 1))
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", bargePlayed)}}
	assert.Empty(t, told(t, p, s, Options{}))
}

const two = barge + `  - name: Gate
    instrument: claves
    groups: 2+2
`

const gatePlayed = "0 2, 2 2, 4 2, 6 2, 8 2, 10 2, 12 2, 14 2, 16 2, 18 2, 20 2, 22 2, 24 2, 26 2, 28 2, 30 2"

// marksAt writes a sign at each moment, in eighths.
func marksAt(texts map[int64]string) (marks []heard.Mark) {
	for at := range int64(33) {
		if text, ok := texts[at]; ok {
			marks = append(marks, heard.Mark{At: beat.Of(at, 8), Text: text})
		}
	}
	return marks
}

// A number that no meeting has now is of a build that counted them otherwise: the
// labels are told in one line, the plan's marks one by one. With other notes, or
// with all labels in place, nothing is said of it (by hand).
func TestLabelsOfAnOlderBuild(t *testing.T) {
	p := piece(t, strings.Replace(two, "2+2", "2x8", 1)+"plan: [{at: bar 4, mark: Lock}]\n")
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", bargePlayed), part(t, "Gate", gatePlayed)}}
	s.Marks = marksAt(map[int64]string{8: "A1", 16: "A2"})
	assert.Equal(t, []string{"mark-missing labels are of an older build", "mark-missing bar 4 beat 1: the mark Lock is missing"}, told(t, p, s, Options{}))
	s.Marks = marksAt(map[int64]string{16: "A1", 24: "Lock", 32: "A2"})
	assert.Empty(t, told(t, p, s, Options{}))
	s.Parts[0] = part(t, "Barge", bargePlayed[1:])
	s.Marks = marksAt(map[int64]string{8: "A1", 16: "A2", 24: "Lock"})
	assert.Contains(t, told(t, p, s, Options{}), "mark-moved bar 3 beat 1: the mark A1 stands at bar 2 beat 1 instead")
}

// Cycles of 8 and 16 eighths meet with every other bar, at bar 3 and at the end.
// Only what is printed is asked for: the end's label is not; the plan's mark is.
func TestEveryPrintedLabelIsAskedFor(t *testing.T) {
	p := piece(t, strings.Replace(two, "2+2", "2x8", 1)+"plan: [{at: bar 4, mark: Lock}]\n")
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", bargePlayed), part(t, "Gate", gatePlayed)}}
	s.Marks = marksAt(map[int64]string{16: "A1", 24: "Lock"})
	assert.Empty(t, told(t, p, s, Options{}))
	s.Marks = marksAt(map[int64]string{18: "A1"})
	assert.Equal(t, []string{"mark-moved bar 3 beat 1: the mark A1 stands at bar 3 beat 2 instead", "mark-missing bar 4 beat 1: the mark Lock is missing"},
		told(t, p, s, Options{}))
	s.Marks = marksAt(map[int64]string{4: "Solo"})
	r, err := Compare(p, s, Options{})
	require.NoError(t, err)
	assert.Empty(t, r.Differences, "the score never had labels")
	assert.Equal(t, []string{"labels are not compared: the score has none of the spec's"}, r.Remarks)
	s.Marks = marksAt(map[int64]string{0: "A–A1", 16: "A–A1", 24: "Lock"})
	assert.Empty(t, told(t, p, s, Options{}), "a fold names its passes")
}

func TestPartsAreMatched(t *testing.T) {
	p := piece(t, two)
	marks := marksAt(map[int64]string{8: "A1", 16: "A2", 24: "A3", 32: "A4"})
	renamed := &heard.Score{Marks: marks, Parts: []*heard.Part{part(t, "Barge", bargePlayed), part(t, "Clock", gatePlayed)}}
	assert.ElementsMatch(t, []string{"no-part the spec has no layer for the part Clock; if it is Gate, say --part \"Clock=Gate\"", "no-part part Gate is missing"}, told(t, p, renamed, Options{}))
	assert.Empty(t, told(t, p, renamed, Options{Parts: map[string][]string{"Clock": {"Gate"}}}))
	assert.Empty(t, told(t, p, renamed, Options{Parts: map[string][]string{"P-Clock": {"Gate"}}}), "by its id")

	shouted := &heard.Score{Marks: marks, Parts: []*heard.Part{part(t, "Barge", bargePlayed), part(t, " GATE", gatePlayed)}}
	assert.Empty(t, told(t, p, shouted, Options{}))

	alone := &heard.Score{Marks: marks, Parts: []*heard.Part{part(t, "Gate", gatePlayed)}, Extract: true}
	assert.Empty(t, told(t, p, alone, Options{}), "a part alone is compared alone")
	alone.Extract = false
	lost := []string{"no-part part Barge is missing"}
	assert.Equal(t, lost, told(t, p, alone, Options{}), "a score that lost a part")
	assert.Empty(t, told(t, p, alone, Options{Parts: map[string][]string{"Gate": {"Gate"}}}), "the user says that it is a part")
	alone.Parts = append(alone.Parts, &heard.Part{ID: "P-Barge", Name: "Barge"})
	assert.Equal(t, lost, told(t, p, alone, Options{}), "only its name is left")
	alone.Parts[1] = part(t, "Barge", "")
	assert.Equal(t, []string{"missing part Barge is empty (spec says 8 notes)"}, told(t, p, alone, Options{}))

	for name, c := range map[string]struct {
		parts map[string][]string
		want  string
	}{
		"no such part":  {map[string][]string{"Bell": {"Gate"}}, `the score has no part "Bell"; its parts are Clock`},
		"no such layer": {map[string][]string{"Clock": {"Sluice"}}, `the spec has no layer "Sluice"`},
		"no name fits":  {nil, "no part of the score goes by the name of a layer; its parts are Clock; say which is which with --part NAME=LAYER"},
	} {
		_, err := Compare(p, &heard.Score{Parts: []*heard.Part{part(t, "Clock", gatePlayed)}}, Options{Parts: c.parts})
		assert.EqualError(t, err, c.want, name)
	}
}

// In a composite what is struck at once is struck once, and lengths run to the
// next attack of any.
func TestComposite(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{part(t, "Composite", "0 2, 2 1, 3 1, 4 2, 6 2, 8 2, 10 1, 11 1, 12 2, 14 2, 16 2, 18 1, 19 1, 20 2, 22 2, 24 2, 26 1, 27 1, 28 2, 30 2")}}
	s.Marks = marksAt(map[int64]string{8: "A1", 16: "A2", 24: "A3", 32: "A4"})
	assert.Empty(t, told(t, piece(t, two), s, Options{}))
	s.Parts[0].Attacks = s.Parts[0].Attacks[1:]
	assert.Equal(t, []string{"missing bar 1 beat 1: Composite lacks a note"}, told(t, piece(t, two), s, Options{}))
}

// What the reader found broken is told with its place; what it left out is a
// remark.
func TestRemarks(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", bargePlayed)}, Remarks: []heard.Remark{
		{Kind: heard.Misfit, Part: "Barge", Bar: "3", Text: "bar 3 holds 9/8, it should be 1"},
		{Kind: heard.Loose, Part: "Barge", Bar: "2", Text: "a tie begins on G5 of bar 2 but ends nowhere"},
		{Kind: heard.LeftOut, Part: "Barge", Text: "1 grace note left out in bar 1"},
		{Kind: heard.Misfit, Part: "Clock", Bar: "1", Text: "not compared"},
	}}
	r, err := Compare(piece(t, barge), s, Options{})
	require.NoError(t, err)
	require.Len(t, r.Differences, 2)
	assert.Equal(t, "Barge: a tie begins on G5 of bar 2 but ends nowhere", r.Differences[0].String())
	assert.Equal(t, BadTie, r.Differences[0].Kind)
	assert.Equal(t, "bar 3 beat 1", r.Differences[1].Where.String())
	assert.Equal(t, BadBar, r.Differences[1].Kind)
	assert.Equal(t, []string{"Barge: 1 grace note left out in bar 1"}, r.Remarks)
	assert.Equal(t, []string{"Barge"}, r.Compared)
	assert.Equal(t, 8, r.Notes)
}
