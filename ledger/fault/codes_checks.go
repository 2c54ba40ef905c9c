package fault

// The codes of the checks across tables: first the errors, then the notes.
var (
	CodeBeforeItCame      = checks("before-it-came", "a use, removal, sale, return or refund dated before the piece came")
	CodeSoldTwice         = checks("sold-twice", "a sale of a piece that was sold already and had not come back")
	CodeReturnNotSold     = checks("return-not-sold", "a return of a piece that was not sold")
	CodeSaleOfRemoved     = checks("sale-of-removed", "a sale or part payment of a piece after its removal")
	CodeRemovedAfterSale  = checks("removed-after-sale", "a removal of a piece that was sold and had not come back")
	CodeRemovedTwice      = checks("removed-twice", "a second removal of a piece")
	CodeRemovalDoesNotFit = checks("removal-does-not-fit",
		"given back for a piece that is not a client's, or returned to seller for one that is")
	CodeRefundAbovePaid = checks("refund-above-paid", "more given back for a piece than was paid for it by then")
	CodeCountsDiffer    = checks("counts-differ", "two counts of one supply on one day that do not agree")
	CodeChannelTwice    = checks("channel-twice", "two lines of one channel from one date")

	CodeAfterItLeft = checks("after-it-left",
		"a cost, use, trip or hours in a later month than the piece left in, or work and parts after the day it left")
	CodeLongBeforeItCame = checks("long-before-it-came",
		"a part payment, part, trip or hours over 60 days before the piece came")
	CodeSupplyNeverBought = checks("supply-never-bought",
		"a supply that is used but was never bought and has no opening")
	CodeSupplyIdle    = checks("supply-idle", "a supply bought and for three months neither used nor counted")
	CodeSameLineTwice = checks("same-line-twice", "the same line twice in one table")
	CodePriceTwice    = checks("price-twice",
		"a line of expenses or parts is what a piece was bought for, which Pieces has already")
	CodeDateAhead       = checks("date-ahead", "a date after the last month that has records of two tables")
	CodeDatesOutOfOrder = checks("dates-out-of-order",
		"got, started, finished and listed dates of a piece out of order")
	CodePriceFarFromKind = checks("price-far-from-kind",
		"a sale price over four times or under a quarter of its kind's median")
	CodeLotWorthMissing  = checks("lot-worth-missing", "a lot where only some pieces have a worth")
	CodeSetSharedEqually = checks("set-shared-equally",
		"a line of several pieces shared equally for want of asking prices and worths")
	CodeFuelAndMiles      = checks("fuel-and-miles", "fuel among the expenses of a year in which miles are claimed")
	CodeForeignMileage    = checks("foreign-mileage", "trips cost by the mileage rate of a country with other money")
	CodeSoldWithoutHours  = checks("sold-without-hours", "a sold piece that no hours were written for")
	CodeSoldForNothing    = checks("sold-for-nothing", "a sale at 0.00 that no part payment came before")
	CodeNoFeeWorkedOut    = checks("no-fee-worked-out", "a sale whose fee is blank on a channel without terms")
	CodeRentNotInExpenses = checks("rent-not-in-expenses", "rent withheld from a payout that is no Expenses line")
	CodeRentInNoChannel   = checks("rent-in-no-channel", "the rent of a booth names no channel")
	CodeBalanceOrWhole    = checks("balance-or-whole-price",
		"a sale after part payments where both together pass the asking price")
	CodeExpenseMissing = checks("expense-missing",
		"an expense that came in each of the three months before and not in this one")
	CodeYearEarlier = checks("year-earlier",
		"a day in an earlier year than the rows around it, or long before the books begin")
	CodeAmountDoubtful = checks("amount-doubtful",
		"a cost, tax, fee, distance or expense far from what is usual, or above what its own row allows")
)

// ChecksCatalogue says in a line what each code of the checks across tables
// means.
var ChecksCatalogue = catalogue{}

func checks(name, meaning string) Code { return ChecksCatalogue.code(name, meaning) }
