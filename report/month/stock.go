package month

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

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
	pieces                  int
	costs, askings, profits []report.Term
}

// add counts a piece. At its asking price it leaves that less all it cost so
// far, selling costs and trips too.
func (h *held) add(in *report.Input, p figures.Piece) {
	h.pieces++
	h.costs = append(h.costs, in.LineTerm(p, figures.LineBookCost))
	if left := atAsking(in, p); left != nil {
		h.askings = append(h.askings, report.TermOfPiece(p, *p.Record.Asking, report.AskingOf(p)))
		h.profits = append(h.profits, report.TermOfPiece(p, left.Total(), left))
	}
}

// cells are the sums, each opening to its pieces.
func (h held) cells(of string) []page.Cell {
	sum := func(title string, terms []report.Term) page.Cell {
		w := &report.Worked{Title: title + ", " + of, Terms: terms}
		return cells.Money(w.Total()).Opens(w)
	}
	if len(h.askings) == 0 {
		return []page.Cell{sum("Book cost", h.costs), page.Empty(), page.Empty()}
	}
	return []page.Cell{sum("Book cost", h.costs), sum("Asking prices", h.askings), sum("Profit at asking", h.profits)}
}

// atAsking is what a piece's asking price would leave over what it cost so far;
// nil where it has none.
func atAsking(in *report.Input, p figures.Piece) *report.Worked {
	if in.Asking(p.Record) == nil {
		return nil
	}
	out := report.SumOf("Profit at the asking price").Plus("Asking price", *p.Record.Asking, report.AskingOf(p))
	out.Piece = p.Record.ID
	for _, id := range []figures.ID{figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips} {
		if c := p.Amount(id); c != 0 {
			out.Plus(words.Label(figures.OfPiece, id), -c, in.LineOfPiece(p.Record.ID, id))
		}
	}
	return out
}

// atAskingCell is that as a cell; empty without an asking price.
func atAskingCell(in *report.Input, p figures.Piece) page.Cell {
	left := atAsking(in, p)
	if left == nil {
		return page.Empty()
	}
	return cells.Full(left.Total()).Opens(left)
}

// heldHeads are the columns of money of pieces in stock.
var heldHeads = []string{"Book cost", "Asking", "Profit at asking"}

// tiedUpByAge is the pieces by how long they have been there, with a bar of
// their book cost; its total is that of the table of pieces in stock.
func tiedUpByAge(in *report.Input, own []figures.Piece) page.Block {
	bands := make([]held, len(ageBands)+1)
	var all held
	for _, p := range own {
		i, _ := slices.BinarySearch(ageBands, in.Age(p))
		bands[i].add(in, p)
		all.add(in, p)
	}
	scale := page.ScaleOf()
	t := page.Table{Caption: "Money tied up in pieces, by days in stock", Whole: true,
		Columns: page.Heads{}.Text("Days").Number("Pieces").Drawn(1, scale, "").Money(heldHeads...)}
	from := 0
	for i, h := range bands {
		days := fmt.Sprintf("over %d", ageBands[len(ageBands)-1])
		if i < len(ageBands) {
			days = fmt.Sprintf("%d to %d", from, ageBands[i])
			from = ageBands[i] + 1
		}
		if h.pieces > 0 {
			sums := h.cells(days + " days in stock")
			cost := float64(sums[0].Cents)
			*scale = *page.ScaleOf(scale.Lo, scale.Hi, cost)
			t.Add(slices.Concat([]page.Cell{page.Text(days), cells.Count(h.pieces),
				page.Draw(page.Drawn{Bar: &page.Interval{To: cost}, Pale: i < 2})}, sums)...)
		}
	}
	t.AddStyled(page.GrandTotal, slices.Concat([]page.Cell{page.Text("In stock"), cells.Count(all.pieces), page.Empty()},
		all.cells("in stock"))...)
	t.Note = "Book cost is price, parts and supplies so far. Solid bars are over 90 days."
	if len(all.askings) > 0 {
		t.Note += " Profit at asking is the asking price less book cost and what selling and trips have cost so far: " +
			"before the sale's own fee, and before shop costs."
	}
	return cells.WithoutBlank(t, "Asking", "Profit at asking")
}

// inStock is the pieces one line each, the longest there first.
func inStock(in *report.Input, own []figures.Piece) page.Block {
	t := page.Table{Caption: "Pieces in stock", Columns: hereColumns("Got").Money(heldHeads...)}
	var all held
	hours := new(big.Rat)
	for _, p := range own {
		t.Add(append(hereCells(in, p), in.LineCell(p, figures.LineBookCost),
			cells.Optional(in.Asking(p.Record)).Opens(report.AskingOf(p)), atAskingCell(in, p))...)
		all.add(in, p)
		hours.Add(hours, money.OrZero(p.Hours))
	}
	total := t.AddSum(page.GrandTotal, words.Plural(len(own), "piece", "pieces"), "Payments held")
	total.Cells[5] = cells.Hours(hours)
	total.Cells = append(total.Cells, all.cells("in stock")...)
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
		Columns: page.Heads{}.Wide(1, "").Money("")}
	for _, l := range figures.LinesOf(figures.OfStock) {
		style := page.Normal
		if l.ID == figures.LineClosing {
			style = page.GrandTotal
		}
		if c := k.Amount(l.ID); c != 0 || style == page.GrandTotal {
			t.AddStyled(style, page.Text(words.Label(figures.OfStock, l.ID)), cells.Money(c).Opens(ofStock(in.Month, l.ID)))
		}
	}
	if clients := bookCostOf(in, "Work in hand on clients' pieces", "client"); clients.Total() != 0 {
		t.NoteFigures = page.Say("The closing is the pieces in stock above, %s, and work in hand on clients' pieces, %s.",
			in.Said(k.Closing-clients.Total(), bookCostOf(in, "Pieces in stock", "in stock")), in.Said(clients.Total(), clients))
		t.Note = t.NoteFigures.String()
	}
	return []page.Block{t}
}

// bookCostOf is the book cost of each piece of a status.
func bookCostOf(in *report.Input, title, status string) *report.Worked {
	return in.LineOfAll(title, in.Chosen(func(p figures.Piece) bool { return p.Status == status }, nil),
		figures.LineBookCost)
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
		Columns: page.Heads{}.Wide(1, "Channel").Number("Sold").Money("Receipts", "Fees", "Delivery", "Rent, listing",
			"Trips", "Leaves").Drawn(0, scale, "").Number("% left").Money("Year so far").Number("% left")}
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
	parts := channelParts(c, name)
	out := &report.Worked{Title: name + ": what it leaves of its receipts", Terms: parts[:1:1]}
	for _, x := range parts[1:] {
		out.Less(words.Uncapital(x.Label), x.Cents, x.Of)
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
