package engraving

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/engraving/pen"
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
