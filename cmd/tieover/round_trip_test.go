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
	"tieover/score/heard"
	"tieover/score/sample"
	"tieover/score/spec"
	"tieover/score/verify"
)

// written lays the spec out, writes it and reads it back. ok is false when
// common notation cannot hold it in this form.
func written(t require.TestingT, text string, o layout.Options) (s *heard.Score, data []byte, ok bool) {
	p, problems := spec.Read([]spec.File{{Name: "spec.yaml", Text: []byte(text)}})
	require.Empty(t, problems, text)
	sheet, problems := layout.Lay(p, o)
	if len(problems) > 0 {
		return nil, nil, false
	}
	var out bytes.Buffer
	require.NoError(t, musicxml.Write(&out, sheet, musicxml.Options{}), text)
	s, err := musicxml.Read(context.Background(), bytes.NewReader(out.Bytes()))
	require.NoError(t, err, text)
	r, err := verify.Compare(p, s, verify.Options{})
	require.NoError(t, err, text)
	require.Empty(t, r.Differences, "%s", text)
	return s, out.Bytes(), true
}

// Random sections of every kind: what is written sounds like the spec, and the
// spec that is found in it sounds like what was written.
func TestRandomSectionsGoRound(t *testing.T) {
	dir := t.TempDir()
	rounds := 0
	rapid.Check(t, func(r *rapid.T) {
		text := sample.YAML(r)
		o := layout.Options{Spelling: rapid.SampledFrom([]layout.Spelling{layout.SpellAuto, layout.SpellGroup, layout.SpellMeter}).Draw(r, "spelling")}
		s, data, ok := written(r, text, o)
		if !ok {
			return
		}
		score := filepath.Join(dir, "score.musicxml")
		require.NoError(r, os.WriteFile(score, data, 0o600))
		code, found, messages := call(t, newFindCmd, "", score, "--all")
		if code != done {
			if strings.Contains(messages, "no common pulse") || strings.Contains(messages, "nothing sounds") {
				return // tuplets of several kinds in one voice; a line of rests
			}
			r.Fatal(messages)
		}
		again, _, ok := written(r, found, layout.Options{})
		if !ok {
			return
		}
		rounds++
		require.Equal(r, sounds(s), sounds(again), "%s\n%s", text, found)
	})
	require.NotZero(t, rounds)
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
