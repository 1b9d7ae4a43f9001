package musicxml

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/musicxml/lint"
	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec"
)

// sections are the specs of the test data and of the starters.
func sections(t testing.TB) map[string]*score.Piece {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/sections/*/section.yaml")
	require.NoError(t, err)
	starters, err := filepath.Glob("../../templates/*.yaml")
	require.NoError(t, err)
	pieces := map[string]*score.Piece{}
	for _, path := range append(paths, starters...) {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		piece, problems := spec.Read([]spec.File{{Name: path, Text: text}})
		if assert.NoError(t, problems.Err(), path) {
			pieces[path] = piece
		}
	}
	require.NotEmpty(t, pieces)
	return pieces
}

// sheetsOf lays a piece out as score and parts in all views, spellings and
// editions.
func sheetsOf(t testing.TB, p *score.Piece) map[string]*sheet.Sheet {
	t.Helper()
	ways := map[string]layout.Options{
		"default": {},
		"meter":   {Spelling: layout.SpellMeter, Beams: layout.BeamMeter, Edition: sheet.Play},
		"strict":  {Spelling: layout.SpellMeter, Strict: true, Marks: layout.MarkSizes | layout.MarkGroups, Breaks: layout.BreakNone},
		"over":    {BeamOverBarlines: true},
		"concert": {Spelling: layout.SpellGroup, Concert: true, Marks: layout.MarkNone, Breaks: layout.BreakRealign},
	}
	if first, all := cycling(p); first != "" {
		ways["layer"] = layout.Options{Barring: layout.Barring{View: layout.ByLayer, Layer: first}}
		if all {
			ways["own"] = layout.Options{Barring: layout.Barring{View: layout.Own}, Cues: layout.CueNotes}
			ways["split"] = layout.Options{Barring: layout.Barring{View: layout.Own, Split: true}, Edition: sheet.Play}
		}
	}
	sheets := map[string]*sheet.Sheet{}
	for name, o := range ways {
		laid, problems := layout.Lay(p, o)
		if assert.NoError(t, problems.Err(), "%s", name) {
			sheets[name] = laid
		}
		for i := range p.Players() {
			part, problems := layout.LayPart(p, o, i)
			if assert.NoError(t, problems.Err(), "%s part %d", name, i) {
				sheets[fmt.Sprintf("%s part %d", name, i+1)] = part
			}
		}
	}
	addExtras(t, p, sheets)
	return sheets
}

// addExtras adds what else can be laid out: a composite, folded repetitions, an
// excerpt, two writings on one page, a part with its partner's rhythm.
func addExtras(t testing.TB, p *score.Piece, sheets map[string]*sheet.Sheet) {
	t.Helper()
	whole := sheets["default"]
	sheets["folded"] = edit.Fold(whole)
	composite, problems := layout.LayComposite(p, layout.Options{}, layout.Composite{})
	if assert.NoError(t, problems.Err(), "composite") {
		sheets["composite"] = composite
	}
	excerpt, problems := edit.Excerpt(whole, 2, 3, nil)
	if whole.Bars >= 3 && assert.NoError(t, problems.Err(), "excerpt") {
		sheets["excerpt"] = excerpt
		if below, ok := sheets["layer"]; ok {
			both, problems := edit.Compare(excerpt, below, [2]string{"in the meter", "in the cycle"})
			if assert.NoError(t, problems.Err(), "two writings") {
				sheets["two writings"] = both
			}
		}
	}
	if layers := p.Sections[0].Layers; len(layers) > 1 {
		part, problems := layout.LayPart(p, layout.Options{Partner: layers[1].Name}, 0)
		if assert.NoError(t, problems.Err(), "partner") {
			sheets["partner"] = part
		}
	}
}

// cycling returns the first layer whose cycles can be bars in every section,
// and whether those of all layers can: a free line has none, and no bar lasts
// two thirds of a whole note.
func cycling(p *score.Piece) (first string, all bool) {
	all = true
	count := map[string]int{}
	for _, s := range p.Sections {
		for i, l := range s.Layers {
			fits := l.Line == nil
			for c := range s.Cycles(i) {
				den := p.Grid.Span(c.Length).Den()
				fits = fits && den&(den-1) == 0
			}
			all = all && fits
			if fits {
				count[l.Name]++
			}
		}
	}
	for _, l := range p.Sections[0].Layers {
		if count[l.Name] == len(p.Sections) && first == "" {
			first = l.Name
		}
	}
	return first, all
}

// Every section, in every view, spelling and edition: valid, clean, and the
// same bytes as the plainest build.
func TestEverySectionInEveryView(t *testing.T) {
	dir := shared(t)
	for path, piece := range sections(t) {
		var documents [][]byte
		for name, laid := range sheetsOf(t, piece) {
			doc := writtenDoc(t, laid, Options{})
			var allowed []lint.Allowance
			if strings.HasPrefix(name, "over") {
				allowed = append(allowed, lint.BeamsOverBarlines)
			}
			findings, err := lint.Check(bytes.NewReader(doc), allowed...)
			require.NoError(t, err)
			assert.Empty(t, findings, "%s %s", path, name)
			var plain bytes.Buffer
			require.NoError(t, writePlain(&plain, laid, Options{}))
			assert.True(t, bytes.Equal(plain.Bytes(), doc), "%s %s: not as the plainest build", path, name)
			documents = append(documents, doc)
		}
		text, valid := validate(t, dir, documents...)
		assert.True(t, valid, "%s: %s", path, text)
	}
}
