package words

import (
	"fmt"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
)

// terms is what the terms of reconciliations are called; %s is the month or the
// channel that a term is of.
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
	taxyear.TieCost: {
		figures.LineOpeningStock:   "pieces in stock and the shelf at the start",
		figures.LineAcquired:       "pieces acquired",
		figures.LineKept:           "pieces kept or donated, at their whole book cost",
		figures.LineSuppliesBought: "supplies bought", figures.LineParts: "parts",
		figures.LineOutsideWork:  "outside work",
		figures.LineClosingStock: "pieces in stock and the shelf at the end",
	},
	taxyear.TieMonths: {figures.LineNetProfit: "net profit of %s", figures.LineDepreciation: "depreciation"},
	taxyear.TieLines: {
		figures.LineNetProfit: "net profit of the months together", figures.LineDepreciation: "depreciation",
		taxyear.TermNotStaying: "supplies that do not stay, as they stand in the cost of pieces sold and lost and in " +
			"shelf losses",
		figures.LineSuppliesUsed: "supplies that do not stay, when they left the shelf",
	},
	taxyear.TieGross: {
		figures.LineGrossProfit: "gross profit by the statement",
		figures.LineShelfLosses: "less: shelf losses, which the statement has below it",
		figures.LinePiecesLost:  "less: pieces lost, which it has below it",
		taxyear.TermNotStaying:  "supplies that do not stay, which the form has among expenses",
	},
	taxyear.TieStock: {
		taxyear.TermPieces: "pieces in stock", taxyear.TermClients: "work on clients' pieces",
		taxyear.TermShelf: "the shelf",
	},
	taxyear.TieOpening: {
		taxyear.TermPieces: "pieces in stock when the year began", taxyear.TermShelf: "the shelf when the year began",
	},
	taxyear.TieChannels: {
		taxyear.TermReceived: "%s, received", taxyear.TermGivenBack: "%s, given back",
		figures.TermCorrections: earlierYears,
	},
	taxyear.TieMileage: {
		taxyear.TermDistance: "distance at the rates, trip by trip", taxyear.TermTolls: "tolls",
		figures.TermCorrections: earlierYears,
	},
	taxyear.TieGone: {taxyear.TermGone: "%s", figures.TermCorrections: earlierYears},
	taxyear.TieEquipment: {
		figures.LineAtOnce: "written off at once within the limit", figures.LineAboveLimit: "written off at once above it",
		figures.LineDepreciation: "this year's part of what is written off over years",
		figures.TermCorrections:  earlierYears,
	},
	taxyear.RollReported: {
		taxyear.TermReported: "Reported by the channel", taxyear.TermPrices: "less: prices of the recorded sales",
		taxyear.TermDelivery:        "less: delivery charged",
		taxyear.TermTaxReported:     "less: sales tax collected, in the reported total",
		taxyear.TermMarketplaceTax:  "less: marketplace tax, in the reported total",
		taxyear.TermDeliveryLeftOut: "add: delivery charged, not in the reported total",
		taxyear.TermRefundsOff:      "add: refunds and returns, already taken off the reported total",
		taxyear.TermFeesOff:         "add: fees, already taken off the reported total",
	},
	taxyear.RollSalesTax: {
		figures.LineOpening: "Owed when the year began", figures.TermCollected: "Collected from buyers",
		figures.TermRefunded: "less: given back to buyers", figures.TermPaidOver: "less: paid over",
		figures.TermKeptTax: "less: kept as the state's allowance, which is other income",
	},
}

const earlierYears = "corrections to closed months of earlier years"

// Term is what a term of a reconciliation, or of a roll of terms, is called.
func Term(tie string, t figures.Term) string {
	text := terms[tie][t.ID]
	if !strings.Contains(text, "%s") {
		return text
	}
	if tie == taxyear.TieChannels {
		t.Of = Channel(t.Of)
	}
	return fmt.Sprintf(text, t.Of)
}
