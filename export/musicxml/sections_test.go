package musicxml

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/musicxml/lint"
	"tieover/layout"
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
func sheetsOf(t testing.TB, p *score.Piece) map[string]*layout.Sheet {
	t.Helper()
	sheets := map[string]*layout.Sheet{}
	for name, o := range map[string]layout.Options{
		"default": {},
		"meter":   {Spelling: layout.SpellMeter, Beams: layout.BeamMeter, Edition: layout.Play},
		"strict":  {Spelling: layout.SpellMeter, Strict: true, Marks: layout.MarkSizes | layout.MarkGroups, Breaks: layout.BreakNone},
		"concert": {Spelling: layout.SpellGroup, Concert: true, Marks: layout.MarkNone, Breaks: layout.BreakRealign},
		"layer":   {Barring: layout.Barring{View: layout.ByLayer, Layer: p.Sections[0].Layers[0].Name}},
		"own":     {Barring: layout.Barring{View: layout.Own}, Cues: layout.CueNotes},
		"split":   {Barring: layout.Barring{View: layout.Own, Split: true}, Edition: layout.Play},
	} {
		sheet, problems := layout.Lay(p, o)
		if assert.NoError(t, problems.Err(), "%s", name) {
			sheets[name] = sheet
		}
		for i := range p.Players() {
			part, problems := layout.LayPart(p, o, i)
			if assert.NoError(t, problems.Err(), "%s part %d", name, i) {
				sheets[fmt.Sprintf("%s part %d", name, i+1)] = part
			}
		}
	}
	return sheets
}

// Every section, in every view, spelling and edition: valid, clean, and the
// same bytes as the plainest build.
func TestEverySectionInEveryView(t *testing.T) {
	dir := shared(t)
	for path, piece := range sections(t) {
		for name, sheet := range sheetsOf(t, piece) {
			doc := writtenDoc(t, sheet, Options{})
			findings, err := lint.Check(bytes.NewReader(doc))
			require.NoError(t, err)
			assert.Empty(t, findings, "%s %s", path, name)
			var plain bytes.Buffer
			require.NoError(t, writePlain(&plain, sheet, Options{}))
			assert.True(t, bytes.Equal(plain.Bytes(), doc), "%s %s: not as the plainest build", path, name)
			text, valid := validate(t, dir, doc)
			assert.True(t, valid, "%s %s: %s", path, name, text)
		}
	}
}
