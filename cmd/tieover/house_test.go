package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// productFiles yields every Go file that is no test, by its path from the root
// of the module, with slashes.
func productFiles(t *testing.T, each func(name string, text []byte)) {
	t.Helper()
	root := "../.."
	require.NoError(t, filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		if d.IsDir() {
			if at != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata" || d.Name() == "out") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(at, ".go") || strings.HasSuffix(at, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(at)
		require.NoError(t, err)
		each(filepath.ToSlash(strings.TrimPrefix(at, root+string(filepath.Separator))), text)
		return nil
	}))
}

// pulls lists the files that read a sequence step by step without peek, and why.
var pulls = map[string]string{
	"score/peek/peek.go":     "it is the one that others use",
	"layout/frame.go":        "systems are chosen no sooner than a bar asks for one",
	"layout/proof.go":        "a bar is good only until the next",
	"layout/sheet/sounds.go": "a bar is good only until the next",
}

// There is one look-ahead (score/peek), and one answer to what is called what
// and when (Section.Signposts): outside score nobody asks for labels or reads
// marks out of the plan.
func TestOneWalk(t *testing.T) {
	seen := map[string]bool{}
	productFiles(t, func(name string, text []byte) {
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		require.NoError(t, err)
		inScore := path.Dir(name) == "score"
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.SelectorExpr:
				if pkg, ok := n.X.(*ast.Ident); ok && pkg.Name == "iter" && strings.HasPrefix(n.Sel.Name, "Pull") {
					seen[name] = true
					assert.Contains(t, pulls, name, "%s: use peek.Of, or say why not", name)
				}
				assert.False(t, !inScore && n.Sel.Name == "LabelAt", "%s: ask Signposts", name)
			case *ast.RangeStmt:
				plan, ok := n.X.(*ast.SelectorExpr)
				value, named := n.Value.(*ast.Ident)
				if ok && named && plan.Sel.Name == "Plan" && !inScore {
					assert.False(t, readsMark(n.Body, value.Name), "%s: ask Signposts for the marks of the plan", name)
				}
			}
			return true
		})
	})
	for name := range pulls {
		assert.True(t, seen[name], "%s is listed and pulls no sequence", name)
	}
}

// readsMark reports whether a loop reads the Mark of its variable.
func readsMark(body *ast.BlockStmt, variable string) (reads bool) {
	ast.Inspect(body, func(n ast.Node) bool {
		if field, ok := n.(*ast.SelectorExpr); ok && field.Sel.Name == "Mark" {
			x, ok := field.X.(*ast.Ident)
			reads = reads || ok && x.Name == variable
		}
		return true
	})
	return reads
}

// cycleReaders lists the files that read cycles step by step, and why: each
// stands in one layer at a time, but for the one that merges.
var cycleReaders = map[string]string{
	"score/moments.go":          "it merges the attacks of layers for all others",
	"score/join.go":             "it defines the reader",
	"score/place.go":            "the cycle that a place of the spec names",
	"score/lyrics.go":           "the words of one layer",
	"score/analysis/parting.go": "passes are compared, not attacks",
	"layout/cursor.go":          "a voice is one layer",
	"layout/cues.go":            "who played last before an entry",
	"layout/rows/cells.go":      "a row is one layer",
}

// attackSorters lists the files that sort what they read of attacks, and why.
var attackSorters = map[string]string{
	"score/analysis/barring.go": "it sorts meters",
	"score/verify/notes.go":     "notes are expected without what the score's writers use",
}

// The attacks of several layers become one rhythm in one place,
// Section.Moments: nobody else stands at the next attack of each layer, or
// gathers attacks and sorts them.
func TestOneMerge(t *testing.T) {
	reads, sorts := map[string]bool{}, map[string]bool{}
	productFiles(t, func(name string, text []byte) {
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		require.NoError(t, err)
		attacks, sorted := false, false
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.RangeStmt:
				attacks = attacks || calls(n.X, "Attacks")
			case *ast.CallExpr:
				reads[name] = reads[name] || calls(n, "ReadCycles")
				sorted = sorted || calls(n, "Sort") || calls(n, "SortFunc") || calls(n, "SortStableFunc")
				for _, seq := range n.Args {
					assert.False(t, calls(seq, "Attacks") && (calls(n, "Of") || calls(n, "Pull") || calls(n, "Pull2")), "%s: ask Section.Moments", name)
				}
			}
			return true
		})
		sorts[name] = attacks && sorted
		assert.False(t, reads[name] && cycleReaders[name] == "", "%s reads cycles step by step: ask Section.Moments, or say why not", name)
		assert.False(t, sorts[name] && attackSorters[name] == "", "%s sorts attacks: ask Section.Moments, or say why not", name)
	})
	for name := range cycleReaders {
		assert.True(t, reads[name] || name == "score/join.go", "%s is listed and reads no cycles", name)
	}
	for name := range attackSorters {
		assert.True(t, sorts[name], "%s is listed and sorts no attacks", name)
	}
}

// calls reports whether an expression is the call of a method or function of
// this name.
func calls(e ast.Expr, name string) bool {
	call, ok := e.(*ast.CallExpr)
	if !ok {
		return false
	}
	fun, ok := call.Fun.(*ast.SelectorExpr)
	return ok && fun.Sel.Name == name
}

const (
	longestFile  = 300 // lines of a product file
	medianFile   = 150
	mostFiles    = 25 // product files of a package
	growsWithKey = "a new command, key, fact or sign is a file"
)

// largePackages lists those that are larger than the rest. They may only shrink,
// or grow with a new capability, here.
var largePackages = map[string]int{"score": 50, "cmd/tieover": 43}

func TestSizes(t *testing.T) {
	var lines []int
	files := map[string]int{}
	productFiles(t, func(name string, text []byte) {
		n := bytes.Count(text, []byte("\n"))
		lines = append(lines, n)
		files[path.Dir(name)]++
		assert.LessOrEqual(t, n, longestFile, "%s is too long", name)
	})
	slices.Sort(lines)
	assert.LessOrEqual(t, lines[len(lines)/2], medianFile, "the median file")
	for dir, n := range files {
		assert.LessOrEqual(t, n, max(mostFiles, largePackages[dir]), "%s has too many files; %s", dir, growsWithKey)
	}
	for dir := range largePackages {
		assert.Greater(t, files[dir], mostFiles, "%s need not be listed any more", dir)
	}
}
