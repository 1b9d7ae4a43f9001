package chart

import "strings"

// Spell returns a text as a chart prints it: unchanged but for isolates around
// what is written from the right, or spelt in ASCII with accents dropped and
// other characters as <6C34>.
func Spell(text string, ascii bool) string {
	if ascii {
		return toASCII(text)
	}
	return isolate(text)
}

// Columns is how many columns a text takes in a terminal.
func Columns(text string) int { return width(text) }

// Wrap breaks a text between words into lines of at most n columns; a longer
// word has a line of its own.
func Wrap(text string, n int) []string { return wrap(strings.Fields(text), " ", n) }
