package spec

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
)

// A hyphen divides a word wherever blanks stand beside it; the line of what is
// held is drawn after whole words only (common practice in vocal music).
func TestLyrics(t *testing.T) {
	whole, held := score.Lyric{Text: "now"}, score.Lyric{Text: "now", Extend: true}
	ha, rken := score.Lyric{Text: "Ha", Syllabic: score.WordBegins}, score.Lyric{Text: "rken", Syllabic: score.WordEnds}
	none := score.Lyric{}
	for text, want := range map[string][]score.Lyric{
		"Ha-rken now =":     {ha, rken, held, none},
		"Ha- rken  now":     {ha, rken, whole},
		"Ha - rken":         {ha, rken},
		"Ha- = rken":        {ha, none, rken},
		"= now = = now":     {none, held, {Extend: true}, none, whole},
		"Stea-di-ly":        {{Text: "Stea", Syllabic: score.WordBegins}, {Text: "di", Syllabic: score.WordGoesOn}, {Text: "ly", Syllabic: score.WordEnds}},
		"tow\u2011path now": {{Text: "tow-path"}, whole},
	} {
		got, bad := parseLyrics(text)
		require.Nil(t, bad, text)
		assert.Equal(t, want, got, text)
	}
}
