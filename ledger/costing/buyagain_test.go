package costing_test

import (
	"testing"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/words"
	"piecebook/templates"
)

const boughtAgain = `
pieces
piece,kind,got_on,price,area,sold_on,channel,sold_price
A,chair,2026-01-01,10,20,2026-01-30,fair,100
B,chair,2026-01-01,10,20,2026-01-30,fair,100
C,chair,2026-01-01,10,20,,,

supplies
supply,group,container,coverage
Primer,primer,1 qt,80

purchases
bought_on,supply,containers,cost
2026-01-02,Primer,2,40
2026-03-02,Primer,1,24

uses
used_on,pieces,supply
2026-01-05,A,Primer
2026-01-05,B,Primer
2026-01-05,C,Primer
`

// By hand: by the label January's 60 sq ft took 0.75 of a can of 20.00, 15.00,
// 5.00 each. Bought again in March, the two cans had half a can left, so 60 sq ft
// took 1.5; with the label as one can more a can does (60 + 80) ÷ 2.5 = 56. So
// January took 60 ÷ 56 cans, a third of a can more: round(40.00 × 60 ÷ 112) =
// 21.43; 7.15, 7.14, 7.14. A and B have left: 4.29 is reported in one line.
func TestBoughtAgainByHand(t *testing.T) {
	l := testkit.Costed(t, boughtAgain, "2026-03")
	january, march := shelf(t, l, "Primer", "2026-01"), shelf(t, l, "Primer", "2026-03")
	assert.Equal(t, ledger.Stated, january.Basis)
	assert.Equal(t, ledger.FromBuying, march.Basis)
	assert.Equal(t, "56", march.Again.RatString())
	assert.Equal(t, "6.43", march.Used.String())
	assert.Equal(t, "42.57", march.Closing.String())
	var ways []string
	for _, p := range l.Postings() {
		if p.Reason == ledger.ReasonBoughtAgain {
			ways = append(ways, p.Piece+" "+p.Cents.String()+": "+words.How(p))
		}
	}
	assert.Equal(t, []string{
		"A 2.15: Primer: bought again, so by the fresh estimate its uses before this month cost 7.15, 5.00 was charged for them",
		"B 2.14: Primer: bought again, so by the fresh estimate its uses before this month cost 7.14, 5.00 was charged for them",
		"C 2.14: Primer: bought again, so by the fresh estimate its uses before this month cost 7.14, 5.00 was " +
			"charged for them"}, ways)
	assert.Equal(t, ledger.FromBuying, piece(t, l, "A", "2026-03").Shares[0].Basis, "January's share, as it stands now")
	assert.Equal(t, ledger.Stated, piece(t, l, "A", "2026-02").Shares[0].Basis)
	var late []fault.Problem
	for _, n := range l.Problems.Notes() {
		if n.Code == fault.LateCost {
			late = append(late, n)
		}
	}
	require.Len(t, late, 1)
	assert.Equal(t, int64(429), late[0].MoneyCents)
	assert.True(t, late[0].AsksNothing)
}

// A count afterwards shares the same span again, less all that was charged in
// it: one can is left of three, so 2 cans took 40.00, and 18.57 is still to come.
func TestCountAfterBuyingAgain(t *testing.T) {
	l := testkit.Costed(t, boughtAgain+`
counts
counted_on,supply,left
2026-04-30,Primer,1
`, "2026-04")
	april := shelf(t, l, "Primer", "2026-04")
	assert.Equal(t, ledger.Counted, april.Basis)
	assert.Equal(t, "18.57", april.Used.String())
	assert.Equal(t, "24.00", april.Closing.String())
	assert.Nil(t, april.Again)
	assert.Equal(t, money.Cents(1334), piece(t, l, "A", "2026-04").Supplies)
}

// What went back of the last cans is there once the span is estimated again,
// though the estimates had used it up, and is refused where they are not from
// buying again. By hand: before February's cans 150 sq ft took all three by the
// label; (150 + 50) ÷ 3.5 = 57.14 a can says 2.625, and 2.275 for February's 130
// sq ft, so 4.9 of 5 against 5: less than a quarter apart, so nothing is moved.
// When 1.5 go back, 3.5 were had: January's 2.625, and the rest is February's.
func TestTakenBackFindsBuyingAgain(t *testing.T) {
	text := `
pieces
piece,kind,got_on,price,area
A,table,2026-01-01,10,150

supplies
supply,group,container,coverage
Primer,primer,1 qt,50

purchases
bought_on,supply,containers,cost
2026-01-02,Primer,3,60
2026-02-20,Primer,2,48
2026-03-05,Primer,-1.5,-30

uses
used_on,pieces,supply,area
2026-01-05,A,Primer,
2026-02-25,A,Primer,130
`
	l := testkit.Costed(t, text, "2026-03")
	assert.Zero(t, shelf(t, l, "Primer", "2026-02").Left.Sign())
	march := shelf(t, l, "Primer", "2026-03")
	assert.Equal(t, ledger.FromBuying, march.Basis)
	assert.Zero(t, march.Left.Sign())
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(bookgen.InWords("settings\ncoverage = \"stated\"\n"+text), set)
	require.Empty(t, read.Problems.Errors())
	stated := costing.Run(&read.Books, month(t, "2026-03"))
	errors := stated.Problems.Errors()
	require.Len(t, errors, 1)
	assert.Equal(t, fault.TakenBackMore, errors[0].Code)
	assert.Contains(t, errors[0].Fix, "Count Primer at the end of March 2026")
}

// TestTakenBackSaysGainOrLoss: what went back for less than the shelf held it at is a
// loss, for more a gain. Each can cost 15.
func TestTakenBackSaysGainOrLoss(t *testing.T) {
	for refund, want := range map[string]ledger.Reason{"-12": ledger.ReasonTakeBackLoss,
		"-18": ledger.ReasonTakeBackGain} {
		l := testkit.Costed(t, oneChair+"supplies\nsupply,group,container,coverage\nPrimer,primer,1 qt,20\n\n"+
			"purchases\nbought_on,supply,containers,cost\n2026-01-06,Primer,2,30\n2026-01-10,Primer,-1,"+refund+"\n", "2026-01")
		var got []ledger.Reason
		for _, p := range l.Postings() {
			if p.How.Method == ledger.SentBackLoss {
				got = append(got, p.Reason)
			}
		}
		assert.Equal(t, []ledger.Reason{want}, got, refund)
	}
}
