package formulas

import (
	"bytes"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bigbooks"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	"piecebook/report/workbook"
)

// Goal: every formula of the month's workbook comes to the figure beside it,
// exactly, in every month of the sample and in generated books. Method: the
// formulas worked out again with fractions, from the sheets alone; the figures
// beside them come from the ledger.
func TestMonthBookWorksOut(t *testing.T) {
	check := func(t *testing.T, dir string, month calendar.Month) {
		wrong, n := recalc.Check(accountant.MonthBook(testkit.Input(t, dir, month)))
		assert.Greater(t, n, 100)
		if len(wrong) > 10 {
			wrong = append(wrong[:10], "and more")
		}
		assert.Empty(t, wrong, "%s in %s", dir, month)
	}
	sample := filepath.Join("..", "..", "..", "sample")
	for m := calendar.MonthOf(2025, 1); m <= calendar.MonthOf(2026, 2); m++ {
		check(t, sample, m)
	}
	for seed := uint64(1); seed <= 12; seed++ {
		check(t, ledgerkit.Folder(t, bookgen.Files(seed)), 0)
	}
	check(t, bigShop(t), 0)
}

// A workbook of several months works out too, with one column for them.
func TestYearLongBookWorksOut(t *testing.T) {
	for _, dir := range []string{filepath.Join("..", "..", "..", "sample"), ledgerkit.Folder(t, bookgen.Files(2)),
		ledgerkit.Folder(t, bookgen.Files(6))} {
		in := testkit.Input(t, dir, 0)
		in.Month = figures.For(testkit.Opened(t, dir, 0).Ledger, in.Month.To-3, in.Month.To)
		b := accountant.MonthBook(in)
		wrong, _ := recalc.Check(b)
		assert.Empty(t, wrong)
		difference, word := checkCell(t, b)
		assert.Equal(t, "0 OK", difference+" "+word)
		assert.Equal(t, in.Month.From.Name()+" to "+in.Month.To.Name(), b.Sheet("Statement").Columns[1].Head)
	}
}

// checkCell is what the Cover's one check comes to when worked out again.
func checkCell(t *testing.T, b *workbook.Book) (difference, word string) {
	t.Helper()
	row := b.Sheet("Cover").FirstRow()
	difference, err := recalc.Worked(b, "Cover", "Figure", row)
	require.NoError(t, err)
	word, err = recalc.Worked(b, "Cover", "About it", row)
	require.NoError(t, err)
	return difference, strings.Trim(word, `"`)
}

// Every difference is 0.00 and every word OK, and the Cover says so.
func TestMonthBookChecksAreZero(t *testing.T) {
	for _, dir := range []string{filepath.Join("..", "..", "..", "sample"), ledgerkit.Folder(t, bookgen.Files(5)),
		ledgerkit.Folder(t, bookgen.Files(9))} {
		b := accountant.MonthBook(testkit.Input(t, dir, 0))
		difference, word := checkCell(t, b)
		assert.Equal(t, "0", difference)
		assert.Equal(t, "OK", word)
		s := b.Sheet("Checks")
		assert.Greater(t, s.Len(), 15)
		for _, r := range s.Rows() {
			assert.Equal(t, "OK", r.Cells[4].Text, r.Cells[0].Text)
			assert.Zero(t, r.Cells[3].Value.Sign(), r.Cells[0].Text)
		}
	}
}

// changeFirst changes a cell of the first row whose cell is not empty and not zero.
func changeFirst(t *testing.T, b *workbook.Book, sheet, head string, by func(*workbook.Cell)) {
	t.Helper()
	s := b.Sheet(sheet)
	require.NotNil(t, s, sheet)
	for j, c := range s.Columns {
		if c.Head != head {
			continue
		}
		for i, r := range s.Rows() {
			if j < len(r.Cells) && (r.Cells[j].Text != "" || r.Cells[j].Value.Sign() != 0) {
				by(&r.Cells[j])
				recalc.Replace(s, i, r)
				return
			}
		}
	}
	t.Fatalf("no column %q with a value in %s", head, sheet)
}

// Goal: the one check cell tells when anything under it is changed by a cent.
// Method: one cell after the other is changed as a person could, and the
// formulas are worked out again.
func TestOneCentFlipsTheCheck(t *testing.T) {
	in, tiny := testkit.Input(t, filepath.Join("..", "..", "..", "sample"), 0), tinyInput(t)
	// Openings stand in the books' first year
	first := testkit.Input(t, filepath.Join("..", "..", "..", "sample"), calendar.MonthOf(2025, 12))
	cent := big.NewRat(1, 100)
	for _, x := range []struct{ sheet, head string }{
		{"Postings", "Amount"}, {"Shares", "Share"}, {"Shares", "Posted besides"}, {"Shared totals", "Total shared"}, {"Trips", "Drive"}, {"Trips", "Tolls"},
		{"Purchases records", "Cost"}, {"Purchases records", "Tax paid"}, {"Openings records", "Cost"}, {"Sales records", "Price"}, {"Sales records", "Sales tax"}, {"Tax paid records", "Amount"},
		{"Pieces", "An hour before shop costs"}, {"Pieces", "An hour after shop costs"},
	} {
		b := accountant.MonthBook(in)
		switch {
		case x.head == "Posted besides" || x.head == "Tolls":
			b = accountant.MonthBook(tiny)
		case x.sheet == "Openings records":
			b = accountant.MonthBook(first)
		}
		changeFirst(t, b, x.sheet, x.head, func(c *workbook.Cell) {
			if !c.Value.None() {
				c.Value = workbook.Exactly(new(big.Rat).Add(c.Value.Rat(), cent))
			}
		})
		difference, word := checkCell(t, b)
		assert.NotEqual(t, "0", difference, "%s, %s", x.sheet, x.head)
		assert.Equal(t, "LOOK", word, "%s, %s", x.sheet, x.head)
	}
	b := accountant.MonthBook(in)
	changeFirst(t, b, "Shares", "Weight", func(c *workbook.Cell) { c.Value = workbook.Exactly(big.NewRat(1, 7)) })
	difference, word := checkCell(t, b)
	assert.NotEqual(t, "0", difference)
	assert.Equal(t, "LOOK", word)
}

// A share that the program itself got wrong shows in what stands beside the
// formulas, not only when they are worked out again.
func TestWrongShareShowsWithoutRecalculation(t *testing.T) {
	in := testkit.Input(t, filepath.Join("..", "..", "..", "sample"), 0)
	for _, p := range in.Postings {
		if p.Month < in.Year.From || p.Of == nil || p.Line < 0 || len(p.Of.Lines) < 2 {
			continue
		}
		first := p.Of.Lines[0]
		if new(big.Rat).Quo(new(big.Rat).Mul(first.Weight, big.NewRat(int64(p.Of.Total), 1)), p.Of.Weight()).IsInt() &&
			p.Line == 0 {
			p.Of.Lines[0].Cents++
			break
		}
	}
	b := accountant.MonthBook(in)
	cover := b.Sheet("Cover").At(0)
	assert.Equal(t, "LOOK", cover.Cells[2].Text)
	// Its own posting and the total are a cent off each; and what was exact by
	// its formula is a whole cent from it, which counts 1.
	assert.Equal(t, "51/50", cover.Cells[1].Value.Rat().RatString())
	wrong, _ := recalc.Check(b)
	assert.Empty(t, wrong)
}

// Same records, same bytes, from another folder too.
func TestMonthBookSameBytes(t *testing.T) {
	first := monthBook(t, testkit.Input(t, ledgerkit.Folder(t, bookgen.Files(4)), 0))
	require.True(t, bytes.Equal(first, monthBook(t, testkit.Input(t, ledgerkit.Folder(t, bookgen.Files(4)), 0))))
}

// tinyShop is a shop of two months: the worked example of COSTING.md (primer on
// A and B in March, on C in April, and counted then), a lot of two, a sale of
// a set with a fee, a trip for two pieces, and names that a spreadsheet could
// take for a formula, a pattern or a number.
var tinyShop = map[string]string{
	"settings.toml":         "shop = \"Tiny & Co\"\n",
	"records/pieces.csv":    "piece,kind,description,how,got_on,price,tax_paid,lot,worth,area,asking,set\n=A1,dresser,painted,bought,2026-03-01,40.00,2.40,,,31.50,120,\nB*,desk,,,,,1.10,L1,60,20,80,pair\n007,stool,+2 legs,,,,,L1,40,40,,pair\n7,mirror,,free,2026-03-05,,,,,4,,\n",
	"records/lots.csv":      "lot,got_on,from,price,pickup\nL1,2026-03-02,auction,75.00,10.01\n",
	"records/supplies.csv":  "supply,group,container,coverage\n\"Primer, oil\",primer,1 qt,100\n>5 grit,abrasive,10 sheets,\n",
	"records/purchases.csv": "bought_on,supply,containers,cost,tax_paid\n2026-03-03,\"Primer, oil\",1,18.99,1.20\n2026-03-03,>5 grit,1,6.00,0.36\n",
	"records/uses.csv":      "used_on,pieces,supply,coats\n2026-03-04,=A1,\"Primer, oil\",1\n2026-03-06,B*,\"Primer, oil\",2\n2026-04-02,007,\"Primer, oil\",1\n2026-03-04,=A1; B*,>5 grit,1\n",
	"records/counts.csv":    "counted_on,supply,left\n2026-04-30,\"Primer, oil\",0\n",
	"records/hours.csv":     "worked_on,pieces,hours,task\n2026-03-04,=A1,2.5,sand\n2026-04-03,B*; 007,3,paint\n",
	"records/sales.csv":     "sold_on,pieces,channel,price,sales_tax,fee\n2026-04-20,pair,booth,150.00,9.00,15.01\n",
	"records/trips.csv":     "on,miles,purpose,pieces,tolls\n2026-04-20,11,deliver,B*; 007,1.50\n",
	"records/expenses.csv":  "paid_on,what,group,amount\n2026-04-01,=rent,booth rent,50.00\n",
	"records/tax paid.csv":  "paid_on,period,amount,kept\n2026-04-30,April,8.91,0.09\n",
}

func tinyInput(t *testing.T) report.Input {
	t.Helper()
	dir := ledgerkit.Folder(t, tinyShop)
	return testkit.Input(t, dir, calendar.MonthOf(2026, 4))
}

// Goal: every word, formula and figure of the workbook is looked at by a
// person. Method: the whole of a tiny shop's, as text.
func TestMonthBookGolden(t *testing.T) {
	b := accountant.MonthBook(tinyInput(t))
	wrong, _ := recalc.Check(b)
	require.Empty(t, wrong)
	testkit.Golden(t, "month-workbook.txt", recalc.Text(b))
}

// Goal: the month's workbook is as large as a year's work, however many years
// lie before it, and still comes to its figures by its formulas.
func TestMonthBookDoesNotGrowWithTheYears(t *testing.T) {
	rows := map[int]int{}
	for _, years := range []int{1, 4} {
		dir := ledgerkit.Folder(t, bigbooks.Make(1, bigbooks.Size{Pieces: 48, Years: years}).Folder())
		book := accountant.MonthBook(testkit.Input(t, dir, bigbooks.LastMonth))
		wrong, _ := recalc.Check(book)
		require.Empty(t, wrong)
		for _, sheet := range book.Sheets {
			rows[years] += sheet.Len()
		}
	}
	assert.Less(t, rows[4], rows[1]*3/2)
}

// BenchmarkMonthBook writes the workbooks of the sample and of a big shop.
func BenchmarkMonthBook(b *testing.B) {
	for name, dir := range map[string]string{"sample": filepath.Join("..", "..", "..", "sample"), "big": bigShop(b)} {
		in := testkit.Input(b, dir, 0)
		b.Run(name, func(b *testing.B) {
			size := 0
			for b.Loop() {
				size = len(monthBook(b, in))
			}
			b.ReportMetric(float64(size)/1024, "KiB")
			b.ReportMetric(float64(len(in.Postings)), "postings")
		})
	}
}

// bigShop is three years of a shop that takes in twelve pieces a month and puts
// ten supplies on each, some of them shared over all that is on the bench.
func bigShop(t testing.TB) string {
	t.Helper()
	const months, each, supplies = 36, 12, 20
	var pieces, shelf, purchases, uses, hours, sales strings.Builder
	pieces.WriteString("piece,kind,got_on,price,area\n")
	shelf.WriteString("supply,group,container,share_by,coverage\n")
	purchases.WriteString("bought_on,supply,containers,cost\n")
	uses.WriteString("used_on,pieces,supply\n")
	hours.WriteString("worked_on,pieces,hours\n")
	sales.WriteString("sold_on,pieces,channel,price\n")
	for s := range supplies {
		fmt.Fprintf(&shelf, "S%02d,paint,1 qt,%s,%d\n", s, []string{"area", "area", "area", "bench"}[s%4], 80+s)
	}
	first := calendar.MonthOf(2023, 1)
	for m := first; m < first+months; m++ {
		for s := range supplies {
			fmt.Fprintf(&purchases, "%s-02,S%02d,6,%d.37\n", m, s, 90+s)
		}
		for i := range each {
			id := fmt.Sprintf("P%04d", int(m-first)*each+i)
			fmt.Fprintf(&pieces, "%s,dresser,%s-03,%d.10,%d.25\n", id, m, 20+i, 12+i)
			for u := range 10 {
				fmt.Fprintf(&uses, "%s-%02d,%s,S%02d\n", m, 5+u, id, (i*3+u)%supplies)
			}
			fmt.Fprintf(&hours, "%s-08,%s,%d.5\n", m, id, 2+i%4)
			if i%6 != 0 {
				fmt.Fprintf(&sales, "%s-25,%s,booth,%d.00\n", m+1, id, 90+i)
			}
		}
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"pieces": pieces.String(), "supplies": shelf.String(),
		"purchases": purchases.String(), "uses": uses.String(), "hours": hours.String(), "sales": sales.String()} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".csv"), []byte(text), 0o644))
	}
	return dir
}
