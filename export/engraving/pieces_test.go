package engraving

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec/spectest"
)

// pieces are the specs of the test data and of the starters, by name.
func pieces(t testing.TB) map[string]*score.Piece {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/sections/*/section.yaml")
	require.NoError(t, err)
	starters, err := filepath.Glob("../../templates/*.yaml")
	require.NoError(t, err)
	all := map[string]*score.Piece{}
	for _, path := range append(paths, starters...) {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		all[path] = spectest.Read(t, string(text))
	}
	require.NotEmpty(t, all)
	return all
}

// sheetsOf are the score, all parts, the composite and other writings of a piece.
func sheetsOf(t testing.TB, p *score.Piece) map[string]*sheet.Sheet {
	t.Helper()
	all := map[string]*sheet.Sheet{}
	for name, o := range map[string]layout.Options{
		"default": {},
		"play":    {Spelling: layout.SpellMeter, Beams: layout.BeamMeter, Edition: sheet.Play},
		"sizes":   {Marks: layout.MarkSizes | layout.MarkGroups, Breaks: layout.BreakNone},
		"over":    {BeamOverBarlines: true, Cues: layout.CueNotes},
		"concert": {Spelling: layout.SpellGroup, Concert: true, Marks: layout.MarkNone},
	} {
		whole, problems := layout.Lay(p, o)
		require.NoError(t, problems.Err())
		all[name] = whole
		for i := range p.Players() {
			part, problems := layout.LayPart(p, o, i)
			require.NoError(t, problems.Err())
			all[fmt.Sprintf("%s, part %d", name, i+1)] = part
		}
	}
	if composite, problems := layout.LayComposite(p, layout.Options{}, layout.Composite{}); problems.Err() == nil {
		all["composite"] = composite
	}
	whole := all["default"]
	all["folded"] = edit.Fold(whole)
	if whole.Bars >= 3 {
		excerpt, problems := edit.Excerpt(whole, 2, 3, nil)
		require.NoError(t, problems.Err())
		all["excerpt"] = excerpt
	}
	layers := p.Sections[0].Layers
	if partner, problems := layout.LayPart(p, layout.Options{Partner: layers[len(layers)-1].Name}, 0); problems.Err() == nil {
		all["partner"] = partner
	}
	if own, problems := layout.LayPart(p, layout.Options{Barring: layout.Barring{View: layout.Own}}, len(p.Players())-1); problems.Err() == nil {
		all["own bars"] = own
	}
	if by, problems := layout.Lay(p, layout.Options{Barring: layout.Barring{View: layout.ByLayer, Layer: layers[0].Name}}); problems.Err() == nil {
		all["bars of a layer"] = by
		if both, problems := edit.Compare(whole, by, [2]string{"in the meter", "in the cycle"}); problems.Err() == nil {
			all["two writings"] = both
		}
	}
	return all
}

// randomLayout draws options of writing.
func randomLayout(t *rapid.T) layout.Options {
	return layout.Options{
		Spelling:         layout.Spelling(rapid.IntRange(0, 2).Draw(t, "spelling")),
		Strict:           rapid.Bool().Draw(t, "strict"),
		DoubleDots:       rapid.Bool().Draw(t, "double dots"),
		Beams:            layout.Beaming(rapid.IntRange(0, 1).Draw(t, "beams")),
		BeamOverBarlines: rapid.Bool().Draw(t, "over barlines"),
		Edition:          sheet.Edition(rapid.IntRange(0, 1).Draw(t, "edition")),
		Marks:            layout.Marking(rapid.IntRange(0, 7).Draw(t, "marks")),
		Concert:          rapid.Bool().Draw(t, "concert"),
		Breaks:           layout.Breaking(rapid.IntRange(0, 2).Draw(t, "breaks")),
		Cues:             layout.Cueing(rapid.IntRange(0, 2).Draw(t, "cues")),
	}
}

// eachSystem draws a sheet with the places of everything kept; what it hands out
// is good until the next.
func eachSystem(s *sheet.Sheet, o Options, see func(sys *System, last bool)) {
	e := newEngraver(s, o)
	e.watch = true
	drawn := 0
	for sys := range e.systems {
		drawn += sys.Bars
		see(sys, drawn == s.Bars)
	}
}
