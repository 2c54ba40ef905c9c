package year

import (
	"cmp"
	"fmt"
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// stockList is the pieces in stock with what each is made of.
func stockList(in *report.YearInput) []page.Block {
	if len(in.Tax.Stock) == 0 {
		return nil
	}
	cols := []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1},
		{Head: "Got on", Kind: page.KindDate}}
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
		row := page.Line(page.Text(p.Record.ID), page.Text(cmp.Or(p.Record.Description, p.Record.Kind)),
			page.Date(in.Day(p.Record.GotOn)))
		amounts := []money.Cents{p.Acquisition, p.Parts, p.OutsideWork, p.Supplies, p.BookCost}
		if in.Tax.WhenUsed {
			amounts = append(amounts, p.BookCost-x.Kept, x.Kept)
		}
		lines := []figures.ID{figures.LineAcquisition, figures.LineParts, figures.LineOutsideWork, figures.LineSupplies,
			figures.LineBookCost}
		for i, c := range amounts {
			cell := cells.Money(c)
			if i < len(lines) {
				cell = cell.Opens(in.LineOfPiece(p.Record.ID, lines[i]))
			}
			row.Cells = append(row.Cells, cell)
			sum[i] += c
		}
		row.Cells = append(row.Cells, page.Text(words.Unbroken(p.Record.At.Short())))
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
		lines := []figures.ID{figures.LineOpening, figures.LineBought, figures.LineUsed, figures.LineLost,
			figures.LineClosing}
		row.Anchor = report.SupplyAnchor(l.Supply.Name)
		for i, c := range []money.Cents{l.Opening, l.Bought, l.Used, l.Lost, l.Closing} {
			row.Cells = append(row.Cells, cells.Money(c).Opens(in.LineOfSupply(l.Supply.Name, lines[i])))
			sum[i] += c
		}
		how := "estimated"
		if x.Counted {
			how = "counted"
		}
		row.Cells = append(row.Cells, page.Text(how))
		kept += x.Kept
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	total := page.Styled(page.GrandTotal, page.Text("The whole shelf"), page.Empty())
	for _, c := range sum {
		total.Cells = append(total.Cells, cells.Money(c))
	}
	t.Rows = append(t.Rows, total)
	t.Note = "Left is in containers, cost by the oldest first. The purchases still on it: piecebook why " +
		"supply NAME closing " +
		in.Tax.Figures.To.String() + "."
	if in.Tax.WhenUsed {
		t.Note += " Of the cost at the end " + in.Spoken(kept) + " is in line " + in.Tax.Number(figures.LineClosingStock) +
			": supplies that stay on the piece."
	}
	return []page.Block{t}
}

// goneList is the pieces kept, donated, scrapped, stolen and sent back.
func goneList(in *report.YearInput) []page.Block {
	if len(in.Tax.Gone) == 0 {
		return nil
	}
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Why"},
		{Head: "On", Kind: page.KindDate}, {Head: "Got on", Kind: page.KindDate},
		{Head: "Cost out of stock", Kind: page.KindMoney}, {Head: "Value that day", Kind: page.KindMoney},
		{Head: "Received", Kind: page.KindMoney}, {Head: "Receipt", Small: true}, {Head: "Record", Small: true}}}
	list := slices.Clone(in.Tax.Gone)
	slices.SortStableFunc(list, func(a, b taxyear.GonePiece) int { return cmp.Compare(a.Removal.Why, b.Removal.Why) })
	var cost, received money.Cents
	records := trailOf(in)
	for _, g := range list {
		x := g.Removal
		row := page.Line(page.Text(x.Piece), page.Empty(), page.Text(x.Why), page.Date(in.Day(x.On)), page.Empty(),
			cells.Money(g.Cost).Opens(records.of(x.Piece+": cost out of stock", g.Cost, x.At)),
			cells.Optional(x.Value).Opens(report.Typed{What: x.Piece + ": value that day", At: x.At, Cents: valueOf(x.Value)}),
			cells.Money(g.Received).Opens(records.of(x.Piece+": received", g.Received, x.At)), page.Text(x.Receipt),
			page.Text(x.At.Short()))
		if rec := g.Piece.Record; rec != nil {
			row.Cells[1], row.Cells[4] = page.Text(cmp.Or(rec.Description, rec.Kind)), page.Date(in.Day(rec.GotOn))
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
	return []page.Block{cells.WithoutBlank(t, "Receipt", "Value that day", "Received")}
}

// valueOf is an amount that may not be there.
func valueOf(c *money.Cents) money.Cents {
	if c == nil {
		return 0
	}
	return *c
}
