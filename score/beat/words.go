package beat

import (
	"strconv"
	"strings"
)

// Listed joins names as a sentence does: "A", "A and B", "A, B and C"; joint is
// the last word between them, "and" or "or".
func Listed(names []string, joint string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + joint + " " + names[last]
}

// Ordinal writes a number as a place in a row: "1st", "12th", "23rd".
func Ordinal(n int64) string {
	ending := "th"
	if n/10%10 != 1 {
		switch n % 10 {
		case 1:
			ending = "st"
		case 2:
			ending = "nd"
		case 3:
			ending = "rd"
		}
	}
	return strconv.FormatInt(n, 10) + ending
}
