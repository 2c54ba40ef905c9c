package offer_test

import (
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	"piecebook/templates"
)

// alike is three chairs that differ in nothing: each brought 100 for a fee of
// 10, with 5 of parts, 2 hours, 20 sq ft primed once and twice sanded. Rent is
// 12.00 over their 6 hours.
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

expenses
paid_on,what,group,amount
2026-01-02,rent,storage,12
`

// Each had primer for 15.00 ÷ 3 and discs for 3.00 ÷ 3. 100 - 10 - 5 - 6 = 79;
// less 2 hours at 25 = 29; less their 2.00 of shop costs each = 25.
func TestByHand(t *testing.T) {
	o := offer.Make(testkit.Costed(t, alike, "2026-03"), offer.Ask{Kind: "CHAIR"})
	assert.Equal(t, "chair", o.Kind)
	assert.Equal(t, "2.00", o.Costs.AnHour.String())
	assert.InDelta(t, 7900, o.Even, 1e-6)
	assert.InDelta(t, 2900, o.Idle, 1e-6)
	assert.InDelta(t, 2500, o.Top.At, 1e-6)
	assert.True(t, o.Top.Known, "nothing scattered, but pieces usually do")
	assert.Less(t, o.Top.Low, 2500.0)
	require.Len(t, o.Past, 3)
	assert.InDelta(t, 2500, o.Past[0].Worth, 1e-6)
	steps := map[offer.Step]money.Cents{}
	for _, l := range o.Lines {
		steps[l.Step] = l.Cents
	}
	assert.Equal(t, map[offer.Step]money.Cents{offer.StepReceipts: 10000, offer.StepSelling: -1000,
		offer.StepParts: -500, offer.StepSupplies: -600,
		offer.StepTrips: 0, offer.StepHours: -5400, offer.StepAverage: 2500, offer.StepDrawn: 0, offer.StepTrend: 0,
		offer.StepKnown: 0, offer.StepTop: 2500}, steps)
}

// Every step is whole cents, and the sums are the sums of the steps above them.
func TestStepsAddUp(t *testing.T) {
	price, hours := money.Cents(24000), big.NewRat(7, 1)
	for _, ask := range []offer.Ask{{Kind: "dresser"}, {Kind: "side chair", SellsFor: &price}, {Kind: "nightstand",
		Hours: hours, Area: big.NewRat(12, 1)}, {Kind: "nothing like it"}} {
		o := offer.Make(sample(t), ask)
		var sum money.Cents
		for _, l := range o.Lines {
			if l.Step == offer.StepAverage || l.Step == offer.StepTop {
				assert.Equal(t, sum, l.Cents, "%s: %s", ask.Kind, l.Step)
				continue
			}
			sum += l.Cents
		}
		top, ok := o.Lines[len(o.Lines)-1], o.Top.Known
		assert.True(t, ok)
		assert.InDelta(t, o.Top.At, float64(top.Cents), 0.5)
		assert.Less(t, o.Top.At, o.Idle)
		assert.Less(t, o.Idle, o.Even)
		assert.Less(t, o.Top.Low, o.Top.Cautious)
		assert.Less(t, o.Top.Cautious, o.Top.At)
		assert.Less(t, o.Top.At, o.Top.High)
		assert.Equal(t, o.Lines, offer.Make(sample(t), ask).Lines, "the same records give the same answer")
	}
}

// What the owner guesses moves the worth by what it moves the books: a price
// by itself less its fee, an hour by the target and the shop costs.
func TestGuesses(t *testing.T) {
	l := testkit.Costed(t, alike, "2026-03")
	price, parts := money.Cents(20000), money.Cents(1500)
	o := offer.Make(l, offer.Ask{Kind: "chair", SellsFor: &price})
	assert.InDelta(t, 2500+9000, o.Top.At, 1e-6)
	o = offer.Make(l, offer.Ask{Kind: "chair", Hours: big.NewRat(4, 1)})
	assert.InDelta(t, 2500-2*2700, o.Top.At, 1e-6)
	assert.True(t, o.WalkAway())
	assert.InDelta(t, 7900, o.Even, 1e-6, "hours cost nothing to who works for nothing")
	o = offer.Make(l, offer.Ask{Kind: "chair", Parts: &parts})
	assert.InDelta(t, 2500-1000, o.Top.At, 1e-6)
}

// A guess is counted on only so far as such guesses hold, and makes the range
// narrower; one that asking prices on record bear out, the more.
func TestGuessesNarrow(t *testing.T) {
	plain := offer.Make(sample(t), offer.Ask{Kind: "dresser"})
	price := money.Cents(90000)
	o := offer.Make(sample(t), offer.Ask{Kind: "dresser", SellsFor: &price})
	require.Len(t, o.Known, 1)
	k := o.Known[0]
	assert.Equal(t, offer.SellsFor, k.What)
	assert.Greater(t, k.Taken, k.Usual)
	assert.Less(t, k.Taken, float64(price))
	assert.Positive(t, k.Moves)
	hours := big.NewRat(8, 1)
	usual := money.Cents(k.Usual)
	both := offer.Make(sample(t), offer.Ask{Kind: "dresser", SellsFor: &usual, Hours: hours})
	assert.Less(t, both.Top.High-both.Top.Low, plain.Top.High-plain.Top.Low)
}

// With no hours anywhere only Even can be given, unless they are given.
func TestNoHours(t *testing.T) {
	words := strings.Replace(alike, "2026-01-06,A,2\n2026-01-06,B,2\n2026-01-06,C,2", "2026-01-06,,2", 1)
	l := testkit.Costed(t, words, "2026-03")
	o := offer.Make(l, offer.Ask{Kind: "chair"})
	assert.True(t, o.NoHours)
	o = offer.Make(l, offer.Ask{Kind: "chair", Hours: big.NewRat(2, 1)})
	assert.False(t, o.NoHours)
	assert.InDelta(t, o.Even-5000, o.Top.At, 1e-6)
}

// The answer to what a seller asks is yes up to the top offer, with the chance
// that the piece is worth it.
func TestAsked(t *testing.T) {
	top := offer.Make(sample(t), offer.Ask{Kind: "dresser"}).Top
	chance := 1.0
	for i, asked := range []money.Cents{money.Cents(top.Low), money.Cents(top.At) - 1, money.Cents(top.At) + 1,
		money.Cents(top.High)} {
		o := offer.Make(sample(t), offer.Ask{Kind: "dresser", Asked: &asked})
		assert.Equal(t, float64(asked) <= top.At, o.Asked.Buy, i)
		assert.LessOrEqual(t, o.Asked.Chance, chance)
		chance = o.Asked.Chance
	}
	assert.InDelta(t, 0.05, chance, 0.01)
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
	known, unknown := offer.Make(l, offer.Ask{Kind: "nightstand"}), offer.Make(l, offer.Ask{Kind: "grandfather clock"})
	assert.False(t, known.New())
	assert.True(t, unknown.New())
	assert.Equal(t, known.Others+known.Sales, unknown.Others)
	assert.Greater(t, unknown.Top.High-unknown.Top.Low, known.Top.High-known.Top.Low)
}

// marked is a shop of two kinds with good and rough pieces sold at a fair and
// in a booth; good ones and the fair bring 40 and 20 more.
func marked() string {
	pieces, hours, sales := "", "", ""
	for i := range 24 {
		id := string(rune('A' + i))
		kind, condition, channel, price := "chair", "rough", "booth", 100+3*(i%5)
		if i%2 == 0 {
			kind, price = "desk", price+60
		}
		if i%4 < 2 {
			condition, price = "good", price+40
		}
		if i%3 == 0 {
			channel, price = "fair", price+20
		}
		area := 10 + i%7
		pieces += id + "," + kind + ",2026-01-01,10," + big.NewInt(int64(area)).String() + "," + condition + "\n"
		hours += "2026-01-06," + id + ",2\n"
		sales += "2026-01-30," + id + "," + channel + "," + big.NewInt(int64(price+2*area)).String() + "\n"
	}
	return "settings\ntarget_hourly = 20\n\npieces\npiece,kind,got_on,price,area,condition\n" + pieces +
		"\nhours\nworked_on,pieces,hours\n" + hours + "\nsales\nsold_on,pieces,channel,price\n" + sales
}

// What is known of a piece moves its worth the way its own pieces show, and
// never so far.
func TestWhatIsKnownMovesTheWorth(t *testing.T) {
	l := testkit.Costed(t, marked(), "2026-01")
	moves := func(ask offer.Ask) float64 {
		ask.Kind = "desk"
		o := offer.Make(l, ask)
		require.Len(t, o.Known, 1)
		assert.Positive(t, o.Known[0].On)
		return o.Known[0].Moves
	}
	good, rough := moves(offer.Ask{Condition: "Good"}), moves(offer.Ask{Condition: "rough"})
	assert.InDelta(t, 4000, good-rough, 1500)
	fair, booth := moves(offer.Ask{Channel: "fair"}), moves(offer.Ask{Channel: "booth"})
	assert.Greater(t, fair, booth)
	large, small := moves(offer.Ask{Area: big.NewRat(16, 1)}), moves(offer.Ask{Area: big.NewRat(10, 1)})
	assert.Greater(t, large, small)
	o := offer.Make(l, offer.Ask{Kind: "desk", Channel: "never used", Condition: "good"})
	require.Len(t, o.Known, 1)
	assert.Equal(t, []string{offer.Channel}, o.Unshown)
}

// A set sold for one price is one sale, worth the average of its pieces.
func TestASetIsOneSale(t *testing.T) {
	words := strings.Replace(alike, "2026-01-30,A,fair,100,10\n2026-01-30,B,fair,100,10\n2026-01-30,C,fair,100,10",
		"2026-01-30,A; B; C,fair,300,30", 1)
	o := offer.Make(testkit.Costed(t, words, "2026-03"), offer.Ask{Kind: "chair"})
	assert.Equal(t, 1, o.Sales)
	assert.Len(t, o.Past, 3)
	assert.InDelta(t, 2500, o.Top.At, 1e-6)
}
