package engraving

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/pen"
	"tieover/layout"
	"tieover/score/spec/spectest"
)

// A title wider than the line is broken at the blank nearest its middle: of ten
// words alike, after the fifth. One word stays whole, a short title in one line.
func TestTitleLines(t *testing.T) {
	word := "Lockwall"
	room := pen.TitleFace.Width(strings.Repeat(word, 6))
	first, second := titleLines(strings.TrimSpace(strings.Repeat(word+" ", 10)), room)
	assert.Equal(t, strings.TrimSpace(strings.Repeat(word+" ", 5)), first)
	assert.Equal(t, first, second)
	first, second = titleLines("Short", room)
	assert.Equal(t, []string{"Short", ""}, []string{first, second})
	first, second = titleLines(strings.Repeat(word, 9), room)
	assert.Equal(t, []string{strings.Repeat(word, 9), ""}, []string{first, second})
}

// The music keeps as far from the tuning, or what else is said under the player's
// name, as from the name alone.
func TestRoomUnderThePlayer(t *testing.T) {
	starts := map[string]pen.Unit{}
	for name, more := range map[string]string{"name": "", "tuning": ", tab: yes, tuning: D2 A2 D3 F#3 A3 D4"} {
		s, problems := layout.LayPart(spectest.Read(t, "title: T\nlength: 1 bars\nlayers:\n  - {name: G, instrument: guitar, groups: 4+4, pitches: D3"+more+"}\n"), layout.Options{}, 0)
		require.NoError(t, problems.Err())
		pg := pager{sheet: s, width: 10000, height: 10000, margin: 500}
		pg.title()
		starts[name] = pg.start
	}
	assert.Equal(t, starts["name"]+creditStep, starts["tuning"], "it is one line more")
}
