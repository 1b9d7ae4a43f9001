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

func TestExcerpt(t *testing.T) {
	s := laid(t, layout.Options{}, lockRound)
	e, problems := edit.Excerpt(s, 5, 6, []string{"Vibraphone"})
	require.NoError(t, problems.Err())
	require.Len(t, e.Parts, 1)
	require.NoError(t, sheet.Check(e, &e.Parts[0]))
	assert.Equal(t, "q q q q q | ~e q. q q q", rhythm(e), "the tie into bar 5 is cut")
	assert.Equal(t, []string{"5.4"}, marksOf(&e.Parts[0], sheet.CycleStart))
	assert.Equal(t, []string{"6.4"}, marksOf(&e.Parts[0], sheet.CycleStop), "the bracket from before is gone")
	for b := range e.Parts[0].Bars() {
		assert.Equal(t, b.Number == 5, b.NewMeter && b.NewKey)
	}
	_, problems = edit.Excerpt(s, 40, 50, nil)
	assert.ErrorContains(t, problems.Err(), "bars 40 to 50 are not in the piece")
	_, problems = edit.Excerpt(s, 1, 2, []string{"Organ"})
	assert.ErrorContains(t, problems.Err(), `no part "Organ"`)

	mid, problems := edit.Excerpt(laid(t, layout.Options{}, lockRound), 7, 8, []string{"Vibraphone"})
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"7.0 B1"}, marksOf(&mid.Parts[0], sheet.Rehearsal), "the new top part carries the labels")
}

// A bracket that begins inside the last bar's one rest ends with the bar, not before
// it begins: 4 eighths into bar 3 (20 eighths a cycle, by hand).
func TestExcerptEndsInARest(t *testing.T) {
	e := excerpted(t, laid(t, layout.Options{}, "title: Weir\nmeter: 4/4\nlength: 4 bars\nlayers: [{name: Weir, groups: rest 8+4+rest 8}]\n"), 2, 3)
	assert.Equal(t, []string{"3.0+"}, marksOf(&e.Parts[0], sheet.CycleStart))
	assert.Equal(t, []string{"3.1"}, marksOf(&e.Parts[0], sheet.CycleStop))
}

// The systems of the whole piece begin with bars 4, 7 and 10. In an excerpt no
// bar is alone on a line.
func TestExcerptsHaveNoLoneBars(t *testing.T) {
	s := laid(t, layout.Options{}, lockRound)
	for span, want := range map[[2]int][]int{{3, 7}: nil, {2, 8}: {4, 7}, {4, 8}: {7}, {6, 12}: {10}, {5, 10}: {7}} {
		e := excerpted(t, s, span[0], span[1])
		assert.Equal(t, want, breaksOf(&e.Parts[0]), span)
	}
}

// excerpted cuts bars out of the layers of a spec and holds them to the law.
func excerpted(t *testing.T, s *sheet.Sheet, from, to int, parts ...string) *sheet.Sheet {
	t.Helper()
	e, problems := edit.Excerpt(s, from, to, parts)
	require.NoError(t, problems.Err())
	for i := range e.Parts {
		require.NoError(t, sheet.Check(e, &e.Parts[i]))
	}
	return e
}

// tempos lists a part's tempo marks: bar, rate, and whether an equation stands
// with it.
func tempos(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.TempoMark {
				text := fmt.Sprintf("%d.%d %v", b.Number, m.Before, m.Tempo.Rate)
				if m.Tempo.Old != nil {
					text += " equation"
				}
				all = append(all, text)
			}
		}
	}
	return all
}

// An excerpt says again what is in force: tempo, and the dynamic of each layer
// at its first note in it.
func TestExcerptSaysAgainWhatHolds(t *testing.T) {
	s := laid(t, layout.Options{}, `title: Weir
meter: 4/4
tempo: 120
length: 8 bars
realign: [A]
layers:
  - {name: A, groups: 3+3+2, dynamic: p}
  - {name: B, groups: 8, dynamic: f, enters: bar 2, except: [{bar: 4, rest: yes}]}
plan:
  - {at: bar 3, tempo: quarter = dotted quarter}
  - {at: bar 3, dynamic: ff, for: [A]}
`)
	assert.Equal(t, []string{"1.0 120", "3.0 180 equation"}, tempos(&s.Parts[0]))
	e := excerpted(t, s, 4, 6)
	assert.Equal(t, []string{"4.0 180"}, tempos(&e.Parts[0]))
	assert.Equal(t, []string{"4.0 ff"}, marksOf(&e.Parts[0], sheet.DynamicMark))
	assert.Equal(t, []string{"5.0 f"}, marksOf(&e.Parts[1], sheet.DynamicMark), "at its first note there")

	e = excerpted(t, s, 3, 4)
	assert.Equal(t, []string{"3.0 180 equation"}, tempos(&e.Parts[0]), "once")
	assert.Equal(t, []string{"3.0 ff"}, marksOf(&e.Parts[0], sheet.DynamicMark), "once")

	e = excerpted(t, s, 5, 5, "B")
	assert.Equal(t, []string{"5.0 180"}, tempos(&e.Parts[0]), "the new top part has the tempo")
	assert.Equal(t, []string{"5.0 f"}, marksOf(&e.Parts[0], sheet.DynamicMark))

	e = excerpted(t, s, 1, 2)
	assert.Equal(t, []string{"1.0 120"}, tempos(&e.Parts[0]))
	assert.Equal(t, []string{"1.0 p"}, marksOf(&e.Parts[0], sheet.DynamicMark))
}

// A repeat needs both its signs; of a gathered rest the rest of it is left.
func TestExcerptKeepsWholeSignsOnly(t *testing.T) {
	signs := func(s *sheet.Sheet) (all []string) {
		for b := range s.Parts[0].Bars() {
			if b.Left == sheet.RepeatStart || b.Barline == sheet.RepeatEnd {
				all = append(all, fmt.Sprint(b.Number, b.Left == sheet.RepeatStart, b.Barline == sheet.RepeatEnd, b.Times))
			}
		}
		return all
	}
	s := laid(t, layout.Options{}, strings.Replace(lockRound, "length:", "end: repeat\nlength:", 1))
	assert.Equal(t, []string{"1 true false 2", "12 false true 2"}, signs(s))
	assert.Equal(t, signs(s), signs(excerpted(t, s, 1, 12)))
	assert.Empty(t, signs(excerpted(t, s, 1, 11)))
	assert.Empty(t, signs(excerpted(t, s, 2, 12)))

	part := single(t, layout.Options{Cues: layout.CueNone}, 1, `title: Weir
meter: 4/4
length: 12 bars
layers:
  - {name: A, groups: 3+3+2}
  - {name: B, groups: 8, enters: bar 11}
`)
	rests := func(s *sheet.Sheet) (all []int) {
		for b := range s.Parts[0].Bars() {
			all = append(all, b.Rest)
		}
		return all
	}
	assert.Equal(t, []int{10, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, rests(part))
	assert.Equal(t, []int{6, 0, 0, 0, 0, 0}, rests(excerpted(t, part, 4, 9)))
	assert.Equal(t, []int{0, 0}, rests(excerpted(t, part, 10, 11)))
}

// An excerpt out of the middle of a rit. begins at the tempo of that moment and
// says that it goes on; after it, it says what it came to.
func TestExcerptOfAGradualTempo(t *testing.T) {
	s := laid(t, layout.Options{}, `title: Weir
tempo: 120
length: 8 bars
layers:
  - {name: A, groups: 3+3+2}
  - {name: B, groups: 4+4}
plan:
  - {at: bar 2, tempo: rit., to: bar 5}
`)
	signs := func(s *sheet.Sheet) (all []string) {
		for b := range s.Parts[0].Bars() {
			for _, m := range b.Marks {
				switch {
				case m.Kind == sheet.TempoMark || m.Kind == sheet.TempoStep && m.Before == 0 && m.Offset == 0:
					all = append(all, fmt.Sprintf("%d %v", b.Number, m.Tempo.Quarters))
				case m.Kind == sheet.GradualStart || m.Kind == sheet.GradualStop:
					all = append(all, fmt.Sprintf("%d.%d %q", b.Number, m.Before, m.Text))
				}
			}
		}
		return all
	}
	// Twelve beats from 120 to 96, each by 2: bar 2 begins at 119, bar 3 at 111.
	assert.Equal(t, []string{"1 120", `2.0 "rit."`, "2 119", "3 111", "4 103", `4.3 ""`, "5 96"}, signs(s))
	assert.Equal(t, []string{"3 111", `3.0 "(rit.)"`, "3 111", `3.2 ""`}, signs(excerpted(t, s, 3, 3)), "cut off at the end")
	assert.Equal(t, []string{"4 103", `4.0 "(rit.)"`, "4 103", `4.3 ""`, "5 96"}, signs(excerpted(t, s, 4, 6)))
	assert.Equal(t, []string{"6 96"}, signs(excerpted(t, s, 6, 7, "B")))
}
