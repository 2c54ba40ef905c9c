package kinds_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// twoKinds is small books whose every figure can be worked out by hand.
const twoKinds = `
settings
target_hourly = 20

pieces
piece,kind,got_on,how,price,area,started_on,finished_on,listed_on
A,Chair,2026-01-01,,10,10,2026-01-03,2026-01-08,2026-01-10
B,chair ,2026-01-01,,20,10,2026-01-05,2026-01-20,2026-01-22
C,chair,2026-01-01,,30,,2026-01-05,,
D,chair,2026-01-10,free,,10,,2026-01-15,2026-01-20
E,chair,2026-02-01,,15,10,,2026-02-10,2026-02-11
F,table,2026-01-01,,40,20,,,2026-01-15
G,table,2026-01-01,,5,20,,,
H,table,2026-01-02,client,,20,,,
I,table,2026-01-02,client,,20,,,

hours
worked_on,pieces,hours
2026-01-06,A,2
2026-01-07,B,4
2026-01-07,C,1
2026-02-05,E,3
2026-01-07,F,5
2026-01-08,H,2

parts
bought_on,pieces,what,cost,type
2026-01-04,A,felt,2,
2026-01-04,B,seat,3,outside work

channels
channel,fee_percent
Mall,10

sales
sold_on,pieces,channel,price,delivery_cost
2026-01-30,A,Mall,80,
2026-02-21,B,mall,60,6
2026-02-21,D,fair,12,
2026-02-25,F,Mall,100,
2026-02-25,H,direct,90,

removals
removed_on,piece,why,received
2026-02-10,C,stolen,12
2026-02-11,G,donated,

trips
on,miles,purpose,tolls,pieces
2026-02-20,0,delivery,1.50,F
2026-02-20,0,shopping,3,

expenses
paid_on,what,group,amount,channel,pieces
2026-01-02,rent,booth rent,25,MALL,
2026-02-02,listing,advertising,1.50,Mall,B
2026-02-02,flyers,advertising,9,,
`

// A: 80 - 8 fee - 10 - 2 = 60 in 2 h; B: 60 - 6 - 6 - 1.50 - 20 - 3 = 23.50 in
// 4 h; C: stolen, -30 + 12 = -18 in 1 h; D: 12, no hours. Σ 77.50; with hours
// 65.50 ÷ 7 = 9.357.
func TestAKindByHand(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, twoKinds, "2026-02"), kinds.Scope{})
	k := of(t, r, "chair")
	assert.Equal(t, []int{5, 4, 3, 1, 1, 3}, []int{k.Got, k.Finished, k.Sold, k.Lost, k.InStock, k.Timed})
	assert.Equal(t, "77.50", k.Result.String())
	assert.Equal(t, "9.36", text(k.PerHour))
	assert.Equal(t, []string{"17.75", "-18.00", "60.00"}, []string{text(k.Median), text(k.Least), text(k.Most)})
	assert.Equal(t, "92.00", k.SoldLessBought.String(), "152 - 60")
	assert.Equal(t, big.NewRat(7750, 15200), k.Margin)
	assert.Zero(t, k.AtALoss)
	assert.Equal(t, "15.00", k.TiedUp.String())
	assert.Equal(t, "3", money.AtMost(k.TiedHours, 4))
	assert.Equal(t, kinds.Days{N: 2, Least: 7, Median: 12, Most: 17}, k.BenchToListed)
	assert.Equal(t, kinds.Days{N: 3, Least: 20, Median: 30, Most: 32}, k.ListedToSold)
	assert.Equal(t, kinds.Days{N: 3, Least: 29, Median: 42, Most: 51}, k.Held)
	// By linearisation: off 9.357 an hour by 41.286, -13.929, -27.357; √(Σ² ÷ 2) ÷ (√3 × 7/3).
	assert.InDelta(t, 100*math.Sqrt((41.2857*41.2857+13.9286*13.9286+27.3571*27.3571)/2)/(math.Sqrt(3)*7/3),
		k.Estimate.Error, 0.1)
	assert.True(t, k.Estimate.Ranked)
	assert.Equal(t, 1, k.Estimate.Place)

	f := of(t, r, "table")
	assert.False(t, f.Estimate.Ranked, "one is too few to tell")
	assert.Equal(t, []int{2, 1, 0, 0}, []int{f.Got, f.Sold, f.Lost, f.InStock}, "a donated piece is neither sold nor lost")
	assert.Equal(t, "9.70", text(f.PerHour), "(100 - 10 - 40 - 1.50) ÷ 5")

	assert.Equal(t, kinds.Commissions{Done: 1, InHand: 1, Receipts: 9000, Result: 9000, Hours: big.NewRat(2, 1),
		PerHour: cents(4500)}, r.Clients)
}

func cents(c money.Cents) *money.Cents { return &c }

// Four chairs were listed: waits 20 and 30 and 32 until sold, 17 and still
// here. 30 days: 1 - (2/3)(1/2) = 2/3. Nothing waited 60 days, but the last
// chair that is watched is sold on day 32, so all are by then.
func TestSoldInTime(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, twoKinds, "2026-02"), kinds.Scope{})
	k := of(t, r, "chair")
	assert.Equal(t, 4, k.Listed)
	assert.InDelta(t, 2.0/3, k.Estimate.Within[0].Share, 1e-12)
	assert.InDelta(t, 1, k.Estimate.Within[1].Share, 1e-12)
	assert.True(t, k.Estimate.Within[2].Known)
	f := of(t, r, "table")
	assert.Equal(t, 1, f.Listed, "one not listed is not waited for")
	young := of(t, kinds.Of(testkit.Costed(t, twoKinds, "2026-01"), kinds.Scope{}), "table")
	assert.False(t, young.Estimate.Within[0].Known, "its one table has waited 16 days")
}

// A removed piece is watched up to its removal and says nothing of later days.
func TestRemovedOnesAreCensored(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, `
pieces
piece,kind,got_on,price,listed_on
A,chair,2026-01-01,10,2026-01-01
B,chair,2026-01-01,10,2026-01-01
C,chair,2026-01-01,10,2026-01-01
D,chair,2026-01-01,10,

sales
sold_on,pieces,channel,price
2026-02-05,A,fair,50
2026-02-06,D,fair,50

removals
removed_on,piece,why
2026-01-20,B,kept
`, "2026-03"), kinds.Scope{})
	k := of(t, r, "chair")
	assert.Equal(t, 3, k.Listed)
	assert.Equal(t, 1, r.Unlisted)
	assert.Zero(t, k.Estimate.Within[0].Share, "none within 30 days")
	assert.InDelta(t, 0.5, k.Estimate.Within[1].Share, 1e-12, "on day 35 two were watched, not three")
}

// What is left in the mall: 80 + 60 + 100 - fees 24 - delivery 6 - rent 26.50 - F's
// toll 1.50, over three pieces and 2 + 4 + 5 hours.
func TestChannels(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, twoKinds, "2026-02"), kinds.Scope{})
	require.Len(t, r.Channels, 2)
	for id, want := range map[figures.ID]money.Cents{figures.LineGrossReceipts: 24000, figures.LineFees: 2400,
		figures.LineDelivery: 600, figures.LineExpenses: 2650, figures.LineTrips: 150} {
		var sum money.Cents
		for _, p := range r.Channels[0].Under(id) {
			sum += p.Cents
		}
		assert.Equal(t, want, sum, "the postings under %s", id)
	}
	assert.EqualExportedValues(t, kinds.Channel{Name: "Mall", Sold: 3, Receipts: 24000, Fees: 2400, Delivery: 600,
		Rent:  2650,
		Trips: 150, Left: 18200, Hours: big.NewRat(11, 1), PerPiece: cents(6067), PerHour: cents(1655)}, r.Channels[0])
	assert.Equal(t, "11", r.Channels[0].Hours.RatString())
	fair := r.Channels[1]
	assert.Equal(t, "fair", fair.Name)
	assert.Equal(t, []money.Cents{1200, 1200, 1200}, []money.Cents{fair.Receipts, fair.Left, *fair.PerPiece},
		"the client's sale is in none")
	assert.Nil(t, fair.PerHour)
}

// The scope chooses by the day a piece left, came or was listed; stock is
// always as it stands at the end.
func TestScopes(t *testing.T) {
	l := testkit.Costed(t, twoKinds, "2026-02")
	january, ok := kinds.ParseSeason("jan")
	require.True(t, ok)
	k := of(t, kinds.Of(l, january), "chair")
	assert.Equal(t, []int{4, 1, 0, 1}, []int{k.Got, k.Sold, k.Lost, k.InStock})
	assert.Equal(t, "60.00", k.Result.String())
	assert.False(t, k.Estimate.Ranked)
	assert.Empty(t, kinds.Of(l, kinds.Scope{Year: 2025}).Shop.Judged)
}

// Over the sample, the kinds add up to the shop, and the shop to its pieces,
// its stock and its channels.
func TestSumsMeetTheFigures(t *testing.T) {
	l := testkit.Costed(t, twoKinds, "2026-02")
	r := kinds.Of(l, kinds.Scope{})
	var result, tied, profits, stock money.Cents
	hours := new(big.Rat)
	for _, k := range r.Kinds {
		result, tied = result+k.Result, tied+k.TiedUp
		hours.Add(hours, k.Hours)
	}
	for _, p := range figures.All(l) {
		switch {
		case p.Record.How == "client":
		case p.Status == "in stock":
			stock += p.BookCost
		case p.Status == "sold", p.Status == "scrapped", p.Status == "stolen":
			profits += *p.Profit + p.ReceivedWhenLost
		}
	}
	assert.Equal(t, []money.Cents{profits, profits, stock, stock}, []money.Cents{result, r.Shop.Result, tied,
		r.Shop.TiedUp})
	assert.Zero(t, hours.Cmp(r.Shop.Hours))
}

// The overheads of January and February, 25 + 9 + 3 of tolls, over the hours on
// pieces, the client's too: 37.00 ÷ 17.
func TestUsualShopCosts(t *testing.T) {
	l := testkit.Costed(t, twoKinds, "2026-02")
	c := kinds.CostsOf(l)
	assert.Equal(t, "37.00", c.Overheads.String())
	assert.Equal(t, "17", money.AtMost(c.Hours, 4))
	assert.Equal(t, "2.18", c.AnHour.String())
	r := kinds.Of(l, kinds.Scope{})
	k := of(t, r, "chair")
	assert.Greater(t, k.Estimate.Beats, 0.0)
	cheaper := kinds.Of(testkit.Costed(t, strings.Replace(twoKinds, "rent,booth rent,25", "rent,booth rent,0.01", 1),
		"2026-02"),
		kinds.Scope{})
	assert.Greater(t, of(t, cheaper, "chair").Estimate.Beats, k.Estimate.Beats, "the target is judged after shop costs")
	none := kinds.CostsOf(testkit.Costed(t, "pieces\npiece,kind,got_on,price\nA,chair,2026-01-01,5", "2026-01"))
	assert.False(t, none.Known)
	assert.Zero(t, none.AnHour)
}

// Pieces scrapped before any work count with their loss: five that brought
// 20 an hour in 5 hours each, and three that cost 80 each, are (500 - 240) ÷ 25.
func TestUnworkedFailuresCount(t *testing.T) {
	var pieces [][4]any
	for range 5 {
		pieces = append(pieces, [4]any{"chair", 10, 110, 5})
	}
	words := shop(pieces...)
	words = strings.Replace(words, "\n\nhours",
		"\nX,chair,2026-01-01,80\nY,chair,2026-01-01,80\nZ,chair,2026-01-01,80\n\nhours", 1)
	words += "\n\nremovals\nremoved_on,piece,why\n2026-01-20,X,scrapped\n2026-01-20,Y,scrapped\n2026-01-21,Z,scrapped\n"
	k := of(t, kinds.Of(testkit.Costed(t, words, "2026-01"), kinds.Scope{}), "chair")
	assert.Equal(t, "10.40", text(k.PerHour))
	assert.Equal(t, 8, k.Timed)
	assert.Equal(t, 8, k.Estimate.Sales)
}

// A month that has only sales is looked at, one after a gap is not.
func TestThrough(t *testing.T) {
	l := testkit.Costed(t, twoKinds, "2026-02")
	assert.Equal(t, "2026-02", kinds.Through(l.Books, calendar.MonthOf(2026, 1)).String())
	assert.Equal(t, "2025-11", kinds.Through(l.Books, calendar.MonthOf(2025, 11)).String())
}

// The chances to be best add up to one, and the contenders are the fewest that
// hold nine tenths of it.
func TestContenders(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, shop([4]any{"desk", 40, 90, 2}, [4]any{"desk", 40, 95, 2}, [4]any{"desk", 40, 120, 3},
		[4]any{"chair", 5, 25, 2},
		[4]any{"chair", 5, 35, 2}, [4]any{"chair", 5, 15, 2}, [4]any{"stool", 5, 60, 2}), "2026-01"), kinds.Scope{})
	var sum float64
	for _, k := range r.Kinds {
		sum += k.Estimate.Best
		assert.False(t, math.IsNaN(k.Estimate.Next.Low))
		assert.LessOrEqual(t, k.Estimate.Next.Low, k.Estimate.NextFive.Low)
		assert.GreaterOrEqual(t, k.Estimate.Next.High, k.Estimate.NextFive.High)
	}
	assert.InDelta(t, 1, sum, 1e-9)
	contenders := r.Contenders()
	require.NotEmpty(t, contenders)
	held := 0.0
	for _, k := range contenders {
		held += k.Estimate.Best
	}
	assert.GreaterOrEqual(t, held, kinds.Level)
	assert.Less(t, held-contenders[len(contenders)-1].Estimate.Best, kinds.Level)
}
