package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// Seven sharps are F C G D A E B, seven flats the other way round. In each clef
// every sign stands on a line or space of its letter, on the staff or in the space
// next to it; in tenor clef the first sharp is F3, on the second line, the third G3
// (common practice).
func TestKeysInClefs(t *testing.T) {
	for _, name := range instrument.Clefs() {
		c := instrument.ClefOf(name)
		middle := sheet.Steps(sheet.Staff{Clef: c, Lines: 5}.Middle())
		for _, row := range []struct {
			letters string
			places  [7]int
		}{{"FCGDAEB", sharpPlaces}, {"BEADGCF", flatPlaces}} {
			for i, treble := range row.places {
				place := keyPlace(c, treble)
				assert.Equal(t, int(row.letters[i]-'C'+7)%7, (middle+place+70)%7, "%s: %s", name, row.letters[i:i+1])
				assert.True(t, place >= -5 && place <= 5, "%s: %s at %d", name, row.letters[i:i+1], place)
			}
		}
	}
	tenor := instrument.ClefOf("tenor")
	assert.Equal(t, []int{-2, 2, -1}, []int{keyPlace(tenor, sharpPlaces[0]), keyPlace(tenor, sharpPlaces[1]), keyPlace(tenor, sharpPlaces[2])})
}
