package fault_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// source parses every file of the program that is no test.
func source(t *testing.T) map[string]*ast.File {
	t.Helper()
	root := filepath.Join("..", "..")
	files := map[string]*ast.File{}
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err == nil {
			files[path] = file
		}
		return err
	}))
	return files
}

// Goal: no code escapes its catalogue, so none escapes the golden files of
// messages, which hold each catalogue's codes to a case. Method: the source is
// read. Every constant of the type Code is in one catalogue and is used outside
// this package; every entry of a catalogue is such a constant; and no problem
// is made with a code that is no such constant.
func TestEveryCodeOfTheSourceIsInACatalogue(t *testing.T) {
	declared, listed, used := map[string]bool{}, map[string]int{}, map[string]bool{}
	for path, file := range source(t) {
		here := strings.HasPrefix(path, filepath.Join("..", "..", "ledger", "fault")+string(filepath.Separator))
		ast.Inspect(file, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.ValueSpec:
				if kind, is := x.Type.(*ast.Ident); here && is && kind.Name == "Code" {
					for _, name := range x.Names {
						declared[name.Name] = true
					}
				}
			case *ast.CompositeLit:
				if kind, is := x.Type.(*ast.MapType); here && is {
					if key, is := kind.Key.(*ast.Ident); is && key.Name == "Code" {
						for _, e := range x.Elts {
							name, is := e.(*ast.KeyValueExpr).Key.(*ast.Ident)
							require.True(t, is, "%s: a catalogue's entry is no constant", path)
							listed[name.Name]++
						}
					}
				}
			case *ast.SelectorExpr:
				if from, is := x.X.(*ast.Ident); is && from.Name == "fault" {
					used[x.Sel.Name] = true
				}
			case *ast.KeyValueExpr:
				if key, is := x.Key.(*ast.Ident); is && key.Name == "Code" {
					_, literal := x.Value.(*ast.BasicLit)
					require.False(t, literal, "%s makes a problem whose code is no constant", path)
				}
			case *ast.CallExpr:
				if f, is := x.Fun.(*ast.SelectorExpr); is && f.Sel.Name == "Code" {
					// seen.csv holds codes as text, which become codes again there.
					if from, is := f.X.(*ast.Ident); is && from.Name == "fault" &&
						!strings.Contains(path, filepath.Join("ledger", "seen")) {
						t.Errorf("%s makes a code of its own", path)
					}
				}
			}
			return true
		})
	}
	require.NotEmpty(t, declared)
	for code := range declared {
		require.Equal(t, 1, listed[code], "%s stands in so many catalogues", code)
		require.True(t, used[code], "%s is raised nowhere", code)
	}
	for code := range listed {
		require.True(t, declared[code], "%s is in a catalogue and is no code", code)
	}
}
