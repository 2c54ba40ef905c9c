package accountant

import (
	"fmt"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	wb "piecebook/report/workbook"
)

// amounts is a row of one amount a period: get says the figure, by says the
// formula for the column with the head.
func (b *book) amounts(s *wb.Sheet, style wb.Style, label string, get func(figures.Figures) money.Cents, by func(head string) string) int {
	cells := []wb.Cell{wb.Text(label)}
	for _, p := range b.periods {
		cells = append(cells, amount(get(p.f)).By(by(p.head)))
	}
	return s.Row(style, cells...)
}

// fillStatement is the income statement, each line the sum of the postings
// that name it.
func (b *book) fillStatement() {
	s := b.statement
	s.Note("Amounts in " + b.in.Month.Currency + ". Receipts count on the day the money came; a piece's cost when it is sold. Costs are positive; brackets mean that a line goes against its usual way.")
	s.Note("Each amount is the sum of the postings whose 'Statement line' is the line's name, of the months above.")
	b.noteOlder(s)
	b.fillPeriods(s)
	row := s.NextRow
	line := func(style wb.Style, label string, get func(figures.Statement) money.Cents) int {
		at := row()
		return b.amounts(s, style, label, func(f figures.Figures) money.Cents { return get(f.Statement) }, b.posted(func(head string) string {
			return b.sumIfs("In the statement", append([]string{"Statement line", fmt.Sprintf("$A%d", at)}, within(s, head)...)...)
		}))
	}
	sum := func(style wb.Style, label string, get func(figures.Statement) money.Cents, by func(head string) string) int {
		return b.amounts(s, style, label, func(f figures.Figures) money.Cents { return get(f.Statement) }, by)
	}
	type st = figures.Statement
	gross := line(wb.First, lineGross, func(x st) money.Cents { return x.GrossReceipts })
	refunds := line(wb.Normal, lineRefunds, func(x st) money.Cents { return x.Refunds })
	net := sum(wb.Subtotal, "Net receipts", func(x st) money.Cents { return x.NetReceipts }, minus(s, gross, refunds))
	cost := line(wb.Normal, lineCost, func(x st) money.Cents { return x.CostOfPiecesSold })
	profit := sum(wb.Subtotal, "Gross profit", func(x st) money.Cents { return x.GrossProfit }, minus(s, net, cost))
	first := line(wb.Normal, lineSelling, func(x st) money.Cents { return x.SellingCosts })
	line(wb.Normal, lineTrips, func(x st) money.Cents { return x.Trips })
	for _, group := range b.groups() {
		line(wb.Normal, expenseLine(group), func(x st) money.Cents { return x.Expenses[group] })
	}
	line(wb.Normal, lineEquipment, func(x st) money.Cents { return x.Equipment })
	line(wb.Normal, lineShelf, func(x st) money.Cents { return x.ShelfLosses })
	last := line(wb.Normal, lineLost, func(x st) money.Cents { return x.PiecesLost })
	all := sum(wb.Subtotal, "All these costs", report.AllCosts, func(head string) string { return "SUM(" + s.HereRange(head, first, last) + ")" })
	other := line(wb.Normal, lineOther, func(x st) money.Cents { return x.OtherIncome })
	sum(wb.GrandTotal, lineNet, func(x st) money.Cents { return x.NetProfit }, func(head string) string {
		return s.Here(head, profit) + "-" + s.Here(head, all) + "+" + s.Here(head, other)
	})
	sum(wb.Quiet, lineUnfinished, func(x st) money.Cents { return x.PartPaymentsUnfinished }, b.posted(func(head string) string {
		if b.period(head).f.To != b.in.Month.To {
			return "" // the postings say what is unfinished at the end
		}
		return b.sumIfs("Amount", append([]string{"Unfinished", `"unfinished"`}, within(s, head)...)...)
	}))
	line(wb.Quiet, lineKept, func(x st) money.Cents { return x.KeptOrDonated })
	sum(wb.Quiet, lineTaxOwed, func(x st) money.Cents { return x.SalesTaxOwed }, b.posted(func(head string) string {
		until := fmt.Sprintf(`"<="&%s`, fixedRow(s, head, toRow))
		return b.sumIfs("Amount", "From", `"tax owed"`, "Month", until) + "-" + b.sumIfs("Amount", "To", `"tax owed"`, "Month", until)
	}))
}

// Lines that other sheets look for.
const (
	lineNet        = "Net profit"
	lineUnfinished = "included above: part payments on unfinished work"
	lineTaxOwed    = "not in it: sales tax owed at the end"
)

// noteOlder marks columns whose amounts are values.
func (b *book) noteOlder(s *wb.Sheet) {
	for _, p := range b.periods {
		if b.older(p.head) {
			s.Note(p.head + " is before the tax year: its amounts are values as they were printed, not sums of postings.")
		}
	}
}

// groups are the groups of expenses with an amount in one of the columns.
func (b *book) groups() []string {
	seen := map[string]bool{}
	for _, p := range b.periods {
		for g := range p.f.Statement.Expenses {
			seen[g] = true
		}
	}
	return sortedKeys(seen)
}

// minus takes one row from another.
func minus(s *wb.Sheet, from, take int) func(string) string {
	return func(head string) string { return s.Here(head, from) + "-" + s.Here(head, take) }
}

// find is the row of a line by its name; a sheet without it has a mistake of
// the program's.
func find(s *wb.Sheet, label string) int {
	for i, r := range s.Rows {
		if len(r.Cells) > 0 && r.Cells[0].Text == label {
			return s.FirstRow() + i
		}
	}
	panic("no line " + label + " in " + s.Name)
}

// fillStock is the pieces' roll-forward at book cost.
func (b *book) fillStock() {
	s := b.stock
	s.Note("Each amount is the sum of the postings whose 'Stock line' is the line's name, of the months above. The opening is all that came before them.")
	b.noteOlder(s)
	b.fillPeriods(s)
	type st = figures.Stock
	sum := func(style wb.Style, label string, get func(st) money.Cents, by func(head string) string) int {
		return b.amounts(s, style, label, func(f figures.Figures) money.Cents { return get(f.Stock) }, by)
	}
	line := func(label, sign string, get func(st) money.Cents) int {
		at := s.NextRow()
		return sum(wb.Normal, label, get, b.posted(func(head string) string {
			return sign + b.sumIfs("In the stock", append([]string{"Stock line", fmt.Sprintf("$A%d", at)}, within(s, head)...)...)
		}))
	}
	opening := sum(wb.First, "Opening", func(x st) money.Cents { return x.Opening }, b.posted(func(head string) string {
		return b.sumIfs("In the stock", "Month", fmt.Sprintf(`"<"&%s`, fixedRow(s, head, fromRow)))
	}))
	line(stockAcquired, "", func(x st) money.Cents { return x.Acquired })
	line(stockParts, "", func(x st) money.Cents { return x.Parts })
	line(stockOutside, "", func(x st) money.Cents { return x.OutsideWork })
	line(stockSupplies, "", func(x st) money.Cents { return x.Supplies })
	returned := line(stockReturned, "", func(x st) money.Cents { return x.Returned })
	sold := line(stockSold, "-", func(x st) money.Cents { return x.Sold })
	removed := line(stockRemoved, "-", func(x st) money.Cents { return x.Removed })
	sum(wb.GrandTotal, "Closing", func(x st) money.Cents { return x.Closing }, func(head string) string {
		return "SUM(" + s.HereRange(head, opening, returned) + ")-" + s.Here(head, sold) + "-" + s.Here(head, removed)
	})
}
