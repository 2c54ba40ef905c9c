package month

import (
	"cmp"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// soldColumns are the columns of every list of pieces that have left.
func soldColumns() []page.Column {
	return []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "On", Kind: page.KindDate},
		{Head: "Receipts", Kind: page.KindMoney}, {Head: "Acquired for", Kind: page.KindMoney}, {Head: "Parts and work", Kind: page.KindMoney},
		{Head: "Supplies", Kind: page.KindMoney}, {Head: "Selling and trips", Kind: page.KindMoney}, {Head: "Profit", Kind: page.KindMoney},
		{Head: "Per hour", Kind: page.KindMoney}}
}

// soldTable lists pieces that have left, with their totals.
func soldTable(caption string, pieces []figures.Piece) page.Table {
	t := page.Table{Caption: caption, Columns: soldColumns()}
	var sum figures.Piece
	var profit, timed money.Cents // timed: of the pieces whose hours are written down
	hours := new(big.Rat)
	for _, p := range pieces {
		row := page.Line(page.TextTo(p.Record.ID, spreadRow(p.Record.ID)), page.Text(p.Record.Kind), page.Date(p.SoldOn.String()),
			cells.Money(p.Receipts), cells.Money(p.Acquisition), cells.Money(p.Parts+p.OutsideWork), cells.Money(p.Supplies), cells.Money(p.SellingCosts+p.Trips),
			cells.Optional(p.Profit), cells.Optional(p.ProfitPerHour))
		row.Note = p.Record.Description
		t.Rows = append(t.Rows, row)
		sum.Receipts += p.Receipts
		sum.Acquisition += p.Acquisition
		sum.Parts += p.Parts + p.OutsideWork
		sum.Supplies += p.Supplies
		sum.SellingCosts += p.SellingCosts + p.Trips
		if p.Profit != nil {
			profit += *p.Profit
			if p.Hours != nil && p.Hours.Sign() > 0 {
				timed += *p.Profit
				hours.Add(hours, p.Hours)
			}
		}
	}
	total := page.Styled(page.GrandTotal, page.Text(words.Plural(len(pieces), "piece", "pieces")), page.Empty(), page.Empty(), cells.Money(sum.Receipts), cells.Money(sum.Acquisition),
		cells.Money(sum.Parts), cells.Money(sum.Supplies), cells.Money(sum.SellingCosts), cells.Money(profit), page.Empty())
	if hours.Sign() > 0 {
		total.Cells[9] = cells.Money(money.Round(new(big.Rat).Quo(timed.Rat(), hours)))
	}
	t.Rows = append(t.Rows, total)
	return t
}

// sold are the pieces sold in the period, and those that went unsold.
func sold(in *report.Input) []page.Block {
	sold := in.Chosen(func(p figures.Piece) bool { return in.SoldIn(p) && p.Record.How != ledger.Client }, report.BySale)
	gone := in.Chosen(func(p figures.Piece) bool {
		return p.Status != "in stock" && p.Status != "client" && p.Status != "sold" && p.Record.How != ledger.Client
	}, report.BySale)
	var out []page.Block
	if len(sold) == 0 {
		out = append(out, page.Paragraph{Text: "No piece was sold in " + in.Month.To.Name() + "."})
	} else {
		t := soldTable("", sold)
		t.Note = "Each piece's whole life, so what it cost and brought in earlier months is in it. Per hour of the total is over the pieces whose hours are written down."
		out = append(out, t)
	}
	if len(gone) > 0 {
		out = append(out, goneTable(in, gone))
	}
	return out
}

// goneTable lists pieces that went unsold in the period.
func goneTable(in *report.Input, gone []figures.Piece) page.Block {
	t := page.Table{Caption: "Gone unsold", Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Why"}, {Head: "On", Kind: page.KindDate},
		{Head: "Book cost", Kind: page.KindMoney}, {Head: "Received", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	var cost, received money.Cents
	for _, p := range gone {
		row := page.Line(page.Text(p.Record.ID), page.Text(words.Piece(p.Record)), page.Text(p.Status), page.Empty(), cells.Money(p.BookCost), cells.Money(p.ReceivedWhenLost), page.Empty())
		for _, r := range in.Books.Removals {
			if r.Piece == p.Record.ID && r.On.InMonth() <= in.Month.To {
				row.Cells[3], row.Cells[6] = page.Date(r.On.String()), page.Text(r.At.Short())
			}
		}
		t.Rows = append(t.Rows, row)
		cost, received = cost+p.BookCost, received+p.ReceivedWhenLost
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Plural(len(gone), "piece", "pieces")), page.Empty(), page.Empty(), page.Empty(), cells.Money(cost), cells.Money(received)))
	return cells.WithoutBlank(t, "Received")
}

// inStock are the pieces in stock, the longest there first, with clients'
// after them, so that the total is the closing of the roll-forward.
func inStock(in *report.Input) []page.Block {
	byAge := func(a, b figures.Piece) int {
		return cmp.Or(a.Record.GotOn.Compare(b.Record.GotOn), cmp.Compare(a.Record.ID, b.Record.ID))
	}
	own := in.Chosen(func(p figures.Piece) bool { return p.Status == "in stock" }, byAge)
	clients := in.Chosen(func(p figures.Piece) bool { return p.Status == "client" }, byAge)
	if len(own)+len(clients) == 0 {
		return []page.Block{page.Paragraph{Text: "Nothing is in stock."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Stage"}, {Head: "Got on", Kind: page.KindDate},
		{Head: "Days", Kind: page.KindNumber}, {Head: "Hours", Kind: page.KindNumber}, {Head: "Asking", Kind: page.KindMoney},
		{Head: "Part payments held", Kind: page.KindMoney}, {Head: "Book cost", Kind: page.KindMoney}}}
	total := stockRows(in, &t, own, page.Subtotal, words.Plural(len(own), "piece in stock", "pieces in stock"))
	if len(clients) > 0 {
		t.Rows = append(t.Rows, page.Styled(page.Group, page.Text("Clients' pieces, not counted as stock; their costs stand here as work in hand")))
		total += stockRows(in, &t, clients, page.Subtotal, words.Plural(len(clients), "client's piece", "clients' pieces"))
	}
	last := page.Styled(page.GrandTotal, page.Text("All book cost"))
	last.Cells = append(last.Cells, make([]page.Cell, 7)...)
	t.Rows = append(t.Rows, page.Row{Style: page.GrandTotal, Cells: append(last.Cells, cells.Money(total))})
	t.Note = "The total is what pieces cost at the end on the statement's page, " + in.Spoken(in.Month.Stock.Closing) + ". Days are from the day it came to the end of " + in.Month.To.Name() + "."
	var out []page.Block
	if len(own) > 0 {
		out = append(out, tiedUpByAge(in, own))
	}
	return append(out, cells.WithoutBlank(t, "Part payments held", "Asking"))
}

// stockRows adds pieces in stock with their subtotal, and says their book cost.
func stockRows(in *report.Input, t *page.Table, pieces []figures.Piece, style page.RowStyle, label string) money.Cents {
	var cost, held money.Cents
	hours := new(big.Rat)
	for _, p := range pieces {
		row := page.Line(page.TextTo(p.Record.ID, spreadRow(p.Record.ID)), page.Text(p.Record.Kind), page.Text(in.Stage(p.Record)),
			page.Date(p.Record.GotOn.String()), cells.Count(in.Age(p)), cells.Hours(p.Hours), cells.Optional(p.Record.Asking), cells.Money(p.Held), cells.Money(p.BookCost))
		row.Note = p.Record.Description
		t.Rows = append(t.Rows, row)
		cost, held = cost+p.BookCost, held+p.Held
		hours.Add(hours, money.OrZero(p.Hours))
	}
	if len(pieces) > 0 {
		t.Rows = append(t.Rows, page.Styled(style, page.Text(label), page.Empty(), page.Empty(), page.Empty(), page.Empty(),
			cells.Hours(hours), page.Empty(), cells.Money(held), cells.Money(cost)))
	}
	return cost
}

// commissions are clients' pieces that were handed over, apart from what the
// shop bought to sell.
func commissions(in *report.Input) []page.Block {
	done := in.Chosen(func(p figures.Piece) bool { return p.Record.How == ledger.Client && p.Status != "client" }, report.BySale)
	open := in.Chosen(func(p figures.Piece) bool { return p.Status == "client" }, report.BySale)
	var out []page.Block
	switch {
	case len(done)+len(open) == 0:
		return []page.Block{page.Paragraph{Text: "No client's piece was on the bench."}}
	case len(done) == 0:
		out = append(out, page.Paragraph{Text: "No client's piece was handed over in " + in.Month.To.Name() + "."})
	default:
		out = append(out, soldTable("", done))
	}
	if len(open) > 0 {
		out = append(out, page.Paragraph{Text: words.Plural(len(open), "client's piece is", "clients' pieces are") + " still on the bench; see the end of Pieces in stock.", Link: stockAnchor})
	}
	return out
}
