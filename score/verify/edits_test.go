package verify

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
)

// lock is two layers in 4/4, no two bars alike. In eighths Barge strikes at
// 0 3 7 10 14 17 21 24 28 31, C5 and G5 by turns, and Gate at 0 5 10 15 20 25 30.
const lock = `title: Lock
meter: 4/4
length: 4 bars
layers:
  - name: Barge
    instrument: flute
    groups: 3+4
    pitches: C5 G5
  - name: Gate
    instrument: claves
    groups: "5"
`

const (
	lockBarge = "0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 3 C5, 17 4 G5, 21 3 C5, 24 4 G5, 28 3 C5, 31 1 G5"
	lockGate  = "0 5, 5 5, 10 5, 15 5, 20 5, 25 5, 30 2"
)

// inBars gives a part bars of 4/4 with these numbers; "2:2" is bar 2 played for
// the second time.
func inBars(p *heard.Part, numbers ...string) *heard.Part {
	p.Bars = p.Bars[:0]
	for n, text := range numbers {
		number, pass, _ := strings.Cut(text, ":")
		bar := heard.Bar{Number: number, Pass: 1, Start: beat.Of(int64(n), 1), Length: beat.Of(1, 1), Beats: heard.Beats([]int{4}, 4), Meter: "4/4"}
		if pass != "" {
			_, _ = fmt.Sscan(pass, &bar.Pass)
		}
		p.Bars = append(p.Bars, bar)
	}
	return p
}

// What a person does to a whole score in one move is told in one line. A note
// that rang over the place of a cut bar is cut too, and what is left of it
// beyond is struck anew: both follow from the cut.
func TestBarsCutAndDoubled(t *testing.T) {
	numbers := func(text string) []string { return strings.Fields(text) }
	for name, c := range map[string]struct {
		bars, barge, gate string
		want              []string
	}{
		"as it is": {"1 2 3 4", lockBarge, lockGate, nil},
		"bar 2 cut, numbers kept": {"1 3 4",
			"0 3 C5, 3 4 G5, 7 1 C5, 8 1 C5, 9 4 G5, 13 3 C5, 16 4 G5, 20 3 C5, 23 1 G5", "0 5, 5 3, 8 4, 12 5, 17 5, 22 2",
			[]string{"bar-missing bar 2 is missing in all parts; what follows is compared a bar later"}},
		"bar 2 cut, counted anew, and a wrong note": {"1 2 3",
			"0 3 C5, 3 4 G5, 7 1 C5, 8 1 C5, 9 4 G5, 13 3 C5, 16 4 A5, 20 3 C5, 23 1 G5", "0 5, 5 3, 8 4, 12 5, 17 5, 22 2",
			[]string{"bar-missing bar 2 is missing in all parts; what follows is compared a bar later", "pitch bar 3 beat 1: Barge has A5, spec says G5"}},
		"bars 2 and 3 cut": {"1 2",
			"0 3 C5, 3 4 G5, 7 1 C5, 8 4 G5, 12 3 C5, 15 1 G5", "0 5, 5 3, 8 1, 9 5, 14 2",
			[]string{"bar-missing bars 2 and 3 are missing in all parts; what follows is compared 2 bars later"}},
		"the last bar cut": {"1 2 3",
			"0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 3 C5, 17 4 G5, 21 3 C5", "0 5, 5 5, 10 5, 15 5, 20 4",
			[]string{"bar-missing bar 4 is missing in all parts"}},
		"the first bar cut": {"1 2 3",
			"0 2 C5, 2 4 G5, 6 3 C5, 9 4 G5, 13 3 C5, 16 4 G5, 20 3 C5, 23 1 G5", "0 2, 2 5, 7 5, 12 5, 17 5, 22 2",
			[]string{"bar-missing bar 1 is missing in all parts; what follows is compared a bar later"}},
		// where the copy begins, a tie of the first goes on into it
		"bar 2 doubled": {"1 2 3 4 5",
			"0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 4 C5, 18 4 G5, 22 3 C5, 25 4 G5, 29 3 C5, 32 4 G5, 36 3 C5, 39 1 G5",
			"0 5, 5 5, 10 5, 15 3, 18 5, 23 5, 28 5, 33 5, 38 2",
			[]string{"bar-twice bar 2 stands twice in all parts, again as bar 3; what follows is compared a bar earlier"}},
		"bars 2 and 3 copied": {"1 2 3 4 5 6",
			"0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 3 C5, 17 4 G5, 21 3 C5, 24 2 C5, 26 4 G5, 30 3 C5, 33 4 G5, 37 3 C5, 40 4 G5, 44 3 C5, 47 1 G5",
			"0 5, 5 5, 10 5, 15 5, 20 6, 26 5, 31 5, 36 5, 41 5, 46 2",
			[]string{"bar-twice bars 2 and 3 stand twice in all parts, again as bars 4 and 5; what follows is compared 2 bars earlier"}},
		"bars 2 and 3 repeated": {"1 2 3 2:2 3:2 4",
			"0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 3 C5, 17 4 G5, 21 3 C5, 24 2 C5, 26 4 G5, 30 3 C5, 33 4 G5, 37 3 C5, 40 4 G5, 44 3 C5, 47 1 G5",
			"0 5, 5 5, 10 5, 15 5, 20 6, 26 5, 31 5, 36 5, 41 5, 46 2",
			[]string{"repeated bars 2 and 3 are repeated; the spec plays them once"}},
		"a bar of rests put in": {"1 2 3 4 5",
			"0 3 C5, 3 4 G5, 7 1 C5, 16 2 C5, 18 4 G5, 22 3 C5, 25 4 G5, 29 3 C5, 32 4 G5, 36 3 C5, 39 1 G5", "0 5, 5 3, 16 2, 18 5, 23 5, 28 5, 33 5, 38 2",
			[]string{"bar-extra bar 2 is not in the spec; what follows is compared a bar earlier"}},
		"two bars put in at the end": {"1 2 3 4 5 6", lockBarge + ", 32 4 G5", lockGate + ", 32 2",
			[]string{"bar-extra bars 5 and 6 are not in the spec"}},
	} {
		s := &heard.Score{Parts: []*heard.Part{inBars(part(t, "Barge", c.barge), numbers(c.bars)...), inBars(part(t, "Gate", c.gate), numbers(c.bars)...)}}
		assert.Equal(t, c.want, told(t, piece(t, lock), s, Options{}), name)
	}
}

// The ties that a cut leaves without their other end are part of the cut; one
// elsewhere is told.
func TestTiesAtACut(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{
		inBars(part(t, "Barge", "0 3 C5, 3 4 G5, 7 1 C5, 8 1 C5, 9 4 G5, 13 3 C5, 16 4 G5, 20 3 C5, 23 1 G5"), "1", "3", "4"),
		inBars(part(t, "Gate", "0 5, 5 3, 8 4, 12 5, 17 5, 22 2"), "1", "3", "4")},
		Remarks: []heard.Remark{
			{Kind: heard.Loose, Part: "Barge", Bar: "1", Text: "a tie begins on C5 of bar 1 but ends nowhere"},
			{Kind: heard.Loose, Part: "Barge", Bar: "3", Text: "bar 3: a tie ends on C5 but begins nowhere"},
			{Kind: heard.Loose, Part: "Barge", Bar: "4", Text: "a tie begins on G5 of bar 4 but ends nowhere"},
		}}
	assert.Equal(t, []string{"bar-missing bar 2 is missing in all parts; what follows is compared a bar later", "tie Barge: a tie begins on G5 of bar 4 but ends nowhere"},
		told(t, piece(t, lock), s, Options{}))
}

// A bar that one part alone has lost is that part's.
func TestABarIsCutInOnePart(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{
		inBars(part(t, "Barge", "0 3 C5, 3 4 G5, 7 1 C5, 8 1 C5, 9 4 G5, 13 3 C5, 16 4 G5, 20 3 C5, 23 1 G5"), "1", "2", "3"),
		part(t, "Gate", lockGate)},
		Remarks: []heard.Remark{{Kind: heard.Misfit, Part: "Barge", Text: "3 bars, other parts have 4 bars"}}}
	assert.Equal(t, []string{"bar-missing bar 2 is missing in Barge; what follows is compared a bar later"}, told(t, piece(t, lock), s, Options{}))
}

// Every bar of Barge is like every other: which of them was cut cannot be known
// from the music, but the numbers say it if they were kept.
func TestWhichOfEqualBarsIsCut(t *testing.T) {
	three := "0 3 C5, 3 5 G5, 8 3 C5, 11 5 G5, 16 3 C5, 19 5 G5"
	for numbers, want := range map[string]string{
		"1 3 4": "bar-missing bar 2 is missing; what follows is compared a bar later",
		"1 2 3": "bar-missing a bar like bar 4 is missing",
		"2 3 4": "bar-missing bar 1 is missing; what follows is compared a bar later",
	} {
		s := &heard.Score{Parts: []*heard.Part{inBars(part(t, "Barge", three), strings.Fields(numbers)...)}}
		assert.Equal(t, []string{want}, told(t, piece(t, barge), s, Options{}), numbers)
	}
}

// Labels go with the bars: A3 is asked for a bar earlier.
func TestLabelsGoWithTheBars(t *testing.T) {
	p := piece(t, two)
	s := &heard.Score{Parts: []*heard.Part{
		inBars(part(t, "Barge", "0 3 C5, 3 5 G5, 8 3 C5, 11 5 G5, 16 3 C5, 19 5 G5"), "1", "2", "4"),
		inBars(part(t, "Gate", "0 2, 2 2, 4 2, 6 2, 8 2, 10 2, 12 2, 14 2, 16 2, 18 2, 20 2, 22 2"), "1", "2", "4")}}
	s.Marks = marksAt(map[int64]string{8: "A1", 16: "A3", 24: "A4"})
	assert.Equal(t, []string{"bar-missing bar 3 is missing in all parts; what follows is compared a bar later"}, told(t, p, s, Options{}))
}

// A repeat that the spec ends with, and the score does not play.
func TestARepeatIsLost(t *testing.T) {
	p := piece(t, strings.Replace(lock, "length: 4 bars\n", "length: 2 bars\nend: repeat\n", 1))
	s := &heard.Score{Parts: []*heard.Part{
		inBars(part(t, "Barge", "0 3 C5, 3 4 G5, 7 3 C5, 10 4 G5, 14 2 C5"), "1", "2"),
		inBars(part(t, "Gate", "0 5, 5 5, 10 5, 15 1"), "1", "2")}}
	assert.Equal(t, []string{"repeat-missing the repeat of bars 1 and 2 is missing"}, told(t, p, s, Options{}))
}

// An excerpt of a section that is repeated lacks what is before and after it, and the
// repeat.
func TestAnExcerptOfARepeat(t *testing.T) {
	p := piece(t, strings.Replace(lock, "length: 4 bars\n", "length: 4 bars\nend: repeat\n", 1))
	s := &heard.Score{Parts: []*heard.Part{
		inBars(part(t, "Barge", "2 4 G5, 6 3 C5, 9 4 G5, 13 3 C5"), "2", "3"), inBars(part(t, "Gate", "2 5, 7 5, 12 4"), "2", "3")}}
	assert.Equal(t, []string{
		"bar-missing bar 1 is missing in all parts; what follows is compared a bar later",
		"bar-missing bar 4 is missing in all parts",
		"repeat-missing the repeat of bars 1 to 4 is missing",
	}, told(t, p, s, Options{}))
}

// Bars 4 and 5 of six, of which each second one is alike, are those numbers and not bars 2
// and 3 of the same music; both repeats of a section that is played three times are one
// slip.
func TestAnExcerptIsPairedByItsNumbers(t *testing.T) {
	p := piece(t, "title: T\nmeter: 4/4\nlength: 6 bars\nend: repeat 3\nlayers:\n  - {name: Gate, groups: 3+5+4+4}\n")
	s := &heard.Score{Parts: []*heard.Part{inBars(part(t, "Gate", "0 4, 4 4, 8 3, 11 5"), "4", "5")}, Marks: []heard.Mark{{At: beat.Of(1, 1), Text: "A2"}}}
	assert.Equal(t, []string{
		"bar-missing bars 1 to 3 are missing; what follows is compared 3 bars later",
		"bar-missing bar 6 is missing",
		"repeat-missing the repeat of bars 1 to 6 is missing",
	}, told(t, p, s, Options{}))
}

// All bars alike, 1 to 3 played three times and 4 to 6 once: bars 2 to 4 are those, though
// the last three would do with fewer cuts.
func TestAnExcerptOverTheEndOfARepeat(t *testing.T) {
	const gate = "title: T\nmeter: 4/4\nlength: 3 bars\nlayers:\n  - {name: Gate, instrument: flute, groups: 3+5, pitches: C5}\n"
	p := piece(t, strings.Replace(gate, "layers", "end: repeat 3\nlayers", 1), gate)
	s := &heard.Score{Parts: []*heard.Part{inBars(part(t, "Gate", "0 3 C5, 3 5 C5, 8 3 C5, 11 5 C5, 16 3 C5, 19 5 C5"), "2", "3", "4")}, Marks: []heard.Mark{{At: beat.Of(2, 1), Text: "B"}}}
	assert.Equal(t, []string{
		"bar-missing bar 1 is missing; what follows is compared a bar later",
		"repeat-missing the repeat of bars 1 to 3 is missing",
		"bar-missing bars like bars 5 and 6 are missing",
	}, told(t, p, s, Options{}))
}

// Parts that hold each other's music are one slip, and what else is wrong is
// told of the layer that is meant.
func TestPartsAreExchanged(t *testing.T) {
	p := piece(t, lock)
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", lockGate), part(t, "Gate", lockBarge)}}
	line := "parts-exchanged the parts Barge and Gate are exchanged: each has the other's music"
	assert.Equal(t, []string{line}, told(t, p, s, Options{}))
	s.Parts[1] = part(t, "Gate", strings.Replace(lockBarge, "24 4 G5", "24 4 A5", 1))
	assert.Equal(t, []string{line, "pitch bar 4 beat 1: Barge has A5, spec says G5"}, told(t, p, s, Options{}))

	ring := strings.Replace(lock, "layers:\n", "layers:\n  - name: Oar\n    instrument: clarinet\n    groups: 3+3+2\n    pitches: E4\n", 1)
	oar := "0 3 E4, 3 3 E4, 6 2 E4, 8 3 E4, 11 3 E4, 14 2 E4, 16 3 E4, 19 3 E4, 22 2 E4, 24 3 E4, 27 3 E4, 30 2 E4"
	s.Parts = []*heard.Part{part(t, "Oar", lockBarge), part(t, "Barge", lockGate), part(t, "Gate", oar)}
	assert.Equal(t, []string{"parts-exchanged the parts Oar, Barge and Gate are exchanged: Oar has the music of Barge, Barge that of Gate, Gate that of Oar"},
		told(t, piece(t, ring), s, Options{}))
}

// keys is a part of two layers. In eighths High strikes as Barge in lock, Low at
// every fifth.
const keys = `title: Lock
meter: 4/4
length: 4 bars
layers:
  - name: High
    player: Keys
    instrument: piano
    groups: 3+4
    pitches: C5 G5
  - name: Low
    player: Keys
    instrument: piano
    groups: "5"
    pitches: C3
`

const keysLow = "0 5 C3, 5 5 C3, 10 5 C3, 15 5 C3, 20 5 C3, 25 5 C3, 30 2 C3"

// A layer that is late is one line: not the note before it that is held until
// it comes, nor the note that has no room at the end, nor the other layer.
func TestALayerIsLate(t *testing.T) {
	late := "0 3 C5, 3 4 G5, 7 4 C5, 11 4 G5, 15 3 C5, 18 4 G5, 22 3 C5, 25 4 G5, 29 3 C5"
	line := "moved-run bar 2 beat 2½: from here to bar 4 beat 3½ High is 1/8 late (6 notes; 1 more has no room at the end)"
	for name, c := range map[string]struct {
		high string
		want []string
	}{
		"late":                          {late, []string{line}},
		"late, the note before as ever": {strings.Replace(late, "7 4 C5", "7 3 C5", 1), []string{line}},
		"late, with a wrong note":       {strings.Replace(late, "18 4 G5", "18 4 A5", 1), []string{line, "pitch bar 3 beat 2: High has A5, spec says G5"}},
		"late, without one note":        {strings.Replace(late, "18 4 G5, ", "", 1), []string{line, "missing bar 3 beat 2: High lacks G5"}},
		// from 10 to 24 an eighth late, then as it should be
		"late for a while": {"0 3 C5, 3 4 G5, 7 4 C5, 11 4 G5, 15 3 C5, 18 4 G5, 22 2 C5, 24 4 G5, 28 3 C5, 31 1 G5",
			[]string{"moved-run bar 2 beat 2½: from here to bar 3 beat 4 High is 1/8 late (4 notes)"}},
		// all of it a quarter early, without its first note
		"early": {"1 4 G5, 5 3 C5, 8 4 G5, 12 3 C5, 15 4 G5, 19 3 C5, 22 4 G5, 26 3 C5, 29 3 G5",
			[]string{"moved-run bar 1 beat 1½: from here to bar 4 beat 3½ High is 1/4 early (9 notes; 1 more has no room at the start)"}},
	} {
		p := part(t, "Keys", keysLow+", "+c.high)
		s := &heard.Score{Parts: []*heard.Part{p}}
		assert.ElementsMatch(t, c.want, told(t, piece(t, keys), s, Options{}), name)
	}
}

// When all come late together, that is one line too.
func TestAllAreLate(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{
		part(t, "Barge", "0 3 C5, 3 4 G5, 7 5 C5, 12 4 G5, 16 3 C5, 19 4 G5, 23 3 C5, 26 4 G5, 30 2 C5"),
		part(t, "Gate", "0 5, 5 7, 12 5, 17 5, 22 5, 27 5")}}
	assert.Equal(t, []string{"moved-run bar 2 beat 3: from here on all parts are 1/4 late (10 notes; 2 more have no room at the end)"},
		told(t, piece(t, lock), s, Options{}))
}

// Printed numbers are the ones a player can find.
func TestPrintedNumbers(t *testing.T) {
	p := part(t, "Barge", strings.Replace(bargePlayed, "8 3 C5", "8 3 C#5", 1))
	p.Bars[1].Printed = "(12)"
	s := &heard.Score{Parts: []*heard.Part{p}}
	assert.Equal(t, []string{"pitch bar (12) beat 1: Barge has C#5, spec says C5"}, told(t, piece(t, barge), s, Options{}))
}

// A result says what was not looked at.
func TestWhatIsNotCompared(t *testing.T) {
	s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", bargePlayed)}}
	r, err := Compare(piece(t, barge), s, Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"tempo", "dynamics", "articulation", "text", "how it is written"}, r.NotCompared)
	r, err = Compare(piece(t, barge), s, Options{RhythmOnly: true})
	require.NoError(t, err)
	assert.Equal(t, []string{"pitches and drum sounds", "tempo", "dynamics", "articulation", "text", "how it is written"}, r.NotCompared)
	r, err = Compare(piece(t, barge+"    tails: cut\n"), s, Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"how long notes of Barge last", "tempo", "dynamics", "articulation", "text", "how it is written"}, r.NotCompared)
}
