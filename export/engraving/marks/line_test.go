package marks

import (
	"fmt"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout"
	"tieover/score/spec/spectest"
)

// drawn draws the marks of each of some lines of bars of a flute's plan, over skylines
// that reach two spaces to each side of the middle line, as bare staves do.
func drawn(t *testing.T, plan string, lines ...[2]int) (all []*spacing.Line, staves []canvas.Staff, carried Carried) {
	laid, problems := layout.Lay(spectest.Read(t, "title: T\nmeter: 4/4\nlength: 4 bars\nlayers: [{name: Flute, instrument: flute, groups: 8, pitches: A4}]\nplan:\n"+plan), layout.Options{Marks: layout.MarkNone})
	require.NoError(t, problems.Err())
	s := &spacing.Setter{Reader: content.NewReader(laid), Width: 9000}
	rows := slices.Collect(s.Rows)
	carried = New()
	for _, bars := range lines {
		l := s.Line(rows[bars[0]-1:bars[1]], nil, 9000)
		l.Spread(1000)
		l.PlaceSpots()
		c := canvas.New(s.Staves, 9000, false)
		st := &c.Staves[0]
		st.Up, st.Down = slices.Repeat([]pen.Unit{-200}, 200), slices.Repeat([]pen.Unit{200}, 200)
		Draw(l, &c, &carried)
		all, staves = append(all, l), append(staves, *st)
	}
	return all, staves, carried
}

// length writes a length as SVG has it, ten to a space.
func length(u pen.Unit) string { return strconv.FormatFloat(float64(u)/10, 'f', -1, 64) }

// By hand. Words in 165 hang 50 over the lines with a foot of 36: at -286; a dynamic,
// which reaches 165 up, 50 below them: at 415, the middle of its letters 50 right of the
// note. A hairpin hangs at the same height, its axis 40 higher, from the note on to 40
// before the barline that it leads to, open by 50 to each side.
func TestWordsDynamicsAndHairpins(t *testing.T) {
	lines, staves, carried := drawn(t, "  - {at: bar 1, text: soli, dynamic: mf}\n  - {at: bar 2, hairpin: crescendo, to: bar 3}\n  - {at: bar 3, hairpin: diminuendo, to: bar 4}\n", [2]int{1, 4})
	x := func(bar int) pen.Unit { return lines[0].Xs[bar-1][0] }
	texts, strokes := string(staves[0].Texts), string(staves[0].Strokes)
	assert.Contains(t, texts, fmt.Sprintf(`<text x="%s" y="-28.6" font-size="16.5" font-style="italic"`, length(x(1))))
	assert.Contains(t, texts, ">soli</text>")
	assert.Contains(t, texts, fmt.Sprintf(`<text x="%s" y="41.5" font-size="24" font-weight="bold" font-style="italic" text-anchor="middle"`, length(x(1)+50)))
	wide, point := length(lines[0].Edges[2]-40), length(x(2))
	assert.Contains(t, strokes, fmt.Sprintf("M%s 32.5L%s 37.5L%s 42.5", wide, point, wide))
	wide, point = length(x(3)), length(lines[0].Edges[3]-40)
	assert.Contains(t, strokes, fmt.Sprintf("M%s 32.5L%s 37.5L%s 42.5", wide, point, wide))
	assert.Empty(t, carried.hairpins)
}

// A hairpin and a rit. that a line's end cuts go on at the start of the next, the words in
// parentheses; once they end nothing is carried.
func TestMarksOverTwoLines(t *testing.T) {
	plan := "  - {at: bar 2, hairpin: crescendo, tempo: rit., to: bar 4}\n"
	_, staves, carried := drawn(t, plan, [2]int{1, 2})
	assert.Contains(t, string(staves[0].Texts), ">rit.</text>")
	assert.Equal(t, "rit.", carried.gradual)
	assert.Len(t, carried.hairpins, 1)
	_, staves, carried = drawn(t, plan, [2]int{1, 2}, [2]int{3, 4})
	assert.Contains(t, string(staves[1].Texts), ">(rit.)</text>")
	assert.Empty(t, carried.gradual)
	assert.Empty(t, carried.hairpins)
	_, staves, _ = drawn(t, "  - {at: bar 2, text: soli}\n", [2]int{1, 1}, [2]int{2, 4})
	assert.NotContains(t, string(staves[0].Texts), "soli")
	assert.Contains(t, string(staves[1].Texts), ">soli</text>")
}

// A tempo stands over words, in the outermost lane: words first, then the equation.
func TestTempo(t *testing.T) {
	_, staves, _ := drawn(t, "  - {at: bar 2, tempo: \"Lively, 96\", text: soli}\n  - {at: bar 3, tempo: quarter = dotted quarter}\n", [2]int{2, 4})
	texts := string(staves[0].Texts)
	// Words reach 118 over -286, to -404; tempo keeps 60 and reaches 50 down: -514.
	assert.Contains(t, texts, ` y="-51.4" font-size="19" font-weight="bold"`)
	for _, want := range []string{">Lively</text>", ">= 96</text>", ">= 144</text>", ">(</text>", ">=</text>", ">)</text>"} {
		assert.Contains(t, texts, want)
	}
}
