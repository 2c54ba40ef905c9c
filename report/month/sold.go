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
	t := page.Table{Caption: caption, Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1},
		{Head: "Sold", Kind: page.KindDate},
		{Head: "Receipts", Kind: page.KindMoney}, {Head: words.BeforeShopCosts, Kind: page.KindMoney}, {Head: words.AfterShopCosts, Kind: page.KindMoney},
		{Kind: page.KindDrawn, Scale: scale}, {Head: words.HourAfter, Kind: page.KindMoney}}}
	var sum figures.Piece
	var before, after, timed money.Cents // timed: of the pieces whose hours are written down
	of := &report.Worked{Title: "Profit after shop costs of the pieces with hours"}
	hours := new(big.Rat)
	for _, p := range pieces {
		drawn := page.Empty()
		if p.ProfitAfterOverhead != nil {
			*scale = *page.ScaleOf(scale.Lo, scale.Hi, float64(*p.ProfitAfterOverhead))
			drawn = bar(*p.ProfitAfterOverhead)
			after += *p.ProfitAfterOverhead
			if p.Hours != nil && p.Hours.Sign() > 0 {
				timed += *p.ProfitAfterOverhead
				of.Terms = append(of.Terms, report.Term{Label: p.Record.ID, Cents: *p.ProfitAfterOverhead,
					Of: in.LineOfPiece(p.Record.ID, figures.LineAfterOverhead), Link: report.SheetAnchor(p.Record.ID)})
				hours.Add(hours, p.Hours)
			}
		}
		if p.Profit != nil {
			before += *p.Profit
		}
		t.Rows = append(t.Rows, page.Line(pieceCell(p), page.Text(words.PieceBrief(p.Record)), day(in, p.SoldOn),
			cells.Money(p.Receipts).Opens(in.LineOfPiece(p.Record.ID, figures.LineReceipts)),
			cells.Optional(p.Profit).Opens(in.LineOfPiece(p.Record.ID, figures.LineProfit)),
			cells.Optional(p.ProfitAfterOverhead).Opens(in.LineOfPiece(p.Record.ID, figures.LineAfterOverhead)), drawn,
			cells.Optional(p.ProfitPerHourAfterOverhead).Opens(report.Rate{Piece: p.Record.ID,
				Name: "profit_per_hour_after_overhead"})))
		sum.Receipts, sum.Acquisition, sum.Supplies = sum.Receipts+p.Receipts, sum.Acquisition+p.Acquisition,
			sum.Supplies+p.Supplies
		sum.Parts, sum.SellingCosts, sum.Trips = sum.Parts+p.Parts+p.OutsideWork, sum.SellingCosts+p.SellingCosts,
			sum.Trips+p.Trips
	}
	total := page.Styled(page.GrandTotal, page.Text(words.Plural(len(pieces), "piece", "pieces")), page.Empty(),
		page.Empty(),
		cells.Money(sum.Receipts), cells.Money(before), cells.Money(after), page.Empty(), page.Empty())
	if hours.Sign() > 0 {
		rate := money.Round(new(big.Rat).Quo(timed.Rat(), hours))
		total.Cells[7] = cells.Money(rate).Opens(hourOf("An hour after shop costs, "+caption, timed, hours, rate, of))
	}
	t.Rows = append(t.Rows, total)
	t.NoteFigures = soldNote(in, pieces, sum, before, after)
	t.Note = t.NoteFigures.String()
	return t
}

// soldNote leads from what the pieces sold for less what was paid for them to
// their profits, by signs. What is nothing is left out.
func soldNote(in *report.Input, pieces []figures.Piece, sum figures.Piece, before, after money.Cents) page.Sentence {
	of := func(title string, ids ...figures.ID) *report.Worked { return ofPieces(in, pieces, title, ids...) }
	text := page.Say("Sold less bought %s", amount(sum.Receipts-sum.Acquisition, of(words.SoldLessBought,
		figures.LineSoldLess)))
	for _, x := range []struct {
		name  string
		cents money.Cents
		ids   []figures.ID
	}{{"parts and outside work", sum.Parts, []figures.ID{figures.LineParts, figures.LineOutsideWork}},
		{"supplies", sum.Supplies, []figures.ID{figures.LineSupplies}},
		{"selling costs", sum.SellingCosts, []figures.ID{figures.LineSellingCosts}},
		{"trips", sum.Trips, []figures.ID{figures.LineTrips}}} {
		if x.cents != 0 {
			text = append(text, page.Say(" − "+x.name+" %s", amount(x.cents, of(words.Capital(x.name), x.ids...)))...)
		}
	}
	text = append(text, page.Say(" = profit before shop costs %s", amount(before, of(words.BeforeShopCosts,
		figures.LineProfit)))...)
	if before != after {
		text = append(text, page.Say("; − shop costs (their part of rent, insurance and the like) %s = after shop costs %s",
			amount(before-after, of("Shop costs", figures.LineOverhead)),
			amount(after, of(words.AfterShopCosts, figures.LineAfterOverhead)))...)
	}
	return append(text, page.Text(", shown as bars."))
}

// ofPieces is lines of pieces sold, piece by piece.
func ofPieces(in *report.Input, pieces []figures.Piece, title string, ids ...figures.ID) *report.Worked {
	out := &report.Worked{Title: title + " of the pieces sold"}
	for _, p := range pieces {
		for i, id := range ids {
			c, label := p.Amount(id), p.Record.ID
			if i > 0 {
				label += ", " + words.Uncapital(words.Label(figures.OfPiece, id))
			}
			if c != 0 {
				out.Terms = append(out.Terms, report.Term{Label: label, Cents: c, Of: in.LineOfPiece(p.Record.ID, id),
					Link: report.SheetAnchor(p.Record.ID)})
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
	t := page.Table{Caption: "Gone unsold", Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1},
		{Head: "Why"}, {Head: "On", Kind: page.KindDate},
		{Head: "Book cost", Kind: page.KindMoney}, {Head: "Received", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	var cost, received money.Cents
	for _, p := range gone {
		row := page.Line(pieceCell(p), page.Text(words.PieceBrief(p.Record)), page.Text(p.Status), page.Empty(),
			cells.Money(p.BookCost).Opens(in.LineOfPiece(p.Record.ID, figures.LineBookCost)),
			cells.Money(p.ReceivedWhenLost).Opens(in.LineOfPiece(p.Record.ID, figures.LineReceived)), page.Empty())
		for _, r := range in.OfPiece(p.Record.ID).Removals {
			row.Cells[3], row.Cells[6] = day(in, r.On), page.Text(r.At.Short())
		}
		t.Rows = append(t.Rows, row)
		cost, received = cost+p.BookCost, received+p.ReceivedWhenLost
	}
	if len(gone) > 1 {
		t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Plural(len(gone), "piece", "pieces")),
			page.Empty(), page.Empty(), page.Empty(), cells.Money(cost), cells.Money(received)))
	}
	return cells.WithoutBlank(t, "Received")
}

// pieceCell is a piece's name, leading to its sheet where the document has it.
func pieceCell(p figures.Piece) page.Cell {
	return page.TextTo(p.Record.ID, report.SheetAnchor(p.Record.ID))
}

// bar is a solid bar from zero to an amount.
func bar(c money.Cents) page.Cell { return page.Draw(page.Drawn{Bar: &page.Interval{To: float64(c)}}) }
