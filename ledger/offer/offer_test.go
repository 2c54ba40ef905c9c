package offer_test

import (
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// costed reads and costs books in words: a table's name, then its rows, blank
// lines between tables.
func costed(t testing.TB, words, through string) *costing.Ledger {
	t.Helper()
	files := bookgen.InWords(words)
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(files, set)
	require.Empty(t, read.Problems.Errors())
	m, err := calendar.ParseMonth(through)
	require.NoError(t, err)
	return costing.Run(&read.Books, m)
}

// alike is three chairs that differ in nothing: each brought 100 for a fee of
// 10, with 5 of parts, 2 hours, 20 sq ft primed once and twice sanded.
const alike = `
settings
target_hourly = 25

pieces
piece,kind,got_on,price,area
A,chair,2026-01-01,10,20
B,chair,2026-01-01,10,20
C,chair,2026-01-01,10,20

hours
worked_on,pieces,hours
2026-01-06,A,2
2026-01-06,B,2
2026-01-06,C,2

parts
bought_on,pieces,what,cost
2026-01-04,A,felt,5
2026-01-04,B,felt,5
2026-01-04,C,felt,5

supplies
supply,group,container,coverage,share_by
Primer,primer,1 qt,80,
Discs,abrasive,1 each,4,hours

purchases
bought_on,supply,containers,cost
2026-01-02,Primer,2,40
2026-01-02,Discs,9,18
2026-01-09,Primer,1,24

uses
used_on,pieces,supply
2026-01-05,A,Primer
2026-01-05,B,Primer
2026-01-05,C,Primer

sales
sold_on,pieces,channel,price,fee
2026-01-30,A,fair,100,10
2026-01-30,B,fair,100,10
2026-01-30,C,fair,100,10
`

// 100 - 10 - 5 - primer 20 ÷ 80 × 24.00 (as last bought) - discs 2 ÷ 4 × 2.00
// = 78.00; less 2 hours at 25 = 28.00.
func TestByHand(t *testing.T) {
	o := offer.Make(costed(t, alike, "2026-03"), offer.Ask{Kind: "CHAIR"})
	assert.Equal(t, "chair", o.Kind)
	assert.InDelta(t, 7800, o.Even.At, 1e-6)
	assert.InDelta(t, 2800, o.Top.At, 1e-6)
	assert.False(t, o.Top.Known, "nothing scattered, so nothing says how sure it is")
	assert.Len(t, o.Past, 3)
	assert.InDelta(t, 10000-1000-500-500-100-5000, o.Past[0].Worth, 1e-6, "at what its primer cost then")
	assert.InDelta(t, 20, o.Coated, 1e-9)
	rate, ok := o.PerCoated()
	assert.True(t, ok)
	assert.InDelta(t, 35, rate, 1e-6, "7.00 over 20 sq ft")
}

// Every step is cents, worked out of what is printed, and the two most to pay
// are the sums of the steps above them, for whoever follows with a calculator.
func TestStepsFoot(t *testing.T) {
	for _, kind := range []string{"dresser", "side chair", "nightstand", "nothing like it"} {
		o := offer.Make(sample(t), offer.Ask{Kind: kind, Usual: big.NewRat(30, 1)})
		used := map[string]offer.Input{}
		for _, i := range o.Inputs {
			used[i.Label] = i
		}
		var sum, supplies money.Cents
		at := map[string]money.Cents{}
		for _, l := range o.Lines {
			at[l.Label] = l.Cents
			if l.Label == offer.StepEven || l.Label == offer.StepTop {
				assert.Equal(t, sum, l.Cents, "%s: %s", kind, l.Label)
				continue
			}
			sum += l.Cents
		}
		for _, s := range o.Supplies {
			supplies += s.Cents
			if s.Unit != "" {
				work, _ := s.Work.Float64()
				does, _ := s.Does.Float64()
				assert.InDelta(t, work/does*float64(s.Price), float64(s.Cents), 0.5+1e-6, s.Name)
				assert.Zero(t, s.Work.Cmp(money.RoundTo(s.Work, 4)), "%s: no more decimals than are printed", s.Name)
			}
		}
		assert.Equal(t, -supplies, at[offer.StepSupplies])
		hundred := big.NewRat(100, 1)
		assert.True(t, new(big.Rat).Mul(used[offer.Hours].Exact(), hundred).IsInt(), "hours to 0.01")
		assert.Equal(t, -money.Round(new(big.Rat).Mul(o.Target.Rat(), used[offer.Hours].Exact())), at[offer.StepHours])
		assert.True(t, new(big.Rat).Mul(new(big.Rat).Mul(used[offer.Selling].Exact(), hundred), big.NewRat(10, 1)).IsInt(), "a tenth of a per cent")
		assert.Equal(t, -money.Round(new(big.Rat).Mul(at[offer.StepReceipts].Rat(), used[offer.Selling].Exact())), at[offer.StepSelling])
	}
}

// The shop's own coverage counts as soon as there is one: with a count that
// shows 60 sq ft from one container, primer is 20 ÷ 60 × 24.00 = 8.00.
func TestOwnCoverageIsUsed(t *testing.T) {
	o := offer.Make(costed(t, alike+`
counts
counted_on,supply,left
2026-01-31,Primer,2
`, "2026-03"), offer.Ask{Kind: "chair"})
	assert.InDelta(t, 7600, o.Even.At, 1e-6)
	assert.Equal(t, "own", string(o.Supplies[0].Basis))
}

// So does what buying again tells: bought in March, the two cans of January had
// half a can left of them, so 60 sq ft took 1.5; with the label as one can more,
// (60 + 80) ÷ 2.5 = 56 a can. Primer is 20 ÷ 56 × 24.00 = 8.57.
func TestBoughtAgainIsUsed(t *testing.T) {
	again := strings.Replace(alike, "2026-01-09,Primer", "2026-03-02,Primer", 1)
	o := offer.Make(costed(t, again, "2026-03"), offer.Ask{Kind: "chair"})
	assert.Equal(t, "bought", string(o.Supplies[0].Basis))
	assert.Equal(t, money.Cents(857), o.Supplies[0].Cents)
}

// What the owner gives wins: twice the area is twice the primer, hours are
// taken as given with their discs, and so is the price, on which the fee goes.
func TestGiven(t *testing.T) {
	l := costed(t, alike, "2026-03")
	price := money.Cents(20000)
	o := offer.Make(l, offer.Ask{Kind: "chair", Area: big.NewRat(40, 1)})
	assert.InDelta(t, 7800-600, o.Even.At, 1e-6)
	o = offer.Make(l, offer.Ask{Kind: "chair", Hours: big.NewRat(4, 1)})
	assert.InDelta(t, 7800-100, o.Even.At, 1e-6)
	assert.InDelta(t, 7700-10000, o.Top.At, 1e-6)
	assert.True(t, o.WalkAway(), "walk away even when it is free")
	o = offer.Make(l, offer.Ask{Kind: "chair", Price: &price})
	assert.InDelta(t, 7800+9000, o.Even.At, 1e-6)
	o = offer.Make(l, offer.Ask{Kind: "chair", Hours: new(big.Rat)})
	assert.InDelta(t, o.Even.At, o.Top.At, 1e-9, "no hours cost nothing, and no discs")
}

// With no hours anywhere only break-even can be told, unless they are given.
func TestNoHours(t *testing.T) {
	words := strings.Replace(alike, "2026-01-06,A,2\n2026-01-06,B,2\n2026-01-06,C,2", "2026-01-06,,2", 1)
	l := costed(t, words, "2026-03")
	o := offer.Make(l, offer.Ask{Kind: "chair"})
	assert.True(t, o.NoHours)
	o = offer.Make(l, offer.Ask{Kind: "chair", Hours: big.NewRat(2, 1)})
	assert.False(t, o.NoHours)
	assert.InDelta(t, o.Even.At-5000, o.Top.At, 1e-6)
}

func sample(t testing.TB) *costing.Ledger {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	return costing.Run(&read.Books, checks.LastMonth(&read.Books))
}

// A kind without a past uses the whole shop and is less sure than any that has one.
func TestNewKindIsWider(t *testing.T) {
	l := sample(t)
	known, unknown := offer.Make(l, offer.Ask{Kind: "dresser"}), offer.Make(l, offer.Ask{Kind: "grandfather clock", Usual: big.NewRat(30, 1)})
	assert.False(t, known.New())
	assert.True(t, unknown.New())
	assert.Equal(t, known.Others+len(known.Past), unknown.Others)
	assert.Greater(t, unknown.Top.High-unknown.Top.Low, known.Top.High-known.Top.Low)
	for _, i := range unknown.Inputs {
		if i.Label == offer.Area {
			assert.InDelta(t, 30, i.Used, 1e-9)
		}
	}
}

// A scrapped piece is not forgotten: it lowers the offer, and one of eight is
// drawn toward the shop's one of fifty-four.
func TestLosses(t *testing.T) {
	o := offer.Make(sample(t), offer.Ask{Kind: "dresser"})
	for _, i := range o.Inputs {
		if i.Label == offer.Lost {
			assert.InDelta(t, 1.0/8, i.Own, 1e-12)
			assert.InDelta(t, 0.066, i.Used, 1e-12, "(1 + 10 ÷ 54) ÷ 18, to a tenth of a per cent")
		}
	}
	assert.Less(t, o.Top.Low, o.Top.Cautious)
	assert.Less(t, o.Top.Cautious, o.Top.At)
	assert.Less(t, o.Top.At, o.Even.At)
	require.NotEmpty(t, o.Swings)
	for i, s := range o.Swings[1:] {
		assert.GreaterOrEqual(t, o.Swings[i].Change, s.Change)
	}
	assert.Equal(t, offer.Make(sample(t), offer.Ask{Kind: "dresser"}).Lines, o.Lines, "the same records give the same answer")
}
