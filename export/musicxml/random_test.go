package musicxml

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/musicxml/lint"
	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	heardxml "tieover/score/heard/musicxml"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// Random sections in random writings: the document is clean, is the plainest
// build's, and read back sounds what the section says.
func TestRandomSectionsAreClean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		piece := spectest.Read(t, text)
		o := layout.Options{
			Spelling: layout.Spelling(rapid.IntRange(0, 2).Draw(t, "spelling")),
			Strict:   rapid.Bool().Draw(t, "strict"),
			Beams:    layout.Beaming(rapid.IntRange(0, 1).Draw(t, "beams")),
			Edition:  sheet.Edition(rapid.IntRange(0, 1).Draw(t, "edition")),
			Marks:    layout.Marking(rapid.IntRange(0, 7).Draw(t, "marks")),
			Concert:  rapid.Bool().Draw(t, "concert"),
			Breaks:   layout.Breaking(rapid.IntRange(0, 2).Draw(t, "breaks")),
		}
		laid, problems := layout.Lay(piece, o)
		if problems.Err() != nil {
			t.Skip("cannot be written in common notation: ", problems.Err())
		}
		var doc, plain bytes.Buffer
		require.NoError(t, Write(&doc, laid, Options{}))
		findings, err := lint.Check(bytes.NewReader(doc.Bytes()))
		require.NoError(t, err)
		assert.Empty(t, findings, text)
		require.NoError(t, writePlain(&plain, laid, Options{}))
		assert.True(t, bytes.Equal(plain.Bytes(), doc.Bytes()), "not as the plainest build: %s", text)

		heard, err := heardxml.Read(context.Background(), &doc)
		require.NoError(t, err)
		for _, part := range heard.Parts {
			if rewritten(piece, part.Name) {
				continue // slashes are no attacks
			}
			var got []string
			for _, a := range part.Attacks {
				for _, tone := range a.Tones { // one by one: a chord may be written on two staves
					key, ok := tone.Key()
					require.True(t, ok)
					got = append(got, fmt.Sprint(a.Onset, " ", key))
				}
			}
			slices.Sort(got)
			assert.Equal(t, onsetsOf(piece, part.Name), got, "%s\n%s", part.Name, text)
		}
	})
}

// rewritten reports whether a player has something else than notes to read.
func rewritten(p *score.Piece, name string) bool {
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if (l.Name == name || l.Player == name) && s.EverWritten(l) {
				return true
			}
		}
	}
	return false
}

// onsetsOf lists the tones of a player's attacks as the score has them: moments from the
// piece's start in whole notes, and a key. Only the last section may repeat.
func onsetsOf(p *score.Piece, name string) []string {
	var all []string
	for _, player := range p.Players() {
		if player.Name != name {
			continue
		}
		for i, s := range p.Sections {
			for _, l := range player.Layers[i] {
				for at, a := range s.Attacks(l) {
					for _, tone := range a.Tones {
						key := 0
						if tone.IsPitched() {
							key = tone.Key()
						} else {
							key = s.Layers[l].Instrument.Drums[max(1, int(tone.Drum))-1].Key
						}
						all = append(all, fmt.Sprint(p.Grid.Span(s.Start+at), " ", key))
						for n := 1; at >= 0 && s.End == score.Repeat && n < max(2, s.Times); n++ { // the reader plays repeats
							all = append(all, fmt.Sprint(p.Grid.Span(s.Start+beat.Time(n)*s.Extent()+at), " ", key))
						}
					}
				}
			}
		}
	}
	slices.Sort(all)
	return all
}
