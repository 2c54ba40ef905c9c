package commands

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/made"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/report/accountant"
	"piecebook/report/month"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/year"
)

// sampleCopy is the sample's books where they may be changed.
func sampleCopy(t testing.TB) string {
	dir := filepath.Join(t.TempDir(), "books")
	require.NoError(t, os.CopyFS(dir, os.DirFS(filepath.Join("..", "..", "..", "sample"))))
	return dir
}

// runs runs the program and asserts its exit status.
func runs(t testing.TB, status int, args ...string) (out, said string) {
	t.Helper()
	var o, e bytes.Buffer
	require.Equal(t, status, Run(args, terminal.Console{Out: &o, Err: &e}), "%v: %s", args, &e)
	return o.String(), e.String()
}

// replaced changes a text in a file of the books.
func replaced(t testing.TB, name, from, to string) {
	t.Helper()
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Contains(t, string(data), from)
	require.NoError(t, os.WriteFile(name, bytes.ReplaceAll(data, []byte(from), []byte(to)), 0o644))
}

// Goal: the workbook of a month that carries corrections works out, formula by
// formula, and its check is 0.00; also where they reach back over a tax year.
// Method: the sample closed up to a month, then a purchase of a closed month
// changed and other income added; all formulas worked out again.
func TestWorkbookWithCorrectionsWorksOut(t *testing.T) {
	for _, through := range []string{"2025-12", "2025-10"} {
		dir := sampleCopy(t)
		runs(t, cli.ExitDone, "--books", dir, "close", through)
		records := filepath.Join(dir, "records")
		replaced(t, filepath.Join(records, "purchases 2025.csv"), "2025-01-03,Cotton rags,1,,15.50",
			"2025-01-03,Cotton rags,2,,19.50")
		text, err := os.ReadFile(filepath.Join(records, "other income.csv"))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(records, "other income.csv"),
			append(text, []byte("2025-09-09,scrap metal,scrap,12.34\n")...), 0o644))
		month, err := calendar.ParseMonth(through)
		require.NoError(t, err)
		in := testkit.Input(t, dir, month+1)
		require.Len(t, in.Corrections, 1)
		require.Len(t, in.Corrections[0].Changes, 2)
		for _, tie := range in.Month.TieOut {
			assert.Zero(t, tie.Difference, tie.Name)
		}
		book := accountant.MonthBook(in)
		wrong, _ := recalc.Check(book)
		assert.Empty(t, wrong, through)
		row := book.Sheet("Cover").FirstRow()
		difference, err := recalc.Worked(book, "Cover", "Figure", row)
		require.NoError(t, err)
		assert.Equal(t, "0", difference)
	}
}

// Goal: a closed file, or a copied one, with any byte changed or cut off is
// refused by name with status 3, and nothing is made of it. Method: bytes
// changed and files cut all over each of them.
func TestAlteredClosedFilesAreRefused(t *testing.T) {
	dir := sampleCopy(t)
	runs(t, cli.ExitDone, "--books", dir, "close", "2025-02")
	name := filepath.Join(dir, filepath.FromSlash(closing.FileName(calendar.MonthOf(2025, 2))))
	whole, err := os.ReadFile(name)
	require.NoError(t, err)
	for i := range 2000 {
		at := i * len(whole) / 2000
		altered := bytes.Clone(whole)
		altered[at] ^= byte(1 + i%255)
		_, err := closing.Decode(altered)
		require.ErrorIs(t, err, closing.ErrAltered, "byte %d", at)
		_, err = closing.Decode(whole[:at])
		require.ErrorIs(t, err, closing.ErrAltered, "cut at %d", at)
	}
	require.NoError(t, os.WriteFile(name, whole[:len(whole)-1], 0o644))
	_, said := runs(t, cli.ExitFiles, "--books", dir, "month", "2025-03")
	require.Contains(t, said, "closed/2025-02.json cannot be used")
	require.NoError(t, os.WriteFile(name, whole, 0o644))
	copied := filepath.Join(dir, "closed", "2025-02", "records", "counts.csv")
	data, err := os.ReadFile(copied)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(copied, data[:len(data)/2], 0o644))
	for _, args := range [][]string{{"check"}, {"month", "2025-02"}, {"again", "2025-02"}} {
		_, said := runs(t, cli.ExitFiles, append([]string{"--books", dir}, args...)...)
		require.Contains(t, said, "closed/2025-02/records/counts.csv cannot be used", args)
	}
	require.NoDirExists(t, filepath.Join(dir, "reports"))
}

// Goal: what was given out and no longer holds is shown wherever it is asked: by
// check, under Do next of the next month, in the year's records; and a file that
// is gone by its name. Method: packs of two months, then a purchase corrected and
// a file taken away.
func TestGivenOutIsCompared(t *testing.T) {
	dir := sampleCopy(t)
	for _, m := range []string{"2025-11", "2025-12"} {
		runs(t, cli.ExitDone, "--books", dir, "month", m)
	}
	records := filepath.Join(dir, "records")
	replaced(t, filepath.Join(records, "purchases 2025.csv"), "2025-01-03,Cotton rags,1,,15.50",
		"2025-01-03,Cotton rags,1,,35.50")
	require.NoError(t, os.Remove(filepath.Join(records, "parts.csv")))
	out, _ := runs(t, cli.ExitDone, "--books", dir, "check")
	assert.Regexp(t, `Nothing of records/parts\.csv counts any more: \d+ records of it did when December 2025 was made\.`,
		out)
	assert.Contains(t, out, "December 2025 would differ from its pack")

	in := testkit.Input(t, dir, calendar.MonthOf(2026, 1))
	c := &cli.Call{Books: dir}
	b, err := c.Open(calendar.MonthOf(2026, 1))
	require.NoError(t, err)
	since, err := made.SinceMade(c, b)
	require.NoError(t, err)
	in.Earlier = made.Earlier(since, b.Month)
	var text strings.Builder
	require.NoError(t, json.NewEncoder(&text).Encode(month.Doc(in)))
	assert.Contains(t, text.String(), "Make November 2025 and December 2025 again, or close what was given out")
	assert.Regexp(t, `Put back records/parts\.csv, if it was not changed on purpose: \d+ of \d+ records are gone`,
		text.String())

	assert.Contains(t, yearPages(t, dir, "2025"), "The records now give other figures for November 2025 and "+
		"December 2025 "+
		"than the packs that were made")
	_, said := runs(t, cli.ExitDone, "--books", dir, "month", "2025-12")
	assert.Equal(t, 2, strings.Count(said, "Nothing of records/parts.csv counts any more"), "of its own making and "+
		"November's: %s",
		said)
}

// Goal: what of a year's reports and of the folder handed over does not hold any
// more is shown in the terminal too, by year, handover and check; each sentence once.
// Method: the sample's year made and handed over with its months, then a purchase
// corrected.
func TestYearGivenOutIsToldInTheTerminal(t *testing.T) {
	dir := sampleCopy(t)
	for _, args := range [][]string{{"month", "2025-12"}, {"year", "2025"}, {"handover", "2025"}} {
		runs(t, cli.ExitDone, append([]string{"--books", dir}, args...)...)
	}
	out, _ := runs(t, cli.ExitDone, "--books", dir, "check")
	for _, words := range []string{"other figures for December 2025", "cost records of 2025 that were made",
		"handed over for 2025"} {
		assert.NotContains(t, out, words)
	}
	replaced(t, filepath.Join(dir, "records", "purchases 2025.csv"), "2025-01-03,Cotton rags,1,,15.50",
		"2025-01-03,Cotton rags,1,,35.50")
	out, _ = runs(t, cli.ExitDone, "--books", dir, "check")
	asked, _ := runs(t, cli.ExitDone, "--books", dir, "check", "--json")
	assert.Regexp(t, `"given_out": \[\s*\{\s*"month": "2025-12",\s*"figures": \[\s*\{\s*"name": "pieces in stock"`, asked)
	assert.Regexp(t, `"what": "changed",\s*"was"`, asked)
	_, handed := runs(t, cli.ExitDone, "--books", dir, "handover", "2025")
	_, made := runs(t, cli.ExitDone, "--books", dir, "year", "2025")
	for what, said := range map[string]string{"check": out, "handover": handed, "year": made} {
		assert.Equal(t, 1, strings.Count(said, "The records now give other figures for December 2025 than the packs"), what)
		assert.Regexp(t, `The cost records of 2025 that were made before differ from what the records now give: net profit `+
			`was [\d,.()]+ and would now be [\d,.()]+\.`, said, what)
		// handover wrote its folder again.
		assert.Equal(t, what != "year", strings.Contains(said, "The folder handed over for 2025 differs"), what)
	}
	_, made = runs(t, cli.ExitDone, "--books", dir, "year", "2025")
	assert.NotContains(t, made, "that were made before differ")
}

// yearPages is a year's pages as text.
func yearPages(t *testing.T, dir, of string) string {
	c := &cli.Call{Books: dir}
	tax, err := made.OfYear(c, terminal.Console{Out: io.Discard, Err: io.Discard}, of)
	require.NoError(t, err)
	var text strings.Builder
	require.NoError(t, json.NewEncoder(&text).Encode(year.Doc(tax.In)))
	return text.String()
}

// Goal: a closed year's records say how it was corrected after it was closed.
func TestClosedYearCorrectedLater(t *testing.T) {
	dir := sampleCopy(t)
	runs(t, cli.ExitDone, "--books", dir, "close", "2025-12")
	replaced(t, filepath.Join(dir, "records", "purchases 2025.csv"), "2025-01-03,Cotton rags,1,,15.50",
		"2025-01-03,Cotton rags,1,,35.50")
	assert.Regexp(t, `What was closed for 2025 was corrected later: −?[\d.()]+ on the net profit, in January 2026`,
		yearPages(t, dir, "2025"))
	_, said := runs(t, cli.ExitDone, "--books", dir, "year", "2025")
	assert.Equal(t, 1, strings.Count(said, "What was closed for 2025 was corrected later"), said)
	_, said = runs(t, cli.ExitDone, "--books", dir, "year", "2026")
	assert.Equal(t, 1, strings.Count(said, "Corrections to closed months of 2025 stand in this year"), said)
	out, _ := runs(t, cli.ExitDone, "--books", dir, "check")
	assert.Equal(t, 1, strings.Count(out, "What was closed for 2025 was corrected later"), out)
	assert.Equal(t, 1, strings.Count(out, "Corrections to closed months of 2025 stand in this year"), out)
	_, said = runs(t, cli.ExitDone, "--books", dir, "month", "2026-01")
	assert.Equal(t, 1, strings.Count(said, "Corrections to closed months of 2025 stand in this year"), said)
	require.NoError(t, os.Remove(filepath.Join(dir, "records", "parts.csv")))
	out, _ = runs(t, cli.ExitDone, "--books", dir, "check")
	assert.Regexp(t, `parts\.csv counts any more: \d+ records of it did when December 2025 was made`, out)
}
