package taxyear_test

import (
	"flag"
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

var taxBooks = flag.Int("books", 12, "how many generated books the laws of a tax year are tested on")

func asFolder(files map[string][]byte) fstest.MapFS {
	out := fstest.MapFS{}
	for name, data := range files {
		out[name] = &fstest.MapFile{Data: data}
	}
	return out
}

// allYears is every tax year of books, from the first record's to two after
// the last.
func allYears(t *testing.T, files map[string][]byte) []*taxyear.Year {
	t.Helper()
	l, set := costed(t, asFolder(files), 2027)
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	var out []*taxyear.Year
	for of := l.Months[0].Month.Year(); of <= 2027; of++ {
		y, err := taxyear.For(l, of, tax, set.RatesFor("USD").AtOnceCents)
		require.NoError(t, err)
		sound(t, y)
		out = append(out, y)
	}
	return out
}

func everySeed(t *testing.T, f func(t *testing.T, seed uint64)) {
	for seed := uint64(1); seed <= uint64(*taxBooks); seed++ {
		t.Run(fmt.Sprintf("seed=%d", seed), func(t *testing.T) {
			t.Parallel()
			f(t, seed)
		})
	}
}

// Goal: on books of any shape every reconciliation is 0.00, one year's
// closing is the next one's opening, and equipment is written off to its cost
// and no further. Method: all years of generated books.
func TestReconciliationsOnGeneratedBooks(t *testing.T) {
	everySeed(t, func(t *testing.T, seed uint64) {
		for _, files := range []map[string][]byte{bookgen.Years(seed), bookgen.Files(seed)} {
			var before *taxyear.Year
			for _, y := range allYears(t, files) {
				if before != nil {
					require.Equal(t, before.Amount("41"), y.Amount("35"), "%d opens with what %d closed with", y.Year, before.Year)
				}
				for _, a := range y.Assets {
					if left := a.Cost - a.Before - a.Now - a.After; a.Table != nil && left != 0 {
						require.NotNil(t, a.Sale, a.Record.What)
						require.Equal(t, left, a.Sale.Left, a.Record.What)
					}
				}
				before = y
			}
		}
	})
}

// sums are a treatment's totals over all years.
type sums struct {
	profit   money.Cents // line 31
	cost     money.Cents // line 42
	whenUsed money.Cents // of line 22, supplies
	owner    money.Cents // taken out of line 36
	closing  money.Cents // line 41 at the end
	apart    money.Cents // on the shelf, in no line
}

func summed(years []*taxyear.Year) sums {
	var s sums
	for _, y := range years {
		s.profit += y.Net()
		s.cost += y.Amount("42")
		for _, p := range y.Line("22").Postings {
			if p.From == ledger.Shelf {
				s.whenUsed += p.Cents
			}
		}
		for _, p := range y.Line("36").Postings {
			if p.To == ledger.Owner {
				s.owner -= p.Cents
			}
			if p.From == ledger.Owner {
				s.owner -= p.Cents
			}
		}
	}
	last := years[len(years)-1]
	s.closing = last.Amount("41")
	for _, x := range last.Shelf {
		s.apart += x.Line.Closing - x.Kept
	}
	return s
}

// Goal: the choice of tax_supplies moves cost between years and never changes
// what is deducted over all time: every cent is in cost of sales, in supplies
// when used, with the owner, or still there. Method: the same generated books
// under both treatments.
func TestTreatmentMovesOnlyBetweenYears(t *testing.T) {
	moved := make(chan bool, 1000)
	t.Run("books", func(t *testing.T) {
		everySeed(t, func(t *testing.T, seed uint64) {
			files := bookgen.Years(seed)
			with := allYears(t, bookgen.WithTreatment(files, "with the piece"))
			used := allYears(t, bookgen.WithTreatment(files, "when used"))
			a, b := summed(with), summed(used)
			require.Equal(t, a.profit+a.cost+a.whenUsed, b.profit+b.cost+b.whenUsed, "only cost of sales and supplies differ")
			require.Equal(t, a.cost+a.owner+a.closing, b.cost+b.whenUsed+b.owner+b.closing+b.apart, "every cent is somewhere")
			require.Zero(t, a.whenUsed)
			require.Zero(t, a.apart)
			for i := range with {
				require.Equal(t, with[i].Depreciation, used[i].Depreciation)
				require.Equal(t, with[i].Figures.Statement, used[i].Figures.Statement, "the months know nothing of the treatment")
				if with[i].Net() != used[i].Net() {
					moved <- true
				}
			}
		})
	})
	require.NotEmpty(t, moved, "no generated book moved anything: the law was not tried")
}

// Goal: a piece's cost is deducted once in its life under either treatment.
// Method: one piece over three years, sold at the end, with supplies that stay
// and that do not.
func TestOnePieceOverItsLife(t *testing.T) {
	words := `
settings
tax_supplies = "%s"

pieces
piece,kind,got_on,price,area
A,dresser,2024-11-01,100,20
K,chair,2024-11-01,10,20

supplies
supply,group,container,coverage
Stripper,stripper,1 qt,all
Paint,paint,1 qt,all

purchases
bought_on,supply,containers,cost
2024-11-02,Stripper,1,20
2025-03-01,Paint,1,30

uses
used_on,pieces,supply
2024-12-10,A,Stripper
2025-03-10,A,Paint

sales
sold_on,pieces,channel,price
2026-02-01,A,booth,400
`
	want := map[string][3]string{"with the piece": {"0.00", "0.00", "250.00"}, "when used": {"-20.00", "0.00", "270.00"}}
	for treatment, profits := range want {
		var sum money.Cents
		for i, of := range []int{2024, 2025, 2026} {
			y := year(t, bookgen.InWords(fmt.Sprintf(words, treatment)), of)
			require.Equal(t, profits[i], y.Net().String(), "%s, %d", treatment, of)
			sum += y.Net()
		}
		require.Equal(t, "250.00", sum.String(), "400 - 100 - 20 - 30")
	}
}
