package chart

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

// Wrap sets items gap apart on lines of at most n columns. Only an item longer
// than a line is broken, between its words, and a word longer than a line inside.
func Wrap(items []string, gap string, n int) []string { return wrap(items, gap, n) }
