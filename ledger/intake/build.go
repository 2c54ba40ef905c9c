package intake

import (
	"fmt"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// build turns records into Books, what is referred to before what refers.
func (r *reading) build() {
	r.books.Settings = r.settings
	r.claimNames()
	r.books.Supplies = append(each(r, "supplies", r.supplyRow), r.startingSlips()...)
	r.books.Lots = each(r, "lots", lotRow)
	r.markRefused(r.names.supplies, "supplies", "supply")
	r.markRefused(r.names.shared, "lots", "lot")
	r.buildSchedules()
	r.buildPieces()
	r.buildSurfaces()
	r.books.Channels = each(r, "channels", channelRow)
	r.books.Purchases = each(r, "purchases", r.purchaseRow)
	r.books.Openings = each(r, "openings", r.openingRow)
	r.books.Counts = each(r, "counts", r.countRow)
	r.buildUses()
	r.placeSlips()
	r.books.Parts = append(each(r, "parts", partRow), r.slipParts()...)
	r.books.Hours = append(r.books.Hours, each(r, "hours", hoursRow)...)
	r.noteHoursTwice()
	r.books.Trips = each(r, "trips", tripRow)
	r.books.Expenses = each(r, "expenses", expenseRow)
	r.books.Equipment = each(r, "equipment", r.equipmentRow)
	r.books.Sales = append(r.books.Sales, each(r, "sales", r.saleRow)...)
	r.usePieceSchedules()
	r.books.Moves = each(r, "moves", moveRow)
	r.books.Removals = each(r, "removals", removalRow)
	r.books.OtherIncome = each(r, "other income", incomeRow)
	r.books.TaxPaid = each(r, "tax paid", taxPaidRow)
	r.books.Payouts = each(r, "payouts", payoutRow)
	r.books.Statements = each(r, "statements", statementRow)
	r.noteStartingCoverages()
	r.noteNetFees()
}

// each builds one record kind from the rows of a table that are not refused.
func each[T any](r *reading, table string, row func(*record) T) []T {
	var out []T
	for _, rec := range r.tables[table] {
		if rec.block.Broken || rec.line.Broken || rec.unplaced || r.slips[rec].pieces != nil {
			continue
		}
		if v := row(rec); !rec.refused {
			out = append(out, v)
		}
	}
	return out
}

// markRefused carries a table's refused rows over to the names they own.
func (r *reading) markRefused(space map[string]*owner, table, field string) {
	for _, rec := range r.tables[table] {
		if o := space[values.Fold(rec.raw(field))]; o != nil && rec.refused && o.at == rec.at {
			o.refused, o.rec = true, rec
		}
	}
}

func lotRow(rec *record) ledger.Lot {
	return ledger.Lot{At: rec.at, ID: rec.words("lot"), GotOn: rec.date("got_on"), From: rec.words("from"),
		Price: rec.money("price"), Fees: rec.money("fees"), TaxPaid: rec.money("tax_paid"), Pickup: rec.money("pickup"),
		ShareBy: rec.choice("share_by"), Receipt: rec.words("receipt")}
}

func channelRow(rec *record) ledger.Channel {
	percent := func(field string) *big.Rat {
		if p := rec.percent(field); p != nil {
			return p
		}
		return new(big.Rat)
	}
	return ledger.Channel{At: rec.at, Name: rec.channel("channel"), FromDate: rec.date("from_date"),
		FeePercent: percent("fee_percent"), FeeFixed: rec.money("fee_fixed"), FeeLeast: rec.money("fee_least"),
		CardPercent: percent("card_percent"), CardFixed: rec.money("card_fixed")}
}

func partRow(rec *record) ledger.Part {
	return ledger.Part{At: rec.at, On: rec.date("bought_on"), Pieces: rec.pieces("pieces"), What: rec.words("what"),
		Cost: rec.signedMoney("cost"), TaxPaid: rec.signedMoney("tax_paid"), Outside: rec.choice("type") == "outside work",
		From: rec.words("from"), Receipt: rec.words("receipt")}
}

func hoursRow(rec *record) ledger.Hours {
	h := ledger.Hours{At: rec.at, On: rec.date("worked_on"), Pieces: rec.pieces("pieces"), Hours: rec.hours("hours"),
		Task: rec.words("task")}
	if h.Hours != nil && h.Hours.Cmp(big.NewRat(24, 1)) > 0 {
		fix := "Type the hours of one day, and a line for each day."
		if text := rec.raw("hours"); bareNumber(text) != "" && h.Hours.Cmp(big.NewRat(24*60, 1)) <= 0 {
			fix = fmt.Sprintf("If minutes are meant, type %s min; otherwise type the hours of one day, and a line for each day.",
				text)
		}
		rec.fail("hours", fault.CodeHoursTooMany, "A day has 24 hours.", fix)
	}
	return h
}

func tripRow(rec *record) ledger.Trip {
	return ledger.Trip{At: rec.at, On: rec.date("on"), Miles: rec.unitted("miles", measure.ReadDistance),
		Purpose: rec.words("purpose"),
		To:      rec.words("to"), Tolls: rec.money("tolls"), Pieces: rec.pieces("pieces"), Receipt: rec.words("receipt")}
}

func expenseRow(rec *record) ledger.Expense {
	return ledger.Expense{At: rec.at, On: rec.date("paid_on"), What: rec.words("what"), Group: rec.choice("group"),
		Amount: rec.signedMoney("amount"), To: rec.words("to"), Channel: rec.channel("channel"), Pieces: rec.pieces("pieces"),
		Receipt: rec.words("receipt")}
}

// equipmentRow resolves a blank life: at once up to the limit of the year.
func (r *reading) equipmentRow(rec *record) ledger.Equipment {
	e := ledger.Equipment{At: rec.at, On: rec.date("bought_on"), What: rec.words("what"), Cost: rec.money("cost"),
		TaxPaid: rec.money("tax_paid"), Life: rec.choice("life"), SoldOn: rec.date("sold_on"), Receipt: rec.words("receipt")}
	rec.equipmentSold(&e)
	limit := money.Cents(r.set.AtOnceCents(e.On.String()))
	e.Above = e.Cost+e.TaxPaid > limit
	if e.Life != "" || rec.refused {
		return e
	}
	if e.Above {
		rec.fail("life", fault.CodeLifeMissing, fmt.Sprintf("This cost %s with its tax, above the %s an item may cost to be "+
			"written off at once.", (e.Cost+e.TaxPaid).Grouped(), limit.Grouped()),
			"Type first year (the special first-year allowance), 5 or 7 (years), or at once, as your preparer says.")
	}
	e.Life = ledger.LifeAtOnce
	return e
}

// equipmentSold reads what a tool was sold for, and holds its day and money together.
func (rec *record) equipmentSold(e *ledger.Equipment) {
	price, priced := rec.moneyOr("sold_for", false)
	e.SoldFor = price
	sold := rec.filled("sold_on")
	switch {
	case rec.reported["sold_on"] || rec.reported["sold_for"]:
	case sold && !priced:
		rec.fail("sold_for", fault.CodeSaleIncomplete, "The tool has a day of sale but no price.", "Type what it was sold "+
			"for, 0 where it brought nothing, or leave both blank.")
	case priced && !sold:
		rec.fail("sold_on", fault.CodeSaleIncomplete, "The tool has a price of sale but no day.",
			"Type the day it was sold, "+
				"or leave both blank.")
	case sold && !rec.reported["bought_on"] && e.SoldOn.Before(e.On):
		rec.fail("sold_on", fault.CodeSaleIncomplete, fmt.Sprintf("The tool was sold before it was bought, on %s.", e.On),
			"Correct one of the two days.")
	}
}

// saleRow also refuses a sale of a piece whose sale stands on its own row.
func (r *reading) saleRow(rec *record) ledger.Sale {
	s := ledger.Sale{At: rec.at, On: rec.date("sold_on"), Pieces: rec.pieces("pieces"), Channel: rec.channel("channel"),
		Type: ledger.SaleType(rec.choice("type")), Price: rec.money("price"), DeliveryCharged: rec.money("delivery_charged"),
		SalesTax: rec.money("sales_tax"), MarketplaceTax: rec.money("marketplace_tax"), Fee: rec.moneyIf("fee"),
		CardFee: rec.moneyIf("card_fee"), DeliveryCost: rec.money("delivery_cost"), Receipt: rec.words("receipt")}
	if s.Type == "" {
		s.Type = ledger.SaleLine
	}
	rec.feeFromNet(&s)
	if s.Channel == "" && !rec.refused {
		s.Channel = rec.directSale()
	}
	for _, id := range s.Pieces {
		if own := r.pieceRows[id]; s.Type == ledger.SaleLine && own != nil && own.filled("sold_on") {
			rec.failName("pieces", id, fault.CodeSoldOnBoth, fmt.Sprintf("%s is sold here and on its own row too, at %s.",
				id, own.at),
				"Take one of the two out.")
		}
	}
	return s
}

func moveRow(rec *record) ledger.Move {
	m := ledger.Move{At: rec.at, On: rec.date("moved_on"), From: rec.piece("from_piece"), To: rec.piece("to_piece"),
		What: rec.words("what")}
	value, ok := rec.moneyOr("value", false)
	if ok && value == 0 {
		rec.fail("value", fault.CodeNumberOutOfRange, "A move of 0.00 moves nothing.", "Type the cost that goes "+
			"with the part.")
	}
	m.Value = value
	return m
}

func removalRow(rec *record) ledger.Removal {
	return ledger.Removal{At: rec.at, On: rec.date("removed_on"), Piece: rec.piece("piece"), Why: rec.choice("why"),
		Received: rec.money("received"), Value: rec.moneyIf("value"), Receipt: rec.words("receipt")}
}

func incomeRow(rec *record) ledger.OtherIncome {
	return ledger.OtherIncome{At: rec.at, On: rec.date("got_on"), What: rec.words("what"), Group: rec.choice("group"),
		Amount: rec.money("amount"), Receipt: rec.words("receipt")}
}

func taxPaidRow(rec *record) ledger.TaxPaid {
	return ledger.TaxPaid{At: rec.at, On: rec.date("paid_on"), Period: rec.words("period"), Amount: rec.money("amount"),
		Kept: rec.money("kept"), Receipt: rec.words("receipt")}
}

func payoutRow(rec *record) ledger.Payout {
	return ledger.Payout{At: rec.at, On: rec.date("paid_on"), Channel: rec.channel("channel"), Amount: rec.money("amount"),
		Through: rec.date("through"), Rent: rec.money("rent"), Other: rec.money("other"), Receipt: rec.words("receipt")}
}

func statementRow(rec *record) ledger.Statement {
	return ledger.Statement{At: rec.at, Year: rec.year("year"), Channel: rec.channel("channel"), Gross: rec.money("gross"),
		Receipt: rec.words("receipt")}
}

// firstGiven is the first day that comes first of those given; none where none is.
func firstGiven(days ...calendar.Date) calendar.Date {
	for _, d := range days {
		if !d.IsZero() {
			return d
		}
	}
	return calendar.Date{}
}

// unitOf is the unit of a supply's container.
func unitOf(s ledger.Supply) measure.Unit {
	u, _ := measure.FindUnit(s.Unit)
	return u
}
