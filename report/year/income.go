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

// income is the year's sales money by channel, and other income.
func income(in *report.YearInput) []page.Block {
	heads := []string{"Prices", "Delivery charged", "Received", "Given back", "Fees", "Delivery cost",
		"Sales tax collected", "Marketplace tax"}
	t := page.Table{Caption: "Sales by channel", Columns: page.Heads{}.Wide(1, "Channel").Number("Sales").Money(heads...)}
	sales, records := 0, trailOf(in)
	for _, c := range in.Tax.Channels {
		name := words.Channel(c.Name)
		t.Add(page.Text(name), cells.Count(c.Sales), cells.Money(c.Price).Opens(pricesOf(in, c.Name)),
			cells.Money(c.DeliveryCharged).Opens(deliveryOf(in, c.Name)),
			cells.Money(c.Gross()).Opens(receivedOf(in, c)), cells.Money(c.Refunds).Opens(givenBackOf(in, c)),
			cells.Money(c.Fees).Opens(records.ofChannel(name+": fees", c.Name, figures.LineFees)),
			cells.Money(c.DeliveryCost).Opens(records.ofChannel(name+": delivery", c.Name, figures.LineDelivery)),
			cells.Money(c.SalesTax).Opens(ofSales(in, c.Name, "Sales tax collected", false,
				func(x ledger.Sale) money.Cents { return x.SalesTax })),
			cells.Money(c.MarketplaceTax).Opens(ofSales(in, c.Name, "Marketplace tax", false,
				func(x ledger.Sale) money.Cents { return x.MarketplaceTax })))
		sales += c.Sales
	}
	t.AddSum(page.GrandTotal, "All channels", heads...).Cells[1] = cells.Count(sales)
	t.Note = fmt.Sprintf("Received is line %s, given back line %s, fees line %s. Sales counts Sales lines, part "+
		"payments too.%s", in.Tax.Number(figures.LineGrossReceipts), in.Tax.Number(figures.LineRefunds),
		in.Tax.Number(figures.LineFees), words.After(" ", in.Law.Rule(templates.RuleSalesTax).Words))
	out := []page.Block{cells.WithoutBlank(t, "Delivery cost", "Sales tax collected", "Marketplace tax",
		"Delivery charged")}
	if other := otherIncome(in); other != nil {
		out = append(out, other)
	}
	return append(out, reported(in)...)
}

// receivedOf is what a channel's sales brought, and givenBackOf what was given back.
func receivedOf(in *report.YearInput, c taxyear.Channel) *report.Worked {
	return report.SumOf(words.Channel(c.Name)+": received").Plus("Prices", c.Price, pricesOf(in, c.Name)).
		Plus("Delivery charged", c.DeliveryCharged, deliveryOf(in, c.Name))
}

func givenBackOf(in *report.YearInput, c taxyear.Channel) *report.Worked {
	return ofSales(in, c.Name, "Given back", true, func(x ledger.Sale) money.Cents { return x.Price + x.DeliveryCharged })
}

// otherIncome is each posting of other income.
func otherIncome(in *report.YearInput) page.Block {
	t := page.Table{Caption: "Other income",
		Columns: page.Heads{}.Date("Date").Wide(1, "What").Text("Group").Money("Amount").Small("Record")}
	for p := range in.InMonth() {
		if p.From != ledger.Other {
			continue
		}
		text := words.Capital(words.How(p))
		if p.Piece != "" {
			text = words.Capital(p.Piece + ": " + words.How(p))
		}
		t.Add(page.Date(in.Day(p.Date)), page.Text(text), page.Text(p.Group),
			cells.Money(p.Cents).Opens(listed(text, []ledger.Posting{p})), page.Text(words.Sources(p.Source)))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.AddSum(page.GrandTotal, "Line "+in.Tax.Number(figures.LineOtherIncome), "Amount")
	return t
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
			"with tax in it" + words.Enclosed(" (", in.Law.Rule(templates.RuleChannels).Words, ")") +
			". Each is taken from what was reported down to 0.00, or to what no line explains."})
	}
	t := page.Table{Whole: true,
		Columns: page.Heads{}.Wide(1, "Channel and how its total is explained").Money("Amount").Small("Record")}
	for _, s := range in.Tax.Statements {
		t.AddStyled(page.Group, page.Text(s.Record.Channel))
		for i, x := range s.Terms {
			if i > 0 && x.Cents == 0 {
				continue
			}
			row := t.Add(page.Text(words.Term(taxyear.RollReported, x)), cells.Full(x.Cents).Opens(reportedOf(in, s, i)))
			if i == 0 {
				row.Cells = append(row.Cells, page.Text(s.Record.At.Short()+words.After(", receipt ", s.Record.Receipt)))
			}
		}
		last := t.AddStyled(page.Subtotal, page.Text(words.Remainder(s.Remainder)), cells.Full(s.Remainder))
		last.Note = words.YearNote(s.Explained)
		for _, cause := range s.Causes {
			last.Note = strings.TrimSpace(last.Note + " " + words.YearNote(cause))
		}
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
			text = append(text, page.Text(c.Name+" ("), in.Said(c.Gross(), receivedOf(in, c)),
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
	return report.InWords(s.Record.Channel+", "+name, cmp.Or(words.YearNote(s.Explained), name+"."), x.Cents)
}

func pricesOf(in *report.YearInput, channel string) *report.Worked {
	return ofSales(in, channel, "Prices", false, func(x ledger.Sale) money.Cents { return x.Price })
}

func deliveryOf(in *report.YearInput, channel string) *report.Worked {
	return ofSales(in, channel, "Delivery charged", false, func(x ledger.Sale) money.Cents { return x.DeliveryCharged })
}

// withoutStatement are the channels with fees, but no yearly statement.
func withoutStatement(in *report.YearInput) []taxyear.Channel {
	return slices.DeleteFunc(slices.Clone(in.Tax.Channels), func(c taxyear.Channel) bool {
		return c.Name == "" || c.Sales == 0 || c.Fees == 0 ||
			slices.ContainsFunc(in.Tax.Statements, func(s taxyear.StatementCheck) bool {
				return strings.EqualFold(s.Record.Channel, c.Name)
			})
	})
}
