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
	heads := []string{"Acquired for", "Parts", "Outside work", "Supplies", "Book cost"}
	if in.Tax.WhenUsed {
		heads = append(heads, "Less what does not stay", "In line "+in.Tax.Number(figures.LineClosingStock))
	}
	t := page.Table{Columns: page.Heads{}.Text("Piece").Wide(1, "What").Date("Got on").Money(heads...).Small("Record")}
	clients := false
	for _, x := range in.Tax.Stock {
		p := x.Piece
		if p.Status == "client" && !clients {
			clients = true
			t.AddStyled(page.Group, page.Text("Work on clients' pieces, which are not the shop's own"))
		}
		row := t.Add(page.Text(p.Record.ID), page.Text(cmp.Or(p.Record.Description, p.Record.Kind)),
			page.Date(in.Day(p.Record.GotOn)), in.LineCell(p, figures.LineAcquisition), in.LineCell(p, figures.LineParts),
			in.LineCell(p, figures.LineOutsideWork), in.LineCell(p, figures.LineSupplies), in.LineCell(p, figures.LineBookCost))
		if in.Tax.WhenUsed {
			row.Cells = append(row.Cells, cells.Money(p.BookCost-x.Kept), cells.Money(x.Kept))
		}
		row.Cells = append(row.Cells, page.Text(words.Unbroken(p.Record.At.Short())))
	}
	t.AddSum(page.GrandTotal, words.Plural(len(in.Tax.Stock), "piece", "pieces"), heads...)
	t.Note = "At cost, piece by piece. Every cent of a piece with its records: piecebook why PIECE book_cost " +
		in.Tax.Figures.To.String() + "."
	return []page.Block{cells.WithoutBlank(t, "Parts", "Outside work", "Less what does not stay")}
}

// shelfList is what the shelf holds, with the purchases still on it.
func shelfList(in *report.YearInput) []page.Block {
	if len(in.Tax.Shelf) == 0 {
		return nil
	}
	heads := []string{"Opening", "Bought", "Used", "Lost", "Cost at the end"}
	t := page.Table{Columns: page.Heads{}.Wide(1, "Supply").Number("Left").Money(heads...).Text("How known")}
	var kept money.Cents
	for _, x := range in.Tax.Shelf {
		l, how := x.Line, "estimated"
		if x.Counted {
			how = "counted"
		}
		t.Add(slices.Concat([]page.Cell{page.Text(l.Supply.Name + ", " + l.Supply.Container), cells.Number(l.Left, 2)},
			in.ShelfCells(l), []page.Cell{page.Text(how)})...).Anchor = report.SupplyAnchor(l.Supply.Name)
		kept += x.Kept
	}
	t.AddSum(page.GrandTotal, "The whole shelf", heads...)
	t.Note = "Left is in containers, cost by the oldest first. The purchases still on it: piecebook why supply NAME " +
		"closing " + in.Tax.Figures.To.String() + "."
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
	t := page.Table{Columns: page.Heads{}.Text("Piece").Wide(1, "What").Text("Why").Date("On", "Got on").
		Money("Cost out of stock", "Value that day", "Received").Small("Receipt", "Record")}
	list := slices.Clone(in.Tax.Gone)
	slices.SortStableFunc(list, func(a, b taxyear.GonePiece) int { return cmp.Compare(a.Removal.Why, b.Removal.Why) })
	records := trailOf(in)
	for _, g := range list {
		x := g.Removal
		value := cells.Optional(x.Value)
		row := t.Add(page.Text(x.Piece), page.Empty(), page.Text(x.Why), page.Date(in.Day(x.On)), page.Empty(),
			cells.Money(g.Cost).Opens(records.of(x.Piece+": cost out of stock", g.Cost, x.At)),
			value.Opens(report.Typed{What: x.Piece + ": value that day", At: x.At, Cents: money.Cents(value.Cents)}),
			cells.Money(g.Received).Opens(records.of(x.Piece+": received", g.Received, x.At)), page.Text(x.Receipt),
			page.Text(x.At.Short()))
		if rec := g.Piece.Record; rec != nil {
			row.Cells[1], row.Cells[4] = page.Text(cmp.Or(rec.Description, rec.Kind)), page.Date(in.Day(rec.GotOn))
		}
	}
	t.AddSum(page.GrandTotal, words.Plural(len(list), "piece", "pieces"), "Cost out of stock", "Received")
	t.Note = fmt.Sprintf("Kept and donated ones are taken out of line %s at their whole book cost; the others are in "+
		"line %s. What was received is in line %s. A donated piece's deduction, and a stolen one's loss, are the "+
		"preparer's to work out.",
		in.Tax.Number(figures.LineKept), in.Tax.Table.Holds.Cost, in.Tax.Number(figures.LineOtherIncome))
	return []page.Block{cells.WithoutBlank(t, "Receipt", "Value that day", "Received")}
}
