package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
)

func TestFold(t *testing.T) {
	text := strings.Replace(lockRound, "2 realignments", "4 realignments", 1)
	s := laid(t, layout.Options{}, text)
	f := edit.Fold(s)
	assert.Equal(t, 24, s.Bars)
	assert.Equal(t, 6, f.Bars)
	for i := range f.Parts {
		require.NoError(t, sheet.Check(f, &f.Parts[i]))
		n := 0
		for b := range f.Parts[i].Bars() {
			n++
			assert.Equal(t, b.Number == 1, b.Left == sheet.RepeatStart)
			assert.Equal(t, b.Number == 6, b.Barline == sheet.RepeatEnd && b.Times == 4)
		}
		assert.Equal(t, 6, n)
	}
	assert.Equal(t, []string{"1.0 B–B3"}, marksOf(&f.Parts[0], sheet.Rehearsal))
	// The second loop grows: nothing repeats.
	grows := strings.Replace(text, "3+3+2+2+2", "3+3+2+2+2, process: {append: {size: 2}}", 1)
	grows = strings.Replace(grows, "4 realignments", "24 bars", 1)
	assert.Equal(t, 24, edit.Fold(laid(t, layout.Options{}, grows)).Bars)
}

// period is two players whose loops, of one bar of 4/4 and of two, begin together
// every other bar.
func period(length, more string) string {
	return `title: Weir
section: A
meter: 4/4
tempo: 90
` + length + `
layers:
  - {name: Sluice, groups: 8, dynamic: mf}
  - {name: Gate, groups: 4+4+4+4, dynamic: p}
` + more
}

func TestFoldNamesItsPasses(t *testing.T) {
	f := edit.Fold(laid(t, layout.Options{}, period("length: 8 bars", "")))
	assert.Equal(t, 2, f.Bars)
	assert.Equal(t, []string{"1.0 A–A3"}, marksOf(&f.Parts[0], sheet.Rehearsal))
	assert.Empty(t, marksOf(&f.Parts[0], sheet.Boxed), "the end has no label")
	assert.Empty(t, marksOf(&f.Parts[1], sheet.Rehearsal), "labels stand on the top part")
	assert.Empty(t, marksOf(&f.Parts[1], sheet.Boxed))
}

// What is in force when a pass begins must be what is in force when the others
// do: a repeat goes back to the first one's signs. Bars 7 and 8 have no entry and
// stand by themselves.
func TestFoldKeepsTheLoudnessAndTempo(t *testing.T) {
	for what, want := range map[string]int{
		"text: lean out":                      4, // bars 1–6 say the same three times
		"fermata: yes":                        4, // as often
		"dynamic: ff":                         6, // the first pass begins mf and p, the others ff
		"tempo: 60":                           6, // the first pass begins at 90, the others at 60
		"hairpin: crescendo, to: next":        8, // each pass begins louder than the one before
		"hairpin: crescendo, to: next beat 2": 8, // and this one leads out of each pass
		"tempo: rit., to: next":               8, // each pass begins slower than the one before
		"tempo: rit., to: next beat 2":        8, // and this one leads out of each pass
	} {
		plan := "plan:\n"
		for bar := 2; bar <= 6; bar += 2 {
			plan += fmt.Sprintf("  - {at: bar %d, %s}\n", bar, strings.ReplaceAll(what, "next", fmt.Sprint("bar ", bar+1)))
		}
		assert.Equal(t, want, edit.Fold(laid(t, layout.Options{}, period("length: 8 bars", plan))).Bars, what)
	}
}

// A pass with a rit. in it is folded with others that begin "a tempo" too, but not
// with the first, which begins with a number, nor the last, which has no rit.
func TestFoldWithRits(t *testing.T) {
	plan := "plan:\n"
	for bar := 2; bar <= 6; bar += 2 {
		plan += fmt.Sprintf("  - {at: bar %d beat 3, tempo: rit., to: bar %d}\n  - {at: bar %d, tempo: a tempo}\n", bar, bar+1, bar+1)
	}
	assert.Equal(t, 6, edit.Fold(laid(t, layout.Options{}, period("length: 8 bars", plan))).Bars)
}

// A second section with the same music is no repetition of the first.
func TestFoldStaysInItsSection(t *testing.T) {
	one, two := period("length: 2 bars", ""), period("length: 2 bars", "")
	two = "title: Weir\nsection: B\n" + two[len("title: Weir\nsection: A\n"):]
	assert.Equal(t, 4, edit.Fold(laid(t, layout.Options{}, one, two)).Bars)
}

// A part repeats what the score repeats, though its own bars repeat sooner.
func TestFoldsAreSharedByScoreAndParts(t *testing.T) {
	text := `title: Weir
section: A
meter: 4/4
length: 8 bars
realign: [Sluice]
layers:
  - {name: Sluice, groups: 8+8}
  - {name: Gate, groups: 3+3+2+3+3+2+2+2+2+2+2+2+2+2}
`
	whole := laid(t, layout.Options{}, text)
	folds := edit.FindFolds(whole)
	part := single(t, layout.Options{Edition: sheet.Play}, 0, text)
	assert.Equal(t, 2, edit.Fold(part).Bars, "by itself")
	assert.Equal(t, 8, edit.Fold(whole).Bars, "the other loop comes round after four bars, not two")
	assert.Equal(t, 8, folds.Apply(part).Bars)

	round := strings.Replace(lockRound, "2 realignments", "4 realignments", 1)
	part = edit.FindFolds(laid(t, layout.Options{}, round)).Apply(single(t, layout.Options{Edition: sheet.Play}, 1, round))
	require.NoError(t, sheet.Check(part, &part.Parts[0]))
	assert.Equal(t, 6, part.Bars)
	assert.Equal(t, []string{"1.0 B–B3"}, marksOf(&part.Parts[0], sheet.Rehearsal))
	assert.Empty(t, marksOf(&part.Parts[0], sheet.Boxed))
}

// A loop of seven is cut every four bars of 4/4; after each cut the same four
// bars come, so that 16 bars are four passes. The start is a realignment of
// either kind; where bar 2 has a text, the first pass stands alone.
func TestFoldJoinsOneKind(t *testing.T) {
	cut := laid(t, layout.Options{}, `title: Weir
section: C
meter: 4/4
length: 16 bars
layers:
  - {name: A, groups: 4+3, loop: cut every 4 bars}
  - {name: B, groups: 8}
`)
	f := edit.Fold(cut)
	assert.Equal(t, 4, f.Bars)
	assert.Equal(t, []string{"1.0 C–C3 cut"}, marksOf(&f.Parts[0], sheet.Rehearsal))

	f = edit.Fold(laid(t, layout.Options{}, `title: Weir
section: C
meter: 4/4
length: 16 bars
layers:
  - {name: A, groups: 4+3, loop: cut every 4 bars}
  - {name: B, groups: 8}
plan:
  - {at: bar 2, text: once}
`))
	assert.Equal(t, []string{"1.0 C", "5.0 C1–C3 cut"}, marksOf(&f.Parts[0], sheet.Rehearsal))
}

// A sign in a pass's last bar asks for a courtesy sign in the next one's first
// bar, not in the first pass: that is no difference. The landing bar stays.
func TestFoldMindsNoCourtesySigns(t *testing.T) {
	f := edit.Fold(laid(t, layout.Options{}, `title: Weir
section: L
meter: 4/4
length: 2 realignments
end: land
layers:
  - {name: A, instrument: marimba, groups: 8, pitches: E5}
  - {name: B, instrument: marimba, groups: 8+8, pitches: F4 F#4}
`))
	require.NoError(t, sheet.Check(f, &f.Parts[1]))
	assert.Equal(t, 3, f.Bars)
	assert.Equal(t, []string{"1.0 L–L1", "5.0 L2"}, marksOf(&f.Parts[0], sheet.Rehearsal))
	for b := range f.Parts[0].Bars() {
		assert.Equal(t, b.Number == 2, b.Barline == sheet.RepeatEnd && b.Times == 2)
	}
}

// Passes that differ in a grace note are not folded: of four of two bars the third
// has one in place of the plain D5.
func TestGraceNotesAreNotFolded(t *testing.T) {
	bars := func(pitches string) int {
		return edit.Fold(laid(t, layout.Options{}, period("length: 8 bars", "  - {name: Flute, instrument: flute, groups: 8+8, pitches: E5 D5, except: [{cycle: 3, pitches: "+pitches+"}]}\n"))).Bars
	}
	assert.Equal(t, 2, bars("E5 D5"))
	assert.Equal(t, bars("E5 C5"), bars("E5 C5/D5"))
	assert.Greater(t, bars("E5 C5/D5"), 2)
}
