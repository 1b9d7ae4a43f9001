package terminal

import (
	"strings"

	"golang.org/x/text/unicode/bidi"
)

// Unicode's first strong isolate and the end of it. They take no column. A
// viewer that writes Hebrew or Arabic from the right would otherwise draw the
// numbers after a name before it, and so move them off their pulses.
const (
	isolateBegin = "\u2068"
	isolateEnd   = "\u2069"
)

// isolate encloses every stretch of right-to-left letters, with the blanks and
// signs inside it, and those after it if nothing from the left follows.
func isolate(text string) string {
	var out strings.Builder
	from := -1 // where the stretch that is open begins
	upTo := 0  // the end of its last letter
	done := 0
	closeAt := func(end int) {
		out.WriteString(text[done:from] + isolateBegin + text[from:end] + isolateEnd)
		done, from = end, -1
	}
	for i, r := range text {
		p, size := bidi.LookupRune(r)
		switch p.Class() {
		case bidi.R, bidi.AL, bidi.AN:
			if from < 0 {
				from = i
			}
			upTo = i + size
		case bidi.NSM, bidi.EN: // accents and digits belong to the letter before
			if upTo == i {
				upTo = i + size
			}
		case bidi.L:
			if from >= 0 {
				closeAt(upTo)
			}
		}
	}
	if from >= 0 {
		closeAt(len(strings.TrimRight(text, " ")))
	}
	return out.String() + text[done:]
}

// balanced closes what lines or a shortened text leave open, and opens it again
// where the next line goes on.
func balanced(lines []string) []string {
	open := 0
	for i, l := range lines {
		l = strings.Repeat(isolateBegin, open) + l
		open = strings.Count(l, isolateBegin) - strings.Count(l, isolateEnd)
		lines[i] = l + strings.Repeat(isolateEnd, open)
	}
	return lines
}
