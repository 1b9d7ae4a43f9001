package chart_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// A text that is broken or shortened is closed in every line.
func TestIsolatesAreBalancedInEveryLine(t *testing.T) {
	text := strings.NewReplacer("Marimba", "שומר הסכר הגדול של התעלה הצפונית", "Lock Keeper's Round", "שער המים").Replace(round) +
		"plan:\n  - {at: bar 2, mark: שער, text: הסכר נפתח לאט לאט והמים עולים עד לקצה התעלה הצפונית והשומר ישן}\n"
	for _, width := range []int{24, 40, 80} {
		opt := chart.Default()
		opt.Width = width
		for _, l := range strings.Split(written(t, text, opt), "\n") {
			open, letters := false, false
			for _, r := range l {
				switch {
				case r == '\u2068':
					open = true
				case r == '\u2069':
					open = false
				case r >= 'א' && r <= 'ת':
					letters = true
					assert.True(t, open, "%d: %q", width, l)
				}
			}
			assert.False(t, open, "%d: %q", width, l)
			assert.True(t, letters || !strings.ContainsRune(l, '\u2068'), "%d: %q", width, l)
		}
	}
}
