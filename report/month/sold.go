package month

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// soldTable lists pieces that have left, one line each, with both profits, the
// hour's, and a bar of the profit after shop costs. Its note leads from what is
// usually called profit to both.
func soldTable(in *report.Input, caption string, pieces []figures.Piece) page.Table {
	scale := page.ScaleOf()
	t := page.Table{Caption: caption, Columns: page.Heads{}.Text("Piece").Wide(1, "What").Date("Sold").
		Money("Receipts", words.BeforeShopCosts, words.AfterShopCosts).Drawn(0, scale, "").Money(words.HourAfter)}
	timed, hours := report.SumOf("Profit after shop costs of the pieces with hours"), new(big.Rat)
	for _, p := range pieces {
		drawn := page.Empty()
		if p.ProfitAfterOverhead != nil {
			*scale = *page.ScaleOf(scale.Lo, scale.Hi, float64(*p.ProfitAfterOverhead))
			drawn = bar(*p.ProfitAfterOverhead)
			if p.Hours != nil && p.Hours.Sign() > 0 {
				timed.Terms = append(timed.Terms, in.LineTerm(p, figures.LineAfterOverhead))
				hours.Add(hours, p.Hours)
			}
		}
		t.Add(report.PieceCell(p.Record.ID), page.Text(words.PieceBrief(p.Record)), day(in, p.SoldOn),
			in.LineCell(p, figures.LineReceipts), in.LineCell(p, figures.LineProfit),
			in.LineCell(p, figures.LineAfterOverhead), drawn, report.HourAfter(p))
	}
	total := t.AddSum(page.GrandTotal, words.Plural(len(pieces), "piece", "pieces"), "Receipts", words.BeforeShopCosts,
		words.AfterShopCosts)
	if hours.Sign() > 0 {
		of := hourOf("An hour after shop costs, "+caption, hours, timed)
		total.Cells = append(total.Cells, page.Empty(), cells.Money(of.Cents).Opens(of))
	}
	t.NoteFigures = soldNote(in, pieces)
	t.Note = t.NoteFigures.String()
	return t
}

// soldNote leads from what the pieces sold for less what was paid for them to
// their profits, by signs. What is nothing is left out.
func soldNote(in *report.Input, pieces []figures.Piece) page.Sentence {
	of := func(title string, ids ...figures.ID) (page.Cell, money.Cents) {
		w := ofPieces(in, pieces, title, ids...)
		return cells.Bare(w.Total(), w), w.Total()
	}
	start, _ := of(words.SoldLessBought, figures.LineSoldLess)
	text := page.Say("Sold less bought %s", start)
	for _, x := range []struct {
		name string
		ids  []figures.ID
	}{{"parts and outside work", []figures.ID{figures.LineParts, figures.LineOutsideWork}},
		{"supplies", []figures.ID{figures.LineSupplies}}, {"selling costs", []figures.ID{figures.LineSellingCosts}},
		{"trips", []figures.ID{figures.LineTrips}}} {
		if cell, cents := of(words.Capital(x.name), x.ids...); cents != 0 {
			text = append(text, page.Named(" − ", x.name, cell)...)
		}
	}
	before, beforeCents := of(words.BeforeShopCosts, figures.LineProfit)
	text = append(text, page.Named(" = ", "profit before shop costs", before)...)
	if after, cents := of(words.AfterShopCosts, figures.LineAfterOverhead); cents != beforeCents {
		text = append(text, page.Say("; − shop costs (their part of rent, insurance and the like) %s = after shop costs %s",
			cells.Bare(beforeCents-cents, ofPieces(in, pieces, "Shop costs", figures.LineOverhead)), after)...)
	}
	return append(text, page.Text(", shown as bars."))
}

// ofPieces is lines of pieces sold, piece by piece.
func ofPieces(in *report.Input, pieces []figures.Piece, title string, ids ...figures.ID) *report.Worked {
	out := report.SumOf(title + " of the pieces sold")
	for _, p := range pieces {
		for i, id := range ids {
			x := in.LineTerm(p, id)
			if i > 0 {
				x.Label += ", " + words.Uncapital(words.Label(figures.OfPiece, id))
			}
			if x.Cents != 0 {
				out.Terms = append(out.Terms, x)
			}
		}
	}
	return out
}

// sold are the pieces sold in the period, and those that went unsold.
func sold(in *report.Input) []page.Block {
	var out []page.Block
	if list := soldIn(in.Month); len(list) > 0 {
		out = append(out, soldTable(in, "Pieces sold", list))
	}
	gone := in.Chosen(func(p figures.Piece) bool {
		return p.Status != "in stock" && p.Status != "client" && p.Status != "sold" && p.Record.How != ledger.Client
	}, report.BySale)
	if len(gone) > 0 {
		out = append(out, goneTable(in, gone))
	}
	return out
}

// goneTable lists pieces that went unsold in the period.
func goneTable(in *report.Input, gone []figures.Piece) page.Block {
	t := page.Table{Caption: "Gone unsold", Columns: page.Heads{}.Text("Piece").Wide(1, "What").Text("Why").Date("On").
		Money("Book cost", "Received").Small("Record")}
	for _, p := range gone {
		row := t.Add(report.PieceCell(p.Record.ID), page.Text(words.PieceBrief(p.Record)), page.Text(p.Status),
			page.Empty(), in.LineCell(p, figures.LineBookCost), in.LineCell(p, figures.LineReceived), page.Empty())
		for _, r := range in.OfPiece(p.Record.ID).Removals {
			row.Cells[3], row.Cells[6] = day(in, r.On), page.Text(r.At.Short())
		}
	}
	if len(gone) > 1 {
		t.AddSum(page.GrandTotal, words.Plural(len(gone), "piece", "pieces"), "Book cost", "Received")
	}
	return cells.WithoutBlank(t, "Received")
}

// bar is a solid bar from zero to an amount.
func bar(c money.Cents) page.Cell { return page.Draw(page.Drawn{Bar: &page.Interval{To: float64(c)}}) }
