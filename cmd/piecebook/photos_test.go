package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// TestPhotosOfTheBooks: the sample's photos are on the sheet, from the books
// folder and where only the workbook in it is given; without them the sheet is
// made and says so.
func TestPhotosOfTheBooks(t *testing.T) {
	books := filepath.Join(t.TempDir(), "books")
	require.NoError(t, os.CopyFS(books, os.DirFS(filepath.Join("..", "..", "sample"))))
	pictures := func(where string, args ...string) int {
		files := reportsOf(t, where, nil, args...)
		return bytes.Count(files[filepath.Join("2026-02", "sheet 153.pdf")], []byte("/Subtype /Image"))
	}
	assert.Equal(t, 2, pictures(books, "sheet", "153", "2026-02"))

	one := filepath.Join(books, "Shop book.xlsx")
	require.NoError(t, os.Rename(filepath.Join(books, "records", "Shop book.xlsx"), one))
	folder, err := booksdir.Open(one)
	require.NoError(t, err)
	f, err := booksdir.Photos(folder).Open("photos/153 before.jpg")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	_, err = folder.Open("photos/153 before.jpg")
	assert.ErrorIs(t, err, os.ErrNotExist, "the records of a single workbook are in it alone")

	require.NoError(t, os.Rename(one, filepath.Join(books, "records", "Shop book.xlsx")))
	require.NoError(t, os.RemoveAll(filepath.Join(books, "photos")))
	assert.Equal(t, 0, pictures(books, "sheet", "153", "2026-02"))
	var out, said bytes.Buffer
	require.Equal(t, cli.ExitDone, commands.Run([]string{"--books", books, "sheet", "153", "--text"},
		terminal.Console{Out: &out,
			Err: &said,
			Env: os.Getenv}))
	assert.Contains(t, out.String(), "photos/153 before.jpg is not in the books folder.")
}
