package found

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"

	"tieover/score/heard"
	"tieover/score/spec"
)

// longestTidy is how much of a file's name is kept, in characters.
const longestTidy = 100

// Tidy returns a text of a file as a name that a spec may have: on one line, without
// invisible characters; "" if nothing is left.
func Tidy(text string) string {
	seen := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069, r == unicode.ReplacementChar, r == 0xFEFF:
			return -1
		}
		return r
	}, text)
	runes := []rune(strings.Join(strings.Fields(seen), " "))
	return spec.Name(string(runes[:min(len(runes), longestTidy)]))
}

// barline is the one name that a layer may not have: in a spec it means the barline.
const barline = "barline"

// Names holds the names that are taken.
type Names map[string]bool

// Own takes and returns a name that is free: the given one, or that with a number.
func (taken Names) Own(name string) string {
	own := name
	for n := 2; taken[own] || own == barline; n++ {
		own = fmt.Sprintf("%s (%d)", name, n)
	}
	taken[own] = true
	return own
}

// PartNames gives each part a name of its own; notes say which had to be changed.
func PartNames(parts []*heard.Part) (called map[*heard.Part]string, taken Names, notes []string) {
	called, taken = map[*heard.Part]string{}, Names{}
	for i, p := range parts {
		name := cmp.Or(Tidy(p.Name), fmt.Sprintf("Part %d", i+1))
		own := taken.Own(name)
		switch {
		case own == name:
		case name == barline:
			notes = append(notes, fmt.Sprintf("no layer may be called %s; it is now %s", name, own))
		default:
			notes = append(notes, fmt.Sprintf("several parts are called %s; one is now %s", name, own))
		}
		called[p] = own
	}
	return called, taken, notes
}
