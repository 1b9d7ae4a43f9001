package main

import (
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
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
	"score/beat":          "",
	"score/source":        "",
	"score/instrument":    "",
	"score/sample":        "",
	"templates":           "",
	"cmd/tieover/files":   "",
	"score/processor":     "",
	"score/peek":          "",
	"score/fingering":     "",
	"score/process":       "score/beat",
	"score":               "score/beat score/source score/instrument score/process score/fingering",
	"score/spec":          "score score/beat score/source score/instrument score/process score/fingering score/spec/grammar",
	"score/spec/spectest": "score score/spec",
	"score/spec/grammar":  "score score/beat score/instrument",
	"score/heard":         "score/beat",

	"score/heard/musicxml": "score/heard score/beat",
	"score/heard/midi":     "score/heard score/beat",

	"score/analysis":          "score score/beat score/peek score/process score/analysis/grouping score/analysis/timeline",
	"score/analysis/grouping": "score/beat",
	"score/analysis/timeline": "score/analysis/grouping score/beat",
	"score/analysis/fit":      "score score/beat",
	"score/find":              "score/beat score/heard score/process score/find/align",
	"score/find/align":        "score/process",
	"score/found":             "score/beat score/find score/heard score/instrument score/process score/spec",
	"score/verify":            "score score/beat score/heard score/instrument",

	"layout":           "layout/cyclebars layout/staves layout/systems layout/composite layout/bar layout/sheet score score/beat score/source score/instrument score/peek score/fingering",
	"layout/cyclebars": "score score/beat score/source",
	"layout/systems":   "layout/sheet score score/beat",
	"layout/composite": "score score/beat score/source score/instrument",
	"layout/staves":    "layout/bar layout/sheet score score/beat score/source score/instrument",
	"layout/sheet":     "score score/beat score/instrument score/fingering",
	"layout/bar":       "layout/sheet score score/beat score/instrument score/fingering",
	"layout/edit":      "layout/sheet score score/beat score/instrument score/source",
	"layout/rows":      "score score/beat score/peek score/process",
	"layout/play":      "score score/beat score/instrument",
	"layout/task":      "score score/beat score/source score/instrument score/process layout layout/sheet layout/rows",

	"export/musicxml":      "layout/sheet score score/beat score/instrument",
	"export/musicxml/lint": "",
	"export/engraving":     "export/engraving/pen export/engraving/content export/engraving/spacing export/engraving/canvas export/engraving/marks layout/sheet score score/beat score/instrument",

	"export/engraving/pen":     "",
	"export/engraving/content": "export/engraving/pen layout/sheet score score/beat score/instrument",
	"export/engraving/spacing": "export/engraving/pen export/engraving/content layout/sheet score score/beat score/instrument",
	"export/engraving/canvas":  "export/engraving/pen export/engraving/content",
	"export/engraving/marks":   "export/engraving/pen export/engraving/content export/engraving/spacing export/engraving/canvas layout/sheet score score/beat score/instrument",

	"export/chart":          "layout/rows score score/peek score/beat templates export/chart/terminal",
	"export/chart/terminal": "",
	"export/report/facts":   "export/report score score/source score/analysis score/analysis/grouping score/analysis/timeline score/analysis/fit score/beat",
	"export/report":         "score score/process score/analysis score/analysis/grouping score/analysis/timeline score/analysis/fit score/beat",
	"export/midi":           "layout/play score score/beat",
	"export/page":           "layout/play layout/rows score score/analysis score/beat",
	"export/worksheet":      "layout/sheet layout/task export/chart export/chart/terminal export/engraving export/musicxml score templates",
}

// one says which package alone may import a library.
var one = map[string]string{
	"github.com/beevik/etree":   "export/musicxml",
	"go.yaml.in/yaml/v3":        "score/spec",
	"gitlab.com/gomidi/midi/v2": "export/midi",
	"github.com/spf13/cobra":    "cmd/tieover",
}

func TestImportTable(t *testing.T) {
	root, seen := "../..", map[string]bool{}
	err := filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		name := d.Name()
		if !d.IsDir() {
			return nil
		}
		if at != root && (strings.HasPrefix(name, ".") || name == "testdata" || name == "out") {
			return fs.SkipDir
		}
		pkg, err := build.ImportDir(at, 0)
		if err != nil {
			return nil // no Go files here
		}
		dir := filepath.ToSlash(strings.TrimPrefix(at, root+string(filepath.Separator)))
		seen[dir] = true
		checkImports(t, dir, pkg.Imports)
		for _, file := range pkg.GoFiles {
			noAliases(t, filepath.Join(at, file))
		}
		return nil
	})
	require.NoError(t, err)
	for dir := range mayImport {
		assert.True(t, seen[dir], "the table has a package %s that there is not", dir)
	}
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
	for _, inner := range strings.Fields(allowed) {
		assert.Contains(t, imports, module+inner, "%s may import what it does not need", dir)
	}
}

// noAliases refuses other names for the types and constants of another package:
// whoever needs them shall import them, where the table sees it.
func noAliases(t *testing.T, name string) {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	refuse := func(name *ast.Ident, is ast.Expr) {
		if sel, ok := is.(*ast.SelectorExpr); ok {
			if pkg, ok := sel.X.(*ast.Ident); ok && imported(file, pkg.Name) {
				t.Errorf("%v: %s is another name for %s.%s", fset.Position(name.Pos()), name.Name, pkg.Name, sel.Sel.Name)
			}
		}
	}
	for _, decl := range file.Decls {
		group, ok := decl.(*ast.GenDecl)
		if !ok {
			continue
		}
		for _, spec := range group.Specs {
			switch spec := spec.(type) {
			case *ast.TypeSpec:
				if spec.Assign.IsValid() {
					refuse(spec.Name, spec.Type)
				}
			case *ast.ValueSpec:
				for i := range spec.Values {
					if group.Tok == token.CONST {
						refuse(spec.Names[i], spec.Values[i])
					}
				}
			}
		}
	}
}

// imported reports whether a file imports one of our packages under a name.
func imported(file *ast.File, name string) bool {
	for _, i := range file.Imports {
		if inner, ours := strings.CutPrefix(strings.Trim(i.Path.Value, `"`), module); ours && path.Base(inner) == name {
			return true
		}
	}
	return false
}
