package marks

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Every kind of mark has a row of its own.
func TestEveryMarkHasARow(t *testing.T) {
	n := 0
	for k := sheet.MarkKind(0); (sheet.Mark{Kind: k}).String() != ""; k++ {
		assert.Contains(t, markRows, k, "%v", sheet.Mark{Kind: k})
		n++
	}
	assert.Len(t, markRows, n)
}

// Accidentals of chord symbols are signs, of roots, basses and degrees alike; other
// letters b stay what they are. A sharp makes a symbol as wide as a flat does.
func TestSignsOfChordSymbols(t *testing.T) {
	for symbol, want := range map[string]string{
		"Bb": "B♭", "F#m7b5": "F♯m7♭5", "C7#9": "C7♯9", "Ebmaj7/Bb": "E♭maj7/B♭", "G7(b9)": "G7(♭9)", "Abb": "A♭♭",
		"Bb7b13": "B♭7♭13", "C": "C", "N.C.": "N.C.", "Csub": "Csub", "Dbm": "D♭m", "C7(b9,#11)": "C7(♭9,♯11)",
	} {
		assert.Equal(t, want, withSigns(symbol))
	}
	assert.Equal(t, pen.ChordFace.Width("B♭7"), pen.ChordFace.Width("B♯7"))
	assert.Less(t, pen.ChordFace.Width("F♯"), pen.ChordFace.Width("Fm"))
}
