package month

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/missing"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/testkit"
	"piecebook/report/text"
)

// sample is the sample shop's months, made once.
func sample(t *testing.T) []report.Input {
	once.Do(func() { months = testkit.SampleInputs(t) })
	return months
}

var (
	once   sync.Once
	months []report.Input
)

// TestChangesAddUp: in every month what changed adds up to the difference of
// the two net profits, and the names of each line to the line.
func TestChangesAddUp(t *testing.T) {
	amount := regexp.MustCompile(`\(?[0-9,]+\.[0-9]{2}\)?(?:; |$)`)
	for _, in := range sample(t)[1:] {
		var sum money.Cents
		for _, c := range changes(&in, in.Before.To, in.Month.To) {
			sum += c.total
			var named money.Cents
			for _, m := range amount.FindAllString(through(&in, c), -1) {
				named += money.Cents(readAmount(t, strings.TrimSuffix(m, "; ")))
			}
			assert.Equal(t, c.total, named, "%s, %s: %s", in.Month.To, c.line, through(&in, c))
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

// TestFiveLinesOfChange: what changed is shown in five lines at most, which add
// up to the difference.
func TestFiveLinesOfChange(t *testing.T) {
	for _, in := range sample(t)[1:] {
		table := changed(&in)[0].(page.Table)
		last := len(table.Rows) - 1
		assert.LessOrEqual(t, last, 5, in.Month.To)
		var sum int64
		for _, r := range table.Rows[:last] {
			sum += r.Cells[1].Cents
		}
		assert.Equal(t, sum, table.Rows[last].Cells[1].Cents, in.Month.To)
		assert.Equal(t, int64(in.Month.Statement.NetProfit-in.Before.Statement.NetProfit), sum, in.Month.To)
	}
}

// TestPayoutsTie: the sample's payouts are what the sales, fees and rent leave.
func TestPayoutsTie(t *testing.T) {
	payouts := 0
	for _, in := range sample(t) {
		paid, open := payoutsOf(&in)
		for _, p := range paid {
			payouts++
			assert.Equal(t, p.amount, p.due(), "%s: %s, %s", in.Month.To, p.channel, p.on)
		}
		for _, p := range open {
			assert.False(t, p.from.IsZero(), in.Month.To)
		}
		for _, x := range payoutTasks(&in) {
			assert.NotContains(t, x.words, "differs", in.Month.To)
		}
	}
	assert.Equal(t, 11, payouts)
}

// TestLargeFiguresFollow: every large figure that has a sign before it is what
// the signs make of the figures at its left, as printed: in the sample's months,
// in a shop with one sale, in an empty month and in one with 47 sales.
func TestLargeFiguresFollow(t *testing.T) {
	results := 0
	for _, in := range slices.Concat(sample(t), testkit.OneSale(t), testkit.ManySales(t)) {
		testkit.EveryBlock(Doc(in), func(_ string, b page.Block) {
			figures, ok := b.(page.KeyFigures)
			if !ok {
				return
			}
			value := new(big.Rat)
			for i, k := range figures.Items {
				x := printed(t, k.Figure)
				switch k.By {
				case "":
					value.Set(x)
				case page.Minus:
					value.Sub(value, x)
				case page.DividedBy:
					value.Quo(value, x)
				case page.Equals:
					assert.Equal(t, k.Figure.Cents, int64(money.Round(value)), "%s, %d", in.Month.To, i)
					results++
				default:
					t.Errorf("what does %s do?", k.By)
				}
			}
		})
	}
	assert.Equal(t, 2*16+1, results, "the empty month has no hour")
}

// TestReceiptsHold: what the large figure of receipts holds adds up to it; no
// month of the sample is closed, so no term is a correction.
func TestReceiptsHold(t *testing.T) {
	for _, in := range sample(t) {
		var sum money.Cents
		for _, term := range receiptTerms(&in) {
			sum += term.Cents
			assert.False(t, term.Label == corrections && term.Cents != 0, in.Month.To)
		}
		assert.Equal(t, summaryOf(&in, in.Month).receipts.Cents, sum, in.Month.To)
	}
}

// TestCostsHold: so does what the costs hold, and what corrections to closed
// months add to a line of costs is a term of its own.
func TestCostsHold(t *testing.T) {
	costs := func(in *report.Input) (sum, ofPieces, corrected money.Cents) {
		terms := costTerms(in)
		for _, term := range terms {
			sum += term.Cents
			if term.Label == corrections {
				corrected = term.Cents
			}
		}
		return sum, terms[0].Cents, corrected
	}
	for _, in := range sample(t) {
		sum, whole, corrected := costs(&in)
		assert.Equal(t, summaryOf(&in, in.Month).costs.Cents, sum, in.Month.To)
		assert.Zero(t, corrected, in.Month.To)
		in.Corrections = []*closing.Corrections{{Postings: []ledger.Posting{{Cents: 500, From: ledger.Pieces,
			To: ledger.CostOfSales}, {Cents: 60, From: ledger.Paid, To: ledger.Expenses, Reason: ledger.ReasonExpense}}}}
		sum, ofPieces, corrected := costs(&in)
		assert.Equal(t, summaryOf(&in, in.Month).costs.Cents, sum, in.Month.To)
		assert.Equal(t, money.Cents(560), corrected, in.Month.To)
		assert.Equal(t, whole-500, ofPieces, in.Month.To)
	}
}

// TestOneDateStyle: no page has a day in figures; the settings say in what order
// its words stand.
func TestOneDateStyle(t *testing.T) {
	dayFirst, _ := testkit.MonthsWith(t, func(b *ledger.Books) { b.Settings.DayFirst = true })
	for i, in := range sample(t) {
		for _, words := range []string{text.Render(Doc(in), text.Width), text.Render(Doc(dayFirst[i]), text.Width)} {
			assert.NotRegexp(t, `\b20\d\d-\d\d\b`, words, in.Month.To)
		}
		assert.NotRegexp(t, `\b\d+ [A-Z][a-z][a-z] 20\d\d`, text.Render(Doc(in), text.Width), in.Month.To)
		assert.NotRegexp(t, `[A-Z][a-z][a-z] \d+, 20\d\d`, text.Render(Doc(dayFirst[i]), text.Width), in.Month.To)
	}
}

// printed is a figure as a reader takes it off the page, in cents or as a number.
func printed(t *testing.T, c page.Cell) *big.Rat {
	t.Helper()
	if c.Kind == page.KindMoney {
		return big.NewRat(c.Cents, 1)
	}
	x, ok := new(big.Rat).SetString(c.Text)
	require.True(t, ok, c.Text)
	return x
}

// TestHoursThatDivide: hours are printed so that a calculator comes to the
// rate beside them: a third of an hour needs four decimals here.
func TestHoursThatDivide(t *testing.T) {
	assert.Equal(t, "3", hoursThatDivide(summary{after: figure{Cents: 300}, hours: big.NewRat(3, 1),
		anHour: figure{Cents: 100}}))
	assert.Equal(t, "0.3333", hoursThatDivide(summary{after: figure{Cents: 1000000}, hours: big.NewRat(1, 3),
		anHour: figure{Cents: 3000000}}))
}

// TestCause: the sentence names the line that moved net profit most the way it
// went, as it moved itself.
func TestCause(t *testing.T) {
	in := sample(t)[13]
	now, before := in.Month.Statement, in.Before.Statement
	rose := now.GrossProfit - before.GrossProfit
	assert.Equal(t, fmt.Sprintf("In February 2026 the shop sold 7 pieces and made a net profit of %s, %s more than in "+
		"January: receipts less the cost of the pieces sold rose by %s; the other lines together took back %s. An hour on "+
		"the pieces sold came to $12.61 after shop costs, $9.39 short of the $22.00 wanted. So far this year the net "+
		"profit is %s.", in.Spoken(now.NetProfit), in.Spoken(now.NetProfit-before.NetProfit), in.Spoken(rose),
		in.Spoken(rose-(now.NetProfit-before.NetProfit)), in.Spoken(now.NetProfit+before.NetProfit)),
		sentence(&in, summaryOf(&in, in.Month)).String())
	for _, in := range sample(t)[1:] {
		assert.Regexp(t, " because |; the other lines together took back ", sentence(&in, summaryOf(&in, in.Month)).String(),
			in.Month.To)
	}
}

// TestSpreadTies: the groups' rows and columns add up to the shelf's use.
func TestSpreadTies(t *testing.T) {
	in := testkit.SmallShop(t)
	m := spreadMatrix(&in)
	var rows, columns money.Cents
	for _, p := range m.pieces {
		rows += m.cents[[2]string{p, ""}]
	}
	for _, s := range m.supplies {
		columns += m.cents[[2]string{"", s}]
	}
	assert.Equal(t, money.Cents(1744), rows)
	assert.Equal(t, rows, columns)
}

// TestNotesToActOn: Do next has the notes that ask for something, each with what
// to type and what the cell holds; a column of the owner's own, which may stay
// as it is, is none.
func TestNotesToActOn(t *testing.T) {
	at := fault.Place{File: "records/pieces.csv", Row: 1}
	unknown := func(column, fix string) fault.Problem {
		return fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at.At(column), Found: column,
			Why: "Pieces has no column of that name, so it is not read.", Fix: fix}
	}
	own := unknown("Style", "A column of your own may stay.")
	own.AsksNothing = true
	in := report.Input{Books: &ledger.Books{}, Notes: []fault.Problem{own, unknown("piecs", "Rename it piece."),
		unknown("colr", "Rename it color.")}}
	items := tasksOf(&in)
	require.Len(t, items, 2)
	assert.Equal(t, `Rename it piece. ("piecs", pieces.csv:1, piecs)`, items[0].words)
	assert.Equal(t, "Note 1", items[0].look.name, "by its number among the notes that are printed")
}

// TestNotesOfTheSameFixAreOneTask: notes that ask for the same stand once in Do
// next, with their sum and the number of the first; one that asks for nothing has
// no number.
func TestNotesOfTheSameFixAreOneTask(t *testing.T) {
	in := sample(t)[0]
	at := func(row int) fault.Place { return fault.Place{File: "pieces.csv", Row: row} }
	area := func(row int, cents int64) fault.Problem {
		return fault.Problem{Code: fault.CodeTypicalArea, Note: true, Place: at(row), Why: "Usual.", Fix: "Type the area.",
			MoneyCents: cents}
	}
	in.Notes = []fault.Problem{{Code: "x", Note: true, Place: at(9), Why: "Why.", AsksNothing: true},
		{Code: "y", Note: true, Place: at(8), Why: "Why.", Fix: "Look.", MoneyCents: 2000}, area(2, 1000), area(3, 400),
		area(4, 0)}
	tasks := noteTasks(&in)
	require.Len(t, tasks, 2)
	assert.Equal(t, "Type the area. (pieces.csv:2, 2 more lines)", tasks[1].words)
	assert.EqualValues(t, 1400, tasks[1].cents)
	assert.Equal(t, "Note 2 and 2 more", tasks[1].look.name)
}

// TestDoNextInOrder: obligations by their day, then what to count, to buy, to
// reprice or finish, each by money, and notes last.
func TestDoNextInOrder(t *testing.T) {
	in := sample(t)[13]
	in.Count = []missing.Count{{Supply: &ledger.Supply{Name: "Shellac, dewaxed"}, AtStake: 900},
		{Supply: &ledger.Supply{Name: "Paste wax"}, AtStake: 300}}
	in.Notes = []fault.Problem{{Why: "It is so.", Fix: "Type it.", MoneyCents: 1 << 30}}
	var got []string
	for _, x := range tasksOf(&in) {
		got = append(got, x.words)
	}
	assert.Equal(t, []string{
		"Pay over the sales tax collected since Jan 17, 2026",
		"Finish and hand over 162, a client's armchair: 35 days here",
		"Look for the payout of Antique mall booth for sales since Feb 19, 2026",
		"Count these: Shellac, dewaxed; Paste wax",
	}, got[:4])
	assert.Regexp(t, "^Buy ", got[4])
	assert.Equal(t, []string{"Reprice 120, side table: 308 days here, listed at $115.00", "Finish 149, side chair: 140 " +
		"days here, at the bench", "Type it."}, got[5:])
	table := doNext(&in)[0].(page.Table)
	assert.LessOrEqual(t, len(table.Rows), mostTasks)
}

// TestToBuy: a supply of which less is left than a month of the quarter took on
// average, by the shelf before it, what was bought and what is left.
func TestToBuy(t *testing.T) {
	in := sample(t)[13]
	taken := takenSince(&in, in.Month.To-2)
	left := map[string]*big.Rat{}
	for _, l := range in.Month.Shelf {
		left[l.Supply.Name] = money.OrZero(l.Left)
	}
	list := map[string]bool{}
	for _, b := range toBuy(&in) {
		list[b.supply] = true
		assert.Positive(t, int64(b.price), b.supply)
	}
	for name, x := range taken {
		assert.Equal(t, list[name], new(big.Rat).Mul(left[name], big.NewRat(3, 1)).Cmp(x) < 0, name)
	}
	assert.NotEmpty(t, list)
	assert.Less(t, len(list), len(taken))
}

// TestPagesAgree: what several pages of a month say is the same on each: the
// supplies by piece, used on the shelf and put into pieces; the money tied up by
// age and in the table; page 1's net profit, the statement's, the bridge's and
// the last bar's.
func TestPagesAgree(t *testing.T) {
	for _, in := range sample(t) {
		d, m := Doc(in), in.Month.To.String()
		totals := map[string][]int64{}
		testkit.EveryBlock(d, func(section string, b page.Block) {
			if bars, ok := b.(page.VerticalBars); ok {
				totals["net"] = append(totals["net"], bars.Items[len(bars.Items)-1].Figure.Cents)
			}
			table, ok := b.(page.Table)
			if !ok || len(table.Rows) == 0 {
				return
			}
			last := table.Rows[len(table.Rows)-1].Cells
			switch {
			case section == "Supplies by piece":
				totals["spread"] = append(totals["spread"], last[len(last)-1].Cents)
			case section == "The shelf":
				totals["used"] = append(totals["used"], last[3].Cents)
			case strings.HasPrefix(table.Caption, "Money tied up"), table.Caption == "Pieces in stock":
				for c, col := range table.Columns {
					if col.Kind == page.KindMoney && col.Head != "Payments held" {
						totals["stock "+col.Head] = append(totals["stock "+col.Head], last[c].Cents)
					}
				}
			case strings.HasPrefix(table.Caption, "From the pieces"):
				totals["net"] = append(totals["net"], last[1].Cents)
			}
		})
		for _, c := range append(totals["spread"], totals["used"]...) {
			assert.Equal(t, int64(in.Month.Stock.Supplies), c, m)
		}
		for _, c := range totals["net"] {
			assert.Equal(t, int64(in.Month.Statement.NetProfit), c, m)
		}
		for name, c := range totals {
			if strings.HasPrefix(name, "stock ") {
				require.Len(t, c, 2, "%s, %s", m, name)
				assert.Equal(t, c[0], c[1], "%s, %s", m, name)
			}
		}
	}
}
