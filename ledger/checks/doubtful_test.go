package checks_test

import (
	"flag"
	"fmt"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bigbooks"
	"piecebook/templates"
)

var (
	tellSlips = flag.Bool("tell-slips", false, "print every slip and what is reported of it")
	allSlips  = flag.Bool("all-slips", false, "mistype every row, not only the middle one of each column")
)

// sampleBooks is the sample's records.
func sampleBooks(t *testing.T) *ledger.Books {
	set, err := templates.Load()
	require.NoError(t, err)
	r := intake.Read(os.DirFS("../../sample"), set)
	require.False(t, r.Problems.HasErrors())
	return &r.Books
}

// slip is one cell of the books whose amount may be mistyped.
type slip struct {
	name  string
	at    fault.Place
	cents *money.Cents
	miles *big.Rat
}

// mistype multiplies the cell, and gives what puts it right again.
func (s slip) mistype(factor *big.Rat) (restore func()) {
	if s.miles != nil {
		was := new(big.Rat).Set(s.miles)
		s.miles.Mul(s.miles, factor)
		return func() { s.miles.Set(was) }
	}
	was := *s.cents
	*s.cents = money.Round(new(big.Rat).Mul(was.Rat(), factor))
	return func() { *s.cents = was }
}

// slips is the middle row, by amount, of every column of prices, costs, taxes and
// fees; or all.
func slips(b *ledger.Books) []slip {
	of := map[string][]slip{}
	add := func(name string, at fault.Place, c *money.Cents) {
		if c != nil && *c > 0 {
			of[name] = append(of[name], slip{name: name, at: at, cents: c})
		}
	}
	for i := range b.Pieces {
		p := &b.Pieces[i]
		add("pieces price", p.At, &p.Price)
		add("pieces tax_paid", p.At, &p.TaxPaid)
		add("pieces pickup", p.At, &p.Pickup)
	}
	for i := range b.Lots {
		x := &b.Lots[i]
		add("lots price", x.At, &x.Price)
		add("lots fees", x.At, &x.Fees)
		add("lots tax_paid", x.At, &x.TaxPaid)
		add("lots pickup", x.At, &x.Pickup)
	}
	for i := range b.Purchases {
		x := &b.Purchases[i]
		add("purchases cost", x.At, &x.Cost)
		add("purchases tax_paid", x.At, &x.TaxPaid)
	}
	for i := range b.Openings {
		add("openings cost", b.Openings[i].At, &b.Openings[i].Cost)
	}
	for i := range b.Parts {
		x := &b.Parts[i]
		add("parts cost", x.At, &x.Cost)
		add("parts tax_paid", x.At, &x.TaxPaid)
	}
	for i := range b.Expenses {
		add("expenses amount", b.Expenses[i].At, &b.Expenses[i].Amount)
	}
	for i := range b.Equipment {
		add("equipment cost", b.Equipment[i].At, &b.Equipment[i].Cost)
		add("equipment tax_paid", b.Equipment[i].At, &b.Equipment[i].TaxPaid)
	}
	for i := range b.Trips {
		x := &b.Trips[i]
		of["trips miles"] = append(of["trips miles"], slip{name: "trips miles", at: x.At, miles: x.Miles})
		add("trips tolls", x.At, &x.Tolls)
	}
	for i := range b.Sales {
		x := &b.Sales[i]
		if x.Type == ledger.SaleLine {
			add("sales price", x.At, &x.Price)
			add("sales fee", x.At, x.Fee)
			add("sales card_fee", x.At, x.CardFee)
			add("sales sales_tax", x.At, &x.SalesTax)
			add("sales delivery_charged", x.At, &x.DeliveryCharged)
			add("sales delivery_cost", x.At, &x.DeliveryCost)
		}
	}
	var out []slip
	for _, all := range of {
		slices.SortFunc(all, func(a, b slip) int {
			if a.miles != nil {
				return a.miles.Cmp(b.miles)
			}
			return int(*a.cents - *b.cents)
		})
		if *allSlips {
			out = append(out, all...)
		} else {
			out = append(out, all[len(all)/2])
		}
	}
	slices.SortFunc(out, func(a, b slip) int { return strings.Compare(a.name, b.name) })
	return out
}

// noUsual are the slips that nothing tells: the sample has one trip with tolls,
// so there is no usual, and the row itself says nothing of too low a toll.
var noUsual = []string{"1/10 trips tolls"}

// Goal: a price, cost, tax, fee or distance that is mistyped tenfold, a hundredfold or by
// a tenth is reported at its row. Method: the sample's middle row of every column.
func TestSlipsAreTold(t *testing.T) {
	reported, all := map[string]int{}, map[string]int{}
	var untold []string
	b := sampleBooks(t)
	last := checks.LastMonth(b)
	for _, by := range []string{"10", "100", "1/10"} {
		factor, _ := new(big.Rat).SetString(by)
		for _, s := range slips(b) {
			restore := s.mistype(factor)
			list := checks.Look(b, last)
			restore()
			all[by]++
			is := slices.ContainsFunc(list.Notes(), func(p fault.Problem) bool {
				return slices.Contains([]fault.Code{fault.CodeAmountDoubtful, fault.CodePriceFarFromKind}, p.Code) &&
					p.Place.At("") == s.at.At("")
			})
			if is {
				reported[by]++
			} else {
				untold = append(untold, by+" "+s.name)
			}
			if *tellSlips {
				fmt.Println(by, s.name, s.at.Short(), is)
			}
		}
	}
	t.Logf("found: %v of %v", reported, all)
	if !*allSlips {
		require.Equal(t, noUsual, untold)
	}
}

// Goal: next to no notes where nothing is wrong: none in the sample, at most two in
// the pack of any month of 20 generated shops.
func TestNoDoubtsWhereNothingIsWrong(t *testing.T) {
	doubts := func(b *ledger.Books, m calendar.Month) int {
		months := map[fault.Place]calendar.Month{}
		for r := range b.Records() {
			months[r.At] = r.Month
		}
		n := 0
		for _, p := range checks.Look(b, m).Notes() {
			if p.Code == fault.CodeAmountDoubtful && months[p.Place.At("")] == m {
				n++
				if *tellSlips {
					fmt.Println(p)
				}
			}
		}
		return n
	}
	b := sampleBooks(t)
	for m := checks.LastMonth(b); m > checks.LastMonth(b)-14; m-- {
		require.Zero(t, doubts(b, m), m)
	}
	notes, packs := 0, map[int]int{}
	for seed := range uint64(20) {
		b := testkit.Read(t, bigbooks.Make(seed, bigbooks.Size{Pieces: 60, Years: 1}).CSV())
		for m := bigbooks.LastMonth - 11; m <= bigbooks.LastMonth; m++ {
			n := doubts(b, m)
			require.LessOrEqual(t, n, 2, "seed %d, %s", seed, m)
			notes += n
			packs[n]++
		}
	}
	t.Logf("%d notes in the packs of 20 generated shops; packs by how many they have: %v", notes, packs)
}
