package terminal

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// spelt holds letters and signs that have a customary spelling in ASCII but no
// decomposition.
var spelt = map[rune]string{
	'ß': "ss", 'ẞ': "SS", 'æ': "ae", 'Æ': "AE", 'œ': "oe", 'Œ': "OE", 'ø': "o", 'Ø': "O",
	'ł': "l", 'Ł': "L", 'đ': "d", 'Đ': "D", 'ð': "d", 'Ð': "D", 'þ': "th", 'Þ': "Th",
	'ı': "i", 'ħ': "h", 'Ħ': "H", '‘': "'", '’': "'", '‚': "'", '“': `"`, '”': `"`, '„': `"`,
	'«': `"`, '»': `"`, '–': "-", '—': "-", '−': "-", '‐': "-", '‑': "-", '…': "...", '·': ".",
	'♯': "#", '♭': "b", '♮': "n", '×': "x", '½': " 1/2", '\u00a0': " ",
}

// toASCII spells a text in ASCII: accents are dropped, letters and signs with a
// customary spelling are spelt, and every other character becomes its Unicode
// number in angle brackets, <6C34>.
func toASCII(s string) string {
	var out strings.Builder
	for _, r := range s {
		if r < 128 {
			out.WriteRune(r)
			continue
		}
		if t, ok := spelt[r]; ok {
			out.WriteString(t)
			continue
		}
		before := out.Len()
		for _, d := range norm.NFKD.String(string(r)) {
			if t, ok := spelt[d]; ok {
				out.WriteString(t)
			} else if d < 128 {
				out.WriteRune(d)
			} else if !unicode.Is(unicode.Mn, d) {
				before = -1
				break
			}
		}
		if before < 0 || before == out.Len() && !unicode.Is(unicode.Mn, r) {
			fmt.Fprintf(&out, "<%04X>", r)
		}
	}
	return out.String()
}
