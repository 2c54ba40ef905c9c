package year_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/html"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/screen"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/text"
	"piecebook/report/workbook"
	"piecebook/report/year"
	"piecebook/templates"
)

// Goal: another country is another file, to the last page. Method: the year with
// everything in it in another country's money (XTS, the code of ISO 4217 for tests), by
// its tables; every formula of
// year.xlsx comes to the figure beside it, the lines of that form alone are on
// the pages and the sheets, and no word of another country's law.
func TestPagesOfAnotherCountry(t *testing.T) {
	dir := everythingIn(t, "currency = \"XTS\"\n", "\n[mileage]\n\"2022-01-01\" = 0.5\n\"2022-07-01\" = 0.5\n", nil)
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

// everythingIn is a copy of the year with everything in it, with settings before
// and after its own, and words in its records exchanged.
func everythingIn(t *testing.T, before, after string, exchanged *strings.Replacer) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(filepath.Join("..", "..", "ledger", "testdata", "year"))))
	settings, err := os.ReadFile(filepath.Join(dir, "settings.toml"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.toml"), []byte(before+string(settings)+after), 0o644))
	files, err := filepath.Glob(filepath.Join(dir, "records", "*.csv"))
	require.NoError(t, err)
	for _, name := range files {
		if exchanged == nil {
			break
		}
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(name, []byte(exchanged.Replace(string(data))), 0o644))
	}
	return dir
}

// Goal: a metric shop in money that no tax tables are for sees no unit of the
// other system on a page, and no law of another country but the lines and
// write-offs that it is told of. Method: the year with everything in it, its
// containers and distances metric; all texts of its months, sheets, workbooks
// and screens, and of its year.
func TestPagesOfAMetricShop(t *testing.T) {
	dir := everythingIn(t, "currency = \"EUR\"\nunits = \"metric\"\n", "[home]\nshop_area = 24\nhome_area = 120\n",
		strings.NewReplacer("1 qt,60", "1 l,6", "1 qt,40", "1 l,4", "8 oz,200", "200 g,20", "on,miles,", "on,km,"))
	other := regexp.MustCompile(`(?i)\b(sq ft|square feet|square foot|feet|ft|inch(es)?|miles?|oz|ounces?|qt|quarts?|pints?|gal|gallons?|lb)\b`)
	look := func(of string, docs []page.Document, book *workbook.Book) {
		texts := recalc.Text(book)
		for _, d := range docs {
			var web strings.Builder
			require.NoError(t, html.Write(&web, d))
			texts += text.Render(d, text.Width) + regexp.MustCompile(`<[^>]*>`).ReplaceAllString(web.String(), " ")
		}
		assert.Contains(t, texts, "km", of)
		assert.Empty(t, other.FindAllString(texts, -1), of)
	}
	for _, m := range []calendar.Month{calendar.MonthOf(2022, 5), calendar.MonthOf(2022, 6), calendar.MonthOf(2022, 12)} {
		in := testkit.Input(t, dir, m)
		look(m.Name(), []page.Document{month.Doc(in), piece.PeriodSheets(in), screen.Month(in)}, accountant.MonthBook(in))
	}
	in := testkit.YearInput(t, dir, 2022)
	look("2022", []page.Document{year.Doc(in), screen.Year(in)}, accountant.YearBook(in))
	told := "There are no tax lines here for books in EUR."
	pages := strings.Join(strings.Fields(text.Render(year.Doc(in), text.Width)), " ")
	assert.Equal(t, 1, strings.Count(pages, told))
	assert.NotRegexp(t, `1099|Form 4797|Form 4562|Form 8829|Rev\. Proc`, pages)
}
