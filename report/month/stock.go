package month

import (
	"cmp"
	"fmt"
	"math/big"

	"piecebook/ledger/figures"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// ageBands are the days in stock that money tied up is shown by: up to and with
// the first, then the second, ...; over the last.
var ageBands = []int{30, 90, 180, 365}

// byAge puts pieces in the order they came.
func byAge(a, b figures.Piece) int {
	return cmp.Or(a.Record.GotOn.Compare(b.Record.GotOn), cmp.Compare(a.Record.ID, b.Record.ID))
}

// stock is the shop's own pieces in stock, by age and one by one, and how their
// book cost came about in the month.
func stock(in *report.Input) []page.Block {
	own := in.Chosen(func(p figures.Piece) bool { return p.Status == "in stock" }, byAge)
	var out []page.Block
	if len(own) > 0 {
		out = append(out, tiedUpByAge(in, own), inStock(in, own))
	}
	return append(out, stockTable(in)...)
}

// held is what pieces in stock cost, ask, and would leave at that.
type held struct {
	pieces                    int
	cost, asking, left, money money.Cents
	priced                    bool

	costs, askings, lefts []report.Term // what cost, asking and left add up
}

// add counts a piece. At its asking price it leaves that less all it cost so
// far, selling costs and trips too.
func (h *held) add(in *report.Input, p figures.Piece) {
	term := func(c money.Cents, of page.Ref) report.Term {
		return report.Term{Label: p.Record.ID, Cents: c, Of: of, Link: report.SheetAnchor(p.Record.ID)}
	}
	h.costs = append(h.costs, term(p.BookCost, in.LineOfPiece(p.Record.ID, figures.LineBookCost)))
	h.pieces++
	h.cost += p.BookCost
	h.money += p.Held
	if left := atAsking(in, p); left != nil {
		h.priced = true
		h.asking += *p.Record.Asking
		h.left += *left
		h.askings = append(h.askings, term(*p.Record.Asking, report.AskingOf(p)))
		h.lefts = append(h.lefts, term(*left, atAskingOf(in, p)))
	}
}

// cells are the sums, each opening to its pieces.
func (h held) cells(of string) []page.Cell {
	cost := cells.Money(h.cost).Opens(&report.Worked{Title: "Book cost, " + of, Terms: h.costs})
	if !h.priced {
		return []page.Cell{cost, page.Empty(), page.Empty()}
	}
	return []page.Cell{cost, cells.Money(h.asking).Opens(&report.Worked{Title: "Asking prices, " + of, Terms: h.askings}),
		cells.Money(h.left).Opens(&report.Worked{Title: "Profit at asking, " + of, Terms: h.lefts})}
}

// atAskingOf is what the profit at the asking price is worked out of.
func atAskingOf(in *report.Input, p figures.Piece) *report.Worked {
	out := &report.Worked{Title: "Profit at the asking price", Piece: p.Record.ID, Terms: []report.Term{
		{Label: "Asking price", Cents: *p.Record.Asking, Of: report.AskingOf(p)}}}
	for _, id := range []figures.ID{figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips} {
		if c := p.Amount(id); c != 0 {
			out.Terms = append(out.Terms, report.Term{Label: words.Label(figures.OfPiece, id),
				Cents: -c, Of: in.LineOfPiece(p.Record.ID, id)})
		}
	}
	return out
}

// atAsking is what a piece's asking price would leave over what it cost so far;
// nil where it has none.
func atAsking(in *report.Input, p figures.Piece) *money.Cents {
	asking := in.Asking(p.Record)
	if asking == nil {
		return nil
	}
	left := *asking - p.BookCost - p.SellingCosts - p.Trips
	return &left
}

// atAskingCell is that as a cell; empty without an asking price.
func atAskingCell(in *report.Input, p figures.Piece) page.Cell {
	left := atAsking(in, p)
	if left == nil {
		return page.Empty()
	}
	return cells.Optional(left).Opens(atAskingOf(in, p))
}

// heldColumns are the columns of money of pieces in stock.
func heldColumns() []page.Column {
	return page.Cols(page.KindMoney, "Book cost", "Asking", "Profit at asking")
}

// tiedUpByAge is the pieces by how long they have been there, with a bar of
// their book cost; its total is that of the table of pieces in stock.
func tiedUpByAge(in *report.Input, own []figures.Piece) page.Block {
	bands := make([]held, len(ageBands)+1)
	var all held
	for _, p := range own {
		i := 0
		for i < len(ageBands) && in.Age(p) > ageBands[i] {
			i++
		}
		bands[i].add(in, p)
		all.add(in, p)
	}
	scale := page.ScaleOf()
	t := page.Table{Caption: "Money tied up in pieces, by days in stock", Whole: true,
		Columns: append([]page.Column{{Head: "Days"}, {Head: "Pieces", Kind: page.KindNumber}, {Kind: page.KindDrawn,
			Weight: 1, Scale: scale}}, heldColumns()...)}
	from := 0
	for i, h := range bands {
		days := fmt.Sprintf("over %d", ageBands[len(ageBands)-1])
		if i < len(ageBands) {
			days = fmt.Sprintf("%d to %d", from, ageBands[i])
			from = ageBands[i] + 1
		}
		if h.pieces > 0 {
			*scale = *page.ScaleOf(scale.Lo, scale.Hi, float64(h.cost))
			t.Rows = append(t.Rows, page.Line(append([]page.Cell{page.Text(days), cells.Count(h.pieces),
				page.Draw(page.Drawn{Bar: &page.Interval{To: float64(h.cost)}, Pale: i < 2})},
				h.cells(days+" days in stock")...)...))
		}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, append([]page.Cell{page.Text("In stock"), cells.Count(all.pieces),
		page.Empty()}, all.cells("in stock")...)...))
	t.Note = "Book cost is price, parts and supplies so far. Solid bars are over 90 days."
	if all.priced {
		t.Note += " Profit at asking is the asking price less book cost and what selling and trips have cost " +
			"so far: before " +
			"the sale's own fee, and before shop costs."
	}
	return cells.WithoutBlank(t, "Asking", "Profit at asking")
}

// inStock is the pieces one line each, the longest there first.
func inStock(in *report.Input, own []figures.Piece) page.Block {
	t := page.Table{Caption: "Pieces in stock", Columns: append([]page.Column{{Head: "Piece"}, {Head: "What", Weight: 1},
		{Head: "Stage"}, {Head: "Got", Kind: page.KindDate},
		{Head: "Days", Kind: page.KindNumber}, {Head: "Hours", Kind: page.KindNumber}, {Head: "Payments held",
			Kind: page.KindMoney}}, heldColumns()...)}
	var all held
	hours := new(big.Rat)
	for _, p := range own {
		t.Rows = append(t.Rows, page.Line(pieceCell(p), page.Text(words.PieceBrief(p.Record)),
			page.Text(in.Stage(p.Record)), day(in, p.Record.GotOn), cells.Count(in.Age(p)), cells.Hours(p.Hours),
			cells.Money(p.Held).Opens(in.LineOfPiece(p.Record.ID, figures.LineHeld)),
			cells.Money(p.BookCost).Opens(in.LineOfPiece(p.Record.ID, figures.LineBookCost)),
			cells.Optional(in.Asking(p.Record)).Opens(report.AskingOf(p)), atAskingCell(in, p)))
		all.add(in, p)
		hours.Add(hours, money.OrZero(p.Hours))
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal,
		append([]page.Cell{page.Text(words.Plural(len(own), "piece", "pieces")), page.Empty(), page.Empty(), page.Empty(),
			page.Empty(),
			cells.Hours(hours), cells.Money(all.money)}, all.cells("in stock")...)...))
	return cells.WithoutBlank(t, "Payments held", "Asking", "Profit at asking")
}

// stockTable is the pieces' roll-forward at book cost; nothing where no piece
// was there and none came.
func stockTable(in *report.Input) []page.Block {
	k := in.Month.Stock
	if k == (figures.Stock{}) {
		return nil
	}
	t := page.Table{Caption: "Pieces at book cost, from the opening to the closing", Span: 4, Whole: true, NoHead: true,
		Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
	for _, id := range []figures.ID{figures.LineOpening, figures.LineAcquired, figures.LineParts, figures.LineOutsideWork,
		figures.LineSupplies,
		figures.LineReturned, figures.LineSold, figures.LineRemoved} {
		if c := k.Amount(id); c != 0 {
			t.Rows = append(t.Rows, page.Line(page.Text(words.Label(figures.OfStock, id)),
				cells.Money(c).Opens(ofStock(in.Month, id))))
		}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Label(figures.OfStock, figures.LineClosing)),
		cells.Money(k.Closing).Opens(ofStock(in.Month, figures.LineClosing))))
	var clients money.Cents
	for _, p := range in.Month.Pieces {
		if p.Status == "client" {
			clients += p.BookCost
		}
	}
	if clients != 0 {
		t.NoteFigures = page.Say("The closing is the pieces in stock above, %s, and work in hand on clients' pieces, %s.",
			in.Said(k.Closing-clients, bookCostOf(in, false)), in.Said(clients, bookCostOf(in, true)))
		t.Note = t.NoteFigures.String()
	}
	return []page.Block{t}
}

// bookCostOf is the book cost of each of the shop's own pieces in stock, or of
// each client's piece.
func bookCostOf(in *report.Input, clients bool) *report.Worked {
	out := &report.Worked{Title: "Pieces in stock"}
	if clients {
		out.Title = "Work in hand on clients' pieces"
	}
	for _, p := range in.Month.Pieces {
		if p.Status == "client" && clients || p.Status == "in stock" && !clients {
			out.Terms = append(out.Terms, report.Term{Label: p.Record.ID, Cents: p.BookCost,
				Of: in.LineOfPiece(p.Record.ID, figures.LineBookCost), Link: report.SheetAnchor(p.Record.ID)})
		}
	}
	return out
}

// channels is what each channel leaves of its receipts, in the month and in the
// year so far; nothing where none took anything in.
func channels(in *report.Input) []page.Block {
	now := map[string]kinds.Channel{}
	for _, c := range in.Channels {
		now[c.Name] = c
	}
	scale := page.ScaleOf()
	t := page.Table{Caption: "What each channel leaves of its receipts", Whole: true,
		Columns: []page.Column{{Head: "Channel", Weight: 1},
			{Head: "Sold", Kind: page.KindNumber}, {Head: "Receipts", Kind: page.KindMoney}, {Head: "Fees", Kind: page.KindMoney}, {Head: "Delivery", Kind: page.KindMoney},
			{Head: "Rent, listing", Kind: page.KindMoney}, {Head: "Trips", Kind: page.KindMoney}, {Head: "Leaves", Kind: page.KindMoney}, {Kind: page.KindDrawn, Scale: scale}, {Head: "% left", Kind: page.KindNumber},
			{Head: "Year so far", Kind: page.KindMoney}, {Head: "% left", Kind: page.KindNumber}}}
	for _, y := range in.ChannelsYear {
		c := now[y.Name]
		name := y.Name
		if name == "" {
			name = "no channel named"
		}
		*scale = *page.ScaleOf(scale.Lo, scale.Hi, float64(c.Left))
		t.Rows = append(t.Rows, channelRow(page.Normal, name, c, y, bar(c.Left)))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if len(t.Rows) > 1 {
		t.Rows = append(t.Rows, channelRow(page.GrandTotal, "All channels", kinds.Everywhere(in.Channels),
			kinds.Everywhere(in.ChannelsYear), page.Empty()))
	}
	t.Note = "Before what the pieces themselves cost. Year so far is what was left of its receipts since " +
		in.Year.From.Name() + "."
	return []page.Block{cells.WithoutBlank(t, "Delivery", "Rent, listing", "Fees", "Trips")}
}

func channelRow(style page.RowStyle, name string, c, y kinds.Channel, drawn page.Cell) page.Row {
	row := page.Styled(style, page.Text(name), cells.CountOrDash(c.Sold))
	for _, x := range channelParts(c, name) {
		row.Cells = append(row.Cells, cells.Money(x.Cents).Opens(x.Of))
	}
	row.Cells = append(row.Cells, cells.Money(c.Left).Opens(channelLeft(c, name)), drawn, percentOf(c.Left, c.Receipts),
		cells.Money(y.Left).Opens(channelLeft(y, name+", year so far")), percentOf(y.Left, y.Receipts))
	return row
}

// channelParts are what a channel took in and what went of it, as amounts that
// open to their postings.
func channelParts(c kinds.Channel, name string) []report.Term {
	out := []report.Term{{Label: "Receipts", Cents: c.Receipts}, {Label: "Fees", Cents: c.Fees},
		{Label: "Delivery", Cents: c.Delivery}, {Label: "Rent, listing", Cents: c.Rent}, {Label: "Trips", Cents: c.Trips}}
	for i, id := range []figures.ID{figures.LineGrossReceipts, figures.LineFees, figures.LineDelivery,
		figures.LineExpenses, figures.LineTrips} {
		if c.Has() {
			out[i].Of = &report.Listed{Title: name + ": " + words.Uncapital(out[i].Label), Postings: c.Under(id)}
		}
	}
	return out
}

// channelLeft is what a channel leaves of its receipts; nil of all channels
// together, which is the sum of the rows above.
func channelLeft(c kinds.Channel, name string) page.Ref {
	if !c.Has() {
		return nil
	}
	out := &report.Worked{Title: name + ": what it leaves of its receipts", Terms: channelParts(c, name)}
	for i := range out.Terms[1:] {
		out.Terms[i+1].Label, out.Terms[i+1].Cents = "less: "+words.Uncapital(out.Terms[i+1].Label), -out.Terms[i+1].Cents
	}
	return out
}

// percentOf is a part of a whole in per cent with one decimal, in brackets where
// it is negative, as amounts are; empty where there is no whole.
func percentOf(part, whole money.Cents) page.Cell {
	switch {
	case whole <= 0:
		return page.Empty()
	case part == 0:
		return page.Number(page.Dash)
	}
	p := new(big.Rat).Quo(part.Abs().Rat(), whole.Rat())
	cell := cells.Number(p.Mul(p, hundred), 1)
	if part < 0 {
		cell.Text = "(" + cell.Text + ")"
	}
	return cell
}
