package month

import (
	"fmt"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// ageBands are the days in stock that money tied up is told by: up to and with
// the first, then the second, ...; over the last.
var ageBands = []int{30, 90, 180, 365}

// tiedUpByAge is the book cost of the shop's own pieces by how long they have
// been there; its total is that of the table of pieces in stock.
func tiedUpByAge(in *report.Input, own []figures.Piece) page.Block {
	cost := make([]money.Cents, len(ageBands)+1)
	pieces := make([]int, len(ageBands)+1)
	var sum money.Cents
	for _, p := range own {
		i := 0
		for i < len(ageBands) && in.Age(p) > ageBands[i] {
			i++
		}
		cost[i] += p.BookCost
		pieces[i]++
		sum += p.BookCost
	}
	bars := page.Bars{Caption: "Money tied up, by days in stock", Heads: [2]string{"Days, pieces", "Book cost"}, Span: 5}
	from := 0
	for i, c := range cost {
		days := fmt.Sprintf("over %d", ageBands[len(ageBands)-1])
		if i < len(ageBands) {
			days = fmt.Sprintf("%d to %d", from, ageBands[i])
			from = ageBands[i] + 1
		}
		bars.Rows = append(bars.Rows, page.Bar{Label: days + ", " + words.Plural(pieces[i], "piece", "pieces"), Figure: cells.Money(c), Pale: true})
	}
	bars.Rows = append(bars.Rows, page.Bar{Label: words.Plural(len(own), "piece in stock", "pieces in stock"), Figure: cells.Money(sum), Style: page.Total})
	return bars
}
