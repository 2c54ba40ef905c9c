package intake

import (
	"fmt"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
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
	r.noteLessBack()
	r.books.Openings = each(r, "openings", r.openingRow)
	r.books.Counts = each(r, "counts", r.countRow)
	r.buildUses()
	r.placeSlips()
	r.books.Parts = append(each(r, "parts", partRow), r.slipParts()...)
	r.books.Hours = append(r.books.Hours, each(r, "hours", hoursRow)...)
	r.noteHoursTwice()
	r.proposeHoursPieces()
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
	for _, note := range r.afterSales {
		note()
	}
}

// each builds one record kind from the rows of a table that are not refused.
func each[T any](r *reading, table string, row func(*record) T) []T {
	var out []T
	for _, rec := range r.tables[table] {
		if rec.Block.Broken || rec.Line.Broken || rec.unplaced || r.slips[rec].pieces != nil {
			continue
		}
		if v := row(rec); !rec.Refused {
			out = append(out, v)
		}
	}
	return out
}

// markRefused carries a table's refused rows over to the names they own.
func (r *reading) markRefused(space map[string]*owner, table, field string) {
	for _, rec := range r.tables[table] {
		if o := space[values.Fold(rec.Raw(field))]; o != nil && rec.Refused && o.at == rec.At {
			o.refused, o.rec = true, rec
		}
	}
}

func lotRow(rec *record) ledger.Lot {
	return ledger.Lot{At: rec.At, ID: rec.Words("lot"), GotOn: rec.Date("got_on"), From: rec.Words("from"),
		Price: rec.Money("price"), Fees: rec.Money("fees"), TaxPaid: rec.Money("tax_paid"), Pickup: rec.Money("pickup"),
		ShareBy: rec.Choice("share_by"), Receipt: rec.Words("receipt")}
}

func channelRow(rec *record) ledger.Channel {
	percent := func(field string) *big.Rat {
		if p := rec.Percent(field); p != nil {
			return p
		}
		return new(big.Rat)
	}
	return ledger.Channel{At: rec.At, Name: rec.channel("channel"), FromDate: rec.Date("from_date"),
		FeePercent: percent("fee_percent"), FeeFixed: rec.Money("fee_fixed"), FeeLeast: rec.Money("fee_least"),
		CardPercent: percent("card_percent"), CardFixed: rec.Money("card_fixed")}
}

func partRow(rec *record) ledger.Part {
	return ledger.Part{At: rec.At, On: rec.Date("bought_on"), Pieces: rec.pieces("pieces"), What: rec.Words("what"),
		Cost: rec.SignedMoney("cost"), TaxPaid: rec.SignedMoney("tax_paid"), Outside: rec.Choice("type") == "outside work",
		From: rec.Words("from"), Receipt: rec.Words("receipt")}
}

func hoursRow(rec *record) ledger.Hours {
	h := ledger.Hours{At: rec.At, On: rec.Date("worked_on"), Pieces: rec.pieces("pieces"), Hours: rec.Hours("hours"),
		Task: rec.Words("task")}
	if h.Hours != nil && h.Hours.Cmp(big.NewRat(24, 1)) > 0 {
		fix := "Type the hours of one day, and a line for each day."
		if text := rec.Raw("hours"); bareNumber(text) != "" && h.Hours.Cmp(big.NewRat(24*60, 1)) <= 0 {
			fix = fmt.Sprintf("If minutes are meant, type %s min; otherwise type the hours of one day, and a line for each day.",
				text)
		}
		rec.Fail("hours", fault.CodeHoursTooMany, "A day has 24 hours.", fix)
	}
	return h
}

func tripRow(rec *record) ledger.Trip {
	return ledger.Trip{At: rec.At, On: rec.Date("on"), Miles: rec.Unitted("miles", measure.ReadDistance),
		Purpose: rec.Words("purpose"),
		To:      rec.Words("to"), Tolls: rec.Money("tolls"), Pieces: rec.pieces("pieces"), Receipt: rec.Words("receipt")}
}

func expenseRow(rec *record) ledger.Expense {
	rec.askOwnMoney()
	return ledger.Expense{At: rec.At, On: rec.Date("paid_on"), What: rec.Words("what"), Group: rec.Choice("group"),
		Amount: rec.SignedMoney("amount"), To: rec.Words("to"), Channel: rec.channel("channel"), Pieces: rec.pieces("pieces"),
		Receipt: rec.Words("receipt")}
}

// equipmentRow resolves a blank life: at once up to the limit of the year.
func (r *reading) equipmentRow(rec *record) ledger.Equipment {
	e := ledger.Equipment{At: rec.At, On: rec.Date("bought_on"), What: rec.Words("what"), Cost: rec.Money("cost"),
		TaxPaid: rec.Money("tax_paid"), Life: rec.Choice("life"), SoldOn: rec.Date("sold_on"), Receipt: rec.Words("receipt")}
	rec.equipmentSold(&e)
	limit := money.Cents(r.set.RatesFor(r.settings.Currency).AtOnceCents(e.On.String()))
	e.Above = e.Cost+e.TaxPaid > limit
	if e.Life != "" || rec.Refused {
		return e
	}
	if e.Above {
		rec.Fail("life", fault.CodeLifeMissing, fmt.Sprintf("This cost %s with its tax, above the %s an item may cost to be "+
			"written off at once.", (e.Cost+e.TaxPaid).Grouped(), limit.Grouped()),
			"Type first year (the special first-year allowance), 5 or 7 (years), or at once, as your preparer says.")
	}
	e.Life = ledger.LifeAtOnce
	return e
}

// equipmentSold reads what a tool was sold for, and holds its day and money together.
func (rec *record) equipmentSold(e *ledger.Equipment) {
	price, priced := rec.MoneyOr("sold_for", false)
	e.SoldFor = price
	sold := rec.Filled("sold_on")
	switch {
	case rec.Reported("sold_on") || rec.Reported("sold_for"):
	case sold && !priced:
		rec.Fail("sold_for", fault.CodeSaleIncomplete, "The tool has a day of sale but no price.", "Type what it was sold "+
			"for, 0 where it brought nothing, or leave both blank.")
	case priced && !sold:
		rec.Fail("sold_on", fault.CodeSaleIncomplete, "The tool has a price of sale but no day.",
			"Type the day it was sold, "+
				"or leave both blank.")
	case sold && !rec.Reported("bought_on") && e.SoldOn.Before(e.On):
		rec.Fail("sold_on", fault.CodeSaleIncomplete, fmt.Sprintf("The tool was sold before it was bought, on %s.", e.On),
			"Correct one of the two days.")
	}
}

// saleRow also refuses a sale of a piece whose sale stands on its own row.
func (r *reading) saleRow(rec *record) ledger.Sale {
	s := ledger.Sale{At: rec.At, On: rec.Date("sold_on"), Pieces: rec.pieces("pieces"), Channel: rec.channel("channel"),
		Type: ledger.SaleType(rec.Choice("type")), Price: rec.Money("price"), DeliveryCharged: rec.Money("delivery_charged"),
		SalesTax: rec.Money("sales_tax"), MarketplaceTax: rec.Money("marketplace_tax"), Fee: rec.MoneyIf("fee"),
		CardFee: rec.MoneyIf("card_fee"), DeliveryCost: rec.Money("delivery_cost"), Receipt: rec.Words("receipt")}
	if s.Type == "" {
		s.Type = ledger.SaleLine
	}
	rec.feeFromNet(&s)
	if s.Channel == "" && !rec.Refused {
		s.Channel = rec.directSale()
	}
	for _, id := range s.Pieces {
		if own := r.pieceRows[id]; s.Type == ledger.SaleLine && own != nil && own.Filled("sold_on") {
			rec.failName("pieces", id, fault.CodeSoldOnBoth, fmt.Sprintf("%s is sold here and on its own row too, at %s.",
				id, own.At),
				"Take one of the two out.")
		}
	}
	rec.noteUndone(&s)
	return s
}

func moveRow(rec *record) ledger.Move {
	m := ledger.Move{At: rec.At, On: rec.Date("moved_on"), From: rec.piece("from_piece"), To: rec.piece("to_piece"),
		What: rec.Words("what")}
	value, ok := rec.MoneyOr("value", false)
	if ok && value == 0 {
		rec.Fail("value", fault.CodeNumberOutOfRange, "A move of 0.00 moves nothing.", "Type the cost that goes "+
			"with the part.")
	}
	m.Value = value
	return m
}

func removalRow(rec *record) ledger.Removal {
	return ledger.Removal{At: rec.At, On: rec.Date("removed_on"), Piece: rec.piece("piece"), Why: rec.Choice("why"),
		Received: rec.Money("received"), Value: rec.MoneyIf("value"), Receipt: rec.Words("receipt")}
}

func incomeRow(rec *record) ledger.OtherIncome {
	rec.askOwnMoney()
	return ledger.OtherIncome{At: rec.At, On: rec.Date("got_on"), What: rec.Words("what"), Group: rec.Choice("group"),
		Amount: rec.Money("amount"), Receipt: rec.Words("receipt")}
}

func taxPaidRow(rec *record) ledger.TaxPaid {
	return ledger.TaxPaid{At: rec.At, On: rec.Date("paid_on"), Period: rec.Words("period"), Amount: rec.Money("amount"),
		Kept: rec.Money("kept"), Receipt: rec.Words("receipt")}
}

func payoutRow(rec *record) ledger.Payout {
	return ledger.Payout{At: rec.At, On: rec.Date("paid_on"), Channel: rec.channel("channel"), Amount: rec.Money("amount"),
		Through: rec.Date("through"), Rent: rec.Money("rent"), Other: rec.Money("other"), Receipt: rec.Words("receipt")}
}

func statementRow(rec *record) ledger.Statement {
	return ledger.Statement{At: rec.At, Year: rec.Year("year"), Channel: rec.channel("channel"), Gross: rec.Money("gross"),
		Receipt: rec.Words("receipt")}
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

// direct is the channel of a sale that names none.
const direct = "direct"

// directSale is the channel of a line of Sales that names none, as it is spelled
// elsewhere, with a note.
func (rec *record) directSale() string {
	rec.NoteForCause("channel", "", fault.CodeChannelDirect, 0, func(s *rows.Cause) (string, string) {
		return "A sale without a channel is read as direct, from the shop itself." + s.More(),
			"If it was sold elsewhere, type where."
	})
	if known := rec.r.names.channels[direct]; known != "" {
		return known
	}
	return direct
}
