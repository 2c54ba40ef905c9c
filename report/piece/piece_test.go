package piece

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
	"piecebook/report/testkit"
	"piecebook/report/words"
)

// TestLinesMeetTheFigures: what the sheet's records add up to, line by line,
// is what its money column says.
func TestLinesMeetTheFigures(t *testing.T) {
	in := testkit.SmallShop(t)
	a := in.Month.Pieces[0]
	sums := map[figures.ID]money.Cents{}
	for _, p := range in.OfPiece("A").Postings {
		l, c := lineOf(p)
		sums[l] += c
	}
	assert.Equal(t, map[figures.ID]money.Cents{"": 0, figures.LineReceipts: a.Receipts,
		figures.LineAcquisition: a.Acquisition, figures.LineSupplies: a.Supplies, figures.LineSellingCosts: a.SellingCosts,
		figures.LineTrips: a.Trips, figures.LineOverhead: a.Overhead}, sums)
}

// TestEveryReasonHasItsLine: a posting of a piece either counts in a line of
// its sheet or only moves cost that another line holds.
func TestEveryReasonHasItsLine(t *testing.T) {
	none := []ledger.Reason{ledger.ReasonOpening, ledger.ReasonPurchase, ledger.ReasonTakenBack, ledger.ReasonTakeBackGain,
		ledger.ReasonTakeBackLoss,
		ledger.ReasonDiscarded, ledger.ReasonSurplus, ledger.ReasonSold, ledger.ReasonReturned,
		ledger.ReasonRemoved, ledger.ReasonLate, ledger.ReasonEquipment, ledger.ReasonOtherIncome, ledger.ReasonAllowance,
		ledger.ReasonTaxCollected, ledger.ReasonTaxRefunded, ledger.ReasonTaxPaid}
	for _, w := range none {
		l, c := lineOf(&ledger.Posting{Reason: w, Cents: 5})
		assert.Empty(t, l, w)
		assert.Zero(t, c)
	}
	l, c := lineOf(&ledger.Posting{Reason: ledger.ReasonRefund, Cents: 5})
	assert.Equal(t, figures.LineReceipts, l)
	assert.Equal(t, money.Cents(-5), c)
}

func TestSureness(t *testing.T) {
	share := func(b ledger.Basis, c money.Cents) figures.Share { return figures.Share{Basis: b, Cost: c} }
	for _, c := range []struct {
		text   string
		shares []figures.Share
	}{
		{", by cost 86 % counted, 14 % stated", []figures.Share{share(ledger.Counted, 600), share(ledger.Stated, 100)}},
		{", by cost 34 % counted, 33 % measured, 33 % own coverage", []figures.Share{share(ledger.Counted, 1), share(ledger.Measured, 1), share(ledger.FromOwn, 1)}},
		{"", []figures.Share{share(ledger.Counted, 5), share(ledger.Counted, -5)}},
		{"", []figures.Share{share(ledger.Counted, -5)}},
	} {
		assert.Equal(t, c.text, sureness(figures.Piece{Shares: c.shares}))
	}
}

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return r
}

// TestRecordsAreThere: every record that a sheet names is a row that a posting
// of the piece rests on.
func TestRecordsAreThere(t *testing.T) {
	ins := testkit.SampleInputs(t)
	in := ins[len(ins)-1]
	named := 0
	for _, p := range in.All {
		rows := map[string]bool{}
		for _, x := range in.OfPiece(p.Record.ID).Postings {
			for _, at := range x.Source {
				rows[at.Short()] = true
			}
		}
		testkit.EveryBlock(Sheets(in, []string{p.Record.ID}), func(_ string, b page.Block) {
			table, ok := b.(page.Table)
			if !ok {
				return
			}
			for c, col := range table.Columns {
				if col.Head != "Records" {
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
	assert.Greater(t, named, 250)
}

// rowsNamed undoes sources: 'uses.csv:3, 7-9; sales.csv:2' are five rows; those only counted are none.
func rowsNamed(s string) []string {
	s = regexp.MustCompile(`, \d+ (more|rows)$`).ReplaceAllString(s, "")
	var out []string
	for part := range strings.SplitSeq(s, "; ") {
		file, list, ok := strings.Cut(part, ":")
		if !ok {
			continue // words: shown elsewhere
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
	places := []fault.Place{{File: "records/uses.csv", Row: 3}, {File: "records/uses.csv", Row: 7},
		{File: "records/uses.csv", Row: 8}, {File: "records/Shop book.xlsx", Sheet: "Hours", Row: 2}}
	assert.ElementsMatch(t, []string{"Shop book.xlsx Hours:2", "uses.csv:3", "uses.csv:7", "uses.csv:8"},
		rowsNamed(words.Sources(places)))
	assert.ElementsMatch(t, []string{"Shop book.xlsx Hours:2"}, rowsNamed(words.BriefSources(places, 30)))
	assert.Equal(t, "uses.csv:3, 7-8", words.BriefSources(places[:3], 15))
	assert.Equal(t, "uses.csv, 3 rows", words.BriefSources(places[:3], 14))
	places[2].Row = 9
	assert.Equal(t, "uses.csv:3, 3 more", words.BriefSources(append(places[:3:3],
		fault.Place{File: "records/uses.csv", Row: 1000}), 18))
	assert.Equal(t, "4 rows of several tables", words.BriefSources(places, 25))
	assert.Empty(t, rowsNamed("each supply below"))
}
