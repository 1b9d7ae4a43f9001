package terminal

import (
	"regexp"
	"strings"

	"github.com/rivo/uniseg"
)

// Spell returns a text as a chart prints it: unchanged but for isolates around
// what is written from the right, or spelt in ASCII with accents dropped and
// other characters as <6C34>.
func Spell(text string, ascii bool) string {
	if ascii {
		return toASCII(text)
	}
	return isolate(text)
}

// Width is how many columns a text takes in a terminal: two for most East
// Asian characters, none for combining accents.
func Width(s string) int {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return uniseg.StringWidth(s)
		}
	}
	return len(s) // a column each
}

// Clip shortens s to at most n columns, at a character's edge; what is cut off
// is shown by two dots.
func Clip(s string, n int) string {
	if Width(s) <= n {
		return s
	}
	var kept strings.Builder
	room := n - 2
	for g := uniseg.NewGraphemes(s); g.Next() && g.Width() <= room; room -= g.Width() {
		kept.WriteString(g.Str())
	}
	text := kept.String()
	if i := strings.LastIndexByte(text, '<'); i >= 0 && halved.MatchString(text[i:]) {
		text = text[:i]
	}
	return balanced([]string{strings.TrimRight(text, " ")})[0] + ".."
}

// halved is the beginning of a character's number, <6C3, which says nothing.
var halved = regexp.MustCompile(`^<[0-9A-F]*$`)

// Wrap sets items gap apart on lines of at most n columns, never broken inside an item
// unless it is wider than a line; then it breaks between its words, and inside
// a word only if that is wider than a line itself.
func Wrap(items []string, gap string, n int) []string {
	var lines []string
	current := ""
	flush := func() {
		if current != "" {
			lines = append(lines, current)
		}
		current = ""
	}
	for _, item := range items {
		if current != "" && Width(current)+Width(gap)+Width(item) <= n {
			current += gap + item
			continue
		}
		flush()
		if Width(item) <= n {
			current = item
			continue
		}
		for _, word := range shortWords(item, n-2) {
			switch {
			case current == "":
				current = word
			case Width(current)+1+Width(word) <= n:
				current += " " + word
			default:
				flush()
				current = "  " + word
			}
		}
	}
	flush()
	return balanced(lines)
}

// shortWords splits a text into words of at most n columns; what is longer is
// broken between characters, but not inside a number.
func shortWords(text string, n int) []string {
	var words []string
	for _, word := range strings.Fields(text) {
		from, room := 0, n
		for at := 0; at < len(word); {
			next := character(word[at:])
			w := Width(next)
			if w > room && at > from {
				words = append(words, word[from:at])
				from, room = at, n
			}
			room -= w
			at += len(next)
		}
		words = append(words, word[from:])
	}
	return words
}

// character returns what a text begins with that is never broken: a character
// with its accents, its number <6C34>, or the digits of a number with the + after
// them.
func character(text string) string {
	if n := unbroken.FindString(text); n != "" {
		return n
	}
	first, _, _, _ := uniseg.FirstGraphemeClusterInString(text, -1)
	return first
}

var unbroken = regexp.MustCompile(`^(?:<[0-9A-F]{4,6}>|[0-9]{1,9}\+?)`)
