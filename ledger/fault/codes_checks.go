package fault

// The codes of the checks across tables: first the errors, then the notes.
const (
	CodeBeforeItCame      Code = "before-it-came"
	CodeSoldTwice         Code = "sold-twice"
	CodeReturnNotSold     Code = "return-not-sold"
	CodeSaleOfRemoved     Code = "sale-of-removed"
	CodeRemovedAfterSale  Code = "removed-after-sale"
	CodeRemovedTwice      Code = "removed-twice"
	CodeRemovalDoesNotFit Code = "removal-does-not-fit"
	CodeRefundAbovePaid   Code = "refund-above-paid"
	CodeCountsDiffer      Code = "counts-differ"
	CodeChannelTwice      Code = "channel-twice"

	CodeAfterItLeft       Code = "after-it-left"
	CodeLongBeforeItCame  Code = "long-before-it-came"
	CodeSupplyNeverBought Code = "supply-never-bought"
	CodeSupplyIdle        Code = "supply-idle"
	CodeSameLineTwice     Code = "same-line-twice"
	CodeDateAhead         Code = "date-ahead"
	CodeDatesOutOfOrder   Code = "dates-out-of-order"
	CodePriceFarFromKind  Code = "price-far-from-kind"
	CodeLotWorthMissing   Code = "lot-worth-missing"
	CodeSetSharedEqually  Code = "set-shared-equally"
	CodeFuelAndMiles      Code = "fuel-and-miles"
	CodeSoldWithoutHours  Code = "sold-without-hours"
	CodeSoldForNothing    Code = "sold-for-nothing"
	CodeNoFeeWorkedOut    Code = "no-fee-worked-out"
	CodeRentNotInExpenses Code = "rent-not-in-expenses"
	CodeRentInNoChannel   Code = "rent-in-no-channel"
	CodeBalanceOrWhole    Code = "balance-or-whole-price"
	CodeExpenseMissing    Code = "expense-missing"
	CodeYearEarlier       Code = "year-earlier"
	CodeAmountDoubtful    Code = "amount-doubtful"
)

// ChecksCatalogue says in a line what each code of the checks across tables
// means.
var ChecksCatalogue = map[Code]string{
	CodeBeforeItCame:      "a use, removal, sale, return or refund dated before the piece came",
	CodeSoldTwice:         "a sale of a piece that was sold already and had not come back",
	CodeReturnNotSold:     "a return of a piece that was not sold",
	CodeSaleOfRemoved:     "a sale or part payment of a piece after its removal",
	CodeRemovedAfterSale:  "a removal of a piece that was sold and had not come back",
	CodeRemovedTwice:      "a second removal of a piece",
	CodeRemovalDoesNotFit: "given back for a piece that is not a client's, or returned to seller for one that is",
	CodeRefundAbovePaid:   "more given back for a piece than was paid for it by then",
	CodeCountsDiffer:      "two counts of one supply on one day that do not agree",
	CodeChannelTwice:      "two lines of one channel from one date",

	CodeAfterItLeft: "a cost, use, trip or hours in a later month than the piece left in, or work and parts after " +
		"the day it left",
	CodeLongBeforeItCame:  "a part payment, part, trip or hours over 60 days before the piece came",
	CodeSupplyNeverBought: "a supply that is used but was never bought and has no opening",
	CodeSupplyIdle:        "a supply bought and for three months neither used nor counted",
	CodeSameLineTwice:     "the same line twice in one table",
	CodeDateAhead:         "a date after the last month that has records of two tables",
	CodeDatesOutOfOrder:   "got, started, finished and listed dates of a piece out of order",
	CodePriceFarFromKind:  "a sale price over four times or under a quarter of its kind's median",
	CodeLotWorthMissing:   "a lot where only some pieces have a worth",
	CodeSetSharedEqually:  "a line of several pieces shared equally for want of asking prices and worths",
	CodeFuelAndMiles:      "fuel among the expenses of a year in which miles are claimed",
	CodeSoldWithoutHours:  "a sold piece that no hours were written for",
	CodeSoldForNothing:    "a sale at 0.00 that no part payment came before",
	CodeNoFeeWorkedOut:    "a sale whose fee is blank on a channel without terms",
	CodeRentNotInExpenses: "rent withheld from a payout that is no Expenses line",
	CodeRentInNoChannel:   "the rent of a booth names no channel",
	CodeBalanceOrWhole:    "a sale after part payments where both together pass the asking price",
	CodeExpenseMissing:    "an expense that came in each of the three months before and not in this one",
	CodeAmountDoubtful: "a cost, tax, fee, distance or expense far from what is usual, or above what its own row " +
		"allows",
	CodeYearEarlier: "a day in an earlier year than the rows around it, or long before the books begin",
}
