package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// A repeat of an unmarked beginning, and a section after it, are played mf: each says
// so at its first note, also in the part alone and under a hairpin that begins there.
func TestTheDynamicOfTheBeginningIsPrinted(t *testing.T) {
	const layers = "layers:\n  - {name: A, instrument: flute, groups: 4+4, pitches: C5}\n"
	s := laid(t, Options{}, "title: T\nmeter: 4/4\nlength: 2 bars\nend: repeat 3\n"+layers+"plan:\n  - {at: bar 2, dynamic: ff}\n",
		"title: T\nmeter: 4/4\nlength: 2 bars\nend: repeat\n"+layers+"plan:\n  - {at: bar 1, hairpin: crescendo, to: bar 2}\n")
	assert.Equal(t, []string{"1.0 mf", "2.0 ff", "3.0 mf"}, marksOf(&s.Parts[0], sheet.DynamicMark))
	assert.Equal(t, []string{"3.0 1"}, marksOf(&s.Parts[0], sheet.HairpinStart))
}
