package main

import (
	"go/build"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "tieover/"

// mayImport is the architecture: each package and all it may import from this
// module. Relax a line only together with DEVELOPERS.md.
var mayImport = map[string]string{
	"score/beat":       "",
	"score/source":     "",
	"score/instrument": "",
	"score/sample":     "",
	"templates":        "",
	"score/processor":  "",
	"score/peek":       "",
	"score":            "score/beat score/source score/instrument score/peek",
	"score/spec":       "score score/beat score/source score/instrument",
	"score/heard":      "score/beat",

	"score/heard/musicxml": "score/heard score/beat",
	"score/heard/midi":     "score/heard score/beat",

	"score/analysis":          "score score/beat score/analysis/grouping score/analysis/timeline",
	"score/analysis/grouping": "",
	"score/analysis/timeline": "score/analysis/grouping",
	"score/analysis/fit":      "",
	"score/find":              "score/beat score/heard",
	"score/verify":            "score score/beat score/heard score/instrument",

	"layout":       "layout/bar layout/sheet score score/beat score/source score/instrument score/peek",
	"layout/sheet": "score score/beat score/instrument",
	"layout/bar":   "layout/sheet score score/beat score/instrument",
	"layout/edit":  "layout/sheet score score/beat score/source",
	"layout/rows":  "score score/beat score/peek",
	"layout/play":  "score score/beat score/instrument",
	"layout/task":  "score score/beat score/instrument layout layout/sheet layout/rows",

	"export/musicxml":      "layout/sheet score score/beat score/instrument",
	"export/musicxml/lint": "",
	"export/engraving":     "layout/sheet score score/beat score/instrument",
	"export/chart":         "layout/rows score/beat templates",
	"export/report":        "score score/analysis score/analysis/grouping score/analysis/timeline score/analysis/fit score/beat",
	"export/midi":          "layout/play score/beat",
	"export/page":          "layout/play layout/rows score score/analysis score/beat",
	"export/worksheet":     "layout/sheet layout/task export/chart export/musicxml templates",
}

// one says which package alone may import a library.
var one = map[string]string{
	"github.com/beevik/etree":   "export/musicxml",
	"go.yaml.in/yaml/v3":        "score/spec",
	"gitlab.com/gomidi/midi/v2": "export/midi",
	"github.com/spf13/cobra":    "cmd/tieover",
}

func TestImportTable(t *testing.T) {
	root := "../.."
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		name := d.Name()
		if !d.IsDir() {
			return nil
		}
		if path != root && (strings.HasPrefix(name, ".") || name == "testdata" || name == "out") {
			return fs.SkipDir
		}
		pkg, err := build.ImportDir(path, 0)
		if err != nil {
			return nil // no Go files here
		}
		dir := filepath.ToSlash(strings.TrimPrefix(path, root+string(filepath.Separator)))
		checkImports(t, dir, pkg.Imports)
		return nil
	})
	require.NoError(t, err)
}

func checkImports(t *testing.T, dir string, imports []string) {
	allowed, listed := mayImport[dir]
	if !listed && dir != "cmd/tieover" {
		t.Errorf("package %s is not in the import table", dir)
	}
	for _, path := range imports {
		for library, owner := range one {
			if path == library || strings.HasPrefix(path, library+"/") {
				assert.Equal(t, owner, dir, "only %s may import %s", owner, library)
			}
		}
		if inner, ours := strings.CutPrefix(path, module); ours && dir != "cmd/tieover" {
			assert.Contains(t, strings.Fields(allowed), inner, "%s may not import it", dir)
		}
	}
}
