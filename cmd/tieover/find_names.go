package main

import (
	"fmt"
	"strings"
	"unicode"

	"tieover/score/heard"
	"tieover/score/spec"
)

// longestTidy is how much of a file's name is kept, in characters.
const longestTidy = 100

// tidy makes a text of a file one that a spec may have as a name: on one line,
// without what cannot be seen; "" if nothing is left.
func tidy(text string) string {
	seen := strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069, r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, text)
	runes := []rune(strings.Join(strings.Fields(seen), " "))
	return spec.Name(string(runes[:min(len(runes), longestTidy)]))
}

// partNames gives each part a name of its own, and tells which had to be
// changed.
func partNames(parts []*heard.Part) (names map[*heard.Part]string, notes []string) {
	names = map[*heard.Part]string{}
	taken := map[string]bool{}
	for i, p := range parts {
		name := tidy(p.Name)
		if name == "" {
			name = fmt.Sprintf("Part %d", i+1)
		}
		own := name
		for n := 2; taken[own]; n++ {
			own = fmt.Sprintf("%s (%d)", name, n)
		}
		if taken[own] = true; own != name {
			notes = append(notes, fmt.Sprintf("several parts are called %s; one is now %s", name, own))
		}
		names[p] = own
	}
	return names, notes
}
