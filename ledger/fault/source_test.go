package fault_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
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
// read. Every code is made together with its meaning in a catalogue, but for the
// one of seen.csv, once, and is used outside this package; and no problem is made
// with a code that is none of them.
func TestEveryCodeOfTheSourceIsInACatalogue(t *testing.T) {
	declared, used, names := map[string]bool{}, map[string]bool{}, map[string]int{}
	makers := []string{"checks", "costing", "intake", "missing"}
	for path, file := range source(t) {
		here := strings.HasPrefix(path, filepath.Join("..", "..", "ledger", "fault")+string(filepath.Separator))
		ast.Inspect(file, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.ValueSpec:
				if kind, is := x.Type.(*ast.Ident); here && is && kind.Name == "Code" {
					declared[x.Names[0].Name] = true
				}
				for i, value := range x.Values {
					call, is := value.(*ast.CallExpr)
					if !here || !is {
						continue
					}
					if f, is := call.Fun.(*ast.Ident); is && slices.Contains(makers, f.Name) {
						declared[x.Names[i].Name] = true
						names[call.Args[0].(*ast.BasicLit).Value]++
					}
				}
			case *ast.SelectorExpr:
				if from, is := x.X.(*ast.Ident); is && from.Name == "fault" {
					used[x.Sel.Name] = true
				}
			case *ast.KeyValueExpr:
				if key, is := x.Key.(*ast.Ident); is && key.Name == "Code" {
					_, literal := x.Value.(*ast.BasicLit)
					require.False(t, literal, "%s makes a problem whose code is none of the catalogues'", path)
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
	require.Len(t, declared, len(fault.IntakeCodes)+len(fault.ChecksCatalogue)+len(fault.CostingCatalogue)+
		len(fault.MissingCatalogue)+1, "all but that of seen.csv are in a catalogue")
	for name, times := range names {
		require.Equal(t, 1, times, "%s stands in so many catalogues", name)
	}
	for code := range declared {
		require.True(t, used[code], "%s is raised nowhere", code)
	}
}
