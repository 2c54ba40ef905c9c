package accountant

import (
	"slices"

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
	b.cover.Row(wb.Normal, wb.Text("Line "+line), b.line(line),
		wb.Text("that less depreciation: net profit or loss by the form"+words.After(", ", b.y.Table.Words.Net)))
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
	b.lines = b.add("Form lines", b.y.Table.Form+", by its lines", "the form's lines, each a sum of the postings that "+
		"name its number, or of other lines", heads{}.number(0, "No.").text(0, "Part", "Line").
		wrapped(56, "What, in our words").money(14, "Of which", "Amount").wrapped(44, "For the preparer").
		wrapped(36, "Source"))
	b.channels = b.add("Channels", "Income by channel", "the year's sales money by channel",
		heads{}.text(28, "Channel").number(0, "Sales").money(14, channelMoney...))
	b.reported = b.add("Reported", "What channels reported, and what explains it", "each channel's yearly statement "+
		"against the recorded sales", heads{}.text(62, "What").money(14, "Amount").text(30, "Record"))
	b.equipment = b.add("Equipment", "Equipment and what is written off", "every item of equipment, with each year's "+
		"write-off beside its formula, and what was sold", equipmentColumns())
	b.ties = b.add("Reconciliations", "Reconciliations", "each total reached by two ways",
		heads{}.wrapped(70, "What").money(14, "Amount", "Difference"))
	b.receipts = b.add("Receipts", "Every money record of the year with its receipt", "every money record with its "+
		"receipt", heads{}.text(0, "Table").date(0, "Date").text(40, "What").money(14, "Amount").text(0, "Receipt").
		text(10, "Wanted").text(30, "Record"))
	mine := []*wb.Sheet{b.lines, b.channels, b.reported, b.equipment, b.ties}
	late := []*wb.Sheet{b.receipts}
	rest := slices.DeleteFunc(slices.Clone(b.book.book.Sheets), func(s *wb.Sheet) bool {
		return s == b.cover || slices.Contains(mine, s) || slices.Contains(late, s)
	})
	at := slices.Index(rest, b.postings)
	b.book.book.Sheets = slices.Concat([]*wb.Sheet{b.cover}, mine, rest[:at], late, rest[at:])
}

// fillChannels writes income by channel, with totals.
func (b *yearBook) fillChannels() {
	s := b.channels
	s.Landscape = true
	first := s.NextRow()
	sales := 0
	for _, c := range b.y.Channels {
		row := s.NextRow()
		s.Row(wb.Normal, wb.Text(words.Channel(c.Name)), wb.Whole(c.Sales), amount(c.Price), amount(c.DeliveryCharged),
			amount(c.Gross()).By(s.Here("Prices", row)+"+"+s.Here("Delivery charged", row)), amount(c.Refunds),
			amount(c.Fees), amount(c.DeliveryCost), amount(c.SalesTax), amount(c.MarketplaceTax))
		sales += c.Sales
	}
	addSums(s, wb.GrandTotal, first, channelMoney, wb.Text("All channels"), wb.Whole(sales))
}

// channelMoney are the amounts of a channel.
var channelMoney = []string{"Prices", "Delivery charged", "Received", "Given back", "Fees", "Delivery cost",
	"Sales tax", "Marketplace tax"}

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
			sumOf(s, "Amount", first)))
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
