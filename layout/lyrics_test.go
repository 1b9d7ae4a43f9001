package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
)

// sungIn lists bar by bar what the notes of the first part have in a verse:
// hyphens as in print, _ for what is held on, . for a note with nothing.
func sungIn(s *sheet.Sheet, verse int) []string {
	var all []string
	for b := range s.Parts[0].Bars() {
		for _, e := range b.Measure.Voices[0].Events {
			n, ok := e.(*sheet.Note)
			if !ok {
				continue
			}
			text := "."
			if verse < len(n.Lyrics) && n.Lyrics[verse].Text != "" {
				y := n.Lyrics[verse]
				text = y.Text
				if y.Syllabic == score.WordEnds || y.Syllabic == score.WordGoesOn {
					text = "-" + text
				}
				if y.Syllabic == score.WordBegins || y.Syllabic == score.WordGoesOn {
					text += "-"
				}
				if y.Extend {
					text += "_"
				}
			}
			all = append(all, text)
		}
	}
	return all
}

// Syllables go to attacks, not to signs: 3+5 is q. e~h in 4/4, and 3+3 is
// q. q. q | ~e q. q. e.
func TestLyricsGoToAttacks(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "2", "groups: 3+5, lyrics: [Ha-rken now =, = Row me]"))
	assert.Equal(t, []string{"Ha-", "-rken", ".", "now_", ".", "."}, sungIn(s, 0))
	assert.Equal(t, []string{".", "Row", ".", "me", ".", "."}, sungIn(s, 1))
	over := laid(t, Options{}, one("4/4", "1/8", "2", "groups: 3+3, lyrics: Ha-rken now = row"))
	assert.Equal(t, []string{"Ha-", "-rken", "now_", ".", ".", "row", "."}, sungIn(over, 0))
}

// They begin with the entry, and are sung once.
func TestLyricsRunOnOnce(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "3", "groups: 4+4, enters: bar 2, lyrics: [Ha-rken now, = Row]"))
	assert.Equal(t, []string{"Ha-", "-rken", "now", "."}, sungIn(s, 0))
	assert.Equal(t, []string{".", "Row", ".", "."}, sungIn(s, 1))
}
