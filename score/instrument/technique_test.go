package instrument

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Who knows what: common practice. The whole text is a technique or none of it.
func TestTechniqueKnown(t *testing.T) {
	for words, known := range map[string][]string{
		"pizz.": {"violin", "double bass"}, "Arco": {"cello"}, "pizz": {"viola"}, "con sord.": {"violin", "horn"},
		"harmon  mute": {"trumpet", "trombone"}, "open": {"tuba"}, "solo": {"flute", "drum set", "piano"}, "a 2": {"clarinet", "horn"},
		"div.": {"soprano", "violin"},
	} {
		for _, name := range known {
			i, _ := Find(name)
			_, ok := i.Technique(words)
			assert.True(t, ok, "%s: %s", name, words)
		}
	}
	for words, unknown := range map[string][]string{
		"pizz.": {"flute", "guitar", "rhythm"}, "harmon mute": {"violin", "flute"}, "open": {"violin"}, "a 2": {"violin", "piano"},
		"pizz. please": {"violin"}, "": {"violin"}, "mute": {"trumpet"}, "div.": {"piano"},
	} {
		for _, name := range unknown {
			i, ok := Find(name)
			if !ok {
				i = Rhythm
			}
			_, ok = i.Technique(words)
			assert.False(t, ok, "%s: %s", name, words)
		}
	}
	_, ok := Rhythm.Technique("solo")
	assert.False(t, ok, "without an instrument nothing is known")
}

// What ends a technique is one itself, of the same matter and the usual way, for
// everybody who knows the first.
func TestTechniquesLeadBack(t *testing.T) {
	for k := range techniques {
		one := &techniques[k]
		assert.Equal(t, one.Usual || one.Words == "a 2", one.Back == "", one.Words)
		for _, i := range All() {
			if one.Back != "" && one.knows(i) {
				back, ok := i.Technique(one.Back)
				if assert.True(t, ok, "%s: %s", i.Name, one.Back) {
					assert.True(t, back.Usual && back.Matter == one.Matter, one.Back)
				}
			}
		}
	}
}
