package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/testkit"
)

// onMenuWith is what the menu prints where these lines are typed, with the
// folder it stands in as HERE, and the files it opened.
func onMenuWith(t *testing.T, here string, typed ...string) (said string, opened []string) {
	t.Helper()
	var out bytes.Buffer
	w := terminal.Console{In: strings.NewReader(strings.Join(typed, "\n") + "\n"), Out: &out, Err: &out, OwnWindow: true,
		ProgramDir: here, Env: func(string) string { return "" }, Show: func(path string) error {
			opened = append(opened, strings.TrimPrefix(path, here))
			return nil
		}}
	require.Equal(t, cli.ExitDone, commands.Run(nil, w))
	return strings.ReplaceAll(out.String(), here, "HERE"), opened
}

// The menu from an empty folder, whose name has blanks and letters beyond
// English, through all it offers: nothing is left half done, wrong numbers are
// shown, and what was made is opened.
func TestMenu(t *testing.T) {
	here := filepath.Join(t.TempDir(), "Möbel & Sœurs 家具")
	require.NoError(t, os.Mkdir(here, 0o755))
	said, opened := onMenuWith(t, here, "12", "2", "", "3", "", "", "2", "", "1", "", "", "7", "", "8", "n", "0")
	testkit.Golden(t, "menu/empty-folder.txt", strings.ReplaceAll(said, `\`, "/"))
	assert.Equal(t, []string{"/books/records/Shop book.xlsx", "/books/reports/cards.pdf"}, slashed(opened))
	assert.FileExists(t, filepath.Join(here, "guide.pdf"))
}

// The menu where the sample's books stand below the program.
func TestMenuWithBooks(t *testing.T) {
	here := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(here, "My books"), os.DirFS(filepath.Join("..", "..", "sample"))))
	said, opened := onMenuWith(t, here, "1", "2026-02", "", "4", "", "5", "dresser", "$60", "", "5", "", "6", "2025", "",
		"9", "1", "0")
	assert.Contains(t, said, "\nBooks: HERE/My books\n")
	for _, answer := range []string{"The pack of February 2026 is in:", "for $60.00, all there is to pay",
		"2025: net profit"} {
		assert.Contains(t, said, answer)
	}
	assert.Equal(t, []string{"/My books/reports/2026-02/month.html", "/My books/reports/2026-02/kinds.pdf",
		"/My books/reports/2025/year.html"}, slashed(opened))
}

func slashed(paths []string) []string {
	out := make([]string, len(paths))
	for i, p := range paths {
		out[i] = filepath.ToSlash(p)
	}
	return out
}

// A file that cannot be opened is named, and the end of what is typed ends the
// menu.
func TestMenuWithoutAnOpener(t *testing.T) {
	here := t.TempDir()
	var out bytes.Buffer
	w := terminal.Console{In: strings.NewReader("8\n\n"), Out: &out, Err: &out, OwnWindow: true, ProgramDir: here,
		Env: func(string) string { return "" }, Show: func(string) error { return errors.New("none") }}
	require.Equal(t, cli.ExitDone, commands.Run(nil, w))
	assert.Contains(t, out.String(), "It could not be opened from here. It is: "+filepath.Join(here, "guide.pdf"))
}

// A workbook dropped on the program keeps its window open until Enter.
func TestDroppedKeepsItsWindow(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "pieces.csv")
	require.NoError(t, os.WriteFile(name, []byte("piece,kind,got_on,price,hours,sold_on,sold_price\n"+
		"A1,desk,2026-03-01,20,3,2026-03-20,90\n"), 0o644))
	var out bytes.Buffer
	w := terminal.Console{In: strings.NewReader("\n"), Out: &out, Err: &out, OwnWindow: true,
		Env: func(string) string { return "" }}
	require.Equal(t, cli.ExitDone, commands.Run([]string{name}, w))
	assert.True(t, strings.HasSuffix(out.String(), "\nPress Enter to close this window. "))
	assert.FileExists(t, filepath.Join(dir, "reports", "2026-03", "month.pdf"))
}

// A double click on the program within its archive starts nothing that would be lost.
func TestMenuInTheArchive(t *testing.T) {
	here := filepath.Join(t.TempDir(), "Temp1_piecebook-windows-amd64.zip")
	require.NoError(t, os.Mkdir(here, 0o755))
	said, _ := onMenuWith(t, here, "", "3")
	assert.Contains(t, said, "choose Extract All")
	assert.NotContains(t, said, "Type a number")
}

// An owner's own sheet beside the program becomes a pack by numbers alone: the lines
// for settings.toml are written when asked for, and where a line cannot be read, a
// draft is offered.
func TestMenuWithOneSheet(t *testing.T) {
	here := t.TempDir()
	sheet := filepath.Join(here, "Flips.csv")
	write := func(price string) {
		require.NoError(t, os.WriteFile(sheet, []byte("Item,Type,Bought,Paid,Sold,Got for it,Hrs\n"+
			"D1,dresser,2026-01-03,40.00,2026-02-14,285.00,11.5\nN1,nightstand,2026-01-20,"+price+",2026-02-21,95.00,4\n"),
			0o644))
	}
	write("15.00")
	said, opened := onMenuWith(t, here, "2", "1", "w", "1", "", "", "0")
	settings, err := os.ReadFile(filepath.Join(here, "settings.toml"))
	require.NoError(t, err)
	assert.Contains(t, string(settings), "[sheets]\n\"Flips\" = \"pieces\"\n")
	assert.Contains(t, said, "Next: 1 makes the pack of February 2026.")
	assert.Contains(t, said, "February 2026: net profit $325.00, 2 sold")
	assert.Equal(t, []string{"/reports/2026-02/month.html"}, slashed(opened))
	write("some")
	said, _ = onMenuWith(t, here, "1", "", "d", "", "0")
	assert.Contains(t, said, "For a draft without these lines, type d")
	assert.Contains(t, said, "DRAFT, February 2026")
}
