package accountant

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// yearBook is the year's workbook in the making: the month's sheets over the
// whole year, and those of the tax year before and after them.
type yearBook struct {
	*book
	y                                                           *taxyear.Year
	lines, channels, reported, equipment, ties, parts, receipts *wb.Sheet
}

// YearBook is the year's workbook (year.xlsx): the form's lines as sums over
// the postings that each takes, the registers, the reconciliations, and the
// sheets that the month's workbook has, spanning the year.
func YearBook(in report.YearInput) *wb.Book {
	y := in.Tax
	over := in.Input
	over.Month = y.Figures
	over.Month.From = y.Months[0].From // sums start where the books do: openings stand before it
	over.Year, over.Before = over.Month, nil
	b := &yearBook{book: newBook(&over, "Year workbook", nil), y: y}
	b.lay()
	b.before, b.coverMore = b.fillYear, b.fillCoverLine
	b.fill()
	return b.book.book
}

// fillYear fills the year's sheets, those that others refer to first.
func (b *yearBook) fillYear() {
	b.fillParts()
	b.fillLines()
	b.fillChannels()
	b.fillReported()
	b.fillEquipment()
	b.fillTies()
	b.fillReceipts()
	b.further = b.yearChecks()
}

// fillCoverLine puts the form's net figure beneath the books' on the cover.
func (b *yearBook) fillCoverLine() {
	line := b.y.Table.Holds.Profit
	for i, l := range b.y.Lines {
		if l.Line == line {
			b.cover.Row(wb.Normal, wb.Text("Line "+line), amount(l.Cents).By(b.lines.Cell("Amount", b.lines.FirstRow()+i)),
				wb.Text("that less depreciation: net profit or loss by the form"+words.After(", ", b.y.Table.Words.Net)))
		}
	}
}

// lay adds the year's sheets: the form and its registers after the cover, the
// long lists before the postings.
func (b *yearBook) lay() {
	money := func(head string) wb.Column { return wb.Column{Head: head, Kind: wb.KindMoney, Width: 14} }
	record := wb.Column{Head: "Record", Width: 30}
	b.lines = b.add("Form lines", b.y.Table.Form+", by its lines", "the form's lines, each a sum of line postings or "+
		"of other lines",
		wb.Column{Head: "No.", Kind: wb.KindNumber}, wb.Column{Head: "Part"}, wb.Column{Head: "Line"},
		wb.Column{Head: "What, in our words", Width: 56, Wrap: true}, money("Amount"),
		wb.Column{Head: "Check the printed form", Width: 36, Wrap: true}, wb.Column{Head: "Source", Width: 36, Wrap: true})
	b.channels = b.add("Channels", "Income by channel", "the year's sales money by channel", wb.Column{Head: "Channel",
		Width: 28}, wb.Column{Head: "Sales", Kind: wb.KindNumber}, money("Prices"), money("Delivery charged"),
		money("Received"), money("Given back"), money("Fees"), money("Delivery cost"), money("Sales tax"),
		money("Marketplace tax"))
	b.reported = b.add("Reported", "What channels reported, down to nothing or to what no line explains",
		"each channel's yearly statement against the recorded sales", wb.Column{Head: "What", Width: 62},
		money("Amount"), record)
	b.equipment = b.add("Equipment", "Equipment and what is written off", "every item of equipment, with each year's "+
		"write-off beside its formula", wb.Column{Head: "Bought on", Kind: wb.KindDate}, wb.Column{Head: "What", Width: 34},
		wb.Column{Head: "Life"}, money("Cost"), money("Before"), wb.Column{Head: "Part of the cost", Kind: wb.KindNumber},
		money("This year"),
		wb.Column{Head: "Unrounded", Kind: wb.KindNumber}, wb.Column{Head: "Rounded wrong", Kind: wb.KindNumber},
		money("Still to come"), wb.Column{Head: "Receipt"}, record)
	b.ties = b.add("Reconciliations", "Reconciliations", "each total reached by two ways", wb.Column{Head: "What",
		Width: 70, Wrap: true}, money("Amount"), money("Difference"))
	b.parts = b.add("Line postings", "What each line takes", "every posting that a line takes, with its sign there",
		wb.Column{Head: "Line no.", Kind: wb.KindNumber}, wb.Column{Head: "Line"}, wb.Column{Head: "Date", Kind: wb.KindDate},
		money("Amount"), wb.Column{Head: "Why"}, wb.Column{Head: "Piece"}, wb.Column{Head: "Supply"},
		wb.Column{Head: "Group"}, record, wb.Column{Head: "How it was reached", Width: 90, Wrap: true})
	b.receipts = b.add("Receipts", "Every money record of the year with its receipt", "every money record "+
		"with its receipt", wb.Column{Head: "Table"}, wb.Column{Head: "Date", Kind: wb.KindDate}, wb.Column{Head: "What",
		Width: 40}, money("Amount"), wb.Column{Head: "Receipt"}, wb.Column{Head: "Wanted", Width: 10}, record)
	mine := []*wb.Sheet{b.lines, b.channels, b.reported, b.equipment, b.ties}
	late := []*wb.Sheet{b.parts, b.receipts}
	rest := slices.DeleteFunc(slices.Clone(b.book.book.Sheets), func(s *wb.Sheet) bool {
		return s == b.cover || slices.Contains(mine, s) || slices.Contains(late, s)
	})
	at := slices.Index(rest, b.postings)
	b.book.book.Sheets = slices.Concat([]*wb.Sheet{b.cover}, mine, rest[:at], late, rest[at:])
}

// add adds a sheet with what the cover says of it.
func (b *yearBook) add(name, title, about string, columns ...wb.Column) *wb.Sheet {
	s := b.book.book.Add(name, title, columns...)
	if b.words == nil {
		b.words = map[*wb.Sheet]string{}
	}
	b.words[s] = about
	return s
}

// fillParts writes the postings of each line that takes some.
func (b *yearBook) fillParts() {
	s := b.parts
	s.Landscape, s.Filter = true, true
	s.Note("Amounts have the sign that their line counts them with. Lines " + b.y.Number(figures.LineOpeningStock) +
		" and " + b.y.Number(figures.LineClosingStock) + " are balances: every posting since the books began of what " +
		"was still there.")
	for i, l := range b.y.Lines {
		if len(l.Takes) == 0 {
			continue
		}
		for _, p := range l.Postings {
			s.Row(wb.Normal, wb.Whole(i+1), wb.Text(l.Line), dayCell(p.Date), amount(p.Cents), wb.Text(words.Reason(p.Reason)),
				wb.Text(p.Piece), wb.Text(p.Supply), wb.Text(p.Group), wb.Text(words.Sources(p.Source)), wb.Text(words.How(p)))
		}
	}
}

// fillLines writes the form's lines.
func (b *yearBook) fillLines() {
	s := b.lines
	s.Landscape = true
	if b.y.Table.Check != "" {
		s.Note(b.y.Table.Check)
	}
	s.Note(b.y.Table.Outside)
	row := map[string]int{}
	for i, l := range b.y.Lines {
		row[l.Line] = s.FirstRow() + i
	}
	for i, l := range b.y.Lines {
		style := wb.Normal
		formula := sumIfs(b.parts, "Amount", "Line no.", s.Here("No.", row[l.Line]))
		if len(l.Takes) == 0 {
			formula = b.adds(l, row)
			style = wb.Subtotal
		}
		if l.Line == b.y.Table.Holds.Profit || l.Line == b.y.Table.Holds.Cost {
			style = wb.GrandTotal
		}
		s.Row(style, wb.Whole(i+1), wb.Text(l.Part), wb.Text(l.Line), wb.Text(l.Label), amount(l.Cents).By(formula).InFull(),
			wb.Text(strings.Join(l.Asked, " ")), wb.Text(l.Source))
	}
}

// adds is the formula of a line that adds up others; 0 of none.
func (b *yearBook) adds(l taxyear.Line, row map[string]int) string {
	var out strings.Builder
	for _, t := range l.Adds {
		r, there := row[t.Name]
		if !there {
			continue
		}
		switch {
		case t.Less:
			out.WriteString("-")
		case out.Len() > 0:
			out.WriteString("+")
		}
		out.WriteString(b.lines.Here("Amount", r))
	}
	if out.Len() == 0 {
		return "0"
	}
	return out.String()
}

// fillChannels writes income by channel, with totals.
func (b *yearBook) fillChannels() {
	s := b.channels
	s.Landscape = true
	first := s.NextRow()
	var sum [8]money.Cents
	sales := 0
	for _, c := range b.y.Channels {
		row := s.NextRow()
		all := []money.Cents{c.Price, c.DeliveryCharged, c.Gross(), c.Refunds, c.Fees, c.DeliveryCost, c.SalesTax,
			c.MarketplaceTax}
		cells := []wb.Cell{wb.Text(taxyear.ChannelName(c.Name)), wb.Whole(c.Sales)}
		for i, x := range all {
			cell := amount(x)
			if i == 2 {
				cell = cell.By(s.Here("Prices", row) + "+" + s.Here("Delivery charged", row))
			}
			cells = append(cells, cell)
			sum[i] += x
		}
		sales += c.Sales
		s.Row(wb.Normal, cells...)
	}
	cells := []wb.Cell{wb.Text("All channels"), wb.Whole(sales)}
	for i, x := range sum {
		cells = append(cells, amount(x).By(b.columnSum(s, s.Columns[i+2].Head, first)))
	}
	s.Row(wb.GrandTotal, cells...)
}

// columnSum adds a column up from a row to the last one so far.
func (b *yearBook) columnSum(s *wb.Sheet, head string, first int) string {
	if s.LastRow() < first {
		return "0"
	}
	return "SUM(" + s.HereRange(head, first, s.LastRow()) + ")"
}

// fillReported writes each channel's statement down to its remainder.
func (b *yearBook) fillReported() {
	s := b.reported
	for _, x := range b.y.Statements {
		s.Row(wb.Group, wb.Text(x.Record.Channel))
		first := s.NextRow()
		for i, t := range x.Terms {
			if i > 0 && t.Cents == 0 {
				continue
			}
			cell := wb.Cell{}
			if i == 0 {
				cell = wb.Text(x.Record.At.Short())
			}
			s.Row(wb.Normal, wb.Text(t.Label), amount(t.Cents).InFull(), cell)
		}
		s.Row(wb.GrandTotal, wb.Text(words.Remainder(x.Remainder)), amount(x.Remainder).InFull().By(
			b.columnSum(s, "Amount", first)))
		for _, c := range x.Causes {
			s.Row(wb.Quiet, wb.Text(c))
		}
	}
}

// fillEquipment writes the register; each write-off over years stands beside
// its unrounded formula. A last year takes what is left, so its formula is that.
func (b *yearBook) fillEquipment() {
	s := b.equipment
	s.Landscape = true
	s.Note("Part of the cost is this year's percentage of the published table. Each year is rounded to the " +
		"cent; the last " +
		"one takes what is left.")
	first := s.NextRow()
	var sum [4]money.Cents
	for _, a := range b.y.Assets {
		row := s.NextRow()
		this := a.Now
		if a.Yearly == nil && a.Record.On.Year == b.y.Year {
			this = a.Cost
		}
		part, exact, off := wb.Cell{}, wb.Cell{}, wb.Cell{}
		if a.Percent != nil {
			share := new(big.Rat).Quo(a.Percent, big.NewRat(100, 1))
			part = wb.Number(share, 4)
			value, formula := new(big.Rat).Mul(units(a.Cost.Rat()), share), s.Here("Cost", row)+"*"+
				s.Here("Part of the cost", row)
			if a.After == 0 {
				value, formula = units((a.Cost - a.Before).Rat()), s.Here("Cost", row)+"-"+s.Here("Before", row)
			}
			exact = wb.Exact(value).By(formula)
			far := new(big.Rat).Sub(units(a.Now.Rat()), value)
			off = flagged(far.Abs(far).Cmp(big.NewRat(1, 200)) > 0).By("IF(ABS(" + s.Here("This year", row) + "-" +
				s.Here("Unrounded", row) + ")>0.005,1,0)")
		}
		s.Row(wb.Normal, dayCell(a.Record.On), wb.Text(a.Record.What), wb.Text(a.Record.Life), amount(a.Cost),
			amount(a.Before), part, amount(this), exact, off,
			amount(a.After).By(s.Here("Cost", row)+"-"+s.Here("Before", row)+"-"+s.Here("This year", row)),
			wb.Text(a.Record.Receipt), wb.Text(a.Record.At.Short()))
		for i, c := range []money.Cents{a.Cost, a.Before, this, a.After} {
			sum[i] += c
		}
	}
	total := func(i int, head string) wb.Cell { return amount(sum[i]).By(b.columnSum(s, head, first)) }
	s.Row(wb.GrandTotal, wb.Text("All"), wb.Cell{}, wb.Cell{}, total(0, "Cost"), total(1, "Before"), wb.Cell{},
		total(2, "This year"), wb.Cell{}, wb.Cell{}, total(3, "Still to come"))
}

// fillTies writes every reconciliation, its difference as a formula.
func (b *yearBook) fillTies() {
	s := b.ties
	for _, t := range b.y.Ties {
		s.Row(wb.Group, wb.Text(words.Capital(t.Name)))
		first := s.NextRow()
		for _, x := range t.Terms {
			s.Row(wb.Normal, wb.Text(words.Term(t.Name, x)), amount(x.Cents))
		}
		reached := s.Row(wb.Subtotal, wb.Text("Together"), amount(t.Reached).InFull().By(b.columnSum(s, "Amount", first)))
		against := s.NextRow()
		s.Row(wb.Normal, wb.Text(words.Capital(t.AgainstIs)), amount(t.Against).InFull(), amount(t.Difference).InFull().By(
			s.Here("Amount", reached)+"-"+s.Here("Amount", against)))
	}
}

func (b *yearBook) fillReceipts() {
	s := b.receipts
	s.Landscape, s.Filter = true, true
	s.Note("Wanted: a cost above the shop's limit that names no receipt.")
	for _, p := range b.y.Papers {
		wanted := ""
		if slices.ContainsFunc(b.y.NoReceipt, func(x taxyear.Paper) bool { return x.At == p.At && x.Table == p.Table }) {
			wanted = "wanted"
		}
		s.Row(wb.Normal, wb.Text(p.Table), dayCell(p.On), wb.Text(p.What), amount(p.Cents), wb.Text(p.Receipt),
			wb.Text(wanted), wb.Text(p.At.Short()))
	}
}

// yearChecks compare the form's lines with the statement and the registers.
func (b *yearBook) yearChecks() []check {
	st, h := b.y.Figures.Statement, b.y.Table.Holds
	head := b.periods[0].head
	line := func(number string) wb.Cell {
		for i, l := range b.y.Lines {
			if l.Line == number {
				return amount(l.Cents).By(b.lines.Cell("Amount", b.lines.FirstRow()+i))
			}
		}
		return amount(0)
	}
	statement := func(label string, c money.Cents) wb.Cell {
		return amount(c).By(b.statement.Cell(head, find(b.statement, label)))
	}
	last := func(s *wb.Sheet, column string, c money.Cents) wb.Cell {
		return amount(c).By(s.Cell(column, s.LastRow()))
	}
	var received, back, equipment money.Cents
	for _, c := range b.y.Channels {
		received, back = received+c.Gross(), back+c.Refunds
	}
	for _, a := range b.y.Assets {
		if equipment += a.Now; a.Yearly == nil && a.Record.On.Year == b.y.Year {
			equipment += a.Cost
		}
	}
	gross, refunds, trips := b.y.Number(figures.LineGrossReceipts), b.y.Number(figures.LineRefunds),
		b.y.Number(figures.LineTrips)
	out := []check{
		{"Line " + gross, "the form's line against the statement's gross receipts", line(gross), statement(statementLabel(figures.LineGrossReceipts), st.GrossReceipts)},
		{"Line " + refunds, "the form's line against the statement's refunds and returns", line(refunds), statement(statementLabel(figures.LineRefunds), st.Refunds)},
		{"Line " + trips, "the form's line against the statement's trips", line(trips), statement(statementLabel(figures.LineTrips), st.Trips)},
		{"Income by channel", "the sheet Channels against line " + gross, last(b.channels, "Received", received), line(gross)},
		{"Given back by channel", "the sheet Channels against line " + refunds, last(b.channels, "Given back", back), line(refunds)},
		{"Equipment", "the sheet Equipment against what is written off at once by the statement, and depreciation", last(b.equipment, "This year", equipment), amount(st.Equipment + b.y.Depreciation)},
	}
	if !b.y.WhenUsed {
		cost := statement(statementLabel(figures.LineCostOfSales), st.CostOfPiecesSold+st.ShelfLosses+st.PiecesLost)
		cost.Formula += "+" + statement(statementLabel(figures.LineShelfLosses), 0).Formula + "+" +
			statement(statementLabel(figures.LinePiecesLost), 0).Formula
		out = append(out, check{"Line " + h.Cost, "the roll-forward against cost of pieces sold, shelf losses and pieces " +
			"lost by the statement", line(h.Cost), cost})
	}
	for _, t := range b.y.Ties[len(b.y.Figures.TieOut):] {
		out = append(out, check{"Reconciliation: " + t.Name, "as printed: the terms added up, against " + t.AgainstIs,
			amount(t.Reached), amount(t.Against)})
	}
	return out
}
