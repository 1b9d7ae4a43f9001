package instrument

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Written to sounding intervals are common practice.
func TestTranspositions(t *testing.T) {
	for name, want := range map[string][3]int{
		"piccolo": {0, 0, 1}, "flute": {}, "alto flute": {-3, -5, 0}, "oboe": {}, "english horn": {-4, -7, 0},
		"e-flat clarinet": {2, 3, 0}, "clarinet": {-1, -2, 0}, "clarinet in a": {-2, -3, 0}, "bass clarinet": {-1, -2, -1},
		"bassoon": {}, "soprano saxophone": {-1, -2, 0}, "alto saxophone": {-5, -9, 0}, "tenor saxophone": {-1, -2, -1},
		"baritone saxophone": {-5, -9, -1}, "horn": {-4, -7, 0}, "trumpet": {-1, -2, 0}, "trumpet in c": {},
		"flugelhorn": {-1, -2, 0}, "trombone": {}, "tuba": {}, "glockenspiel": {0, 0, 2}, "xylophone": {0, 0, 1},
		"celesta": {0, 0, 1}, "vibraphone": {}, "marimba": {}, "timpani": {}, "guitar": {0, 0, -1}, "bass guitar": {0, 0, -1},
		"double bass": {0, 0, -1}, "tenor": {}, "viola": {}, "piano": {},
	} {
		i, ok := Find(name)
		if assert.True(t, ok, name) {
			assert.Equal(t, want, [3]int{i.Diatonic, i.Chromatic, i.Octave}, name)
		}
	}
}

// Programs are those of the General MIDI sound set, from 1; keys those of its
// percussion map, from 0. Both from memory.
func TestGeneralMIDI(t *testing.T) {
	for name, program := range map[string]int{
		"flute": 74, "oboe": 69, "clarinet": 72, "bassoon": 71, "alto saxophone": 66, "horn": 61, "trumpet": 57, "trombone": 58,
		"tuba": 59, "timpani": 48, "glockenspiel": 10, "vibraphone": 12, "marimba": 13, "xylophone": 14, "tubular bells": 15,
		"celesta": 9, "piano": 1, "harpsichord": 7, "accordion": 22, "harp": 47, "violin": 41, "viola": 42, "cello": 43, "double bass": 44,
	} {
		i, ok := Find(name)
		if assert.True(t, ok, name) {
			assert.Equal(t, program, i.Program, name)
		}
	}
	kit, _ := Find("drum set")
	for name, key := range map[string]int{
		"kick": 36, "snare": 38, "side stick": 37, "closed hi-hat": 42, "pedal hi-hat": 44, "open hi-hat": 46, "crash": 49, "ride": 51, "cowbell": 56,
	} {
		k, ok := kit.Drum(name)
		if assert.True(t, ok, name) {
			assert.Equal(t, key, kit.Drums[k-1].Key, name)
		}
	}
	claves, _ := Find("claves")
	assert.Equal(t, 75, claves.Drums[0].Key)
}

// General MIDI calls one program a trombone, a trumpet, a tuba, a flute or a clarinet,
// whichever of them it is; choir aahs are no voice more than another.
func TestOfProgram(t *testing.T) {
	names := func(program int) (all []string) {
		for _, i := range OfProgram(program) {
			all = append(all, i.Name)
		}
		return all
	}
	assert.Equal(t, []string{"clarinet", "e-flat clarinet", "clarinet in a", "bass clarinet"}, names(72))
	assert.Equal(t, []string{"tuba", "euphonium"}, names(59))
	assert.Equal(t, []string{"vibraphone"}, names(12))
	assert.Equal(t, []string{"double bass"}, names(33), "acoustic bass")
	assert.Equal(t, []string{"bass guitar"}, names(37), "slap bass 1")
	assert.Empty(t, names(0))
	for program := 1; program <= 128; program++ {
		if all := names(program); len(all) > 1 && program != 53 {
			assert.Contains(t, []string{"trumpet", "trombone", "tuba", "clarinet", "flute"}, all[0], program)
		}
	}
}

// Places of a drum set: kick on the lowest space, snare on the third, hi-hat
// above the staff with an x (common practice).
func TestDrumSetPlaces(t *testing.T) {
	kit, _ := Find("drum set")
	for name, want := range map[string]Drum{
		"kick": {Step: 'F', Octave: 4, Feet: true}, "snare": {Step: 'C', Octave: 5},
		"closed hi-hat": {Step: 'G', Octave: 5, Head: Cross}, "crash": {Step: 'A', Octave: 5, Head: Cross},
		"pedal hi-hat": {Step: 'D', Octave: 4, Head: Cross, Feet: true}, "ride": {Step: 'F', Octave: 5, Head: Cross},
	} {
		k, ok := kit.Drum(name)
		require.True(t, ok, name)
		got := kit.Drums[k-1]
		assert.Equal(t, want, Drum{Step: got.Step, Octave: got.Octave, Head: got.Head, Feet: got.Feet}, name)
	}
}

func TestTableIsComplete(t *testing.T) {
	all := append(All(), Rhythm)
	assert.GreaterOrEqual(t, len(all), 31)
	families := map[Family]bool{}
	names := map[string]bool{}
	last := Woodwind
	for _, i := range all {
		assert.False(t, names[i.Name], "%s stands twice", i.Name)
		names[i.Name] = true
		families[i.Family] = true
		assert.GreaterOrEqual(t, i.Family, last, "%s is out of score order", i.Name)
		last = i.Family
		assert.NotEmpty(t, i.Label, i.Name)
		assert.NotEmpty(t, i.Short, i.Name)
		assert.NotEmpty(t, i.Sound, i.Name)
		assert.Contains(t, "GFCP", string(i.Clef.Sign), i.Name)
		assert.Contains(t, []int{1, 2}, i.Staves, i.Name)
		assert.Contains(t, []int{1, 5}, i.Lines, i.Name)
		assert.Positive(t, i.Most, i.Name)
		assert.True(t, i.Program >= 1 && i.Program <= 128, i.Name)
		if !i.IsUnpitched() {
			assert.True(t, 0 < i.Low && i.Low < i.High && i.High <= 127, i.Name)
			continue
		}
		assert.Equal(t, byte('P'), i.Clef.Sign, i.Name)
		sounds := map[string]bool{}
		for _, d := range i.Drums {
			assert.False(t, sounds[d.Name], "%s: %s stands twice", i.Name, d.Name)
			sounds[d.Name] = true
			assert.True(t, d.Key >= 35 && d.Key <= 81, "%s: %s is outside the percussion map", i.Name, d.Name)
			assert.True(t, d.Step >= 'A' && d.Step <= 'G' && d.Octave >= 3 && d.Octave <= 6, d.Name)
		}
		if len(i.Drums) == 1 {
			assert.Equal(t, "E4", string(i.Drums[0].Step)+string(rune('0'+i.Drums[0].Octave)), "%s: a single line is E4", i.Name)
		}
	}
	assert.Len(t, families, 8)
}

func TestFind(t *testing.T) {
	for said, name := range map[string]string{
		"Marimba": "marimba", "BASS  clarinet": "bass clarinet", "cor anglais": "english horn", "kit": "drum set", "contrabass": "double bass",
		"Bb trumpet": "trumpet", "B♭ Trumpet": "trumpet", "trumpet in B flat": "trumpet", "b-flat trumpet": "trumpet",
		"clarinet in Bb": "clarinet", "Eb clarinet": "e-flat clarinet", "clarinet in E♭": "e-flat clarinet", "a clarinet": "clarinet in a",
		"F horn": "horn", "French horn in F": "horn", "Eb alto sax": "alto saxophone", "tenor sax in b flat": "tenor saxophone",
		"c trumpet": "trumpet in c", "flute in C": "flute", "bass clarinet in Bb": "bass clarinet",
	} {
		i, ok := Find(said)
		if assert.True(t, ok, said) {
			assert.Equal(t, name, i.Name)
		}
	}
	for _, none := range []string{"saxhorn", "trumpet in D", "Bb flute", "Bb", "in Bb", "C woodblock", "D clarinet in A"} {
		_, ok := Find(none)
		assert.False(t, ok, none)
	}
	for other, name := range aliases {
		_, ok := Find(name)
		assert.True(t, ok, "%s stands for nothing", other)
	}
	assert.Equal(t, []string{"marimba"}, Like("marimbla"))
	assert.Contains(t, Like("clarinette"), "clarinet")
	assert.Empty(t, Like("qqqqqq"))
}

// Edit distances worked out by hand; a swap of neighbors counts once.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		far  int
	}{{"", "abc", 3}, {"tempo", "tempo", 0}, {"lenght", "length", 1}, {"group", "groups", 1}, {"kitten", "sitting", 3}, {"ab", "ba", 1}} {
		assert.Equal(t, c.far, distance([]rune(c.a), []rune(c.b)), c.a+" "+c.b)
		assert.Equal(t, c.far, distance([]rune(c.b), []rune(c.a)), c.b+" "+c.a)
	}
}

// TestSoundsAreStandard holds every sound id to the standard's own list.
func TestSoundsAreStandard(t *testing.T) {
	dir := os.Getenv("TIEOVER_SHARED")
	if dir == "" {
		dir = "../../../shared"
	}
	text, err := os.ReadFile(filepath.Join(dir, "musicxml-4.0", "sounds.xml"))
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("the MusicXML list of sounds is missing")
		}
		t.Skip("the MusicXML list of sounds is not here; set TIEOVER_SHARED")
	}
	var list struct {
		Sounds []struct {
			ID string `xml:"id,attr"`
		} `xml:"sound"`
	}
	require.NoError(t, xml.Unmarshal(text, &list))
	known := map[string]bool{}
	for _, s := range list.Sounds {
		known[s.ID] = true
	}
	require.Greater(t, len(known), 500)
	for _, i := range append(All(), Rhythm) {
		assert.True(t, known[i.Sound], "%s: %s", i.Name, i.Sound)
		for _, d := range i.Drums {
			assert.True(t, known[d.Sound], "%s, %s: %s", i.Name, d.Name, d.Sound)
		}
	}
}

// A key is a capital letter in a sentence.
func TestInWords(t *testing.T) {
	for name, want := range map[string]string{"clarinet in a": "clarinet in A", "trumpet in c": "trumpet in C", "bass clarinet": "bass clarinet"} {
		i, ok := Find(name)
		require.True(t, ok)
		assert.Equal(t, want, i.InWords())
	}
}
