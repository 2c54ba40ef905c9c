package costing_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
)

// Published worked examples put through real books. Each names its source.

// unitShelf is a shelf of one-each containers with the given opening,
// purchases, measured uses and counts.
func unitShelf(rest string) string {
	return `
pieces
piece,kind,got_on,how,area
work,bench,2025-01-01,free,10

supplies
supply,group,container,coverage
Unit,other,1 each,1
` + rest
}

// First-in first-out by measured uses: OpenStax, Principles of Accounting 1,
// 10.2 and 10.3 (tracking devices): FIFO cost 7,200, ending 8,955.
func TestFirstInFirstOutByMeasuredUses(t *testing.T) {
	l := testkit.Costed(t, unitShelf(`
openings
on,supply,amount,cost,deducted
2025-01-01,Unit,150,3150,no

purchases
bought_on,supply,containers,cost
2025-02-01,Unit,225,6075
2025-03-01,Unit,210,6930

uses
used_on,pieces,supply,amount
2025-01-15,work,Unit,120
2025-02-15,work,Unit,180
`), "2025-03")
	assert.Equal(t, "7200.00", piece(t, l, "work", "2025-03").Supplies.String())
	end := shelf(t, l, "Unit", "2025-03")
	assert.Equal(t, "8955.00", end.Closing.String())
	assert.Equal(t, "285", money.AtMost(end.Left, 4))
	testkit.Tied(t, l)
}

// First-in first-out by one count: Accounting Principles: A Business
// Perspective, pp. 291-293, Exhibits 51-56: 80 units for 690.00, 20 left:
// FIFO ending 179.00, cost 511.00.
func TestFirstInFirstOutByACount(t *testing.T) {
	l := testkit.Costed(t, unitShelf(`
openings
on,supply,amount,cost,deducted
2025-01-01,Unit,10,80,no

purchases
bought_on,supply,containers,cost
2025-03-02,Unit,10,85
2025-05-28,Unit,20,168
2025-08-12,Unit,10,90
2025-10-12,Unit,20,176
2025-12-21,Unit,10,91

uses
used_on,pieces,supply
2025-11-15,work,Unit

counts
counted_on,supply,left
2025-12-31,Unit,20
`), "2025-12")
	assert.Equal(t, "511.00", piece(t, l, "work", "2025-12").Supplies.String())
	assert.Equal(t, "179.00", shelf(t, l, "Unit", "2025-12").Closing.String())
	testkit.Tied(t, l)
}

// OpenStax, Principles of Accounting 1, 10.3, exercise inputs (results worked
// out exactly): 240 @ 100, 520 @ 103, 400 @ 110, 230 left: FIFO ending 25,300.
func TestFirstInFirstOutExercise(t *testing.T) {
	l := testkit.Costed(t, unitShelf(`
openings
on,supply,amount,cost,deducted
2025-01-01,Unit,240,24000,no

purchases
bought_on,supply,containers,cost
2025-02-01,Unit,520,53560
2025-03-01,Unit,400,44000

uses
used_on,pieces,supply,amount
2025-01-15,work,Unit,160
2025-02-15,work,Unit,400
2025-03-15,work,Unit,370
`), "2025-03")
	assert.Equal(t, "96260.00", piece(t, l, "work", "2025-03").Supplies.String())
	assert.Equal(t, "25300.00", shelf(t, l, "Unit", "2025-03").Closing.String())
}

// Periodic cost-of-sales roll-forwards. Amounts in the books are units at
// 1.00, so that the count can be typed as money.
func TestCostOfSalesRollForwards(t *testing.T) {
	for _, c := range []struct {
		source                                                   string
		opening, purchases, returns, discounts, freight, closing int64
		want                                                     int64
	}{
		{"Accounting Principles: A Business Perspective, p. 250, Exhibit 38", 24000, 167000, 8000, 3000, 10000, 31000, 159000},
		{"textbook exercise, answer page, case 1", 1400, 6230, 470, 200, 150, 1890, 5220},
		{"Saylor, Managerial Accounting, Fig. 1.9", 350000, 260000, 0, 0, 0, 320000, 290000},
		{"Saylor, Financial Accounting 8.3", 780, 1300, 0, 0, 0, 260, 1820},
		{"OpenStax, Principles of Accounting 1, 10.1", 350, 140, 0, 0, 0, 126, 364},
		{"OpenStax, Managerial Accounting 4.3", 400, 1000, 0, 0, 0, 500, 900},
	} {
		back := ""
		if c.returns > 0 {
			back = fmt.Sprintf("2025-01-20,Unit,-%d,-%d\n", c.returns, c.returns)
		}
		net := c.purchases - c.discounts + c.freight
		l := testkit.Costed(t, unitShelf(fmt.Sprintf(`
openings
on,supply,amount,cost,deducted
2025-01-01,Unit,%d,%d,no

purchases
bought_on,supply,containers,cost
2025-01-10,Unit,%d,%d
%s

uses
used_on,pieces,supply
2025-01-15,work,Unit

counts
counted_on,supply,left
2025-01-31,Unit,%d
`, c.opening, c.opening, net, net, back, c.closing)), "2025-01")
		line := shelf(t, l, "Unit", "2025-01")
		assert.Equal(t, money.Cents(c.want*100), line.Used, c.source)
		assert.Equal(t, money.Cents(c.closing*100), line.Closing, c.source)
		testkit.Tied(t, l)
	}
}

// A refinished dresser: OpenStax, Managerial Accounting, ch. 4 opening story:
// bought 65, materials 25, so 90 before labour; at 100 two hours earn 10.
func TestRefinishedDresser(t *testing.T) {
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,price,sold_on,sold_price,hours
first,dresser,2025-01-05,35,,,2
second,dresser,2025-01-05,65,2025-01-25,100,2

parts
bought_on,pieces,what,cost
2025-01-06,first,materials,25
2025-01-06,second,materials,25
`, "2025-01")
	second := piece(t, l, "second", "2025-01")
	assert.Equal(t, "90.00", second.BookCost.String())
	assert.Equal(t, "10.00", second.Profit.String())
	assert.Equal(t, "5.00", second.ProfitPerHour.String())
	assert.Equal(t, "35.00", second.SoldLessBought.String())
	assert.Equal(t, "60.00", piece(t, l, "first", "2025-01").BookCost.String())
	assert.Nil(t, piece(t, l, "first", "2025-01").Profit)
	testkit.Tied(t, l)
}

// A job cost sheet: OpenStax, Managerial Accounting 4.2-4.5 (sign shop):
// materials 700, labour 66, overhead at 2.50 a labour dollar 165: 931, sold
// for 2,000. Paid labour stands here as outside work, and a labour dollar as
// an hour, so that the pool of 250,000 over 100,000 gives the same rate. (The
// captions of two pictures there have slips; the text's figures are used.)
func TestJobCostSheet(t *testing.T) {
	hours := ""
	for range 4 {
		hours += "2025-01-10,job,16.5\n"
	}
	// The other 99,934 hours of the base, in lines of at most 24.
	for left := 99934; left > 0; left -= 24 {
		hours += fmt.Sprintf("2025-01-11,rest,%d\n", min(24, left))
	}
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,how
job,sign,2025-01-05,free
rest,sign,2025-01-05,free

parts
bought_on,pieces,what,cost,type
2025-01-06,job,vinyl,300,part
2025-01-06,job,"black ink, 2 at 50",100,part
2025-01-06,job,red ink,60,part
2025-01-06,job,gold ink,60,part
2025-01-06,job,"grommets, 12 at 10",120,part
2025-01-06,job,"framing wood, 40 at 1.50",60,part
2025-01-07,job,"labour, 2 h at 15 and 2 h at 18",66,outside work

expenses
paid_on,what,group,amount
2025-01-31,overhead of the shop,other,250000

sales
sold_on,pieces,channel,price
2025-01-31,job,direct,2000

hours
worked_on,pieces,hours
`+hours, "2025-01")
	job := piece(t, l, "job", "2025-01")
	assert.Equal(t, "700.00", job.Parts.String())
	assert.Equal(t, "66.00", job.OutsideWork.String())
	assert.Equal(t, "165.00", job.Overhead.String())
	assert.Equal(t, "931.00", (job.BookCost + job.Overhead).String())
	assert.Equal(t, "1069.00", job.ProfitAfterOverhead.String())
	testkit.Tied(t, l)
}

// The furniture maker's job 50: Saylor, Managerial Accounting, Figs. 2.2-2.6:
// cherry 240 and mahogany 130 = 370; labour 90 + 180 overhead at 30 an hour
// for 6 hours; job to date 640. The overhead pool is 1,140,000 over 38,000 h.
func TestFurnitureMakersJob(t *testing.T) {
	hours := "2025-05-10,job 50,6\n"
	for left := 37994; left > 0; left -= 24 {
		hours += fmt.Sprintf("2025-05-11,rest,%d\n", min(24, left))
	}
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,how
job 50,dining table,2025-05-01,free
rest,dining table,2025-05-01,free

parts
bought_on,pieces,what,cost,type
2025-05-02,job 50,"40 ft cherry",240,part
2025-05-02,job 50,"25 ft mahogany trim",130,part
2025-05-10,job 50,"labour, 6 h at 15",90,outside work

expenses
paid_on,what,group,amount
2025-05-31,overhead,other,1140000

hours
worked_on,pieces,hours
`+hours, "2025-05")
	job := piece(t, l, "job 50", "2025-05")
	assert.Equal(t, "370.00", job.Parts.String())
	assert.Equal(t, "180.00", job.Overhead.String())
	assert.Equal(t, "640.00", (job.BookCost + job.Overhead).String())
}

// Work-in-process roll-forward: OpenStax, Managerial Accounting 2.1: 75,000 +
// (15,000 + 25,000 + 23,000) - 43,000 = 95,000 finished. Here opening pieces
// at 75,000; parts, outside work and new pieces of the month; 43,000 stays.
func TestPiecesRollForward(t *testing.T) {
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,price
old,desk,2025-01-05,75000
new,desk,2025-02-05,15000

parts
bought_on,pieces,what,cost,type
2025-02-06,old,labour,20000,outside work
2025-02-06,new,labour,5000,outside work
2025-02-07,new,overhead,23000,part

sales
sold_on,pieces,channel,price
2025-02-20,old,direct,120000
`, "2025-02")
	m := month(t, "2025-02")
	s := figures.For(l, m, m).Stock
	assert.Equal(t, "75000.00", s.Opening.String())
	assert.Equal(t, "95000.00", s.Sold.String())
	assert.Equal(t, "43000.00", s.Closing.String())
	testkit.Tied(t, l)
}

// The business mileage rate changed in the middle of 2022, 58.5 to 62.5 cents
// (IRS announcement of June 2022, by two secondary pages), and 2015-2020 are
// in the IRS rate table; 2026 is 72.5 (IRS Notice 2026-10).
func TestMileageByDate(t *testing.T) {
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,how
A,desk,2016-01-01,free

trips
on,miles,purpose,pieces
2016-06-30,100,pick up,A
2020-06-30,100,pick up,A
2022-06-30,100,pick up,A
2022-07-01,100,pick up,A
2024-12-31,100,pick up,A
2025-01-01,100,pick up,A
2026-01-01,100,pick up,A
2026-02-01,10.3,pick up,A
`, "2026-02")
	for m, want := range map[string]string{"2016-06": "54.00", "2020-06": "57.50", "2022-06": "58.50", "2022-07": "62.50",
		"2024-12": "67.00", "2025-01": "70.00", "2026-01": "72.50",
		"2026-02": "7.47"} { // 10.3 × 0.725 = 7.4675
		x := month(t, m)
		assert.Equal(t, want, figures.For(l, x, x).Statement.Trips.String(), m)
	}
	testkit.Tied(t, l)
}
