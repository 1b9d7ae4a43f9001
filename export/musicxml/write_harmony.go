package musicxml

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// chordSymbol writes a chord symbol as harmony if it can be read as one, and
// else as words. Either way it prints as the spec has it.
func (e *encoder) chordSymbol(mark *sheet.Mark, v voicePlace) *etree.Element {
	c, ok := parseChord(mark.Text)
	if !ok {
		words := with(e.words(mark.Text), "font-style", "normal")
		return e.direction("above", words, mark.Offset, v.staff)
	}
	h := elem("harmony",
		elem("root", leaf("root-step", c.root.step), when(c.root.alter != 0, number("root-alter", c.root.alter))),
		with(leaf("kind", c.kind), "text", c.text))
	if c.bass.step != "" {
		h.AddChild(elem("bass", leaf("bass-step", c.bass.step), when(c.bass.alter != 0, number("bass-alter", c.bass.alter))))
	}
	for _, d := range c.degrees {
		// The text of the kind already prints it.
		h.AddChild(with(elem("degree", number("degree-value", d.value), number("degree-alter", d.alter),
			leaf("degree-type", d.change)), "print-object", "no"))
	}
	if mark.Offset != 0 {
		h.AddChild(ticks("offset", mark.Offset))
	}
	h.AddChild(number("staff", v.staff))
	return with(h, "placement", "above")
}

// chord is a chord symbol taken apart.
type chord struct {
	root, bass chordNote // bass without a step when the root is lowest
	kind       string    // in the standard's list
	text       string    // what prints after the root
	degrees    []degree
}

type chordNote struct {
	step  string
	alter int
}

// degree is a note added to, altered in or taken from the kind.
type degree struct {
	value, alter int
	change       string // add, alter or subtract
}

var (
	chordForm  = regexp.MustCompile(`^([A-G])([#b♯♭]{0,2})(.*?)(?:/([A-G])([#b♯♭]{0,2}))?$`)
	degreeForm = regexp.MustCompile(`^(add|no|omit)?([#b♯♭]?)(1[13]|[2-79])`)
)

// kinds are the chord kinds by the ways they are written, common practice. The
// longest that fits is taken; what follows must be degrees.
var kinds = map[string]string{
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
	"6": "major-sixth", "m6": "minor-sixth", "min6": "minor-sixth", "-6": "minor-sixth",
	"9": "dominant-ninth", "maj9": "major-ninth", "M9": "major-ninth", "m9": "minor-ninth", "-9": "minor-ninth",
	"11": "dominant-11th", "maj11": "major-11th", "m11": "minor-11th",
	"13": "dominant-13th", "maj13": "major-13th", "m13": "minor-13th",
	"sus": "suspended-fourth", "sus4": "suspended-fourth", "sus2": "suspended-second",
	"5": "power",
}

// suspended are suspended chords with more on top, written the other way round.
var suspended = map[string]int{"7sus4": 7, "7sus": 7, "9sus4": 9, "9sus": 9}

func parseChord(s string) (chord, bool) {
	m := chordForm.FindStringSubmatch(s)
	if m == nil {
		return chord{}, false
	}
	c := chord{root: chordNote{m[1], alteration(m[2])}, text: m[3]}
	if m[4] != "" {
		c.bass = chordNote{m[4], alteration(m[5])}
	}
	rest := m[3]
	if top, ok := suspended[rest]; ok {
		c.kind, c.degrees = "suspended-fourth", []degree{{7, 0, "add"}}
		if top == 9 {
			c.degrees = append(c.degrees, degree{9, 0, "add"})
		}
		return c, true
	}
	if rest == "69" || rest == "6/9" {
		c.kind, c.degrees = "major-sixth", []degree{{9, 0, "add"}}
		return c, true
	}
	for n := len(rest); n >= 0; n-- {
		kind, known := kinds[rest[:n]]
		if !known {
			continue
		}
		degrees, ok := parseDegrees(rest[n:])
		if !ok {
			continue
		}
		c.kind, c.degrees = kind, degrees
		return c, true
	}
	return chord{}, false
}

// parseDegrees reads "b9", "(#11)", "add9", "(b9,#5)": all of s or nothing.
func parseDegrees(s string) ([]degree, bool) {
	s = strings.NewReplacer("(", "", ")", "", ",", "", " ", "").Replace(s)
	var made []degree
	for s != "" {
		m := degreeForm.FindStringSubmatch(s)
		if m == nil || m[1] == "" && m[2] == "" {
			return nil, false
		}
		value, _ := strconv.Atoi(m[3])
		d := degree{value, alteration(m[2]), "add"}
		switch {
		case m[1] == "no" || m[1] == "omit":
			d.change = "subtract"
		case m[1] == "" && value <= 5:
			d.change = "alter" // every kind has a third and a fifth already
		}
		made = append(made, d)
		s = s[len(m[0]):]
	}
	return made, true
}

// alteration counts semitones: "#" 1, "bb" -2.
func alteration(signs string) int {
	n := 0
	for _, s := range signs {
		switch s {
		case '#', '♯':
			n++
		default:
			n--
		}
	}
	return n
}
