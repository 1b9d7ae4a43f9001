package files

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// fromFirst turns a manifest of the first version, which has the SHA-256 of each file,
// into one of today's; any other is returned as it is. The files are read: one that
// has another content than is listed gets a sum that no content has, and is changed.
func fromFirst(dir string, text []byte) []byte {
	lines, is := bytes.CutPrefix(text, []byte("tieover 1\n"))
	if !is {
		return text
	}
	var b strings.Builder
	b.WriteString(manifestHead + "\n")
	for line := range strings.Lines(string(lines)) {
		digits, rest, _ := strings.Cut(line, " ")
		_, quoted, _ := strings.Cut(strings.TrimSuffix(rest, "\n"), " ")
		name, err := strconv.Unquote(quoted)
		if raw, hexErr := hex.DecodeString(digits); err != nil || hexErr != nil || len(raw) != sha256.Size || !isInside(name) {
			b.WriteString(line) // for the reader to find fault with
			continue
		}
		sum := Sum{crc: 1} // the CRC of no bytes is 0
		content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if was := sha256.Sum256(content); err == nil && hex.EncodeToString(was[:]) == digits {
			sum = Sum{}
			sum.Write(content)
		}
		b.WriteString(sum.String() + " " + rest)
	}
	return []byte(b.String())
}
