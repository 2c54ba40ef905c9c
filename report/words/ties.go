package words

import (
	"fmt"

	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
)

// against is what each reconciliation is compared with, where that is no line of
// a form.
var against = map[string]string{
	figures.TiePieces:    "the book costs of the pieces in stock",
	figures.TieShelf:     "what is left on the shelf, purchase by purchase",
	figures.TieBought:    "paid for supplies over all time, by the records",
	figures.TieSalesTax:  "sales tax owed at the end",
	figures.TieProfit:    "net profit by the statement",
	taxyear.TieMonths:    "the year's net profit less depreciation",
	taxyear.TieChannels:  "receipts less refunds by the statement",
	taxyear.TieGone:      "pieces kept, donated and lost by the statement",
	taxyear.TieEquipment: "what the lines took",
}

// Against is what a reconciliation's total is compared with.
func Against(t figures.Tie) string {
	switch {
	case t.Line != "":
		return "line " + t.Line
	case t.Name == taxyear.TieCost:
		return fmt.Sprintf("cost of pieces sold %s + shelf losses %s + pieces lost %s", t.Parts[0].Cents.Grouped(),
			t.Parts[1].Cents.Grouped(), t.Parts[2].Cents.Grouped())
	}
	return against[t.Name]
}
