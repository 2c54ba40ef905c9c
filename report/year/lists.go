package year

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// income is the year's sales money by channel, and income that is no sale.
func income(in *report.YearInput) []page.Block {
	t := page.Table{Caption: "Sales by channel", Columns: append([]page.Column{{Head: "Channel", Weight: 1},
		{Head: "Sales", Kind: page.KindNumber}},
		page.Cols(page.KindMoney, "Prices", "Delivery charged", "Received", "Given back", "Fees", "Delivery cost",
			"Sales tax collected", "Marketplace tax")...)}
	var all taxyear.Channel
	for _, c := range in.Tax.Channels {
		t.Rows = append(t.Rows, channelRow(page.Normal, taxyear.ChannelName(c.Name), c))
		all.Sales += c.Sales
		all.Price, all.DeliveryCharged, all.Refunds, all.Fees = all.Price+c.Price, all.DeliveryCharged+c.DeliveryCharged,
			all.Refunds+c.Refunds, all.Fees+c.Fees
		all.DeliveryCost, all.SalesTax, all.MarketplaceTax = all.DeliveryCost+c.DeliveryCost, all.SalesTax+c.SalesTax,
			all.MarketplaceTax+c.MarketplaceTax
	}
	t.Rows = append(t.Rows, channelRow(page.GrandTotal, "All channels", all))
	t.Note = fmt.Sprintf("Received is line %s, given back line %s, fees line %s. Sales counts Sales lines, part "+
		"payments too.%s", in.Tax.Number(figures.LineGrossReceipts),
		in.Tax.Number(figures.LineRefunds), in.Tax.Number(figures.LineFees),
		words.After(" ", in.Law.Rule(templates.RuleSalesTax).Words))
	out := []page.Block{cells.WithoutBlank(t, "Delivery cost", "Sales tax collected", "Marketplace tax",
		"Delivery charged")}
	return append(out, otherIncome(in))
}

func channelRow(style page.RowStyle, name string, c taxyear.Channel) page.Row {
	return page.Styled(style, page.Text(name), cells.Count(c.Sales), cells.Money(c.Price), cells.Money(c.DeliveryCharged),
		cells.Money(c.Gross()), cells.Money(c.Refunds), cells.Money(c.Fees),
		cells.Money(c.DeliveryCost), cells.Money(c.SalesTax), cells.Money(c.MarketplaceTax))
}

// otherIncome is each posting of income that is no sale.
func otherIncome(in *report.YearInput) page.Block {
	t := page.Table{Caption: "Income that is no sale", Columns: []page.Column{{Head: "Date", Kind: page.KindDate},
		{Head: "What", Weight: 1}, {Head: "Group"}, {Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	var sum money.Cents
	for _, p := range yearPostings(in, func(p ledger.Posting) bool { return p.From == ledger.Other }) {
		text := words.How(p)
		if p.Piece != "" {
			text = p.Piece + ": " + text
		}
		t.Rows = append(t.Rows, page.Line(page.Date(p.Date.String()), page.Text(words.Capital(text)), page.Text(p.Group),
			cells.Money(p.Cents), page.Text(words.Sources(p.Source))))
		sum += p.Cents
	}
	if len(t.Rows) == 0 {
		return page.Paragraph{Text: "There was no income beside sales."}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("Line "+in.Tax.Number(figures.LineOtherIncome)),
		page.Empty(), page.Empty(), cells.Money(sum)))
	return t
}

// yearPostings are the year's postings that match.
func yearPostings(in *report.YearInput, match func(ledger.Posting) bool) []ledger.Posting {
	var out []ledger.Posting
	for _, p := range in.InMonth() {
		if match(p) {
			out = append(out, p)
		}
	}
	return out
}

// reported compares each channel's yearly statement with the recorded sales.
func reported(in *report.YearInput) []page.Block {
	if len(in.Tax.Statements) == 0 {
		return []page.Block{page.Paragraph{Text: "No channel's yearly statement is written down in Statements, so there is " +
			"nothing to compare with what channels reported."}}
	}
	out := []page.Block{page.Paragraph{Text: "A channel reports gross: before fees, refunds and delivery, and often " +
		"with tax in it" + words.Cited(in.Law.Rule(templates.RuleChannels).Words) + ". Each is taken from " +
		"what was reported " +
		"down to 0.00, or to what no line explains."}}
	for _, s := range in.Tax.Statements {
		t := page.Table{Caption: s.Record.Channel, Span: 5, Whole: true, NoHead: true, Columns: []page.Column{{Weight: 1},
			{Kind: page.KindMoney}}}
		for i, x := range s.Terms {
			if i > 0 && x.Cents == 0 {
				continue
			}
			t.Rows = append(t.Rows, page.Line(page.Text(x.Label), page.FullMoney(int64(x.Cents))))
		}
		t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Remainder(s.Remainder)),
			page.FullMoney(int64(s.Remainder))))
		t.Note = "Record: " + s.Record.At.Short() + receiptWords(s.Record.Receipt) + ". " + s.Words
		out = append(out, t)
		for _, c := range s.Causes {
			out = append(out, page.Paragraph{Style: page.Caution, Text: c})
		}
	}
	return out
}

func receiptWords(receipt string) string {
	if receipt == "" {
		return ""
	}
	return ", receipt " + receipt
}

// expenseRecords is every record on the lines that take neither income nor the
// cost of what was sold, under its line; those with a log or register of their
// own lead there.
func expenseRecords(in *report.YearInput) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Receipt", Small: true}, {Head: "Record", Small: true}}}
	receipts := receipts(in)
	for _, l := range in.Tax.Lines {
		if len(l.Takes) == 0 || len(l.Postings) == 0 || ofCost(in, l) || ofIncome(in, l) {
			continue
		}
		t.Rows = append(t.Rows, page.Styled(page.Group, page.Text("Line "+l.Line+": "+l.Label)))
		if rows, told := toldElsewhere(in, l); told {
			t.Rows = append(t.Rows, rows...)
			continue
		}
		for _, p := range byRecord(l.Postings) {
			receipt := ""
			if len(p.Source) > 0 {
				receipt = receipts[p.Source[0]]
			}
			t.Rows = append(t.Rows, page.Line(page.Date(p.Date.String()), page.Text(expenseWords(p)), cells.Money(p.Cents),
				page.Text(receipt), page.Text(words.Sources(p.Source))))
		}
		t.Rows = append(t.Rows, page.Styled(page.Subtotal, page.Text("Line "+l.Line), page.Empty(), cells.Money(l.Cents)))
	}
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "There were no expenses."}}
	}
	return []page.Block{t}
}

// toldElsewhere is the one row of a line whose records have pages of their own.
func toldElsewhere(in *report.YearInput, l taxyear.Line) ([]page.Row, bool) {
	where := map[string][2]string{in.Tax.Number(figures.LineTrips): {"Trip by trip in the mileage log",
		taxyear.SecMileage},
		in.Tax.Number(figures.LineDepreciation): {"Item by item in the equipment register", taxyear.SecEquipment}}
	w, ok := where[l.Line]
	if !ok {
		return nil, false
	}
	return []page.Row{page.Line(page.Empty(), page.TextTo(w[0], w[1]), cells.Money(l.Cents))}, true
}

// ofIncome says that a line takes income.
func ofIncome(in *report.YearInput, l taxyear.Line) bool {
	return slices.Contains([]string{in.Tax.Number(figures.LineGrossReceipts), in.Tax.Number(figures.LineRefunds),
		in.Tax.Number(figures.LineOtherIncome)}, l.Line)
}

// yearRecord is the postings of one record and reason that only a sharing over
// pieces parted.
type yearRecord struct {
	ledger.Posting        // the first, with the cents of all
	pieces         string // all their pieces
	joined         bool   // there is more than one
}

// byRecord joins the postings of one record and reason, but for supplies, whose
// shares each have arithmetic of their own; the order is by date.
func byRecord(postings []ledger.Posting) []yearRecord {
	type key struct {
		at     fault.Place
		reason ledger.Reason
	}
	at := map[key]int{}
	var out []yearRecord
	for _, p := range postings {
		k := key{reason: p.Reason}
		if len(p.Source) == 1 {
			k.at = p.Source[0]
		}
		i, seen := at[k]
		if len(p.Source) != 1 || p.Supply != "" || !seen {
			at[k] = len(out)
			out = append(out, yearRecord{Posting: p, pieces: p.Piece})
			continue
		}
		out[i].Cents += p.Cents
		if out[i].pieces != p.Piece {
			out[i].pieces += ", " + p.Piece
		}
		out[i].joined = true
	}
	slices.SortStableFunc(out, func(a, b yearRecord) int { return a.Date.Compare(b.Date) })
	return out
}

// expenseWords says what an expense record is for.
func expenseWords(p yearRecord) string {
	text := words.How(p.Posting)
	if p.joined {
		text = words.Record(p.Posting)
	}
	switch p.Reason {
	case ledger.ReasonFee, ledger.ReasonCardFee, ledger.ReasonDelivery:
		text = p.pieces + ": " + text
		if p.Group != "" {
			text += " (" + p.Group + ")"
		}
	case ledger.ReasonExpense:
		if p.Group != "" {
			text += " (" + p.Group + ")"
		}
		if p.pieces != "" {
			text += ", for " + p.pieces
		}
	case ledger.ReasonSupply, ledger.ReasonRecount, ledger.ReasonBoughtAgain:
		text = p.pieces + ": " + text
	case ledger.ReasonDiscarded, ledger.ReasonSurplus, ledger.ReasonTakeBackGain:
		text = p.Supply + ": " + text
	}
	return words.Capital(text)
}

// receipts is each money record's receipt.
func receipts(in *report.YearInput) map[fault.Place]string {
	out := map[fault.Place]string{}
	for _, p := range in.Tax.Papers {
		out[p.At] = p.Receipt
	}
	return out
}

// stockList is the pieces in stock with what each is made of.
func stockList(in *report.YearInput) []page.Block {
	if len(in.Tax.Stock) == 0 {
		return []page.Block{page.Paragraph{Text: "No piece was in stock at the year's end."}}
	}
	cols := []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Got on", Kind: page.KindDate}}
	cols = append(cols, page.Cols(page.KindMoney, "Acquired for", "Parts", "Outside work", "Supplies", "Book cost")...)
	if in.Tax.WhenUsed {
		cols = append(cols, page.Column{Head: "Less what does not stay", Kind: page.KindMoney}, page.Column{Head: "In line " +
			in.Tax.Number(figures.LineClosingStock), Kind: page.KindMoney})
	}
	t := page.Table{Columns: append(cols, page.Column{Head: "Record", Small: true})}
	var sum [7]money.Cents
	clients := false
	for _, x := range in.Tax.Stock {
		p := x.Piece
		if p.Status == "client" && !clients {
			clients = true
			t.Rows = append(t.Rows, page.Styled(page.Group, page.Text("Work on clients' pieces, which are not the shop's own")))
		}
		row := page.Line(page.Text(p.Record.ID), page.Text(p.Record.Kind), page.Date(p.Record.GotOn.String()))
		row.Note = p.Record.Description
		amounts := []money.Cents{p.Acquisition, p.Parts, p.OutsideWork, p.Supplies, p.BookCost}
		if in.Tax.WhenUsed {
			amounts = append(amounts, p.BookCost-x.Kept, x.Kept)
		}
		for i, c := range amounts {
			row.Cells = append(row.Cells, cells.Money(c))
			sum[i] += c
		}
		row.Cells = append(row.Cells, page.Text(p.Record.At.Short()))
		t.Rows = append(t.Rows, row)
	}
	total := page.Styled(page.GrandTotal, page.Text(words.Plural(len(in.Tax.Stock), "piece", "pieces")), page.Empty(),
		page.Empty())
	n := 5
	if in.Tax.WhenUsed {
		n = 7
	}
	for _, c := range sum[:n] {
		total.Cells = append(total.Cells, cells.Money(c))
	}
	t.Rows = append(t.Rows, total)
	t.Note = "At cost, piece by piece. Every cent of a piece with its records: piecebook why PIECE book_cost " +
		in.Tax.Figures.To.String() + "."
	return []page.Block{cells.WithoutBlank(t, "Parts", "Outside work", "Less what does not stay")}
}

// shelfList is what the shelf holds, with the purchases still on it.
func shelfList(in *report.YearInput) []page.Block {
	cols := []page.Column{{Head: "Supply", Weight: 1}, {Head: "Left", Kind: page.KindNumber}}
	cols = append(cols, page.Cols(page.KindMoney, "Opening", "Bought", "Used", "Lost", "Cost at the end")...)
	t := page.Table{Columns: append(cols, page.Column{Head: "How known"})}
	var sum [5]money.Cents
	var kept money.Cents
	for _, x := range in.Tax.Shelf {
		l := x.Line
		row := page.Line(page.Text(l.Supply.Name+", "+l.Supply.Container), cells.Number(l.Left, 2))
		for i, c := range []money.Cents{l.Opening, l.Bought, l.Used, l.Lost, l.Closing} {
			row.Cells = append(row.Cells, cells.Money(c))
			sum[i] += c
		}
		how := "estimated"
		if x.Counted {
			how = "counted"
		}
		row.Cells = append(row.Cells, page.Text(how))
		var layers []string
		for _, y := range x.Layers {
			layers = append(layers, money.AtMost(y.Left, 3)+" at "+y.Cents.Grouped())
		}
		if len(layers) > 1 {
			row.Note = "purchases still on it, oldest first: " + strings.Join(layers, "; ")
		}
		kept += x.Kept
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "Nothing was on the shelf."}}
	}
	total := page.Styled(page.GrandTotal, page.Text("The whole shelf"), page.Empty())
	for _, c := range sum {
		total.Cells = append(total.Cells, cells.Money(c))
	}
	t.Rows = append(t.Rows, total)
	t.Note = "Left is in containers, cost by the oldest first."
	if in.Tax.WhenUsed {
		t.Note += " Of the cost at the end " + in.Spoken(kept) + " is in line " + in.Tax.Number(figures.LineClosingStock) +
			": supplies that stay on the piece."
	}
	return []page.Block{t}
}

// goneList is the pieces kept, donated, scrapped, stolen and sent back.
func goneList(in *report.YearInput) []page.Block {
	if len(in.Tax.Gone) == 0 {
		return []page.Block{page.Paragraph{Text: "No piece went unsold."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Why"},
		{Head: "On", Kind: page.KindDate}, {Head: "Got on", Kind: page.KindDate},
		{Head: "Cost out of stock", Kind: page.KindMoney}, {Head: "Value that day", Kind: page.KindMoney},
		{Head: "Received", Kind: page.KindMoney}, {Head: "Receipt", Small: true}, {Head: "Record", Small: true}}}
	list := slices.Clone(in.Tax.Gone)
	slices.SortStableFunc(list, func(a, b taxyear.GonePiece) int { return cmp.Compare(a.Removal.Why, b.Removal.Why) })
	var cost, received money.Cents
	for _, g := range list {
		x := g.Removal
		row := page.Line(page.Text(x.Piece), page.Empty(), page.Text(x.Why), page.Date(x.On.String()), page.Empty(),
			cells.Money(g.Cost), cells.Optional(x.Value), cells.Money(g.Received), page.Text(x.Receipt), page.Text(x.At.Short()))
		if rec := g.Piece.Record; rec != nil {
			row.Cells[1], row.Cells[4], row.Note = page.Text(rec.Kind), page.Date(rec.GotOn.String()), rec.Description
		}
		t.Rows = append(t.Rows, row)
		cost, received = cost+g.Cost, received+g.Received
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Plural(len(list), "piece", "pieces")),
		page.Empty(), page.Empty(), page.Empty(), page.Empty(), cells.Money(cost), page.Empty(), cells.Money(received)))
	t.Note = fmt.Sprintf("Kept and donated ones are taken out of line %s at their whole book cost; the "+
		"others are in line "+
		"%s. What was received is in line %s. A donated piece's deduction, and a stolen one's loss, are the preparer's to work out.",
		in.Tax.Number(figures.LineKept), in.Tax.Table.Holds.Cost, in.Tax.Number(figures.LineOtherIncome))
	return []page.Block{t}
}
