// Package grammar reads the small languages of a spec's values: groups, pulses, meters,
// tempi, keys, pitches, places, box notation, lines and touches.
//
// Each reader is a pure function from text to a value or a Slip, the first mistake in the
// text with its byte offset and what to write instead; what a value means beside other
// keys is the caller's matter. A text that is accepted is bounded (MaxGroups, MaxPulses …).
package grammar

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// Slip is one mistake inside the text of a value.
type Slip struct {
	At         int // byte offset in the text
	Hint, Text string
}

// Wrong makes a slip. The format is the message; a test finds all messages by
// the calls of this function and of findings.wrong and findings.warn.
func Wrong(at int, hint, format string, args ...any) *Slip {
	return &Slip{at, hint, fmt.Sprintf(format, args...)}
}

// move moves a slip, if there is one, to where the text it is in begins.
func (s *Slip) move(by int) *Slip {
	if s != nil {
		s.At += by
	}
	return s
}

// Word is a run of characters without blanks and its place in the text.
type Word struct {
	At   int
	Text string
}

// Words splits text at blanks.
func Words(text string) []Word { return Split(text, "") }

// Split splits text at blanks and makes each character of signs a word of its
// own.
func Split(text, signs string) []Word {
	all := make([]Word, 0, 4) // most are short
	start := -1
	flush := func(end int) {
		if start >= 0 {
			all = append(all, Word{start, text[start:end]})
			start = -1
		}
	}
	for i, c := range text {
		switch {
		case unicode.IsSpace(c):
			flush(i)
		case strings.ContainsRune(signs, c):
			flush(i)
			all = append(all, Word{i, text[i : i+utf8.RuneLen(c)]})
		case start < 0:
			start = i
		}
	}
	flush(len(text))
	return all
}

// most is where whole numbers stop: larger ones are read as this.
const most = 1 << 40

// Whole reads a number written with digits only, without a leading zero.
// Numbers past most are read as most.
func Whole(s string) (n int64, ok bool) {
	if s == "" || (len(s) > 1 && s[0] == '0') {
		return 0, false
	}
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = min(most, n*10+int64(s[i]-'0'))
	}
	return n, true
}

// Shortened cuts a text that is quoted in a message.
func Shortened(s string) string {
	const limit = 40
	if utf8.RuneCountInString(s) <= limit {
		return s
	}
	return string([]rune(s)[:limit-1]) + "…"
}

// JoinLines makes one line of a text, with single blanks.
func JoinLines(s string) string { return strings.Join(strings.Fields(s), " ") }

// DidYouMean is a hint with the known names that are nearest to one, "" if none is near.
func DidYouMean(name string, known []string) string {
	near := instrument.Nearest(name, known)
	if len(near) == 0 {
		return ""
	}
	return "did you mean " + beat.Listed(near, "or") + "?"
}
