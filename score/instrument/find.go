package instrument

import (
	"maps"
	"slices"
	"strings"
	"sync"
)

// Rhythm is what a layer without an instrument is written on: one line, one
// neutral sound. A bare tone (no pitch, no named drum) means the first sound
// of the layer's instrument, here the only one.
var Rhythm = &Instrument{
	Name: "rhythm", Label: "Rhythm", Short: "Rh.", Family: Bare,
	Clef: neutral(), Staves: 1, Lines: 1,
	Sound: "wood.wood-block", Program: 1,
	Drums: []Drum{line("tap", "Tap", "wood.wood-block", 77)},
	Most:  1,
}

var table = sync.OnceValue(func() []*Instrument {
	var all []*Instrument
	for _, family := range [][]Instrument{
		woodwinds(), brass(), mallets(), drums(), plucked(), keyboards(), voices(), bowed(),
	} {
		for _, i := range family {
			all = append(all, &i)
		}
	}
	return all
})

// All returns every instrument in score order. Nobody may change them.
func All() []*Instrument { return slices.Clone(table()) }

// aliases are other usual names.
var aliases = map[string]string{
	"cor anglais": "english horn", "soprano sax": "soprano saxophone", "alto sax": "alto saxophone",
	"tenor sax": "tenor saxophone", "baritone sax": "baritone saxophone",
	"french horn": "horn",
	"kettledrums": "timpani", "vibes": "vibraphone", "chimes": "tubular bells", "steelpan": "steel drums",
	"drums": "drum set", "drumset": "drum set", "drum kit": "drum set", "kit": "drum set",
	"snare": "snare drum", "toms": "tom-toms", "tom-tom": "tom-toms", "wood block": "woodblock",
	"hand clap": "handclap", "clap": "handclap", "agogo bells": "agogo", "ride": "ride cymbal",
	"conga": "congas", "bongo": "bongos", "timbale": "timbales", "maraca": "maracas", "wood blocks": "woodblocks",
	"cymbal": "suspended cymbal", "electric bass": "bass guitar", "bass voice": "bass",
	"violoncello": "cello", "contrabass": "double bass", "upright bass": "double bass",
}

// Find returns the instrument of that name. Upper and lower case are alike;
// other usual names ("cor anglais", "kit") are known too, and names with the key
// of the instrument: "Bb trumpet", "clarinet in B flat".
func Find(name string) (*Instrument, bool) {
	name = normalize(name)
	if other, ok := aliases[name]; ok {
		name = other
	}
	for _, i := range table() {
		if i.Name == name {
			return i, true
		}
	}
	return inKey(name)
}

// Drum returns the index, from 1, of the instrument's sound of that name.
func (i *Instrument) Drum(name string) (index int, ok bool) {
	name = strings.ToLower(name)
	k := slices.IndexFunc(i.Drums, func(d Drum) bool { return d.Name == name })
	return k + 1, k >= 0
}

// Like returns up to three instrument names that a mistyped name may have
// meant, nearest first.
func Like(name string) []string {
	var names []string
	for _, i := range table() {
		names = append(names, i.Name)
	}
	names = slices.AppendSeq(names, maps.Keys(aliases))
	slices.Sort(names)
	return Nearest(name, names)
}

// Nearest returns up to three of the names that differ from name by few
// letters, nearest first, equally near ones in the order given. Where there
// are none, names that contain it or are contained.
func Nearest(name string, names []string) []string {
	name = strings.ToLower(name)
	limit := max(1, len([]rune(name))/3)
	type near struct {
		name string
		far  int
	}
	var found []near
	for _, n := range names {
		low := strings.ToLower(n)
		far := distance([]rune(name), []rune(low))
		contained := len(name) >= 3 && len(low) >= 3 && (strings.Contains(low, name) || strings.Contains(name, low))
		if far > limit && !contained {
			continue
		}
		found = append(found, near{n, far})
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.far - b.far })
	if len(found) > 0 && found[0].far <= limit { // names much farther than the best would distract
		best := found[0].far
		found = slices.DeleteFunc(found, func(f near) bool { return f.far > min(limit, best+1) })
	}
	var best []string
	for _, f := range found[:min(3, len(found))] {
		best = append(best, f.name)
	}
	return best
}

// distance counts the letters to add, drop, change or swap with a neighbour to
// make one word of the other (Damerau's distance between adjacent letters).
func distance(a, b []rune) int {
	if len(a) > 64 || len(b) > 64 {
		return 64
	}
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(a)][len(b)]
}

// namesakes are the instruments after which General MIDI calls a program that several
// have, and those whose other basses it has (its Level 1 sound set).
var namesakes = map[int]string{
	33: "double bass", 35: "bass guitar", 36: "bass guitar", 37: "bass guitar", 38: "bass guitar", 39: "bass guitar", 40: "bass guitar",
	57: "trumpet", 58: "trombone", 59: "tuba", 72: "clarinet", 74: "flute",
}

// OfProgram returns the pitched instruments that have a General MIDI program from 1: the
// one that it is called after first, the others in score order; of the basses, 33 to 40,
// double bass and bass guitar.
func OfProgram(program int) []*Instrument {
	var all []*Instrument
	for _, i := range table() {
		if i.IsUnpitched() || i.Program != program && i.Name != namesakes[program] {
			continue
		}
		if all = append(all, i); i.Name == namesakes[program] {
			all = slices.Insert(all[:len(all)-1], 0, i)
		}
	}
	return all
}
