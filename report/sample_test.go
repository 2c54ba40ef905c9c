package report

import (
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// sampleInputs is every month of the sample shop, as its reports are made.
func sampleInputs(t *testing.T) []Input {
	ins, _ := sampleBooks(t)
	return ins
}

// sampleBooks is sampleInputs with the ledger they are from.
func sampleBooks(t *testing.T) ([]Input, *costing.Ledger) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	cautions, err := templates.Cautions()
	require.NoError(t, err)
	folder := os.DirFS(filepath.Join("..", "sample"))
	read := intake.Read(folder, set)
	b := &read.Books
	l := costing.Run(b, checks.LastMonth(b))
	var out []Input
	var last []figures.Figures
	for _, r := range l.Months {
		f := figures.For(l, r.Month, r.Month)
		in := Input{Books: b, Postings: l.Postings(), Month: f, Year: figures.For(l, max(l.Months[0].Month, calendar.MonthOf(r.Month.Year(), 1)), r.Month),
			All: figures.All(l), HoursByPiece: costing.HoursByPiece(b), Cautions: cautions, Photos: folder}
		if len(last) > 0 {
			in.Before = &last[len(last)-1]
		}
		last = append(last, f)
		in.Last = last[max(0, len(last)-12):]
		out = append(out, in)
	}
	require.Len(t, out, 14)
	return out, l
}

// everyBlock visits all blocks of a document, what stands instead of charts too.
func everyBlock(d page.Document, visit func(section string, b page.Block)) {
	var walk func(string, []page.Block)
	walk = func(s string, blocks []page.Block) {
		for _, b := range blocks {
			visit(s, b)
			switch b := b.(type) {
			case page.Columns:
				walk(s, b.Left)
				walk(s, b.Right)
			case page.Together:
				walk(s, b.Blocks)
			default:
				walk(s, b.Instead())
			}
		}
	}
	for _, s := range d.Sections {
		walk(s.Title, s.Blocks)
	}
}

// TestChangesAddUp: in every month what changed adds up to the difference of
// the two net profits, and the names of each line to the line.
func TestChangesAddUp(t *testing.T) {
	amount := regexp.MustCompile(`\(?[0-9,]+\.[0-9]{2}\)?(?:; |$)`)
	for _, in := range sampleInputs(t)[1:] {
		var sum money.Cents
		for _, c := range in.changes(in.Before.To, in.Month.To) {
			sum += c.total
			var named money.Cents
			for _, m := range amount.FindAllString(in.through(c), -1) {
				named += money.Cents(readAmount(t, strings.TrimSuffix(m, "; ")))
			}
			assert.Equal(t, c.total, named, "%s, %s: %s", in.Month.To, c.line, in.through(c))
		}
		assert.Equal(t, in.Month.Statement.NetProfit-in.Before.Statement.NetProfit, sum, in.Month.To)
	}
}

// readAmount reads an amount as printed: 1,234.56 or (1,234.56).
func readAmount(t *testing.T, s string) int64 {
	t.Helper()
	digits := strings.NewReplacer("(", "", ")", "", ",", "", ".", "").Replace(s)
	n, err := strconv.ParseInt(digits, 10, 64)
	require.NoError(t, err, s)
	if strings.HasPrefix(s, "(") {
		return -n
	}
	return n
}

// TestSharesOnACalculator: every share of the sample has its parts, and
// what its row prints gives its cost: part of all is the percentage, and the
// percentage of the cost, with the cent told, is the share.
func TestSharesOnACalculator(t *testing.T) {
	ins := sampleInputs(t)
	in := ins[len(ins)-1]
	shares := 0
	ratio := regexp.MustCompile("^([0-9./]+)\u00a0of\u00a0([0-9./]+)")
	for _, x := range in.Postings {
		if x.Reason != ledger.ReasonSupply {
			continue
		}
		shares++
		p, ok := words.SupplyShare(x)
		if !assert.True(t, ok, words.How(x)) {
			continue
		}
		percent, of := rat(t, p.Percent), rat(t, strings.ReplaceAll(p.Of, ",", ""))
		if m := ratio.FindStringSubmatch(p.Part); assert.NotNil(t, m, p.Part) && !strings.Contains(p.Rest, "sharing") {
			exact := new(big.Rat).Mul(new(big.Rat).Quo(rat(t, m[1]), rat(t, m[2])), hundred)
			slack := big.NewRat(6, 1000)
			assert.True(t, near(exact, percent, slack), "%s %% is not %s", p.Percent, p.Part)
		}
		want := new(big.Rat).Mul(percent, of) // in cents
		if cent := regexp.MustCompile(`[+−]0\.01`).FindString(p.Rest); cent != "" {
			want.Add(want, new(big.Rat).Mul(rat(t, strings.Replace(cent, "−", "-", 1)), hundred))
		}
		// Half a cent, and what the percentage's own rounding makes of the cost.
		slack := new(big.Rat).Add(big.NewRat(51, 100), new(big.Rat).Mul(of, big.NewRat(1, 200)))
		assert.True(t, near(want, x.Cents.Rat(), slack), "%s is not %s", x.Cents, words.How(x))
	}
	assert.Greater(t, shares, 500)
}

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return r
}

func near(a, b, by *big.Rat) bool {
	d := new(big.Rat).Sub(a, b)
	return d.Abs(d).Cmp(by) <= 0
}

// TestPayoutsTie: the sample's payouts are what the sales, fees and rent leave.
func TestPayoutsTie(t *testing.T) {
	tables := 0
	for _, in := range sampleInputs(t) {
		for _, b := range in.bank() {
			if table, ok := b.(page.Table); ok && table.NoHead {
				tables++
				assert.Zero(t, table.Rows[len(table.Rows)-1].Cells[1].Cents, "%s: %s", in.Month.To, table.Caption)
			}
		}
		assert.Empty(t, in.bankNotArrived())
	}
	assert.Equal(t, 11, tables)
}

// TestTotalsAddUp: in every table of every report, each total is what stands
// above it, as printed.
func TestTotalsAddUp(t *testing.T) {
	checked := 0
	ins := sampleInputs(t)
	for i, in := range ins {
		docs := []page.Document{MonthDoc(in), PiecesDoc(in)}
		if i == len(ins)-1 {
			var all []string
			for _, p := range in.All {
				all = append(all, p.Record.ID)
			}
			docs = append(docs, SheetDoc(in, all))
		}
		for _, d := range docs {
			everyBlock(d, func(section string, b page.Block) {
				if table, ok := b.(page.Table); ok && !apart(section, table) {
					checked += totalsAdd(t, fmt.Sprintf("%s %s, %s, %s", d.Title, in.Month.To, section, table.Caption), table)
				}
			})
		}
	}
	assert.Greater(t, checked, 700)
}

// apart are the tables whose totals are no plain sums: statements that take
// away, and the two ways to one total. TestStatementAddsUp and the tie-outs
// hold them.
func apart(section string, t page.Table) bool {
	return section == "Statement" || section == "Reconciliations" || t.Caption == "Money, and where it went" || section == "Bank" && t.NoHead
}

// totalsAdd checks a table's totals and says how many it checked. A rate's
// total is no sum.
func totalsAdd(t *testing.T, where string, table page.Table) int {
	t.Helper()
	checked := 0
	for c, col := range table.Columns {
		if col.Kind != page.KindMoney || col.Head == "Per hour" || col.Head == "Asking" {
			continue
		}
		var part, whole int64
		for _, r := range table.Rows {
			if r.Style == page.Group {
				part = 0
			}
			if c >= len(r.Cells) || r.Cells[c].Kind != page.KindMoney {
				continue
			}
			got := r.Cells[c].Cents
			switch r.Style {
			case page.Normal:
				part, whole = part+got, whole+got
			case page.Subtotal:
				assert.Equal(t, part, got, "%s: %s, %s", where, r.Cells[0].Text, col.Head)
				part = 0
				checked++
			case page.Total, page.GrandTotal:
				assert.Equal(t, whole, got, "%s: %s, %s", where, r.Cells[0].Text, col.Head)
				checked++
			}
		}
	}
	return checked
}

// TestRecordsAreThere: every record that a sheet names is a row that a posting
// of the piece rests on.
func TestRecordsAreThere(t *testing.T) {
	ins := sampleInputs(t)
	in := ins[len(ins)-1]
	named := 0
	for _, p := range in.All {
		rows := map[string]bool{}
		for _, x := range in.of(p.Record.ID) {
			for _, at := range x.Source {
				rows[at.Short()] = true
			}
		}
		everyBlock(SheetDoc(in, []string{p.Record.ID}), func(_ string, b page.Block) {
			table, ok := b.(page.Table)
			if !ok {
				return
			}
			for c, col := range table.Columns {
				if col.Head != "Record" && col.Head != "From the records" {
					continue
				}
				for _, r := range table.Rows {
					if c < len(r.Cells) {
						for _, row := range rowsNamed(r.Cells[c].Text) {
							named++
							assert.True(t, rows[row], "%s: %s of %q", p.Record.ID, row, r.Cells[c].Text)
						}
					}
				}
			}
		})
	}
	assert.Greater(t, named, 1000)
}

// rowsNamed undoes sources: 'uses.csv:3, 7-9; sales.csv:2' are five rows.
func rowsNamed(s string) []string {
	s = regexp.MustCompile(` and \d+ rows? more$`).ReplaceAllString(s, "")
	var out []string
	for part := range strings.SplitSeq(s, "; ") {
		file, list, ok := strings.Cut(part, ":")
		if !ok {
			continue // words: told elsewhere
		}
		for run := range strings.SplitSeq(list, ", ") {
			from, to, many := strings.Cut(run, "-")
			first, _ := strconv.Atoi(from)
			last := first
			if many {
				last, _ = strconv.Atoi(to)
			}
			for row := first; row <= last; row++ {
				out = append(out, fmt.Sprintf("%s:%d", file, row))
			}
		}
	}
	return out
}

// TestRowsNamed: the reader of sources, on which the walk rests.
func TestRowsNamed(t *testing.T) {
	places := []fault.Place{{File: "records/uses.csv", Row: 3}, {File: "records/uses.csv", Row: 7}, {File: "records/uses.csv", Row: 8}, {File: "records/Shop book.xlsx", Sheet: "Hours", Row: 2}}
	assert.ElementsMatch(t, []string{"Shop book.xlsx Hours:2", "uses.csv:3", "uses.csv:7", "uses.csv:8"}, rowsNamed(sources(places)))
	assert.Empty(t, rowsNamed("told one by one below"))
}
