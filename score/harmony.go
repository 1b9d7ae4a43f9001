package score

import (
	"cmp"
	"regexp"
	"strconv"
	"strings"
)

// Harmony is a chord symbol taken apart.
type Harmony struct {
	Root, Bass HarmonyNote // Bass without a step when the root is lowest; no Root either where there is no chord
	Kind       string      // in the standard's list
	Text       string      // what prints after the root
	Degrees    []Degree
}

// HarmonyNote is a root or a bass.
type HarmonyNote struct {
	Step  string // "" for none
	Alter int    // semitones
}

// Degree is a note added to, altered in or taken from the kind.
type Degree struct {
	Value, Alter int
	Change       string // add, alter or subtract
}

// NoChord is how a spec says that no chord sounds.
const NoChord = "N.C."

var (
	harmonyForm = regexp.MustCompile(`^([A-G])([#b♯♭]{0,2})(.*?)(?:/([A-G])([#b♯♭]{0,2}))?$`)
	degreeForm  = regexp.MustCompile(`^(add|no|omit)?([#b♯♭]?)(1[13]|[2-79])`)
)

// harmonyKinds are the chord kinds by the ways they are written, common practice. The
// longest that fits is taken; what follows must be degrees.
var harmonyKinds = map[string]string{
	"": "major", "maj": "major", "M": "major",
	"m": "minor", "min": "minor", "-": "minor",
	"dim": "diminished", "°": "diminished", "o": "diminished",
	"aug": "augmented", "+": "augmented",
	"7": "dominant", "maj7": "major-seventh", "M7": "major-seventh", "Δ": "major-seventh", "Δ7": "major-seventh",
	"m7": "minor-seventh", "min7": "minor-seventh", "-7": "minor-seventh",
	"dim7": "diminished-seventh", "°7": "diminished-seventh", "o7": "diminished-seventh",
	"aug7": "augmented-seventh", "+7": "augmented-seventh",
	"ø": "half-diminished", "ø7": "half-diminished", "m7b5": "half-diminished", "m7♭5": "half-diminished",
	"mM7": "major-minor", "mMaj7": "major-minor", "m(maj7)": "major-minor", "mmaj7": "major-minor",
	"6": "major-sixth", "maj6": "major-sixth", "m6": "minor-sixth", "min6": "minor-sixth", "-6": "minor-sixth",
	"9": "dominant-ninth", "maj9": "major-ninth", "M9": "major-ninth", "m9": "minor-ninth", "-9": "minor-ninth",
	"11": "dominant-11th", "maj11": "major-11th", "m11": "minor-11th",
	"13": "dominant-13th", "maj13": "major-13th", "m13": "minor-13th",
	"sus": "suspended-fourth", "sus4": "suspended-fourth", "sus2": "suspended-second",
	"5": "power",
}

// wholeKinds are symbols that say a kind and its degrees in one.
var wholeKinds = map[string]Harmony{
	"7sus4": {Kind: "suspended-fourth", Degrees: []Degree{{7, 0, "add"}}},
	"9sus4": {Kind: "suspended-fourth", Degrees: []Degree{{7, 0, "add"}, {9, 0, "add"}}},
	"69":    {Kind: "major-sixth", Degrees: []Degree{{9, 0, "add"}}},
	"2":     {Kind: "major", Degrees: []Degree{{9, 0, "add"}}},
	"alt":   {Kind: "dominant", Degrees: []Degree{{5, 1, "alter"}, {9, -1, "add"}, {9, 1, "add"}}},
}

// sameKinds are other ways to write some of them.
var sameKinds = map[string]string{"7sus": "7sus4", "9sus": "9sus4", "6/9": "69", "7alt": "alt"}

// longKinds are longer ways to write maj and m, common practice.
var longKinds = regexp.MustCompile(`^(MA|Ma|ma|Maj|MAJ|MI|Mi|mi|MIN|Min)([^a-zA-Z]|add|sus|alt|no|omit|$)`)

// ParseHarmony takes a chord symbol apart: F#m7b5/E, N.C. ok is false when it cannot
// be read, though it may begin with a root.
func ParseHarmony(s string) (h Harmony, ok bool) {
	if s == NoChord {
		return Harmony{Kind: "none", Text: s}, true
	}
	m := harmonyForm.FindStringSubmatch(s)
	if m == nil {
		return Harmony{}, false
	}
	c := Harmony{Root: HarmonyNote{m[1], alteration(m[2])}, Text: m[3]}
	if m[4] != "" {
		c.Bass = HarmonyNote{m[4], alteration(m[5])}
	}
	rest := m[3]
	if long := longKinds.FindStringSubmatch(rest); long != nil {
		short := "maj"
		if strings.EqualFold(long[1][:2], "mi") {
			short = "m"
		}
		rest = short + rest[len(long[1]):]
	}
	if whole, ok := wholeKinds[cmp.Or(sameKinds[rest], rest)]; ok {
		c.Kind, c.Degrees = whole.Kind, whole.Degrees
		return c, true
	}
	for n := len(rest); n >= 0; n-- {
		kind, known := harmonyKinds[rest[:n]]
		if !known {
			continue
		}
		if degrees, ok := parseDegrees(rest[n:]); ok {
			c.Kind, c.Degrees = kind, degrees
			return c, true
		}
	}
	return Harmony{}, false
}

// parseDegrees reads "b9", "(#11)", "add9", "(b9,#5)": all of s or nothing.
func parseDegrees(s string) ([]Degree, bool) {
	s = strings.NewReplacer("(", "", ")", "", ",", "", " ", "").Replace(s)
	var made []Degree
	for s != "" {
		m := degreeForm.FindStringSubmatch(s)
		if m == nil || m[1] == "" && m[2] == "" {
			return nil, false
		}
		value, _ := strconv.Atoi(m[3])
		d := Degree{value, alteration(m[2]), "add"}
		switch {
		case m[1] == "no" || m[1] == "omit":
			d.Change = "subtract"
		case m[1] == "" && value <= 5:
			d.Change = "alter" // every kind has a third and a fifth already
		}
		made = append(made, d)
		s = s[len(m[0]):]
	}
	return made, true
}

// alteration counts semitones: "#" 1, "bb" -2.
func alteration(signs string) int {
	count := func(sign string) int { return strings.Count(signs, sign) }
	return count("#") + count("♯") - count("b") - count("♭")
}

// Transposed writes a chord symbol with its root and its bass replaced by what other
// returns for them. One that cannot be read, or names no notes, comes back as it is.
func Transposed(symbol string, other func(HarmonyNote) HarmonyNote) string {
	h, ok := ParseHarmony(symbol)
	if !ok || h.Root.Step == "" {
		return symbol
	}
	sharp, flat := "#", "b"
	if strings.ContainsAny(symbol, "♯♭") {
		sharp, flat = "♯", "♭"
	}
	name := func(n HarmonyNote) string {
		n = other(n)
		return n.Step + strings.Repeat(sharp, max(0, n.Alter)) + strings.Repeat(flat, max(0, -n.Alter))
	}
	text := name(h.Root) + h.Text
	if h.Bass.Step != "" {
		text += "/" + name(h.Bass)
	}
	return text
}
