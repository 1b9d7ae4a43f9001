package task

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// The values written in the key, added up again: every bar is full, and the
// sounds, ties undone, are the groups.
func TestBeamedLinesAddedUpAgain(t *testing.T) {
	all(t, piece(t, text), Beam, func(e Exercise, level int) {
		require.GreaterOrEqual(t, len(e.Answer), level+2)
		var sounds []int
		for _, line := range e.Answer[1:] {
			_, values, _ := strings.Cut(line, ": ")
			full := 0
			for _, word := range strings.Fields(values) {
				for i, part := range strings.Split(word, "~") {
					n := sixteenths(part)
					full += n
					switch {
					case part == "":
					case i > 0:
						sounds[len(sounds)-1] += n
					default:
						sounds = append(sounds, n)
					}
				}
			}
			assert.Equal(t, 2*perBar, full, line)
		}
		groups := loops[names(e.Solution)[0]]
		for i, n := range sounds[:len(sounds)-1] { // the last may be cut by the end
			assert.Equal(t, 2*groups[i%len(groups)], n, "%v %v", e.Answer, groups)
		}
		require.NotNil(t, e.Given.Sheet)
		for b := range e.Given.Sheet.Parts[0].Bars() {
			for _, event := range b.Measure.Voices[0].Events {
				if n, ok := event.(*sheet.Note); ok {
					assert.Empty(t, n.Beams)
				}
			}
		}
		assert.Equal(t, 1, e.Given.Sheet.Bars)
	})
}

// sixteenths reads one value: q. is six.
func sixteenths(value string) int {
	n := 0
	for _, r := range value {
		switch r {
		case 'w', 'h', 'q', 'e', 's':
			n = map[rune]int{'w': 16, 'h': 8, 'q': 4, 'e': 2, 's': 1}[r]
		case '.':
			n += n / 2
		}
	}
	return n
}
