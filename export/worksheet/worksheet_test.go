package worksheet_test

import (
	"bytes"
	"context"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/export/musicxml/lint"
	"tieover/export/worksheet"
	"tieover/layout/task"
	"tieover/score"
	"tieover/score/heard"
	"tieover/score/heard/musicxml"
	"tieover/score/spec/spectest"
)

var update = flag.Bool("update", false, "accept what is made as the new goldens")

const rising = `
title: Rising water
section: W
tempo: 96
meter: 4/4
length: 28 bars
layers:
  - {name: Écluse, groups: 3+3+2, instrument: marimba, pitches: E5 B4 G4}
  - {name: 水門, groups: 3+2+2, strike: all}
  - name: Gong
    groups: 4+3+2
    strike: short
    process: {grow: {group: 1, by: 1, from: none}}
`

func demo(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/sections/" + name + "/section.yaml")
	require.NoError(t, err)
	return string(text)
}

func options(seed uint64, level int) worksheet.Options {
	return worksheet.Options{Task: task.Options{Seed: seed, Level: level}, Width: chart.Default().Width}
}

func makeSheet(t *testing.T, text string, level int) ([]worksheet.File, []task.Left, error) {
	t.Helper()
	return worksheet.Make(spectest.Read(t, text), options(1, level))
}

func contents(t *testing.T, files []worksheet.File) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	for _, f := range files {
		var b bytes.Buffer
		require.NoError(t, f.Write(&b), f.Name)
		require.NotContains(t, all, f.Name)
		all[f.Name] = b.Bytes()
	}
	return all
}

// Both texts as they are handed out, read by eye.
func TestTheTextsOfARound(t *testing.T) {
	files, left, err := worksheet.Make(spectest.Read(t, demo(t, "lock-keepers-round")), options(1, 1))
	require.NoError(t, err)
	require.Len(t, left, 1)
	assert.Equal(t, task.Next, left[0].Kind)
	all := contents(t, files)
	for _, name := range []string{"worksheet.txt", "answers.txt"} {
		golden := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(golden, all[name], 0o666))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(all[name]), name)
	}
}

// Every notation file is valid, clean, and read back by the reader: the student
// never hears more than the key, and where the music is given it is the same.
func TestNotationIsReadBack(t *testing.T) {
	dir := os.Getenv("TIEOVER_SHARED")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared")
	}
	schema := filepath.Join(dir, "musicxml-4.0", "musicxml.xsd")
	_, err := os.Stat(schema)
	tool, missing := exec.LookPath("xmllint")
	validates := err == nil && missing == nil
	if !validates && os.Getenv("CI") == "true" {
		t.Fatal("no schema or no xmllint (set TIEOVER_SHARED)")
	}
	pieces := map[string]*score.Piece{
		"rising":   spectest.Read(t, rising),
		"demos":    spectest.Read(t, demo(t, "three-sluices"), demo(t, "towpath")),
		"kopanica": spectest.Read(t, demo(t, "kopanica")),
		"tuplets":  spectest.Read(t, "title: T\nmeter: 4/4\ntempo: 60\nlayers:\n  - {name: A, groups: 3+3+2}\n  - {name: B, groups: 2+2+2+3, pulse: 1/8 in 3:2}\n"),
	}
	for name, p := range pieces {
		for level := 1; level <= 3; level++ {
			files, _, err := worksheet.Make(p, options(uint64(level), level))
			require.NoError(t, err)
			read := map[string]*heard.Score{}
			var documents []string
			for file, text := range contents(t, files) {
				if !strings.HasSuffix(file, ".musicxml") {
					continue
				}
				findings, err := lint.Check(bytes.NewReader(text))
				require.NoError(t, err)
				assert.Empty(t, findings, "%s %s", name, file)
				read[file], err = musicxml.Read(context.Background(), bytes.NewReader(text))
				require.NoError(t, err, file)
				path := filepath.Join(t.TempDir(), file)
				require.NoError(t, os.WriteFile(path, text, 0o666))
				documents = append(documents, path)
			}
			if validates {
				cmd := exec.Command(tool, append([]string{"--nonet", "--noout", "--schema", schema}, documents...)...)
				cmd.Env = append(os.Environ(), "XML_CATALOG_FILES="+filepath.Join(dir, "musicxml-4.0", "catalog.xml"))
				out, err := cmd.CombinedOutput()
				assert.NoError(t, err, "%s", out)
			}
			sides(t, name, read)
		}
	}
}

// sides compares the student's notation with the key's.
func sides(t *testing.T, name string, read map[string]*heard.Score) {
	compared := 0
	for file, key := range read {
		rest, isKey := strings.CutPrefix(file, "answers")
		student := read["worksheet"+rest]
		if !isKey || student == nil {
			continue
		}
		compared++
		given, solved := onsets(student), onsets(key)
		switch {
		case strings.Contains(file, "composite"):
			require.Len(t, solved, len(given))
			last := len(given) - 1
			assert.Empty(t, given[last], "%s %s", name, file)
			assert.NotEmpty(t, solved[last])
			assert.Equal(t, given[:last], solved[:last])
		case strings.Contains(file, "next"):
			assert.Equal(t, given[0], solved[0][:len(given[0])])
			assert.Less(t, len(given[0]), len(solved[0]))
		case strings.Contains(file, "cut"):
			assert.NotEqual(t, given, solved)
		default:
			assert.Equal(t, given, solved, "%s %s", name, file)
		}
	}
	assert.GreaterOrEqual(t, compared, 3, name)
}

func onsets(s *heard.Score) [][]string {
	var parts [][]string
	for _, p := range s.Parts {
		list := []string{}
		for _, a := range p.Attacks {
			list = append(list, a.Onset.String())
		}
		parts = append(parts, list)
	}
	return parts
}

func TestABadTemplateIsAnErrorWithItsPlace(t *testing.T) {
	o := options(1, 1)
	o.Words, o.File = "{{define \"student\"}}\n{{.Lock}}{{end}}{{define \"key\"}}{{end}}", "mine.tmpl"
	_, _, err := worksheet.Make(spectest.Read(t, rising), o)
	assert.ErrorContains(t, err, "mine.tmpl:2:")

	o.Words = `{{define "student"}}{{range .Exercises}}{{.Kind}} {{end}}{{end}}{{define "key"}}{{end}}`
	files, _, err := worksheet.Make(spectest.Read(t, rising), o)
	require.NoError(t, err)
	assert.Equal(t, "composite groups next beam ", string(contents(t, files)["worksheet.txt"]))

	o.ASCII, o.Words = true, `{{define "student"}}Übung{{end}}{{define "key"}}Lösung{{end}}`
	files, _, err = worksheet.Make(spectest.Read(t, rising), o)
	require.NoError(t, err)
	assert.Equal(t, "Losung", string(contents(t, files)["answers.txt"]), "a template's own words are spelt too")

	o.Words = ""
	_, _, err = worksheet.Make(spectest.Read(t, rising), o)
	assert.ErrorContains(t, err, `mine.tmpl: the template must define "student"`)
}

// The line without barlines prints no signature: 44 sixteenths are no 11/4.
func TestALineWithoutBarlinesHasNoSignature(t *testing.T) {
	o := options(1, 3)
	o.Task.Only = []task.Kind{task.Beam}
	files, _, err := worksheet.Make(spectest.Read(t, demo(t, "kopanica")), o)
	require.NoError(t, err)
	all := contents(t, files)
	assert.Contains(t, string(all["worksheet-1-beam.musicxml"]), `<time print-object="no">`)
	assert.NotContains(t, string(all["answers-1-beam.musicxml"]), `<time print-object`)
}
