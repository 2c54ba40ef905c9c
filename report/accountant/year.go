package accountant

import (
	"slices"

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
	y                                                    *taxyear.Year
	lines, channels, reported, equipment, ties, receipts *wb.Sheet
	lineRow                                              map[string]int    // of a form's line
	partRow                                              map[[2]int]int    // of an amount that a line takes
	tieRow                                               map[string][2]int // of a reconciliation: together, and against
}

// YearBook is the year's workbook (year.xlsx): the form's lines as sums over
// the postings, the registers, the reconciliations, and the
// sheets that the month's workbook has, spanning the year.
func YearBook(in report.YearInput) *wb.Book {
	b := &wb.Book{}
	FillYear(b, in)
	return b
}

// FillYear makes a workbook, empty so far, the year's.
func FillYear(into *wb.Book, in report.YearInput) {
	y := in.Tax
	over := in.Input
	over.Month = y.Figures
	over.Month.From = y.Months[0].From // sums start where the books do: openings stand before it
	over.Year, over.Before, over.Last = over.Month, nil, y.Months
	over.Postings = slices.Concat(in.Postings, y.WriteOffs())
	b := &yearBook{book: newBook(into, &over, "Year workbook", nil, y), y: y, tieRow: map[string][2]int{}}
	b.lay()
	b.before, b.coverMore = b.fillYear, b.fillCoverLine
	b.fill()
}

// fillYear fills the year's sheets, those that others refer to first.
func (b *yearBook) fillYear() {
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
	b.cover.Row(wb.Normal, wb.Text("Line "+line), b.line(line), wb.Text("that less depreciation: net profit "+
		"or loss by the "+
		"form"+words.After(", ", b.y.Table.Words.Net)))
}

// line is a form's line as it stands on its sheet; 0.00 where it has none.
func (b *yearBook) line(number string) wb.Cell {
	row, there := b.lineRow[number]
	if !there {
		return amount(0)
	}
	return amount(b.y.Amount(number)).By(b.lines.Cell("Amount", row))
}

// lay adds the year's sheets: the form and its registers after the cover, the
// long lists before the postings.
func (b *yearBook) lay() {
	money := func(head string) wb.Column { return wb.Column{Head: head, Kind: wb.KindMoney, Width: 14} }
	record := wb.Column{Head: "Record", Width: 30}
	b.lines = b.add("Form lines", b.y.Table.Form+", by its lines", "the form's lines, each a sum of the postings that "+
		"name its number, or of other lines",
		wb.Column{Head: "No.", Kind: wb.KindNumber}, wb.Column{Head: "Part"}, wb.Column{Head: "Line"},
		wb.Column{Head: "What, in our words", Width: 56, Wrap: true}, money("Of which"), money("Amount"),
		wb.Column{Head: "For the preparer", Width: 44, Wrap: true}, wb.Column{Head: "Source", Width: 36, Wrap: true})
	b.channels = b.add("Channels", "Income by channel", "the year's sales money by channel", wb.Column{Head: "Channel",
		Width: 28}, wb.Column{Head: "Sales", Kind: wb.KindNumber}, money("Prices"), money("Delivery charged"),
		money("Received"), money("Given back"), money("Fees"), money("Delivery cost"), money("Sales tax"),
		money("Marketplace tax"))
	b.reported = b.add("Reported", "What channels reported, and what explains it",
		"each channel's yearly statement against the recorded sales", wb.Column{Head: "What", Width: 62},
		money("Amount"), record)
	b.equipment = b.add("Equipment", "Equipment and what is written off", "every item of equipment, with each year's "+
		"write-off beside its formula, and what was sold", equipmentColumns(money, record)...)
	b.ties = b.add("Reconciliations", "Reconciliations", "each total reached by two ways", wb.Column{Head: "What",
		Width: 70, Wrap: true}, money("Amount"), money("Difference"))
	b.receipts = b.add("Receipts", "Every money record of the year with its receipt", "every money record "+
		"with its receipt", wb.Column{Head: "Table"}, wb.Column{Head: "Date", Kind: wb.KindDate}, wb.Column{Head: "What",
		Width: 40}, money("Amount"), wb.Column{Head: "Receipt"}, wb.Column{Head: "Wanted", Width: 10}, record)
	mine := []*wb.Sheet{b.lines, b.channels, b.reported, b.equipment, b.ties}
	late := []*wb.Sheet{b.receipts}
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
		cells := []wb.Cell{wb.Text(words.Channel(c.Name)), wb.Whole(c.Sales)}
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
			s.Row(wb.Normal, wb.Text(words.Term(taxyear.RollReported, t)), amount(t.Cents).InFull(), cell)
		}
		s.Row(wb.GrandTotal, wb.Text(words.Remainder(x.Remainder)), amount(x.Remainder).InFull().By(
			b.columnSum(s, "Amount", first)))
		for _, c := range x.Causes {
			s.Row(wb.Quiet, wb.Text(words.YearNote(c)))
		}
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
