package accountant

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// pieceColumns are the pieces' columns. Those named for a line of the profit
// sheet are sums over the postings of that line.
func pieceColumns(area string) []wb.Column {
	out := []wb.Column{{Head: "No.", Kind: wb.KindNumber}, {Head: "Piece"}, {Head: "Kind"}, {Head: "Description"},
		{Head: "Status"},
		{Head: "Got on", Kind: wb.KindDate}, {Head: "Sold on", Kind: wb.KindDate}, {Head: "Sold now"},
		{Head: "Days held", Kind: wb.KindNumber}, {Head: "Area, " + area, Kind: wb.KindNumber, Width: 13},
		{Head: "Hours", Kind: wb.KindHours}}
	column := func(head string) { out = append(out, wb.Column{Head: head, Kind: wb.KindMoney, Width: 12}) }
	for _, id := range pieceMoney {
		column(words.Label(figures.OfPiece, id))
		if id == figures.LineSupplies {
			column("Supplies staying")
		}
	}
	column(words.HourBefore)
	column(words.HourAfter)
	return append(out, wb.Column{Head: "Before, unrounded", Kind: wb.KindNumber, Width: 12},
		wb.Column{Head: "After, unrounded", Kind: wb.KindNumber, Width: 12},
		wb.Column{Head: "Rounded wrong", Kind: wb.KindNumber, Width: 10, Summed: true},
		wb.Column{Head: "Margin", Kind: wb.KindPercent})
}

// pieceMoney are the lines of a piece with a column of their own, in order.
var pieceMoney = []figures.ID{figures.LineReceipts, figures.LineHeld, figures.LineAcquisition, figures.LineParts,
	figures.LineOutsideWork,
	figures.LineSupplies, figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips, figures.LineProfit,
	figures.LineOverhead,
	figures.LineAfterOverhead, figures.LineSoldLess}

// fillPieces writes the figures of every piece that was in stock, sold or
// removed in the period, over its whole life.
func (b *book) fillPieces() {
	s := b.pieces
	s.Landscape, s.Filter, s.Freeze = true, true, 2
	s.Note("Every piece that was in stock, sold or removed in the period, as it stands at the end of " +
		b.periods[0].head + ". Profit is only shown for pieces that have left.")
	s.Note("Each amount is the sum of the piece's postings whose 'Piece's line' is the column's head. Shop " +
		"costs here are " +
		"a memorandum: they are already in the shop's own costs.")
	b.pieceRow = map[string]int{}
	for _, p := range b.in.Month.Pieces {
		b.pieceRow[p.Record.ID] = b.piece(p)
	}
}

func (b *book) piece(p figures.Piece) int {
	s := b.pieces
	row := s.NextRow()
	here := func(head string) string { return s.Here(head, row) }
	days := wb.Cell{}
	if p.DaysHeld != nil {
		days = wb.Whole(*p.DaysHeld)
		if !dayCell(p.Record.GotOn).Value.None() { // a day that spreadsheets know
			days = days.By(here("Sold on") + "-" + here("Got on"))
		}
	}
	cells := []wb.Cell{no(b.pieceNo[p.Record.ID]), wb.Text(p.Record.ID), wb.Text(p.Record.Kind),
		wb.Text(p.Record.Description), wb.Text(p.Status),
		dayCell(p.Record.GotOn), dayCell(p.SoldOn), wb.Text(yesNo(b.in.SoldIn(p))), days, wb.Number(p.Record.Area, 2),
		wb.Hours(p.Hours)}
	for _, id := range pieceMoney {
		cells = append(cells, b.pieceAmount(p, id, here))
		if id == figures.LineSupplies {
			cells = append(cells, amount(p.SuppliesStaying).By(b.sumIfs("On the piece", "Piece no.", here("No."),
				"Stays on it", `"yes"`)))
		}
	}
	if p.Profit != nil {
		cells = append(cells, b.rates(p, here)...)
	}
	return s.Row(wb.Normal, cells...)
}

// pieceAmount is a line of a piece; blank where a piece that has not left has none.
func (b *book) pieceAmount(p figures.Piece, id figures.ID, here func(string) string) wb.Cell {
	l, label := figures.Find(figures.OfPiece, id), words.Label(figures.OfPiece, id)
	out := amount(p.Amount(id))
	switch {
	case id == figures.LineHeld && p.Status != "in stock" && p.Status != "client":
		return out
	case l.Again:
		return out.By(b.byRules(l, "Piece no.", here("No.")))
	case l.Sum == nil:
		return out.By(b.sumIfs("On the piece", "Piece no.", here("No."), "Piece's line", fixedHead(b.pieces, label)))
	case id != figures.LineBookCost && p.Profit == nil:
		return wb.Cell{}
	}
	return out.By(added(l, func(id figures.ID) string { return here(words.Label(figures.OfPiece, id)) }))
}

// rates are what an hour on a piece brings before and after shop costs, rounded
// half to even, with their formulas beside them, and its margin.
func (b *book) rates(p figures.Piece, here func(string) string) []wb.Cell {
	out, profit := make([]wb.Cell, 6), here(words.Label(figures.OfPiece, figures.LineProfit))
	wrong, tests := false, make([]string, 2)
	for i, x := range []struct {
		of, rate   *money.Cents
		line       figures.ID
		head, free string
	}{{p.Profit, p.ProfitPerHour, figures.LineProfit, words.HourBefore, "Before, unrounded"},
		{p.ProfitAfterOverhead, p.ProfitPerHourAfterOverhead, figures.LineAfterOverhead, words.HourAfter,
			"After, unrounded"}} {
		if x.of == nil || x.rate == nil {
			continue
		}
		exact := units(new(big.Rat).Quo(x.of.Rat(), p.Hours))
		far := new(big.Rat).Sub(units(x.rate.Rat()), exact)
		out[i] = amountIf(x.rate)
		out[2+i] = wb.Exact(exact).By(here(words.Label(figures.OfPiece, x.line)) + "/" + here("Hours"))
		wrong = wrong || far.Abs(far).Cmp(big.NewRat(51, 10000)) >= 0
		tests[i] = fmt.Sprintf("ABS(%s-%s)<0.0051", here(x.head), here(x.free))
	}
	if p.ProfitPerHour != nil && p.ProfitPerHourAfterOverhead != nil {
		out[4] = flagged(wrong).By("IF(" + tests[0] + ",IF(" + tests[1] + ",0,1),1)")
	}
	if p.Margin != nil {
		out[5] = wb.Percent(p.Margin).By(profit + "/" + here(words.Label(figures.OfPiece, figures.LineReceipts)))
	}
	return out
}

// fixedHead is a column's head as a condition: M$5.
func fixedHead(s *wb.Sheet, head string) string { return fixedRow(s, head, -1) }

func soldBookColumns() []wb.Column {
	out := []wb.Column{{Head: "Piece"}, {Head: "What", Width: 38, Wrap: true}, {Head: "How"},
		{Head: "Left on", Kind: wb.KindDate}, {Head: "Hours", Kind: wb.KindHours}}
	for _, head := range []string{"Receipts", "Acquired for", "Parts and work", "Supplies", "Selling and trips",
		words.BeforeShopCosts, words.AfterShopCosts, words.HourBefore, words.HourAfter} {
		out = append(out, wb.Column{Head: head, Kind: wb.KindMoney, Width: 13})
	}
	return out
}

// leftOn is the day a piece was sold or removed.
func leftOn(in *report.Input, p figures.Piece) wb.Cell {
	if p.Status == "sold" {
		return dayCell(p.SoldOn)
	}
	out := wb.Cell{}
	for _, r := range in.OfPiece(p.Record.ID).Removals {
		out = dayCell(r.On)
	}
	return out
}

// fillSold lists the pieces that left in the period, with their totals. Each
// cell leads to the sheet of pieces.
func (b *book) fillSold() {
	s := b.sold
	s.Landscape, s.Freeze = true, 1
	s.Note("Each piece's whole life, so what it cost and brought in earlier months is in it. Every cell refers to the " +
		"piece's row on the sheet Pieces. Clients' pieces are in it.")
	left := b.in.Chosen(func(p figures.Piece) bool { return p.Status != "in stock" && p.Status != "client" },
		report.BySale)
	first := s.NextRow()
	sums := make([]money.Cents, 7)
	hours := new(big.Rat)
	for _, p := range left {
		row := b.pieceRow[p.Record.ID]
		at := func(head string) string { return b.pieces.Cell(head, row) }
		amounts := []money.Cents{p.Receipts, p.Acquisition, p.Parts + p.OutsideWork, p.Supplies, p.SellingCosts + p.Trips}
		line := func(id figures.ID) string { return at(words.Label(figures.OfPiece, id)) }
		by := []string{line(figures.LineReceipts), line(figures.LineAcquisition), line(figures.LineParts) + "+" +
			line(figures.LineOutsideWork),
			line(figures.LineSupplies), line(figures.LineSellingCosts) + "+" + line(figures.LineTrips)}
		cells := []wb.Cell{wb.Text(p.Record.ID), wb.Text(words.Piece(p.Record)), wb.Text(p.Status), leftOn(b.in, p),
			wb.Hours(money.OrZero(p.Hours)).By(at("Hours"))}
		for i, c := range amounts {
			cells = append(cells, amount(c).By(by[i]))
			sums[i] += c
		}
		hours.Add(hours, money.OrZero(p.Hours))
		for i, x := range []struct {
			of *money.Cents
			at string
		}{{p.Profit, line(figures.LineProfit)}, {p.ProfitAfterOverhead, line(figures.LineAfterOverhead)},
			{p.ProfitPerHour, at(words.HourBefore)}, {p.ProfitPerHourAfterOverhead, at(words.HourAfter)}} {
			if x.of == nil {
				cells = append(cells, wb.Cell{})
				continue
			}
			cells = append(cells, amountIf(x.of).By(x.at))
			if i < 2 {
				sums[5+i] += *x.of
			}
		}
		s.Row(wb.Normal, cells...)
	}
	if len(left) == 0 {
		s.Row(wb.Quiet, wb.Text("None"))
		return
	}
	last := s.LastRow()
	total := []wb.Cell{wb.Text("All"), wb.Text(words.Plural(len(left), "piece", "pieces")), {}, {},
		wb.Hours(hours).By("SUM(" + s.HereRange("Hours", first, last) + ")")}
	for i, c := range sums {
		total = append(total, amount(c).By("SUM("+s.HereRange(s.Columns[5+i].Head, first, last)+")"))
	}
	s.Row(wb.GrandTotal, total...)
}

func inStockColumns() []wb.Column {
	return []wb.Column{{Head: "Piece"}, {Head: "What", Width: 38, Wrap: true}, {Head: "Stage"},
		{Head: "Got on", Kind: wb.KindDate}, {Head: "Days", Kind: wb.KindNumber}, {Head: "Hours", Kind: wb.KindHours},
		{Head: "Asking", Kind: wb.KindMoney, Width: 13}, {Head: words.PartPaymentsHeld, Kind: wb.KindMoney, Width: 13},
		{Head: "Book cost", Kind: wb.KindMoney, Width: 13}}
}

// fillInStock lists the pieces in stock, clients' after the shop's own; the
// total is the closing of the roll-forward.
func (b *book) fillInStock() {
	s := b.inStock
	s.Landscape, s.Freeze = true, 1
	s.Note("The longest there first. The total is the closing of the sheet Stock roll-forward. Days are from the day " +
		"it came to the " +
		"period's last day, which stands on the Cover.")
	byAge := func(x, y figures.Piece) int {
		if c := x.Record.GotOn.Compare(y.Record.GotOn); c != 0 {
			return c
		}
		return slices.Compare([]byte(x.Record.ID), []byte(y.Record.ID))
	}
	var sums []string
	var held, cost money.Cents
	group := func(status, label string, one, many string) {
		list := b.in.Chosen(func(p figures.Piece) bool { return p.Status == status }, byAge)
		if len(list) == 0 {
			return
		}
		s.Row(wb.Group, wb.Text(label))
		first := s.NextRow()
		var h, c money.Cents
		for _, p := range list {
			b.stocked(p)
			h, c = h+p.Held, c+p.BookCost
		}
		last := s.LastRow()
		at := s.Row(wb.Subtotal, wb.Text(words.Plural(len(list), one, many)), wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{},
			wb.Cell{}, wb.Cell{},
			amount(h).By("SUM("+s.HereRange(words.PartPaymentsHeld, first, last)+")"),
			amount(c).By("SUM("+s.HereRange("Book cost",
				first, last)+")"))
		sums = append(sums, fmt.Sprint(at))
		held, cost = held+h, cost+c
	}
	group("in stock", "The shop's own", "piece in stock", "pieces in stock")
	group("client", "Clients' pieces, not counted as stock; their costs stand here as work in hand", "client's piece",
		"clients' pieces")
	all := func(head string) string {
		letter := s.Here(head, 1)[:1]
		out := "0"
		for i, row := range sums {
			if i == 0 {
				out = letter + row
			} else {
				out += "+" + letter + row
			}
		}
		return out
	}
	s.Row(wb.GrandTotal, wb.Text(allBookCost), wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{},
		amount(held).By(all(words.PartPaymentsHeld)), amount(cost).By(all("Book cost")))
}

const allBookCost = "All book cost"

// stocked is one piece in stock.
func (b *book) stocked(p figures.Piece) {
	s := b.inStock
	row := b.pieceRow[p.Record.ID]
	at := func(head string) string { return b.pieces.Cell(head, row) }
	here := s.NextRow()
	days := wb.Cell{}
	if got := dayCell(p.Record.GotOn); !got.Value.None() {
		days = wb.Whole(b.in.Age(p)).By(b.lastDay() + "-" + s.Here("Got on", here))
	}
	s.Row(wb.Normal, wb.Text(p.Record.ID), wb.Text(words.Piece(p.Record)), wb.Text(b.in.Stage(p.Record)),
		dayCell(p.Record.GotOn), days,
		wb.Hours(money.OrZero(p.Hours)).By(at("Hours")), amountIf(b.in.Asking(p.Record)),
		amount(p.Held).By(at(words.PartPaymentsHeld)), amount(p.BookCost).By(at("Book cost")))
}
