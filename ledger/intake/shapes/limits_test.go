package shapes

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// Goal: many files within the limits do not add up beyond them.
func TestManyLargeFilesAreBounded(t *testing.T) {
	table := "worked_on,hours\n2026-01-09,1\n" + strings.Repeat(strings.Repeat(",", 900)+"x\n", 4_000)
	files := map[string]string{}
	for i := range 4 {
		files[fmt.Sprintf("records/other %c.csv", 'a'+i)] = table
	}
	res := read(t, files)
	require.Equal(t, fault.CodeFileTooBig, res.Problems.Errors()[0].Code)
}

// Goal: a file beyond the limit is not read.
func TestLargeFileIsNotRead(t *testing.T) {
	res := read(t, map[string]string{"records/hours.csv": string(bytes.Repeat([]byte("\n"), 129<<20))})
	require.Equal(t, fault.CodeFileTooBig, res.Problems.Errors()[0].Code)
}

// Goal: a table that is wrong in every cell is reported, each cell once and in a
// bounded length.
func TestEveryCellWrong(t *testing.T) {
	const rows = 5_000
	res := read(t, map[string]string{"records/uses.csv": usesHead + strings.Repeat("x,x,x,x,x,x,x\n", rows)})
	all := res.Problems.All()
	require.Greater(t, len(all), 3*rows)
	require.LessOrEqual(t, len(all), 8*rows)
	for _, p := range all {
		require.Less(t, len(p.String()), 2_000)
	}
}

// Goal: folders end. Method: a real folder with links out of it, to a folder,
// to nothing, deep ones, and one that is a folder by an old program.
func TestFoldersAndLinks(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	}
	const hours = "worked_on,hours\n2026-01-09,1\n"
	write(filepath.Join(outside, "hours.csv"), hours)
	write(filepath.Join(dir, "records", "hours.csv"), hours)
	write(filepath.Join(dir, "records", "book.numbers", "hours.csv"), hours)
	write(filepath.Join(append([]string{dir, "records"}, append(strings.Split(strings.Repeat("d ", 40), " "),
		"hours.csv")...)...), hours)
	for name, to := range map[string]string{"out.csv": filepath.Join(outside, "hours.csv"), "nothing.csv": "nowhere.csv",
		"in.csv":     "hours.csv",
		"folder.csv": outside, "loop.csv": "loop.csv"} {
		if err := os.Symlink(to, filepath.Join(dir, "records", name)); err != nil {
			t.Skip("this system makes no links: ", err)
		}
	}
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	set, err := templates.Load()
	require.NoError(t, err)
	res := intake.Read(root.FS(), set)
	reported := map[string]fault.Code{}
	for _, p := range res.Problems.Errors() {
		reported[p.Place.File] = p.Code
	}
	require.Equal(t, map[string]fault.Code{"records/out.csv": fault.CodeFileNotRead,
		"records/nothing.csv": fault.CodeFileNotRead,
		"records/folder.csv":  fault.CodeFileNotRead, "records/loop.csv": fault.CodeFileNotRead,
		"records/book.numbers":               fault.CodeFileNotRead,
		"records" + strings.Repeat("/d", 21): fault.CodeFileTooBig}, reported)
	require.Len(t, res.Books.Hours, 1, "the file itself; in.csv is no table's name")
}
