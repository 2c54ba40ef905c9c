package year

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
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
	records := trailOf(in)
	for _, c := range in.Tax.Channels {
		t.Rows = append(t.Rows, openChannel(in, records, c, channelRow(page.Normal, words.Channel(c.Name), c)))
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
	if other := otherIncome(in); other != nil {
		out = append(out, other)
	}
	return append(out, reported(in)...)
}

func channelRow(style page.RowStyle, name string, c taxyear.Channel) page.Row {
	return page.Styled(style, page.Text(name), cells.Count(c.Sales), cells.Money(c.Price), cells.Money(c.DeliveryCharged),
		cells.Money(c.Gross()), cells.Money(c.Refunds), cells.Money(c.Fees),
		cells.Money(c.DeliveryCost), cells.Money(c.SalesTax), cells.Money(c.MarketplaceTax))
}

// openChannel gives the amounts of a channel's row what they are made of: the
// records of its sales, and the postings of its fees.
func openChannel(in *report.YearInput, records trail, c taxyear.Channel, row page.Row) page.Row {
	name := words.Channel(c.Name) + ": "
	for i, of := range []page.Ref{pricesOf(in, c.Name), deliveryOf(in, c.Name), receivedOf(in, c, false),
		receivedOf(in, c, true),
		records.ofChannel(name+"fees", c.Name, figures.LineFees),
		records.ofChannel(name+"delivery", c.Name, figures.LineDelivery),
		ofSales(in, c.Name, "Sales tax collected", taken(func(x ledger.Sale) money.Cents { return x.SalesTax })),
		ofSales(in, c.Name, "Marketplace tax", taken(func(x ledger.Sale) money.Cents { return x.MarketplaceTax }))} {
		row.Cells[i+2] = row.Cells[i+2].Opens(of)
	}
	return row
}

// receivedOf is what a channel's sales brought, or what was given back.
func receivedOf(in *report.YearInput, c taxyear.Channel, back bool) *report.Worked {
	if back {
		return ofSales(in, c.Name, "Given back", func(x ledger.Sale) money.Cents {
			if !givesBack(x) {
				return 0
			}
			return x.Price + x.DeliveryCharged
		})
	}
	return &report.Worked{Title: words.Channel(c.Name) + ": received", Terms: []report.Term{
		{Label: "Prices", Cents: c.Price, Of: pricesOf(in, c.Name)},
		{Label: "Delivery charged", Cents: c.DeliveryCharged, Of: deliveryOf(in, c.Name)}}}
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
		t.Rows = append(t.Rows, page.Line(page.Date(in.Day(p.Date)), page.Text(words.Capital(text)), page.Text(p.Group),
			cells.Money(p.Cents).Opens(&report.Listed{Title: words.Capital(text), Postings: []ledger.Posting{p}}),
			page.Text(words.Sources(p.Source))))
		sum += p.Cents
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("Line "+in.Tax.Number(figures.LineOtherIncome)),
		page.Empty(), page.Empty(), cells.Money(sum)))
	return t
}

// yearPostings are the year's postings that match.
func yearPostings(in *report.YearInput, match func(ledger.Posting) bool) []ledger.Posting {
	var out []ledger.Posting
	for p := range in.InMonth() {
		if match(p) {
			out = append(out, p)
		}
	}
	return out
}

// reported compares each channel's yearly statement with the recorded sales, and
// says from where on a channel must send one.
func reported(in *report.YearInput) []page.Block {
	if len(in.Tax.Channels) == 0 {
		return nil
	}
	out := []page.Block{page.Heading{Text: "What channels reported", Level: 1, Anchor: taxyear.SecChannels}}
	if len(in.Tax.Statements) > 0 {
		out = append(out, page.Paragraph{Text: "A channel reports gross: before fees, refunds and delivery, and often " +
			"with tax in it" + words.Cited(in.Law.Rule(templates.RuleChannels).Words) + ". Each is taken from " +
			"what was reported " +
			"down to 0.00, or to what no line explains."})
	}
	t := page.Table{Whole: true, Columns: []page.Column{{Head: "Channel and how its total is explained", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	for _, s := range in.Tax.Statements {
		t.Rows = append(t.Rows, page.Styled(page.Group, page.Text(s.Record.Channel)))
		for i, x := range s.Terms {
			if i > 0 && x.Cents == 0 {
				continue
			}
			row := page.Line(page.Text(words.Term(taxyear.RollReported, x)),
				page.FullMoney(int64(x.Cents)).Opens(reportedOf(in, s, i)))
			if i == 0 {
				row.Cells = append(row.Cells, page.Text(s.Record.At.Short()+receiptWords(s.Record.Receipt)))
			}
			t.Rows = append(t.Rows, row)
		}
		last := page.Styled(page.Subtotal, page.Text(words.Remainder(s.Remainder)), page.FullMoney(int64(s.Remainder)))
		last.Note = words.YearNote(s.Explained)
		for _, cause := range s.Causes {
			last.Note = strings.TrimSpace(last.Note + " " + words.YearNote(cause))
		}
		t.Rows = append(t.Rows, last)
	}
	if len(t.Rows) > 0 {
		out = append(out, t)
	}
	if without := withoutStatement(in); len(without) > 0 {
		text := page.Say("No yearly statement is written down of ")
		for i, c := range without {
			if i > 0 {
				text = append(text, page.Text(", "))
			}
			text = append(text, page.Text(c.Name+" ("), in.Said(c.Gross(), receivedOf(in, c, false)),
				page.Text(" in "+words.Plural(c.Sales, "sale", "sales")))
			if c.CardFees {
				text = append(text, page.Text(", with card fees"))
			}
			text = append(text, page.Text(")"))
		}
		out = append(out, page.Says(page.Body, append(text, page.Text(". "+in.Law.Reports.Words))))
	}
	return out
}

// reportedOf is what the nth step of a channel's comparison is made of: what it
// reported, prices, delivery, and then the reasons that explain the rest.
func reportedOf(in *report.YearInput, s taxyear.StatementCheck, n int) page.Ref {
	x := s.Terms[n]
	name := words.Term(taxyear.RollReported, x)
	switch n {
	case 0:
		return report.Typed{What: name, At: s.Record.At, Cents: x.Cents}
	case 1:
		return pricesOf(in, s.Record.Channel)
	case 2:
		return deliveryOf(in, s.Record.Channel)
	}
	return inWords(s.Record.Channel+", "+name, cmp.Or(words.YearNote(s.Explained), name+"."), x.Cents)
}

func pricesOf(in *report.YearInput, channel string) *report.Worked {
	return ofSales(in, channel, "Prices", taken(func(x ledger.Sale) money.Cents { return x.Price }))
}

func deliveryOf(in *report.YearInput, channel string) *report.Worked {
	return ofSales(in, channel, "Delivery charged", taken(func(x ledger.Sale) money.Cents { return x.DeliveryCharged }))
}

// withoutStatement are the channels with fees, but no yearly statement.
func withoutStatement(in *report.YearInput) []taxyear.Channel {
	var out []taxyear.Channel
	for _, c := range in.Tax.Channels {
		has := slices.ContainsFunc(in.Tax.Statements, func(s taxyear.StatementCheck) bool {
			return strings.EqualFold(s.Record.Channel, c.Name)
		})
		if c.Name == "" || c.Sales == 0 || c.Fees == 0 || has {
			continue
		}
		out = append(out, c)
	}
	return out
}

func receiptWords(receipt string) string {
	if receipt == "" {
		return ""
	}
	return ", receipt " + receipt
}
