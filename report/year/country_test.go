package year_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/text"
	"piecebook/report/year"
	"piecebook/templates"
)

// Goal: another country is another file, to the last page. Method: the year with
// everything in it in another country's money (XTS, the code of ISO 4217 for tests), by
// its tables; every formula of
// year.xlsx comes to the figure beside it, the lines of that form alone are on
// the pages and the sheets, and no word of another country's law.
func TestPagesOfAnotherCountry(t *testing.T) {
	from := filepath.Join("..", "..", "ledger", "testdata", "year")
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(from)))
	settings, err := os.ReadFile(filepath.Join(dir, "settings.toml"))
	require.NoError(t, err)
	settings = append([]byte("currency = \"XTS\"\n"), settings...)
	settings = append(settings, "\n[mileage]\n\"2022-01-01\" = 0.5\n\"2022-07-01\" = 0.5\n"...)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.toml"), settings, 0o644))
	b := testkit.Opened(t, dir, calendar.MonthOf(2022, 12))
	xx, err := templates.ReadTax(ledgerkit.InventedCountry, "XX")
	require.NoError(t, err)
	in, err := report.YearOf(b, xx)
	require.NoError(t, err)

	pages := text.Render(year.Doc(in), text.Width)
	book := accountant.YearBook(in)
	wrong, n := recalc.Check(book)
	assert.Empty(t, wrong)
	assert.Greater(t, n, 100)
	sheets := recalc.Text(book)
	for name, got := range map[string]string{"year.pdf": pages, "year.xlsx": sheets} {
		for _, line := range in.Tax.Table.Lines {
			assert.Contains(t, got, line.Label, name)
		}
		assert.NotRegexp(t, `Schedule C|Form [0-9]|Form K-|IRS|IRC|Pub\. |Reg\. |Notice |\b(line|lines) [0-9]|Part I|USD|dollars of`, got, name)
	}
	assert.Contains(t, strings.Join(strings.Fields(pages), " "), "line Z")
}
