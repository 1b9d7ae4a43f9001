package spec

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// slip is one mistake inside the text of a value.
type slip struct {
	at         int // byte offset in the text
	hint, text string
}

// wrong makes a slip. The format is the message; a test finds all messages by
// the calls of this function and of reader.wrong and reader.warn.
func wrong(at int, hint, format string, args ...any) *slip {
	return &slip{at, hint, fmt.Sprintf(format, args...)}
}

// word is a run of characters without blanks and its place in the text.
type word struct {
	at   int
	text string
}

// words splits text at blanks.
func words(text string) []word { return split(text, "") }

// split splits text at blanks and makes each character of signs a word of its
// own.
func split(text, signs string) []word {
	var all []word
	start := -1
	flush := func(end int) {
		if start >= 0 {
			all = append(all, word{start, text[start:end]})
			start = -1
		}
	}
	for i, c := range text {
		switch {
		case unicode.IsSpace(c):
			flush(i)
		case strings.ContainsRune(signs, c):
			flush(i)
			all = append(all, word{i, string(c)})
		case start < 0:
			start = i
		}
	}
	flush(len(text))
	return all
}

// most is where whole numbers stop: larger ones are read as this.
const most = 1 << 40

// whole reads a number written with digits only, without a leading zero.
// Numbers past most are read as most.
func whole(s string) (n int64, ok bool) {
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

// shortened cuts a text that is quoted in a message.
func shortened(s string) string {
	const limit = 40
	if utf8.RuneCountInString(s) <= limit {
		return s
	}
	return string([]rune(s)[:limit-1]) + "…"
}
