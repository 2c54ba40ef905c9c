package taxyear_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"piecebook/report/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/taxyear"
)

var everything = filepath.Join("..", "testdata", "year")

// The year with everything in it, worked by hand in its README.
func TestYearOfEverything(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	assert.Equal(t, map[string]string{"1": "1170.00", "2": "300.00", "6": "161.41", "9": "68.29", "10": "77.20",
		"13": "3848.80", "48": "301.80", "27a": "301.80",
		"35": "35.60", "36": "570.23", "37": "0.00", "38": "118.72", "39": "151.00"},
		amounts(y, "1", "2", "6", "9", "10", "13", "48", "27a", "35", "36", "37", "38", "39"))
	assert.Nil(t, y.Line("27b"), "other expenses stood on 27a until 2024")
	assert.Equal(t, "1092.80", y.Depreciation.String())
	require.True(t, y.LateBuying.Applies, "1,800 of 4,200 came in the last quarter")
	assert.Equal(t, "42.86", y.LateBuying.Percent.FloatString(2))
}

// Goal: a statement that is off by one sale is reported with that sale; one whose
// difference is the sales tax is explained to the cent.
func TestStatementsOfEverything(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	require.Len(t, y.Statements, 2)
	booth, market := y.Statements[0], y.Statements[1]
	assert.Zero(t, booth.Remainder)
	assert.Equal(t, "less: sales tax collected, in the reported total", words.Term(taxyear.RollReported,
		booth.Terms[len(booth.Terms)-1]))
	assert.Equal(t, "95.00", market.Remainder.String())
	require.NotEmpty(t, market.Causes)
	assert.Contains(t, words.YearNote(market.Causes[0]), "X1 on Jan 2, 2023 (sales.csv:9)")
}

// Pieces that went unsold have their cost, value and money received.
func TestGoneOfEverything(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	got := map[string][2]string{}
	for _, g := range y.Gone {
		got[g.Removal.Piece+" "+g.Removal.Why] = [2]string{g.Cost.String(), g.Received.String()}
	}
	assert.Equal(t, map[string][2]string{"K1 kept": {"46.57", "0.00"}, "N1 donated": {"25.00", "0.00"},
		"T1 stolen":   {"159.00", "120.00"},
		"S1 scrapped": {"52.35", "12.00"}}, got)
}

// Payees are named with what they were paid for; money without a name stands
// last of its kind.
func TestPayeesOfEverything(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	var got []string
	for _, p := range y.Payees {
		got = append(got, fmt.Sprint(p.Kind.What, "/", p.Name, "/", p.Cents, "/", p.Over))
	}
	assert.Equal(t, []string{"services/Upholsterer/131.00/false", "services//147.00/false",
		"legal and professional help//150.00/false", "rent/Booth/600.00/true", "rent//60.00/false"}, got)
}

// Goal: every amount of the year can be walked to a record. Method: each
// posting of each line names the rows it rests on, and they are in the books.
func TestEveryAmountWalksToARecord(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	for _, l := range y.Lines {
		for _, p := range l.Postings {
			for _, at := range p.Source {
				require.NotEmpty(t, at.File, "line %s: %s", l.Line, p.How.Words)
				require.Positive(t, at.Row, "line %s: %s", l.Line, p.How.Words)
				_, err := os.Stat(filepath.Join(everything, at.File))
				require.NoError(t, err)
			}
		}
	}
}

// Under 'when used' supplies that do not stay are on line 22 as they leave the
// shelf, and in none of the stock lines.
func TestEverythingWhenUsed(t *testing.T) {
	l, set := costed(t, os.DirFS(everything), 2022)
	l.Books.Settings.TaxSupplies = "when used"
	y := worked(t, l, set, 2022)
	assert.Equal(t, map[string]string{"22": "74.38", "35": "35.60", "38": "65.72", "41": "228.36", "42": "594.19"},
		amounts(y, "22", "35", "38", "41", "42"))
	for _, number := range []string{"35", "36", "38", "41", "42"} {
		for _, p := range y.Line(number).Postings {
			assert.NotEqual(t, "Stripper", p.Supply, "line %s", number)
		}
	}
}

// An opening already deducted brings no cost in; one not deducted does.
func TestOpenings(t *testing.T) {
	y := year(t, os.DirFS(everything), 2021)
	assert.Equal(t, "10.00", y.Amount("35").String(), "the stripper's; the wax was deducted before")
	for _, p := range y.Line("35").Postings {
		assert.Equal(t, ledger.ReasonOpening, p.Reason)
	}
	method, changed := y.Opened(taxyear.HandedOut{From: "reports/2020", Closing: 1_200})
	assert.Empty(t, method)
	require.Len(t, changed, 1)
	assert.Contains(t, words.YearNote(changed[0].Note), "2.00 apart")
	method, changed = y.Opened(taxyear.HandedOut{Closing: 1_000, Cost: 5, Statement: 7})
	assert.Empty(t, append(method, changed...))
}

// What is missing is reported with its amount.
func TestMissing(t *testing.T) {
	y := year(t, os.DirFS(everything), 2022)
	var sections []string
	for _, m := range y.Missing {
		sections = append(sections, m.Section)
	}
	assert.Equal(t, []string{taxyear.SecChannels, taxyear.SecPapers, taxyear.SecPayees, taxyear.SecMileage,
		taxyear.SecEquipment, taxyear.SecHome, taxyear.SecExpenses}, sections)
	require.Len(t, y.NoReceipt, 3)
	assert.Equal(t, "300.00", y.NoReceipt[0].Cents.String(), "the largest first: booth July to December")
	assert.Equal(t, "11 295.73", fmt.Sprint(y.SmallCosts.Count, " ", y.SmallCosts.Cents.String()))
}
