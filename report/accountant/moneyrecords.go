package accountant

import (
	"piecebook/ledger"
	"piecebook/ledger/fault"
	wb "piecebook/report/workbook"
)

// workTables are the records of work on pieces.
func workTables(k *ledger.Books) []recordTable {
	return []recordTable{
		tabled("uses", k.Uses, func(u ledger.Use) fault.Place { return u.At },
			field[ledger.Use]{"used_on", kDate, func(u ledger.Use) wb.Cell { return dayCell(u.On) }},
			field[ledger.Use]{"pieces", kText, func(u ledger.Use) wb.Cell { return listOf(u.Pieces) }},
			field[ledger.Use]{"supply", kText, func(u ledger.Use) wb.Cell { return wb.Text(u.Supply) }},
			field[ledger.Use]{"schedule", kText, func(u ledger.Use) wb.Cell { return wb.Text(u.Schedule) }},
			field[ledger.Use]{"area", kNumber, func(u ledger.Use) wb.Cell { return plainNumber(u.Area) }},
			field[ledger.Use]{"coats", kNumber, func(u ledger.Use) wb.Cell { return plainNumber(u.Coats) }},
			field[ledger.Use]{"amount", kNumber, func(u ledger.Use) wb.Cell { return plainNumber(u.Amount) }}),
		tabled("parts", k.Parts, func(p ledger.Part) fault.Place { return p.At },
			field[ledger.Part]{"bought_on", kDate, func(p ledger.Part) wb.Cell { return dayCell(p.On) }},
			field[ledger.Part]{"pieces", kText, func(p ledger.Part) wb.Cell { return listOf(p.Pieces) }},
			field[ledger.Part]{"what", kText, func(p ledger.Part) wb.Cell { return wb.Text(p.What) }},
			field[ledger.Part]{"cost", kMoney, func(p ledger.Part) wb.Cell { return amount(p.Cost) }},
			field[ledger.Part]{"tax_paid", kMoney, func(p ledger.Part) wb.Cell { return amount(p.TaxPaid) }},
			field[ledger.Part]{"type", kText, func(p ledger.Part) wb.Cell { return wb.Text(partType(p)) }},
			field[ledger.Part]{"from", kText, func(p ledger.Part) wb.Cell { return wb.Text(p.From) }},
			field[ledger.Part]{"receipt", kText, func(p ledger.Part) wb.Cell { return wb.Text(p.Receipt) }}),
		tabled("hours", k.Hours, func(h ledger.Hours) fault.Place { return h.At },
			field[ledger.Hours]{"worked_on", kDate, func(h ledger.Hours) wb.Cell { return dayCell(h.On) }},
			field[ledger.Hours]{"pieces", kText, func(h ledger.Hours) wb.Cell { return listOf(h.Pieces) }},
			field[ledger.Hours]{"hours", wb.KindHours, func(h ledger.Hours) wb.Cell { return wb.Hours(h.Hours) }},
			field[ledger.Hours]{"task", kText, func(h ledger.Hours) wb.Cell { return wb.Text(h.Task) }}),
		tabled("trips", k.Trips, func(t ledger.Trip) fault.Place { return t.At },
			field[ledger.Trip]{"on", kDate, func(t ledger.Trip) wb.Cell { return dayCell(t.On) }},
			field[ledger.Trip]{"miles", kNumber, func(t ledger.Trip) wb.Cell { return plainNumber(t.Miles) }},
			field[ledger.Trip]{"purpose", kText, func(t ledger.Trip) wb.Cell { return wb.Text(t.Purpose) }},
			field[ledger.Trip]{"to", kText, func(t ledger.Trip) wb.Cell { return wb.Text(t.To) }},
			field[ledger.Trip]{"tolls", kMoney, func(t ledger.Trip) wb.Cell { return amount(t.Tolls) }},
			field[ledger.Trip]{"pieces", kText, func(t ledger.Trip) wb.Cell { return listOf(t.Pieces) }},
			field[ledger.Trip]{"receipt", kText, func(t ledger.Trip) wb.Cell { return wb.Text(t.Receipt) }}),
		tabled("moves", k.Moves, func(m ledger.Move) fault.Place { return m.At },
			field[ledger.Move]{"moved_on", kDate, func(m ledger.Move) wb.Cell { return dayCell(m.On) }},
			field[ledger.Move]{"from_piece", kText, func(m ledger.Move) wb.Cell { return wb.Text(m.From) }},
			field[ledger.Move]{"to_piece", kText, func(m ledger.Move) wb.Cell { return wb.Text(m.To) }},
			field[ledger.Move]{"what", kText, func(m ledger.Move) wb.Cell { return wb.Text(m.What) }},
			field[ledger.Move]{"value", kMoney, func(m ledger.Move) wb.Cell { return amount(m.Value) }}),
		tabled("removals", k.Removals, func(r ledger.Removal) fault.Place { return r.At },
			field[ledger.Removal]{"removed_on", kDate, func(r ledger.Removal) wb.Cell { return dayCell(r.On) }},
			field[ledger.Removal]{"piece", kText, func(r ledger.Removal) wb.Cell { return wb.Text(r.Piece) }},
			field[ledger.Removal]{"why", kText, func(r ledger.Removal) wb.Cell { return wb.Text(r.Why) }},
			field[ledger.Removal]{"received", kMoney, func(r ledger.Removal) wb.Cell { return amount(r.Received) }},
			field[ledger.Removal]{"value", kMoney, func(r ledger.Removal) wb.Cell { return amountIf(r.Value) }},
			field[ledger.Removal]{"receipt", kText, func(r ledger.Removal) wb.Cell { return wb.Text(r.Receipt) }}),
	}
}

func partType(p ledger.Part) string {
	if p.Outside {
		return "outside work"
	}
	return "part"
}

// moneyTables are the records of the shop's money.
func moneyTables(k *ledger.Books) []recordTable {
	return []recordTable{
		tabled("expenses", k.Expenses, func(e ledger.Expense) fault.Place { return e.At },
			field[ledger.Expense]{"paid_on", kDate, func(e ledger.Expense) wb.Cell { return dayCell(e.On) }},
			field[ledger.Expense]{"what", kText, func(e ledger.Expense) wb.Cell { return wb.Text(e.What) }},
			field[ledger.Expense]{"group", kText, func(e ledger.Expense) wb.Cell { return wb.Text(e.Group) }},
			field[ledger.Expense]{"amount", kMoney, func(e ledger.Expense) wb.Cell { return amount(e.Amount) }},
			field[ledger.Expense]{"to", kText, func(e ledger.Expense) wb.Cell { return wb.Text(e.To) }},
			field[ledger.Expense]{"channel", kText, func(e ledger.Expense) wb.Cell { return wb.Text(e.Channel) }},
			field[ledger.Expense]{"pieces", kText, func(e ledger.Expense) wb.Cell { return listOf(e.Pieces) }},
			field[ledger.Expense]{"receipt", kText, func(e ledger.Expense) wb.Cell { return wb.Text(e.Receipt) }}),
		tabled("equipment", k.Equipment, func(e ledger.Equipment) fault.Place { return e.At },
			field[ledger.Equipment]{"bought_on", kDate, func(e ledger.Equipment) wb.Cell { return dayCell(e.On) }},
			field[ledger.Equipment]{"what", kText, func(e ledger.Equipment) wb.Cell { return wb.Text(e.What) }},
			field[ledger.Equipment]{"cost", kMoney, func(e ledger.Equipment) wb.Cell { return amount(e.Cost) }},
			field[ledger.Equipment]{"tax_paid", kMoney, func(e ledger.Equipment) wb.Cell { return amount(e.TaxPaid) }},
			field[ledger.Equipment]{"life", kText, func(e ledger.Equipment) wb.Cell { return wb.Text(e.Life) }},
			field[ledger.Equipment]{"sold_on", kDate, func(e ledger.Equipment) wb.Cell { return dayCell(e.SoldOn) }},
			field[ledger.Equipment]{"sold_for", kMoney, func(e ledger.Equipment) wb.Cell { return amount(e.SoldFor) }},
			field[ledger.Equipment]{"receipt", kText, func(e ledger.Equipment) wb.Cell { return wb.Text(e.Receipt) }}),
		tabled("channels", k.Channels, func(c ledger.Channel) fault.Place { return c.At },
			field[ledger.Channel]{"channel", kText, func(c ledger.Channel) wb.Cell { return wb.Text(c.Name) }},
			field[ledger.Channel]{"from_date", kDate, func(c ledger.Channel) wb.Cell { return dayCell(c.FromDate) }},
			field[ledger.Channel]{"fee_percent", kNumber, func(c ledger.Channel) wb.Cell { return plainNumber(c.FeePercent) }},
			field[ledger.Channel]{"fee_fixed", kMoney, func(c ledger.Channel) wb.Cell { return amount(c.FeeFixed) }},
			field[ledger.Channel]{"fee_least", kMoney, func(c ledger.Channel) wb.Cell { return amount(c.FeeLeast) }},
			field[ledger.Channel]{"card_percent", kNumber, func(c ledger.Channel) wb.Cell { return plainNumber(c.CardPercent) }},
			field[ledger.Channel]{"card_fixed", kMoney, func(c ledger.Channel) wb.Cell { return amount(c.CardFixed) }}),
		salesTable(k),
		tabled("other income", k.OtherIncome, func(o ledger.OtherIncome) fault.Place { return o.At },
			field[ledger.OtherIncome]{"got_on", kDate, func(o ledger.OtherIncome) wb.Cell { return dayCell(o.On) }},
			field[ledger.OtherIncome]{"what", kText, func(o ledger.OtherIncome) wb.Cell { return wb.Text(o.What) }},
			field[ledger.OtherIncome]{"group", kText, func(o ledger.OtherIncome) wb.Cell { return wb.Text(o.Group) }},
			field[ledger.OtherIncome]{"amount", kMoney, func(o ledger.OtherIncome) wb.Cell { return amount(o.Amount) }},
			field[ledger.OtherIncome]{"receipt", kText, func(o ledger.OtherIncome) wb.Cell { return wb.Text(o.Receipt) }}),
		tabled("tax paid", k.TaxPaid, func(t ledger.TaxPaid) fault.Place { return t.At },
			field[ledger.TaxPaid]{"paid_on", kDate, func(t ledger.TaxPaid) wb.Cell { return dayCell(t.On) }},
			field[ledger.TaxPaid]{"period", kText, func(t ledger.TaxPaid) wb.Cell { return wb.Text(t.Period) }},
			field[ledger.TaxPaid]{"amount", kMoney, func(t ledger.TaxPaid) wb.Cell { return amount(t.Amount) }},
			field[ledger.TaxPaid]{"kept", kMoney, func(t ledger.TaxPaid) wb.Cell { return amount(t.Kept) }},
			field[ledger.TaxPaid]{"receipt", kText, func(t ledger.TaxPaid) wb.Cell { return wb.Text(t.Receipt) }}),
		tabled("payouts", k.Payouts, func(p ledger.Payout) fault.Place { return p.At },
			field[ledger.Payout]{"paid_on", kDate, func(p ledger.Payout) wb.Cell { return dayCell(p.On) }},
			field[ledger.Payout]{"channel", kText, func(p ledger.Payout) wb.Cell { return wb.Text(p.Channel) }},
			field[ledger.Payout]{"amount", kMoney, func(p ledger.Payout) wb.Cell { return amount(p.Amount) }},
			field[ledger.Payout]{"through", kDate, func(p ledger.Payout) wb.Cell { return dayCell(p.Through) }},
			field[ledger.Payout]{"rent", kMoney, func(p ledger.Payout) wb.Cell { return amount(p.Rent) }},
			field[ledger.Payout]{"other", kMoney, func(p ledger.Payout) wb.Cell { return amount(p.Other) }},
			field[ledger.Payout]{"receipt", kText, func(p ledger.Payout) wb.Cell { return wb.Text(p.Receipt) }}),
		tabled("statements", k.Statements, func(s ledger.Statement) fault.Place { return s.At },
			field[ledger.Statement]{"year", kNumber, func(s ledger.Statement) wb.Cell { return yearCell(s.Year) }},
			field[ledger.Statement]{"channel", kText, func(s ledger.Statement) wb.Cell { return wb.Text(s.Channel) }},
			field[ledger.Statement]{"gross", kMoney, func(s ledger.Statement) wb.Cell { return amount(s.Gross) }},
			field[ledger.Statement]{"receipt", kText, func(s ledger.Statement) wb.Cell { return wb.Text(s.Receipt) }}),
	}
}

// salesTable has the sales that stand on pieces' own rows too, with that row.
func salesTable(k *ledger.Books) recordTable {
	return tabled("sales", k.Sales, func(s ledger.Sale) fault.Place { return s.At },
		field[ledger.Sale]{"sold_on", kDate, func(s ledger.Sale) wb.Cell { return dayCell(s.On) }},
		field[ledger.Sale]{"pieces", kText, func(s ledger.Sale) wb.Cell { return listOf(s.Pieces) }},
		field[ledger.Sale]{"channel", kText, func(s ledger.Sale) wb.Cell { return wb.Text(s.Channel) }},
		field[ledger.Sale]{"type", kText, func(s ledger.Sale) wb.Cell { return wb.Text(string(s.Type)) }},
		field[ledger.Sale]{"price", kMoney, func(s ledger.Sale) wb.Cell { return amount(s.Price) }},
		field[ledger.Sale]{"delivery_charged", kMoney, func(s ledger.Sale) wb.Cell { return amount(s.DeliveryCharged) }},
		field[ledger.Sale]{"sales_tax", kMoney, func(s ledger.Sale) wb.Cell { return amount(s.SalesTax) }},
		field[ledger.Sale]{"marketplace_tax", kMoney, func(s ledger.Sale) wb.Cell { return amount(s.MarketplaceTax) }},
		field[ledger.Sale]{"fee", kMoney, func(s ledger.Sale) wb.Cell { return amountIf(s.Fee) }},
		field[ledger.Sale]{"card_fee", kMoney, func(s ledger.Sale) wb.Cell { return amountIf(s.CardFee) }},
		field[ledger.Sale]{"delivery_cost", kMoney, func(s ledger.Sale) wb.Cell { return amount(s.DeliveryCost) }},
		field[ledger.Sale]{"receipt", kText, func(s ledger.Sale) wb.Cell { return wb.Text(s.Receipt) }})
}
