package sample

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// Feature is something that a spec may have beyond plain loops.
type Feature int

const (
	Tuplets    Feature = 1 << iota // pulses in a ratio
	Processes                      // cycles that change
	Cuts                           // loops that are cut or restarted
	Entries                        // layers that enter late, leave early or begin inside a cycle
	Series                         // pitch series of other lengths, chords, restarts
	Exceptions                     // cycles and bars that deviate
	Lines                          // free lines
	Boxes                          // cycles in box notation
	Figures                        // rhythms inside groups
	Plans                          // marks, texts, meter and tempo changes, dynamics
	Meters                         // compound, additive and rotating meters
	Percussion                     // drum sounds, touches, players
	Ornaments                      // names, dynamics, pans, syllables, lyrics, keys

	Plain Feature = 0
	All           = Ornaments<<1 - 1
)

// YAML returns a section with a random choice of all features.
func YAML(t *rapid.T) string { return Of(t, features(t)) }

// features turns each feature on in five cases of eight.
func features(t *rapid.T) Feature {
	var on Feature
	for f := Feature(1); f <= All; f <<= 1 {
		if uniform(8).Draw(t, "feature") >= 3 {
			on |= f
		}
	}
	return on
}

// uniform draws from 0 to n-1, each as likely as the others. rapid's own
// ranges prefer small numbers, which would starve the last of every list.
func uniform(n int) *rapid.Generator[int] {
	return rapid.Custom(func(t *rapid.T) int {
		x := 0
		for range 12 {
			x *= 2
			if rapid.Bool().Draw(t, "bit") {
				x++
			}
		}
		return x % n
	})
}

// Of returns a section with no features but the given ones.
func Of(t *rapid.T, on Feature) string { return section(t, on, "", true) }

// YAMLs returns two to four sections of one piece, in order.
func YAMLs(t *rapid.T) []string {
	var all []string
	n := 2 + uniform(3).Draw(t, "sections")
	for i := range n {
		all = append(all, section(t, features(t), string(rune('E'+i)), i == 0))
	}
	return all
}

// writer writes one spec.
type writer struct {
	strings.Builder
	t      *rapid.T
	on     Feature
	name   string // of the section
	bars   int    // how long it is; 0 when it lasts so many realignments
	until  int    // how many realignments it lasts; 0 when bars say it
	shorts int    // short names given so far
	home   bool   // it lasts until everything is home, which two short layers are soon enough
	pulse  string
	plain  bool // the section's pulse is no tuplet
	pickup bool // there is one
	early  bool // layers may begin in it: a repeat, which leaves it out, must not find them begun
	layers []layer
}

// layer is what later parts of the spec need to know of a layer.
type layer struct {
	name   string
	on     instrument
	core   bool // plain, constant and running on: it may decide where the layers realign
	tuplet bool
	cut    bool  // its tails may be
	groups []int // sizes of its first pattern, nil for boxes and lines
	box    bool  // a cycle in box notation: it can be turned, but not grow
	runs   bool  // sounds from the start to the end and has cycles, which realignments do not start over
}

// section returns one section, the first of its piece or a later one, which has no
// pickup; name "" leaves its name to chance.
func section(t *rapid.T, on Feature, name string, first bool) string {
	w := &writer{t: t, on: on, name: name, pickup: first}
	w.line("title: %s", w.one("title", titles))
	w.head()
	w.body()
	w.doubling()
	w.plan()
	return w.String()
}

func (w *writer) has(f Feature) bool { return w.on&f != 0 }

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

// one chooses one of several texts.
func (w *writer) one(what string, texts []string) string {
	return texts[uniform(len(texts)).Draw(w.t, what)]
}

func (w *writer) number(what string, low, high int) int {
	return low + uniform(high-low+1).Draw(w.t, what)
}

// often is true once in n times.
func (w *writer) often(n int, what string) bool { return w.number(what, 1, n) == 1 }

// head writes the section's own keys.
func (w *writer) head() {
	if w.has(Ornaments) {
		for _, key := range []string{"subtitle", "composer", "arranger", "rights"} {
			if w.often(3, key) {
				w.line("%s: %s", key, w.one(key, texts))
			}
		}
	}
	switch {
	case w.name != "":
		w.line("section: %s", w.name)
	case w.often(2, "named"):
		w.name = w.one("section", []string{"B", "Lock 2", `"Écluse"`, "9"})
		w.line("section: %s", w.name)
	}
	if w.often(2, "tempo") {
		w.line("tempo: %s", w.one("tempo", []string{"60", "84", "132.5", "dotted quarter = 72", "half = 48", "eighth = 200"}))
	}
	meters := []string{"2/4", "3/4", "4/4", "5/4"}
	if w.has(Meters) {
		meters = []string{"6/8", "9/8", "12/8", "5/8", "7/8", "3/2", "2+2+3/8", "3+2+3/8", "2+2+3+2+2/16", "2/4+3/8", "[4/4, 3/4]", "[4/4, 4/4, 2/4]", "[7/8, 2+3/8]"}
	}
	if !w.often(4, "meter left out") {
		w.line("meter: %s", w.one("meter", meters))
	}
	w.pulse, w.plain = "1/8", true
	if w.often(2, "pulse") {
		w.pulse = w.one("pulse", []string{"1/8", "1/16", "1/4", "3/16", "eighth", "dotted eighth"})
		if w.has(Tuplets) && w.often(3, "tuplet pulse") {
			w.pulse, w.plain = w.one("ratio", ratios), false
		}
		w.line("pulse: %s", w.pulse)
	}
	w.length()
	w.pickup = w.pickup && w.has(Entries) && w.often(5, "pickup")
	if w.pickup { // shorter than any of the bars
		w.line("pickup: %s", w.one("pickup", []string{"1/8", "1/4", "3/8", "3/16", "dotted eighth"}))
	}
	w.early = w.pickup
	if w.often(20, "played several times") {
		w.line("end: repeat %d", w.number("times", 2, 4))
		w.early = false
	} else if w.often(3, "end") {
		end := w.one("end", []string{"stop", "land", "repeat"})
		w.line("end: %s", end)
		w.early = w.early && end != "repeat"
	}
	if w.has(Ornaments) && w.often(2, "key") {
		w.line("key: %s", w.one("key", []string{"none", "D dorian", "2 sharps", "1 flat", "Bb major", "F# minor"}))
	}
	if w.has(Plans) && w.often(4, "recording") {
		w.line("recording: {file: take.wav, starts: 0.75 s, marks: [{at: pulse 2, sounds: 1.5 s}]}")
	}
}

// length chooses between bars and realignments. A section that lasts until
// something happens has two plain layers that it happens to.
func (w *writer) length() {
	switch kind := w.number("length", 1, 10); {
	case kind == 1:
		w.until, w.home = 1, true
		w.line("length: 1 return")
	case kind <= 4:
		w.until = w.number("realignments", 2, 3)
		w.line("length: %d realignments", w.until)
	case kind == 5 && w.plain:
		w.bars = 8
		w.line("length: %d pulses", w.number("pulses", 64, 100))
		w.bars = 2 // as many as there are for sure
	default:
		w.bars = w.number("bars", 8, 14)
		w.line("length: %d bars", w.bars)
	}
}
