package spec

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"tieover/score/sample"
)

// Whatever the YAML library reads, the outline has nothing to say about.
func TestOutlineIsSilentAboutYAML(t *testing.T) {
	silent := func(t require.TestingT, text string) {
		r := &reader{file: "good.yaml"}
		clean, ok := r.scan([]byte(text))
		require.True(t, ok, text)
		var doc yaml.Node
		require.NoError(t, yaml.Unmarshal([]byte(clean), &doc), text)
		assert.False(t, r.explain(clean), "%v\n%s", r.problems, text)
	}
	for _, text := range []string{
		"title: Towpath\nlayers:\n- name: Bell\n  groups: 3+2\n- name: Gate\n  groups: 3\nplan:\n-\n  at: bar 1\n  text: soft\n",
		"title: Towpath\nlayers: [\n  {name: Bell, groups: 3+2},\n  {name: Gate,\n   groups: [3+2, 5]}]\n",
		"{title: Towpath,\n layers: [{name: Bell, groups: 3+2}]}\n",
		"\"title\": \"Tow: path # 'x'\" # a comment\n'layers': # here\n  # and here\n  - 'name': 'Keeper''s'\n    groups: \"3\\\"\"\n",
		"title: a long\n  name over\n\n  lines\nlayers:\n  -   name: Bell\n      groups: 3\n        + 2\n",
		"title: \"a long\n  name: over\n  - lines\"\nlayers:\n  - - x\n    - y\n",
		"title: x\nplan:\n  - at: bar 1\n    text: >-\n      soft: and\n\n        warm\n    mark: A\n",
		"---\ntitle: F#m, 'quoted' and [so on]\nlayers:\n  - {name: 'a, ]', groups: \"}\"}\n",
	} {
		silent(t, text)
	}
	files, err := filepath.Glob("../../testdata/sections/*/*.yaml")
	require.NoError(t, err)
	starters, err := filepath.Glob("../../templates/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, append(files, starters...))
	for _, file := range append(files, starters...) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		silent(t, string(text))
	}
	rapid.Check(t, func(t *rapid.T) { silent(t, sample.YAML(t)) })
}

// What to write instead is part of the promise.
func TestOutlineHints(t *testing.T) {
	for text, want := range map[string][]string{
		"title: Towpath: the gates\n":                                         {"1:15: put the text in quotes"},
		"pulse: 1/8 in 3: 2\nx: [\n":                                          {"1:16: write a ratio without a blank, as in 3:2", "2:4: close it with ]"},
		"title = Tow\n":                                                       {"1:1: write title: Tow"},
		"layers:\n  - name: Bell\n   groups: 3\n":                             {"3:4: begin it in column 5, below name"},
		"layers:\n  - name: Bell\n      groups: 3\n":                          {"3:7: begin it in column 5, below name"},
		"layers:\n  - name: Bell\n  name: Gate\n":                             {"3:3: write - name: to begin another entry, or indent it to belong to the one above"},
		"layers:\n  -name: Bell\n   groups: 3\n   x: {\n":                     {"2:4: write - name: Bell", "4:7: close it with }"},
		"title: '’s: 'x'\n":                                                   {"1:14: write an apostrophe inside '…' twice, or use \"…\""},
		"layers: [\n  {name: Bell},\nplan: [\n":                               {"1:9: close it with ]", "3:7: close it with ]"},
		"title: \"x\n  y\n   z: 'u\nplan:\n  - 'at\n":                         {"1:8: close it with \"", "5:5: close it with '"},
		"layers:\n  - name: A\n    groups: 3\n - name: B\n   groups: 3\n":     {"4:2: begin it in column 3"},
		"layers:\n - name: A\n    groups: 3\n    strike: short\n - name: B\n": {"3:5: begin it in column 4, below name"},
		"plan:\n  -{at: bar 1, mark: A}\n":                                    {"2:4: write - {at: bar 1, mark: A}"},
		"layers:\n  - name A\n    groups: 3\nx: [\n":                          {"2:5: write name: A", "4:4: close it with ]"},
		"a: [{b: c]\n": {"1:10: write } there, or repair the brackets before it"},
	} {
		r := &reader{file: "bad.yaml", lines: splitLines(text)}
		require.True(t, r.explain(text), text)
		var got []string
		for _, p := range r.problems {
			got = append(got, p.Pos.String()[len("bad.yaml:"):]+": "+p.Hint)
		}
		assert.Equal(t, want, got, text)
	}
	_, problems := Read([]File{{"glued.yaml", []byte("title:é: x\n")}})
	require.Len(t, problems, 2)
	assert.Equal(t, []int{6, 8}, []int{problems[0].Pos.Column, problems[1].Pos.Column}, "places are those of the file, not of the repaired line")
}
