package spec

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tieover/score/source"
)

// FuzzRead: whatever the file, there is no panic, and every problem stands
// inside it and says something.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{brokenDir + "/*.yaml", "../../templates/*.yaml", "../../testdata/sections/*/section.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 1<<14 {
			t.Skip("long files only take long")
		}
		piece, problems, warnings := read([]File{{"fuzz.yaml", text}})
		if (piece == nil) == (len(problems) == 0) {
			t.Fatal("a piece and problems, or neither")
		}
		lines := splitLines(strings.TrimPrefix(string(text), "\uFEFF"))
		for _, p := range append(append(source.Problems{}, problems...), warnings...) {
			if p.Text == "" || p.Pos.Line < 0 || p.Pos.Line > len(lines) {
				t.Fatalf("%v", p)
			}
			if p.Pos.Line > 0 && p.Pos.Column > len([]rune(lines[p.Pos.Line-1]))+1 {
				t.Fatalf("%v points behind its line %q", p, lines[p.Pos.Line-1])
			}
		}
	})
}
