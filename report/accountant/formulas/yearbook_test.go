package formulas

import (
	"bytes"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

// yearsInside are tax years of every kind: the sample's, the one with everything
// in it, generated ones under both treatments of supplies.
func yearsInside(t *testing.T) map[string]report.YearInput {
	t.Helper()
	sample := filepath.Join("..", "..", "..", "sample")
	used := ledgerkit.Folder(t, bookgen.WithTreatment(bookgen.Years(1), "when used"))
	return map[string]report.YearInput{"sample 2025": testkit.YearInput(t, sample, 2025), "sample 2026": testkit.YearInput(
		t, sample, 2026),
		"everything": testkit.YearInput(t, filepath.Join("..", "..", "..", "ledger", "testdata", "year"), 2022),
		"when used":  testkit.YearInput(t, used, 2023)}
}

// column is the cell of a row under a head; nil where it has none.
func column(s *workbook.Sheet, r workbook.Row, head string) *workbook.Cell {
	for j, c := range s.Columns {
		if c.Head == head && j < len(r.Cells) {
			return &r.Cells[j]
		}
	}
	return nil
}

// worked is a cell worked out again from the sheets alone.
func worked(t *testing.T, b *workbook.Book, sheet, head string, row int) string {
	t.Helper()
	got, err := recalc.Worked(b, sheet, head, row)
	require.NoError(t, err)
	return got
}

// Goal: no check compares two amounts that were only typed, so each can fail.
// Method: every row of the sheet Checks, of year and month.
func TestEveryCheckHasAFormula(t *testing.T) {
	books := map[string]*workbook.Book{"month": accountant.MonthBook(testkit.Input(t, filepath.Join("..", "..",
		"..", "sample"),
		0))}
	for name, in := range yearsInside(t) {
		books[name] = accountant.YearBook(in)
	}
	for name, b := range books {
		s := b.Sheet("Checks")
		for i, r := range s.Rows() {
			if i == s.Len()-1 {
				break
			}
			live := column(s, r, "Reached").Formula != "" || column(s, r, "Against").Formula != ""
			assert.True(t, live, "%s: %s", name, r.Cells[0].Text)
			assert.Equal(t, "OK", column(s, r, "Word").Text, "%s: %s", name, r.Cells[0].Text)
		}
	}
}

// Goal: a changed posting moves its line of the form, and a check says which
// line. Method: for each line that takes something, the first posting that
// counts on it is changed by a cent, and the formulas are worked out again.
func TestAChangedPostingMovesItsLine(t *testing.T) {
	for name, in := range yearsInside(t) {
		b := accountant.YearBook(in)
		postings, lines, checks := b.Sheet("Postings"), b.Sheet("Form lines"), b.Sheet("Checks")
		tried := 0
		for i := range lines.Len() {
			line := lines.At(i)
			number := column(lines, line, "Line").Text
			first := firstOn(postings, number)
			if number == "" || first < 0 {
				continue
			}
			tried++
			row := lines.FirstRow() + i
			before := column(lines, line, "Amount").Value
			was := postings.At(first)
			addCent(postings, first)
			now := worked(t, b, "Form lines", "Amount", row)
			moved, ok := new(big.Rat).SetString(now)
			require.True(t, ok)
			moved.Sub(moved, before.Rat())
			assert.Equal(t, "1/100", moved.Abs(moved).RatString(), "%s, line %s", name, number)
			at := checkRow(checks, "Line "+number+" as printed")
			require.Positive(t, at, number)
			assert.Equal(t, `"LOOK"`, worked(t, b, "Checks", "Word", at), "%s, line %s", name, number)
			recalc.Replace(postings, first, was)
		}
		assert.GreaterOrEqual(t, tried, 8, name)
		wrong, _ := recalc.Check(b)
		assert.Empty(t, wrong)
	}
}

// firstOn is the place of the first posting that counts on a line; -1 for none.
func firstOn(s *workbook.Sheet, line string) int {
	for i, r := range s.Rows() {
		if c := column(s, r, "Form line"); c != nil && c.Text == line {
			return i
		}
	}
	return -1
}

// addCent makes the amount of a row a cent more.
func addCent(s *workbook.Sheet, i int) {
	r := s.At(i)
	c := column(s, r, "Amount")
	c.Value = workbook.Exactly(new(big.Rat).Add(c.Value.Rat(), big.NewRat(1, 100)))
	recalc.Replace(s, i, r)
}

func checkRow(s *workbook.Sheet, name string) int {
	for i, r := range s.Rows() {
		if r.Cells[0].Text == name {
			return s.FirstRow() + i
		}
	}
	return 0
}

// Opening and closing stock move with the postings before the year and up to
// its end: a cent more in the first piece's cost is a cent more on the line.
func TestAChangedPostingMovesTheFormsStock(t *testing.T) {
	in := testkit.YearInput(t, filepath.Join("..", "..", "..", "sample"), 2026)
	for line, before := range map[string]bool{"35": true, "41": false} {
		b := accountant.YearBook(in)
		s, lines := b.Sheet("Postings"), b.Sheet("Form lines")
		row := 0
		for i, r := range lines.Rows() {
			if column(lines, r, "Line").Text == line {
				row = lines.FirstRow() + i
			}
		}
		was := worked(t, b, "Form lines", "Amount", row)
		for i, r := range s.Rows() {
			opening := column(s, r, "No.").Value.None()
			if opening == before && column(s, r, "To").Text == "pieces" && column(s, r, "From").Text == "paid" {
				addCent(s, i)
				break
			}
		}
		assert.NotEqual(t, was, worked(t, b, "Form lines", "Amount", row), "line %s", line)
	}
}

// Goal: the names of sheets that the checks and notes say are sheets of the
// book. Method: the words of the sheet Checks.
func TestChecksNameSheetsThereAre(t *testing.T) {
	b := accountant.YearBook(testkit.YearInput(t, filepath.Join("..", "..", "..", "sample"), 2025))
	for _, name := range []string{"Stock roll-forward", "Shelf", "Trips", "Profit to net", "Channels", "Equipment",
		"Reconciliations", "Form lines"} {
		require.NotNil(t, b.Sheet(name), name)
		found := false
		s := b.Sheet("Checks")
		for _, r := range s.Rows() {
			found = found || bytes.Contains([]byte(column(s, r, "What is compared").Text), []byte("the sheet "+name))
		}
		assert.True(t, found, name)
	}
	assert.Nil(t, b.Sheet("Stock"))
}

// Goal: no title is cut on paper, where a sheet ends with its last column.
// Method: a title's letters against the columns' widths, which count letters of
// the cells' size; a title's are half as wide again.
func TestTitlesFitTheirSheets(t *testing.T) {
	for _, b := range []*workbook.Book{accountant.YearBook(testkit.YearInput(t, filepath.Join("..", "..", "..", "sample"),
		2025)),
		accountant.MonthBook(tinyInput(t))} {
		for _, s := range b.Sheets {
			width := 0.0
			for _, c := range s.Columns {
				width += max(float64(c.Width), 9)
			}
			assert.LessOrEqual(t, float64(len([]rune(s.Title)))*1.5, width, "%s: %s", s.Name, s.Title)
		}
	}
}

// Goal: a spreadsheet program that knows nothing of us comes to every result of
// the year's workbook. Method: LibreOffice, on a copy without the results.
func TestLibreOfficeWorksTheYearBookOut(t *testing.T) {
	ledgerkit.Needs(t, "libreoffice")
	dir, out := t.TempDir(), t.TempDir()
	args := []string{"--headless", "-env:UserInstallation=file://" + t.TempDir(), "--convert-to", "xlsx", "--outdir", out}
	names := []string{}
	for name, in := range yearsInside(t) {
		if name == "sample 2026" {
			continue
		}
		var book bytes.Buffer
		require.NoError(t, xlsx.Write(&book, func(book *workbook.Book) { accountant.FillYear(book, in) }))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+"-ours.xlsx"), book.Bytes(), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".xlsx"), stripped(t, book.Bytes()), 0o644))
		names, args = append(names, name), append(args, filepath.Join(dir, name+".xlsx"))
	}
	said, err := exec.Command("libreoffice", args...).CombinedOutput()
	require.NoError(t, err, string(said))
	for _, name := range names {
		n := sameResults(t, name, openedFile(t, filepath.Join(dir, name+"-ours.xlsx")),
			openedFile(t, filepath.Join(out, name+".xlsx")))
		t.Logf("%s: %d results", name, n)
	}
}

// Goal: every formula of the year's workbook comes to the figure beside it,
// exactly, in the sample, the year with everything in it and generated books
// of several years under either treatment. Method: the formulas worked out
// again with fractions, from the sheets alone.
func TestYearBookWorksOut(t *testing.T) {
	check := func(t *testing.T, dir string, year int) {
		wrong, n := recalc.Check(accountant.YearBook(testkit.YearInput(t, dir, year)))
		assert.Greater(t, n, 100)
		if len(wrong) > 10 {
			wrong = append(wrong[:10], "and more")
		}
		assert.Empty(t, wrong, "%d in %s", year, dir)
	}
	check(t, filepath.Join("..", "..", "..", "sample"), 2025)
	check(t, filepath.Join("..", "..", "..", "sample"), 2026)
	for _, treatment := range []string{"with the piece", "when used"} {
		dir := ledgerkit.Folder(t, bookgen.WithTreatment(bookgen.Years(1), treatment))
		check(t, dir, 2022)
		check(t, dir, 2023)
	}
	check(t, ledgerkit.Folder(t, bookgen.Files(7)), 2026)
}
