package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/musicxml"
	"tieover/layout"
	"tieover/score"
	"tieover/score/heard"
	"tieover/score/sample"
	"tieover/score/source"
	"tieover/score/spec"
	"tieover/score/verify"
)

// form is one way to write a piece down.
type form struct {
	view     string // common, own or layer
	spelling layout.Spelling
}

// formed draws a form.
func formed(t *rapid.T) form {
	return form{
		rapid.SampledFrom([]string{"common", "own", "layer"}).Draw(t, "view"),
		rapid.SampledFrom([]layout.Spelling{layout.SpellAuto, layout.SpellGroup, layout.SpellMeter}).Draw(t, "spelling"),
	}
}

// sheets lays the piece out in the form: one score, or in bars of their own
// each part alone. What common notation cannot hold in this form is left out.
func (f form) sheets(p *score.Piece) (sheets []*layout.Sheet) {
	o := layout.Options{Spelling: f.spelling}
	lay := func(sheet *layout.Sheet, problems source.Problems) {
		if len(problems) == 0 {
			sheets = append(sheets, sheet)
		}
	}
	switch f.view {
	case "own":
		o.Barring.View = layout.Own
		for i := range p.Players() {
			lay(layout.LayPart(p, o, i))
		}
	case "layer":
		for _, l := range p.Sections[0].Layers {
			o.Barring = layout.Barring{View: layout.ByLayer, Layer: l.Name}
			lay(layout.Lay(p, o))
		}
	default:
		lay(layout.Lay(p, o))
	}
	return sheets
}

// written writes the spec in a form and reads it back; everything written
// sounds like the spec.
func written(t require.TestingT, text string, f form) (files [][]byte, read []*heard.Score) {
	p, problems := spec.Read([]spec.File{{Name: "spec.yaml", Text: []byte(text)}})
	require.Empty(t, problems, text)
	for _, sheet := range f.sheets(p) {
		var out bytes.Buffer
		require.NoError(t, musicxml.Write(&out, sheet, musicxml.Options{}), text)
		s, err := musicxml.Read(context.Background(), bytes.NewReader(out.Bytes()))
		require.NoError(t, err, text)
		r, err := verify.Compare(p, s, verify.Options{})
		require.NoError(t, err, text)
		require.Empty(t, r.Differences, "%+v\n%s", f, text)
		files, read = append(files, out.Bytes()), append(read, s)
	}
	return files, read
}

// Random sections of every kind, in bars of the meter, of each layer and of
// their own, spelled by groups and by the meter: what is written sounds like
// the spec, and the spec that is found in it sounds like what was written.
func TestRandomSectionsGoRound(t *testing.T) {
	path := filepath.Join(t.TempDir(), "score.musicxml")
	rounds := map[string]int{}
	rapid.Check(t, func(r *rapid.T) {
		text := sample.YAML(r)
		f := formed(r)
		files, read := written(r, text, f)
		if len(files) == 0 {
			return
		}
		i := rapid.IntRange(0, len(files)-1).Draw(r, "file") // each takes as long as all before
		require.NoError(r, os.WriteFile(path, files[i], 0o600))
		code, found, messages := call(t, newFindCmd, "", path, "--all")
		if code != done {
			if strings.Contains(messages, "no common pulse") || strings.Contains(messages, "nothing sounds") {
				return // tuplets of several kinds in one voice; a line of rests
			}
			r.Fatalf("%+v\n%s%s", f, text, messages)
		}
		if _, again := written(r, found, form{}); len(again) > 0 {
			rounds[f.view]++
			require.Equal(r, sounds(read[i]), sounds(again[0]), "%+v\n%s\n%s", f, text, found)
		}
	})
	t.Logf("went round: %v", rounds)
	for _, view := range []string{"common", "own", "layer"} {
		require.NotZero(t, rounds[view], view)
	}
}

// sounds lists every tone of every part that sounds, whatever its voice.
func sounds(s *heard.Score) map[string]map[string]int {
	all := map[string]map[string]int{}
	for _, p := range s.Parts {
		tones := map[string]int{}
		for _, a := range p.Attacks {
			for _, tone := range a.Tones {
				name := tone.String()
				if key, ok := tone.Key(); ok {
					name = (heard.Tone{MIDI: uint8(key + 1)}).String()
				}
				tones[a.Onset.String()+" "+a.Length.String()+" "+name]++
			}
		}
		if len(tones) > 0 {
			all[p.Name] = tones
		}
	}
	return all
}
