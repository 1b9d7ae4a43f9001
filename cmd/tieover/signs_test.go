package main

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/spec"
)

// noSigns are the keys of a layer that say who plays what and when, not how it is
// marked for the player.
var noSigns = strings.Fields(`name short player instrument pulse groups box line strike figures accent pitches restart pan enters leaves offset loop process except`)

// TestEverySignOnOnePage: each key of the plan, and each of a layer that is a sign,
// stands on the page of the harbour band, and so does each touch; so goldens,
// verify, the schema of MusicXML and the drawing's laws see every sign.
func TestEverySignOnOnePage(t *testing.T) {
	text, err := os.ReadFile(sections + "/harbour-band/section.yaml")
	require.NoError(t, err)
	for _, table := range spec.KeyTables() {
		for _, key := range table.Keys {
			if table.Name == "plan" || table.Name == "layer" && !slices.Contains(noSigns, key) {
				assert.Regexp(t, `\b`+key+`:`, string(text), "the page lacks %s of %s", key, table.Name)
			}
		}
	}
	for _, touch := range strings.Fields("plain staccato tenuto marcato ghost accent roll tremolo trill flam drag") {
		assert.Regexp(t, `touches: .*\b`+touch+`\b`, string(text))
	}
	for _, sign := range []string{"end: repeat 3", "/F#5", "pizz.", "rit.", "for: all", "player: Reeds"} { // repeat counts, grace notes, techniques, gradual tempo
		assert.Contains(t, string(text), sign)
	}
}
