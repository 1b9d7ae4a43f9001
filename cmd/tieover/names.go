package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"tieover/score"
)

// longestName is how many bytes of a layer's name go into a file name.
const longestName = 60

// fileNames returns a file name without ending for each player, in order.
func fileNames(p *score.Piece) []string {
	var names []string
	taken := map[string]bool{}
	for i, player := range p.Players() {
		names = append(names, uniqueFileName(player.Name, fmt.Sprintf("layer-%d", i+1), taken))
	}
	return names
}

// uniqueFileName is a file name, without ending, for a name, and takes it: letters
// and digits of any script in lower case, all else as single hyphens, and what it is
// called otherwise where nothing is left; unique even where upper and lower case are
// the same, and safe on every system.
func uniqueFileName(name, otherwise string, taken map[string]bool) string {
	plain := fileName(name)
	if plain == "" || isDevice(plain) {
		plain = otherwise
	}
	unique := plain
	for n := 2; taken[fold(unique)]; n++ {
		unique = fmt.Sprintf("%s-%d", plain, n)
	}
	taken[fold(unique)] = true
	return unique
}

func fileName(name string) string {
	var out strings.Builder
	for _, c := range strings.ToLower(norm.NFC.String(name)) {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || unicode.IsMark(c):
			out.WriteRune(c)
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-"):
			out.WriteByte('-')
		}
	}
	short := strings.TrimRight(out.String(), "-")
	for len(short) > longestName {
		_, size := utf8.DecodeLastRuneInString(short)
		short = short[:len(short)-size]
	}
	return strings.TrimRight(short, "-")
}

func fold(name string) string { return cases.Fold().String(norm.NFC.String(name)) }

// isDevice reports whether Windows takes the name for a device.
func isDevice(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	stem, digit := name[:max(0, len(name)-1)], name[max(0, len(name)-1):]
	return (stem == "com" || stem == "lpt") && digit >= "0" && digit <= "9"
}
