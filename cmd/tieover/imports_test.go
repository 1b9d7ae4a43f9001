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

// one says which package alone may import a library.
var one = map[string]string{
	"github.com/beevik/etree":   "export/musicxml",
	"go.yaml.in/yaml/v3":        "score/spec",
	"gitlab.com/gomidi/midi/v2": "export/midi",
	"github.com/spf13/cobra":    "cmd/tieover",
}

// importTable reads the architecture from DEVELOPERS.md: each package and all that it
// may import from this module. score/{beat,heard} is score/beat and score/heard.
func importTable(t *testing.T) map[string][]string {
	mayImport := map[string][]string{}
	for line := range strings.Lines(part(t, document(t, "DEVELOPERS.md"), "## Who may import whom")) {
		cells := strings.Split(line, "|")
		if len(cells) != 4 || !strings.HasPrefix(cells[1], " `") {
			continue
		}
		for _, name := range packages(cells[1]) {
			assert.NotContains(t, mayImport, name, "it has two rows")
			mayImport[name] = packages(cells[2])
		}
	}
	return mayImport
}

// packages lists those that stand in a cell of the table between backquotes.
func packages(cell string) (all []string) {
	for i, word := range strings.Split(cell, "`") {
		if i%2 == 0 {
			continue
		}
		before, inner, _ := strings.Cut(strings.TrimSuffix(word, "}"), "{")
		for _, name := range strings.Split(inner, ",") {
			all = append(all, before+name)
		}
	}
	return all
}

func TestImportTable(t *testing.T) {
	root, seen, mayImport := "../..", map[string]bool{}, importTable(t)
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
		allowed, listed := mayImport[dir]
		assert.True(t, listed || dir == "cmd/tieover", "package %s is not in the import table", dir)
		checkImports(t, dir, allowed, pkg.Imports)
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

func checkImports(t *testing.T, dir string, allowed, imports []string) {
	for _, path := range imports {
		for library, owner := range one {
			if path == library || strings.HasPrefix(path, library+"/") {
				assert.Equal(t, owner, dir, "only %s may import %s", owner, library)
			}
		}
		if inner, ours := strings.CutPrefix(path, module); ours && dir != "cmd/tieover" {
			assert.Contains(t, allowed, inner, "%s may not import it", dir)
		}
	}
	for _, inner := range allowed {
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
