package main

import (
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/page"
	"tieover/layout"
	"tieover/score/beat"
	"tieover/score/spec"
)

// The notes of a page are the score's attacks, in each choice and size.
func TestPageNotesAreTheAttacks(t *testing.T) {
	for _, name := range []string{"lock-keepers-round", "voyage"} {
		specs, err := filepath.Glob(filepath.Join(sections, name, "*.yaml"))
		require.NoError(t, err)
		p, err := load(streams{}, specs)
		require.NoError(t, err)
		want := map[string][]string{}
		for _, s := range p.Sections {
			for i, l := range s.Layers {
				for at := range s.Attacks(i) {
					want[l.Name] = append(want[l.Name], beat.Of(int64(s.Start+at), int64(p.Grid)).String())
				}
			}
		}
		got := map[string]map[string][]string{}
		drawn := make([]page.Beside, len(p.Sections))
		addNotes(drawn, p, layout.Options{})
		for _, section := range drawn {
			assert.Empty(t, section.NotesStop)
			for _, c := range section.Notes {
				for _, system := range c.Systems {
					key := c.Who + " " + system.Size
					if got[key] == nil {
						got[key] = map[string][]string{}
					}
					for _, m := range struck.FindAllStringSubmatch(string(system.SVG), -1) {
						got[key][m[2]] = append(got[key][m[2]], m[1])
					}
				}
			}
		}
		for layer, attacks := range want {
			slices.Sort(attacks)
			for _, size := range []string{"wide", "narrow"} {
				for _, who := range []string{"all", layer} {
					drawn := slices.Sorted(slices.Values(got[who+" "+size][layer]))
					assert.Equal(t, attacks, drawn, "%s: %s of %s, %s", name, layer, who, size)
				}
			}
		}
	}
}

var struck = regexp.MustCompile(`data-at="([^"]*)" data-layer="([^"]*)" d=`)

// A long section's notes stop, and the page says so: two staves, so 300 bars.
func TestPageNotesStop(t *testing.T) {
	p, problems := spec.Read([]spec.File{{Name: "long.yaml", Text: []byte(`title: Long
meter: 4/4
pulse: 1/4
length: 400 bars
layers:
  - {name: A, instrument: flute, groups: 2+2, pitches: E5}
  - {name: B, instrument: cello, groups: 3+1, pitches: E2}
`)}})
	require.NoError(t, problems.Err())
	notes := make([]page.Beside, 1)
	addNotes(notes, p, layout.Options{})
	assert.Equal(t, "The notes stop after 300 of 400 bars; score.html and score.musicxml have all.", notes[0].NotesStop)
	assert.Len(t, notes[0].Notes, 4, "all, each of two, the composite")
}
