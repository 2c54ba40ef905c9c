package accountant

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func checkColumns() []wb.Column {
	return heads{}.wrapped(62, "Check").money(16, "Reached", "Against").money(14, "Difference").text(8, "Word").
		wrapped(70, "What is compared")
}

// check is one amount reached in two ways.
type check struct {
	name, about string
	reached     wb.Cell
	against     wb.Cell
}

// word is what stands beside a difference.
func word(c wb.Cell, difference string) wb.Cell {
	text := "OK"
	if c.Value.Sign() != 0 {
		text = "LOOK"
	}
	return wb.Text(text).By(fmt.Sprintf(`IF(%s=0,"OK","LOOK")`, difference))
}

// fillChecks writes the checks and the one cell they roll up to.
func (b *book) fillChecks() {
	s := b.checks
	s.Landscape = true
	s.Note("Each is one amount reached in two ways. Every difference is 0.00, or something is wrong, here or with what " +
		"was changed in this workbook. Counts of lines are checked as amounts too.")
	first := s.NextRow()
	var all money.Cents
	for _, c := range b.checkList() {
		row := s.NextRow()
		far := differ(c.reached, c.against)
		cents, _ := far.Value.Cents() // it is rounded to them
		all += money.Cents(cents)
		far = far.By(fmt.Sprintf("ROUND(ABS(%s-%s),2)", s.Here("Reached", row), s.Here("Against", row)))
		s.Row(wb.Normal, wb.Text(c.name), c.reached.InFull(), c.against.InFull(), far, word(far, s.Here("Difference", row)),
			wb.Text(c.about))
	}
	last := s.LastRow()
	total := amount(all).InFull()
	s.Row(wb.GrandTotal, wb.Text(allChecks), wb.Cell{}, wb.Cell{},
		total.By("SUM("+s.HereRange("Difference", first, last)+")"), word(total, s.Here("Difference", s.NextRow())),
		wb.Text("The sum of the differences, none of which is negative. The Cover shows it."))
}

const allChecks = "All checks"

// differ is how far two amounts are apart.
func differ(a, c wb.Cell) wb.Cell {
	out := a
	out.Value = wb.Exactly(money.RoundTo(subtract(a, c), 2))
	out.Kind, out.Text = wb.KindMoney, ""
	return out.InFull()
}

// checkList is every check, from the whole to the single lines.
func (b *book) checkList() []check {
	f := b.in.Month
	line := func(id figures.ID) wb.Cell {
		return amount(f.Statement.Amount(id)).By(b.statement.Cell(b.periods[0].head, find(b.statement, statementLabel(id))))
	}
	stock := func(id figures.ID) string {
		return b.stock.Cell(b.periods[0].head, find(b.stock, words.Label(figures.OfStock, id)))
	}
	shelf := b.shelf.Cell("Closing", b.shelf.LastRow())
	out := []check{
		{words.NetProfit, "the statement against the accounts: what came in less what went out, whatever the postings' " +
			"statement lines say", line(figures.LineNetProfit), b.profitByAccounts()},
		{"Net profit as the pages print it", "the statement here against the figure of month.pdf and figures.json",
			line(figures.LineNetProfit), amount(f.Statement.NetProfit)},
		{"Profit of the pieces sold to net profit", "the sheet Profit to net against the statement",
			b.heldAt(b.profit, "Amount", profitTotal), line(figures.LineNetProfit)},
		{"Pieces roll forward", "the closing of the sheet Stock roll-forward against the book costs of the pieces in " +
			"stock, one by one", amount(f.Stock.Closing).By(stock(figures.LineClosing)),
			b.heldAt(b.inStock, "Book cost", allBookCost)},
		{"Cost of pieces sold", "the statement against the sheet Stock roll-forward: sold, less what came back from cost " +
			"of sales", line(figures.LineCostOfSales), b.soldLessBack(stock(figures.LineSold))},
		{"Shelf rolls forward", "the closing of the sheet Shelf against what the purchases still there hold, as the " +
			"program keeps them", amount(b.shelfClosing()).By(shelf), amount(tieOf(f, figures.TieShelf).Against)},
		{"Trips", "the sheet Trips against the statement", b.heldAt(b.trips, "Cost", allTrips), line(figures.LineTrips)},
	}
	return slices.Concat(out, b.recordChecks(), b.further, b.lineChecks())
}

// heldAt is a cell of another sheet with what stands in it.
func (b *book) heldAt(s *wb.Sheet, head, label string) wb.Cell {
	row := find(s, label)
	for j, c := range s.Columns {
		if c.Head == head {
			held := s.At(row - s.FirstRow()).Cells[j]
			return wb.Cell{Kind: held.Kind, Value: held.Value}.By(s.Cell(head, row))
		}
	}
	return wb.Cell{}
}

// inPeriod is Σ cents of the period's postings that match.
func (b *book) inPeriod(match func(ledger.Posting) bool) money.Cents {
	var sum money.Cents
	for p := range b.in.InMonth() {
		if match(p) {
			sum += p.Cents
		}
	}
	return sum
}

// profitByAccounts is the period's net profit by where money stands.
func (b *book) profitByAccounts() wb.Cell {
	sum := func(side string, a ledger.Account) string {
		return b.sumIfs("Amount", append([]string{side, `"` + string(a) + `"`}, b.ofPeriod()...)...)
	}
	by := ""
	var profit money.Cents
	for _, a := range []ledger.Account{ledger.Receipts, ledger.Other, ledger.CostOfSales, ledger.SellingCosts,
		ledger.Trips, ledger.Expenses, ledger.EquipmentCost, ledger.ShelfLosses, ledger.Lost} {
		by += "+" + sum("From", a) + "-" + sum("To", a)
		profit += b.inPeriod(func(p ledger.Posting) bool { return p.From == a }) - b.inPeriod(
			func(p ledger.Posting) bool { return p.To == a })
	}
	return amount(profit).By(by[1:])
}

// soldLessBack is what left stock for cost of sales, less what came back.
func (b *book) soldLessBack(sold string) wb.Cell {
	back := b.inPeriod(func(p ledger.Posting) bool { return p.From == ledger.CostOfSales })
	return amount(b.in.Month.Stock.Sold - back).By(sold + "-" + b.sumIfs("Amount", append([]string{"From",
		`"cost of sales"`}, b.ofPeriod()...)...))
}

func (b *book) shelfClosing() money.Cents {
	var sum money.Cents
	for _, l := range b.in.Month.Shelf {
		sum += l.Closing
	}
	return sum
}

func tieOf(f figures.Figures, name string) figures.Tie {
	for _, t := range f.TieOut {
		if t.Name == name {
			return t
		}
	}
	return figures.Tie{}
}

// lineChecks hold whole sheets to their row by row checks.
func (b *book) lineChecks() []check {
	sheet := func(name, about string, s *wb.Sheet, head string) check {
		total, first := amount(0), s.FirstRow()
		if sum := s.Summed(head); !sum.None() {
			total.Value = sum
		}
		return check{name, about, total.By("SUM(" + s.Range(head, first, max(first, s.LastLine())) + ")"), amount(0)}
	}
	return []check{
		sheet("Shares a cent or more from their formula", "the count of them against none", b.shares, "A cent or more off"),
		sheet("Shares against their postings", "the sum of the differences against none", b.shares, "Difference"),
		sheet("Shares add up to their totals", "the sum of the differences against none", b.totals, "Difference"),
		sheet("Corrections against their postings", "the sum of the differences against none", b.corrections, "Difference"),
		sheet("Trips against their postings", "the sum of the differences against none", b.trips, "Difference"),
		sheet("Drives over half a cent from their formula", "the count of them against none", b.trips, "Rounded wrong"),
		sheet("Hourly profits over half a cent from their formula", "the count of them against none", b.pieces,
			"Rounded wrong"),
	}
}

// netWords says what the cover's net profit is.
func (b *book) netWords() string {
	if b.coverMore != nil {
		return "of the months together, before depreciation"
	}
	return "of the period, before tax"
}

// fillCover says what the workbook is, its few figures, and what its sheets hold.
func (b *book) fillCover() {
	s, f, checks := b.cover, b.in.Month, b.checks
	row := func(name string, figure wb.Cell, about string) {
		s.Row(wb.Normal, wb.Text(name), figure, wb.Text(about))
	}
	last := checks.LastRow()
	total := checks.At(checks.Len() - 1)
	s.Row(wb.Subtotal, wb.Text("All checks"), total.Cells[3].By(checks.Cell("Difference", last)),
		wb.Text(total.Cells[4].Text).By(checks.Cell("Word", last)))
	row("First day", dayCell(f.From.First()), "of the period; sums over the period take their months from here")
	row("Last day", dayCell(f.To.Last()), "")
	row("Tax year from", dayCell(b.from.First()),
		"its postings are here one by one, what stood before as opening balances")
	head := b.periods[0].head
	row(words.NetProfit, amount(f.Statement.NetProfit).By(b.statement.Cell(head, find(b.statement,
		statementLabel(figures.LineNetProfit)))), b.netWords())
	if b.coverMore != nil {
		b.coverMore()
	}
	row("Pieces in stock, at book cost", amount(f.Stock.Closing).By(b.stock.Cell(head, find(b.stock, "Closing"))),
		"at the last day")
	row("The shelf, at cost", amount(b.shelfClosing()).By(b.shelf.Cell("Closing", b.shelf.LastRow())), "at the last day")
	row("Currency", wb.Cell{}, f.Currency)
	row("Records read", wb.Cell{}, b.in.Tally)
	row("Records' fingerprint", wb.Cell{}, b.in.Fingerprint)
	if text := b.in.Cautions.RecordsOnly; text != "" {
		row("What this is", wb.Cell{}, text)
	}
	if n := len(b.in.Refused); n > 0 {
		row("Left out of this draft", wb.Cell{}, words.Plural(n, "line", "lines")+
			" of the records, until they are put right; page 1 of month.pdf lists them")
	}
	s.Row(wb.Group, wb.Text("Sheets"))
	for _, sheet := range b.book.Sheets[1:] {
		text := b.words[sheet]
		if slices.Contains(b.counted, sheet) {
			text += "; " + words.Plural(sheet.Len(), "row", "rows")
		}
		s.Row(wb.Normal, wb.Text(sheet.Name).To(sheet), wb.Cell{}, wb.Text(text))
	}
}

// The rows of the Cover that other sheets refer to.
func (b *book) firstDay() string { return b.cover.Cell("Figure", b.cover.FirstRow()+1) }
func (b *book) lastDay() string  { return b.cover.Cell("Figure", b.cover.FirstRow()+2) }
func (b *book) yearDay() string  { return b.cover.Cell("Figure", b.cover.FirstRow()+3) }

// ofPeriod is the condition that a posting is of the period.
func (b *book) ofPeriod() []string {
	return []string{"Month", `">="&` + b.firstDay(), "Month", `"<="&` + b.lastDay()}
}

// apart is how far two amounts are apart, with its formula by what is taken from what.
func apart(far money.Cents, formula string) wb.Cell {
	return amount(far.Abs()).InFull().By("ROUND(ABS(" + formula + "),2)")
}
