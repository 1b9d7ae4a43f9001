package terminal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// ( and ) stand for the isolates, which have no shape.
func shown(text string) string {
	return strings.NewReplacer("\u2068", "(", "\u2069", ")").Replace(text)
}

// What is written from the right is closed off, so that the numbers after it
// stay where they are put; all else stays as it is.
func TestRightToLeftIsIsolated(t *testing.T) {
	for text, want := range map[string]string{
		"Marimba 2":           "Marimba 2",
		"水門":                  "水門",
		"שומר הסכר":           "(שומר הסכר)",
		"שער 2":               "(שער 2)",
		"a שומר plays 3+2":    "a (שומר) plays 3+2",
		"שומר, and نهر":       "(שומר), and (نهر)",
		"קֶרֶן opens, שער 2.": "(קֶרֶן) opens, (שער 2.)",
	} {
		assert.Equal(t, want, shown(Spell(text, false)))
	}
}
