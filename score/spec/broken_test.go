package spec

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/source"
)

const brokenDir = "../../testdata/broken"

// Each broken spec says beside the mistake what is expected:
//
//	tempo: 0 # ERROR: the tempo is too slow
//
// "# WARNING:" likewise. "# ERROR 5:" speaks of line 5 where no comment can
// stand, and "# ERROR 0:" of the file as a whole.
var expectation = regexp.MustCompile(`# (ERROR|WARNING)(?: (\d+))?: `)

// expected collects "line: text" of one kind, in order.
func expected(t *testing.T, text, kind string) []string {
	t.Helper()
	var all []string
	for i, line := range splitLines(text) {
		marks := expectation.FindAllStringSubmatchIndex(line, -1)
		for k, m := range marks {
			end := len(line)
			if k+1 < len(marks) {
				end = marks[k+1][0]
			}
			number := i + 1
			if m[4] >= 0 {
				n, err := strconv.Atoi(line[m[4]:m[5]])
				require.NoError(t, err)
				number = n
			}
			if line[m[2]:m[3]] == kind {
				all = append(all, fmt.Sprintf("%d: %s", number, strings.TrimSpace(line[m[1]:end])))
			}
		}
	}
	return all
}

func found(problems source.Problems) []string {
	var all []string
	for _, p := range problems {
		all = append(all, fmt.Sprintf("%d: %s", p.Pos.Line, p.Text))
	}
	return all
}

func brokenFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(brokenDir + "/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

func TestBroken(t *testing.T) {
	several := 0
	files := brokenFiles(t)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			piece, problems, warnings := read([]File{{file, text}})
			want := expected(t, string(text), "ERROR")
			require.NotEmpty(t, want, "the file must say what is wrong in it")
			assert.ElementsMatch(t, want, found(problems))
			assert.ElementsMatch(t, expected(t, string(text), "WARNING"), found(warnings))
			assert.Nil(t, piece)
			if len(want) > 1 {
				several++
			}
			for _, p := range warnings {
				checkPlace(t, p, text)
			}
			for _, p := range problems {
				checkPlace(t, p, text)
				assert.NotEmpty(t, p.Hint, "%s: say what to write instead", p.Text)
			}
		})
	}
	assert.GreaterOrEqual(t, len(files), 90, "broken specs")
	assert.GreaterOrEqual(t, several, 15, "files with several mistakes")
}

// checkPlace asserts that a problem points into its file and quotes its line.
func checkPlace(t *testing.T, p source.Problem, text []byte) {
	t.Helper()
	lines := splitLines(strings.TrimPrefix(string(text), "\uFEFF"))
	require.LessOrEqual(t, p.Pos.Line, len(lines), p)
	if p.Pos.Line == 0 {
		return
	}
	line := lines[p.Pos.Line-1]
	if len(line) > source.LongestLine {
		assert.Empty(t, p.Line, p.Text)
	} else {
		assert.Equal(t, line, p.Line, p.Text)
	}
	assert.LessOrEqual(t, p.Pos.Column, len([]rune(line))+1, p)
	assert.GreaterOrEqual(t, p.Pos.Column, 0)
}

// made are inputs that cannot stand in a text file beside an expectation.
func made() map[string]struct {
	files []File
	want  []string
} {
	type input = struct {
		files []File
		want  []string
	}
	one := func(text string, want ...string) input {
		return input{[]File{{"made.yaml", []byte(text)}}, want}
	}
	const tail = "layers:\n  - {name: Bell, groups: 3+2}\n"
	var many strings.Builder
	for i := range MaxLayers + 1 {
		fmt.Fprintf(&many, "  - {name: Gate %d, groups: 3+2}\n", i)
	}
	var unknown []string
	for i := range maxProblems {
		unknown = append(unknown, fmt.Sprintf("%d: unknown key \"x\" in the section", i+2))
	}
	wide := bytes.ReplaceAll([]byte("title: T\n"), []byte("\n"), []byte("\n\x00"))
	return map[string]input{
		"2 MiB":                 one("title: Towpath\n"+tail+strings.Repeat("# quiet water\n", 150_000), "0: the file has more than 1048576 bytes (1 MiB)"),
		"not UTF-8":             one("title: Towpath\nsubtitle: \xff\n"+tail, "2: not UTF-8 text"),
		"MusicXML":              one("<?xml version=\"1.0\"?>\n<score-partwise/>\n", "0: the file is a score or sound, not a section spec"),
		"MIDI":                  one("MThd\x00\x00\x00\x06", "0: the file is a score or sound, not a section spec"),
		"UTF-16":                one("\xff\xfe"+string(wide), "0: the file is UTF-16 or UTF-32, not UTF-8"),
		"65 layers":             one("title: Towpath\nlayers:\n"+many.String(), "67: more than 64 layers in a section"),
		"300 unknown keys":      one("title: Towpath\n"+strings.Repeat("x: 1\n", 300)+tail, append([]string{"0: 100 more problems in this file"}, unknown...)...),
		"no byte":               one("", "0: the file is empty"),
		"a control character":   one("title: Tow\x07path\n"+tail, "1: a control character (U+0007)"),
		"a mark in the text":    one("title: Tow\uFEFFpath\n"+tail, "1: a byte order mark (U+FEFF) inside the text"),
		"a line separator":      one("title: Tow\u2028path\n"+tail, "1: an unusual line break (U+2028)"),
		"CR LF keeps its lines": one("title: Towpath\r\ntempo: 0\r\nlayers:\r\n  - {name: Bell, groups: 3+2}\r\n", "2: the tempo is too slow"),
		"CR keeps its lines":    one("title: Towpath\rtempo: 0\rlayers:\r  - {name: Bell, groups: 3+2}\r", "2: the tempo is too slow"),
		"a mark at the start":   one("\uFEFFtitle: Towpath\ntempo: 0\n"+tail, "2: the tempo is too slow"),
		"deeply nested":         one("title: "+strings.Repeat("[", 10_001)+strings.Repeat("]", 10_001)+"\n", "1: too many brackets inside one another"),
		"no file":               {nil, []string{"0: no spec was given"}},
		"another instrument later": {[]File{
			{"a.yaml", []byte("title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Bell, instrument: claves, groups: 3+2}\n")},
			{"b.yaml", []byte("title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Bell, instrument: cowbell, groups: 3+2}\n")},
		}, []string{"4: Bell plays cowbell here and claves in an earlier section"}},
		"two sections of one name": {[]File{
			{"a.yaml", []byte("title: Towpath\nsection: B\nlength: 2 bars\n" + tail)},
			{"b.yaml", []byte("title: Sluice\nsection: B\nlength: 2 bars\n" + tail)},
		}, []string{"1: two sections are named \"B\""}},
		"a pickup in a later section": {[]File{
			{"a.yaml", []byte("title: Towpath\nlength: 2 bars\n" + tail)},
			{"b.yaml", []byte("title: Sluice\npickup: 1/4\nlength: 2 bars\n" + tail)},
		}, []string{"2: only the first section has a pickup"}},
		"two long sections": {[]File{
			{"a.yaml", []byte("title: Towpath\nlength: 600000 bars\n" + tail)},
			{"b.yaml", []byte("title: Sluice\nlength: 600000 bars\n" + tail)},
		}, []string{"2: the piece has 1,200,000 bars"}},
		"a section that ends inside a triplet": {[]File{
			{"a.yaml", []byte("title: Towpath\npulse: 1/8 in 3:2\nlength: 1 pulse\n" + tail)},
			{"b.yaml", []byte("title: Sluice\nlength: 2 bars\n" + tail)},
		}, []string{"3: the section ends inside bar 1, after 1/12 of it, and another follows: no time signature can state so short a bar"}},
		"a list with a slip": one("title: Towpath\nlayers:\n  - {name: Bell, line: ["+strings.Repeat("x 1,", 200)+"x]}\n", "3: \"x\" does not say what sounds and how long"),
	}
}

func TestMade(t *testing.T) {
	for name, m := range made() {
		t.Run(name, func(t *testing.T) {
			piece, problems := Read(m.files)
			assert.Equal(t, m.want, found(problems))
			assert.Nil(t, piece)
			for _, p := range problems {
				for _, f := range m.files {
					if f.Name == p.Pos.File && !strings.Contains(name, "UTF") {
						checkPlace(t, p, f.Text)
					}
				}
			}
		})
	}
}

// TestEveryText fails when a message of the reader is shown by no broken spec.
func TestEveryText(t *testing.T) {
	var seen []string
	collect := func(files []File) {
		_, problems, warnings := read(files)
		for _, p := range append(problems, warnings...) {
			seen = append(seen, p.Text)
		}
	}
	for _, file := range brokenFiles(t) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		collect([]File{{file, text}})
	}
	for _, m := range made() {
		collect(m.files)
	}
	all := slices.Concat(texts(t, "."), texts(t, "grammar"), texts(t, ".."))
	require.Greater(t, len(all), 100)
	for _, text := range all {
		if slices.Contains(saidEarlier, text) {
			continue
		}
		text = strings.ReplaceAll(text, "%%", "%")
		pattern := regexp.MustCompile("^" + verb.ReplaceAllString(regexp.QuoteMeta(text), "(?s:.*)") + "$")
		assert.True(t, slices.ContainsFunc(seen, pattern.MatchString), "no broken spec shows: %s", text)
	}
}

// saidEarlier are messages of the score that the reader's own, with more of
// the spec in them, come before.
var saidEarlier = []string{
	"there is no layer %q",
	"realign: there is no layer %q",
	"layer %q enters or leaves at a realignment, so it cannot be one of those that make it",
	"layer %q is cut to fit, so it cannot be in the realigning set",
	"layer %q is a free line without cycles, so it cannot be in the realigning set",
}

// verb is a formatting verb as regexp.QuoteMeta leaves it.
var verb = regexp.MustCompile(`%[0-9]*[a-zA-Z]|\x00`)

// texts returns the messages in a package's source: the format of each call
// that makes a problem.
func texts(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	formats := map[string]int{"wrong": 2, "Wrong": 2, "warn": 2, "fail": 2, "fault": 3, "Add": 1}
	var all []string
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(dir, e.Name()), nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			name := ""
			switch f := call.Fun.(type) {
			case *ast.Ident:
				name = f.Name
			case *ast.SelectorExpr:
				name = f.Sel.Name
			}
			if at, ok := formats[name]; ok && at < len(call.Args) {
				if text := literal(call.Args[at]); strings.Trim(text, "\x00") != "" && text != "%s" {
					all = append(all, text)
				}
			}
			return true
		})
	}
	return all
}

// literal is the text of an expression with \x00 for what is not a literal.
func literal(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		if s, err := strconv.Unquote(e.Value); err == nil && e.Kind == token.STRING {
			return s
		}
	case *ast.BinaryExpr:
		return literal(e.X) + literal(e.Y)
	case *ast.CallExpr:
		if f, ok := e.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "Sprintf" {
			return literal(e.Args[0])
		}
	}
	return "\x00"
}
