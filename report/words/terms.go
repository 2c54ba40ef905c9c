package words

import "piecebook/ledger/figures"

// terms is what the terms of reconciliations are called, where they are a
// figure or a difference of the ledger.
var terms = map[string]map[figures.ID]string{
	figures.TiePieces: {
		figures.LineOpening: "Opening", figures.LineAcquired: "Acquired", figures.LineParts: "Parts",
		figures.LineOutsideWork: "Outside work", figures.LineSupplies: "Supplies", figures.LineReturned: "Returned",
		figures.LineSold: "Sold", figures.LineRemoved: "Removed",
	},
	figures.TieShelf: {
		figures.LineOpening: "Opening", figures.LineBought: "Bought", figures.LineUsed: "Put into pieces",
		figures.LineLost: "Lost",
	},
	figures.TieBought: {
		figures.TermInStock: "In pieces in stock", figures.TermInLeft: "In pieces that have left",
		figures.TermOnShelf: "On the shelf", figures.LineShelfLosses: "Shelf losses",
	},
	figures.TieSalesTax: {
		figures.TermCollected: "Collected, over all time", figures.TermRefunded: "Refunded",
		figures.TermPaidOver: "Paid over", figures.TermKeptTax: "Kept as allowance",
	},
	figures.TieProfit: {
		figures.TermProfits:        "Profits of the pieces sold",
		figures.TermReceiptsOther:  "Their receipts of other months",
		figures.LineUnfinished:     "Part payments on unfinished work",
		figures.TermRefundsOthers:  "Refunds and returns on other pieces",
		figures.TermReceiptsOthers: "Other receipts on other pieces",
		figures.TermCostOther:      "Cost of theirs charged in other months (sold before, returned, sold again)",
		figures.LineCameBack:       "Cost of pieces that came back",
		figures.LineLateCost:       "Late costs of pieces sold before",
		figures.LineSoldCost:       "Cost of other pieces sold and returned again",
		figures.TermSellingOther:   "Their selling costs of other months",
		figures.TermSellingOthers:  "Selling costs of other pieces",
		figures.TermTripsOther:     "Their trips of other months",
		figures.TermTripsOthers:    "Trips for other pieces",
		figures.LineShopExpenses:   "Expenses without a piece",
		figures.LineShopTrips:      "Trips without a piece",
		figures.LineEquipment:      "Equipment written off at once",
		figures.LineShelfLosses:    "Shelf losses",
		figures.LinePiecesLost:     "Pieces lost",
		figures.LineOtherIncome:    "Other income",
		figures.TermCorrections:    "Corrections to closed months",
	},
}

// Term is what a term of a reconciliation is called.
func Term(tie string, t figures.Term) string {
	if t.Label != "" {
		return Capital(t.Label)
	}
	return terms[tie][t.ID]
}
