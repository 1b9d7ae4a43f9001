package layout

import (
	"fmt"
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

// wordsOf lists what each voice of the first part sings in its first bars, as "line:syllable".
func wordsOf(s *sheet.Sheet, bars int) (voices [][]string) {
	for b := range s.Parts[0].Bars() {
		for i, v := range b.Measure.Voices {
			if i == len(voices) {
				voices = append(voices, nil)
			}
			for _, e := range v.Events {
				if n, ok := e.(*sheet.Note); ok {
					for line, y := range n.Lyrics {
						if y.Text != "" {
							voices[i] = append(voices[i], fmt.Sprint(line+1, ":", y.Text))
						}
					}
				}
			}
		}
		if bars--; bars == 0 {
			break
		}
	}
	return voices
}

// The words of two layers on one staff have lines of their own, those of the first
// layer above; on another staff, and for another layer alone, they begin at the first.
func TestWordsOfTwoLayers(t *testing.T) {
	s := laid(t, Options{}, `title: T
meter: 4/4
length: 2 bars
layers:
  - {name: S, player: P, instrument: soprano, groups: 4+4, pitches: C5 D5, lyrics: [eight nine se-ven, one two]}
  - {name: T, player: P, instrument: soprano, groups: 8, pitches: G4, lyrics: ooh, enters: bar 2}
`)
	assert.Equal(t, [][]string{{"1:eight", "2:one", "1:nine", "2:two", "1:se", "1:ven"}, {"3:ooh"}}, wordsOf(s, 2))
	s = laid(t, Options{}, `title: T
meter: 4/4
length: 1 bars
layers:
  - {name: S, player: P, instrument: piano, groups: 4+4, pitches: C5 D5, lyrics: eight nine}
  - {name: T, player: P, instrument: piano, groups: 8, pitches: G3, lyrics: ooh}
`)
	assert.Equal(t, [][]string{{"1:eight", "1:nine"}, {"1:ooh"}}, wordsOf(s, 1))
}

// Neither loses its words where drums are one voice.
func TestWordsOfSharedVoices(t *testing.T) {
	s := laid(t, Options{}, `title: T
meter: 4/4
length: 1 bars
layers:
  - {name: Hat, player: P, instrument: drum set, groups: 2+2+2+2, pitches: closed hi-hat, syllables: {2: ti ki}}
  - {name: Snare, player: P, instrument: drum set, groups: 4+4, pitches: snare, syllables: {4: ka ka ka ka}}
`)
	assert.Equal(t, [][]string{{"1:ti", "2:ka", "1:ti", "1:ti", "2:ka", "1:ti"}}, wordsOf(s, 1))
}
