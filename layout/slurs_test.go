package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
)

// slursOf lists a part's slurs as bar and moment in ticks of where they begin and
// end, each sign at its note's start.
func slursOf(p *sheet.Part) (all []string) {
	open := map[int]string{}
	for b := range p.Bars() {
		for _, v := range b.Measure.Voices {
			for _, e := range v.Events {
				n, ok := e.(*sheet.Note)
				if !ok {
					continue
				}
				here := fmt.Sprintf("%d:%d", b.Number, n.Start)
				if n.Slur.Stops {
					all = append(all, open[v.Number]+"-"+here)
				}
				if n.Slur.Starts {
					open[v.Number] = here
				}
			}
		}
	}
	return all
}

// A flute of 3+2+2 eighths in 7/8 slurs 2+1: attacks 1 and 2 of each cycle, at 0 and
// 3 of each bar (by hand; the grid is eighths).
func flute(slurs, more string) string {
	return "title: Weir\nmeter: 7/8\nlength: 2 bars\nlayers:\n  - {name: Flute, instrument: flute, groups: 3+2+2, pitches: A4 B4 C5" + slurs + "}\n" + more
}

func TestSlurs(t *testing.T) {
	for slurs, want := range map[string][]string{
		", slurs: 2+1":                             {"1:0-1:3", "2:0-2:3"},
		", slurs: cycle":                           {"1:0-1:5", "2:0-2:5"},
		", slurs: none":                            nil,
		", slurs: group":                           nil,
		", slurs: 1+2":                             {"1:3-1:5", "2:3-2:5"},
		", slurs: 2":                               {"1:0-1:3", "2:0-2:3"}, // the third would go on into the next cycle
		", slurs: group, strike: all":              {"1:0-1:2", "1:3-1:4", "1:5-1:6", "2:0-2:2", "2:3-2:4", "2:5-2:6"},
		", slurs: cycle, figures: {3: x=.}":        {"1:3-1:5", "2:3-2:5"}, // a rest after the first
		", slurs: cycle, loop: cut every 1 bar":    {"1:0-1:5", "2:0-2:5"},
		", slurs: cycle, strike: short":            nil,
		", slurs: 2+1, process: {rotate: {by: 1}}": {"1:0-1:3", "2:0-2:2"}, // 3+2+2, then 2+2+3: as it sounds
	} {
		assert.Equal(t, want, slursOf(&laid(t, Options{}, flute(slurs, "")).Parts[0]), slurs)
	}
}

// The plan's slur joins attacks over cycles and bars, in place of the layer's own; it
// ends with the last tied piece of its last sound. Groups of 4 in 3/4: attacks at
// 0 4 8 … eighths, of which 4 lasts from bar 1 into bar 2 and 16 from bar 3 to 4.
func TestSlursOfThePlan(t *testing.T) {
	const text = "title: Weir\nmeter: 3/4\nlength: 4 bars\nlayers:\n  - {name: Flute, instrument: flute, groups: 4+4, pitches: A4 B4, slurs: 2}\n"
	assert.Equal(t, []string{"1:0-2:0", "2:2-3:0", "3:4-4:2"}, slursOf(&laid(t, Options{}, text).Parts[0]))
	plan := "plan: [{at: Flute attack 2, slur: yes, to: Flute attack 4}]\n"
	assert.Equal(t, []string{"1:4-3:0", "3:4-4:2"}, slursOf(&laid(t, Options{}, text+plan).Parts[0]))
}

// An excerpt cuts a slur at its edges: of 1:0-2:0, 2:2-3:0, 3:4-4:2 bars 2 to 3 keep
// the middle one; the first has only its last sound there, the third only its first.
func TestSlursInExcerpts(t *testing.T) {
	const text = "title: Weir\nmeter: 3/4\nlength: 4 bars\nlayers:\n  - {name: Flute, instrument: flute, groups: 4+4, pitches: A4 B4, slurs: 2}\n"
	cut, problems := edit.Excerpt(laid(t, Options{}, text), 2, 3, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"2:2-3:0"}, slursOf(&cut.Parts[0]))
	require.NoError(t, sheet.Check(cut, &cut.Parts[0]))
	long := "plan: [{at: Flute attack 1, slur: yes, to: Flute attack 6}]\n"
	cut, problems = edit.Excerpt(laid(t, Options{}, text+long), 2, 3, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"2:0-3:4"}, slursOf(&cut.Parts[0]))
	require.NoError(t, sheet.Check(cut, &cut.Parts[0]))
}

// What a slur crosses is not folded, nor a period whose slurs differ.
func TestSlursAreNotFolded(t *testing.T) {
	const text = "title: Weir\nmeter: 4/4\nlength: 8 bars\nlayers:\n" +
		"  - {name: Cello, instrument: cello, groups: 3+3+2, pitches: A3 C4}\n  - {name: Viola, instrument: viola, groups: 6+6+4, pitches: A4}\nplan:\n"
	assert.Equal(t, 2, edit.Fold(laid(t, Options{}, text+"  - {at: bar 1, slur: yes, to: bar 1 beat 4, for: Cello}\n  - {at: bar 3, slur: yes, to: bar 3 beat 4, for: Cello}\n"+
		"  - {at: bar 5, slur: yes, to: bar 5 beat 4, for: Cello}\n  - {at: bar 7, slur: yes, to: bar 7 beat 4, for: Cello}\n")).Bars)
	assert.Equal(t, 4, edit.Fold(laid(t, Options{}, text+"  - {at: bar 1, slur: yes, to: bar 1 beat 4, for: Cello}\n")).Bars, "the first pass differs")
	assert.Equal(t, 8, edit.Fold(laid(t, Options{}, text+"  - {at: bar 4, slur: yes, to: bar 5, for: Cello}\n")).Bars, "neither bars 3 to 4 nor 5 to 6 stand alone")
}
