package page

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A page shows the notes that it is given, the first choice at once, and says
// where they stop.
func TestNotesOfAPage(t *testing.T) {
	p := settled(t, 8, round())
	notes := Beside{
		Notes: []Notes{
			{Who: "all", Systems: []NoteSystem{{"wide", `<svg class="music"><path data-at="3/8"/></svg>`}, {"narrow", `<svg class="music">n</svg>`}}},
			{Who: "Marimba & co", Systems: []NoteSystem{{"wide", `<svg class="music">m</svg>`}}},
		},
		NotesStop: "The notes stop after 2 of 12 bars.",
	}
	var out bytes.Buffer
	require.NoError(t, Write(&out, p, Options{Sections: []Beside{notes}}))
	html := out.String()
	assert.Contains(t, html, `<option value="">none</option><option selected>all</option><option>Marimba &amp; co</option>`)
	assert.Contains(t, html, `<div data-who="all"><div class="staves wide"><svg class="music"><path data-at="3/8"/></svg></div>`)
	assert.Contains(t, html, `<div data-who="Marimba &amp; co" hidden>`)
	assert.Contains(t, html, `<div class="staves narrow"><svg class="music">n</svg></div>`)
	assert.Contains(t, html, "The notes stop after 2 of 12 bars.")

	out.Reset()
	require.NoError(t, Write(&out, p, Options{}))
	assert.NotContains(t, out.String(), `id="notes"`, "without notes there is nothing to choose")
	assert.False(t, strings.Contains(loneStyle(), ":where"), "programs for slides do not know it")
}
