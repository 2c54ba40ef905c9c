package accountant

import (
	"cmp"
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// pieceColumns are the pieces' columns. Those named for a line of the profit
// sheet are sums over the postings of that line.
func pieceColumns(area string) []wb.Column {
	out := heads{}.number(0, "No.").text(0, "Piece", "Kind", "Description", "Status").date(0, "Got on", "Sold on").
		text(0, "Sold now").number(0, "Days held").number(13, "Area, "+area).hours(0, "Hours")
	for _, id := range pieceMoney {
		out = out.money(12, words.Label(figures.OfPiece, id))
		if id == figures.LineSupplies {
			out = out.money(12, "Supplies staying")
		}
	}
	return out.money(12, words.HourBefore, words.HourAfter).number(12, "Before, unrounded", "After, unrounded").
		number(10, "Rounded wrong").summed().percent(0, "Margin")
}

// pieceMoney are the lines of a piece with a column of their own, in order.
var pieceMoney = []figures.ID{figures.LineReceipts, figures.LineHeld, figures.LineAcquisition, figures.LineParts,
	figures.LineOutsideWork, figures.LineSupplies, figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips,
	figures.LineProfit, figures.LineOverhead, figures.LineAfterOverhead, figures.LineSoldLess}

// fillPieces writes the figures of every piece that was in stock, sold or
// removed in the period, over its whole life.
func (b *book) fillPieces() {
	s := b.pieces
	s.Landscape, s.Filter, s.Freeze = true, true, 2
	s.Note("Every piece that was in stock, sold or removed in the period, as it stands at the end of " +
		b.periods[0].head + ". Profit is only shown for pieces that have left.")
	s.Note("Each amount is the sum of the piece's postings whose 'Piece's line' is the column's head. Shop costs " +
		"here are a memorandum: they are already in the shop's own costs.")
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
		wb.Text(p.Record.Description), wb.Text(p.Status), dayCell(p.Record.GotOn), dayCell(p.SoldOn),
		wb.Text(yesNo(b.in.SoldIn(p))), days, wb.Number(p.Record.Area, 2), wb.Hours(p.Hours)}
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
	return heads{}.text(0, "Piece").wrapped(38, "What").text(0, "How").date(0, "Left on").hours(0, "Hours").
		money(13, soldSums...).money(13, words.HourBefore, words.HourAfter)
}

// soldSums are the amounts of a piece that has left, which are summed up.
var soldSums = []string{"Receipts", "Acquired for", "Parts and work", "Supplies", "Selling and trips",
	words.BeforeShopCosts, words.AfterShopCosts}

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
	for _, p := range left {
		at := func(head string) string { return b.pieces.Cell(head, b.pieceRow[p.Record.ID]) }
		cells := []wb.Cell{wb.Text(p.Record.ID), wb.Text(words.Piece(p.Record)), wb.Text(p.Status), leftOn(b.in, p),
			wb.Hours(money.OrZero(p.Hours)).By(at("Hours"))}
		for _, ids := range [][]figures.ID{{figures.LineReceipts}, {figures.LineAcquisition},
			{figures.LineParts, figures.LineOutsideWork}, {figures.LineSupplies},
			{figures.LineSellingCosts, figures.LineTrips}} {
			var sum money.Cents
			var by []string
			for _, id := range ids {
				sum += p.Amount(id)
				by = append(by, at(words.Label(figures.OfPiece, id)))
			}
			cells = append(cells, amount(sum).By(strings.Join(by, "+")))
		}
		for _, x := range []struct {
			of *money.Cents
			at string
		}{{p.Profit, words.BeforeShopCosts}, {p.ProfitAfterOverhead, words.AfterShopCosts},
			{p.ProfitPerHour, words.HourBefore}, {p.ProfitPerHourAfterOverhead, words.HourAfter}} {
			cell := amountIf(x.of)
			if x.of != nil {
				cell = cell.By(at(x.at))
			}
			cells = append(cells, cell)
		}
		s.Row(wb.Normal, cells...)
	}
	if len(left) == 0 {
		s.Row(wb.Quiet, wb.Text("None"))
		return
	}
	addSums(s, wb.GrandTotal, first, append([]string{"Hours"}, soldSums...), wb.Text("All"),
		wb.Text(words.Plural(len(left), "piece", "pieces")))
}

func inStockColumns() []wb.Column {
	return heads{}.text(0, "Piece").wrapped(38, "What").text(0, "Stage").date(0, "Got on").number(0, "Days").
		hours(0, "Hours").money(13, "Asking", words.PartPaymentsHeld, "Book cost")
}

// fillInStock lists the pieces in stock, clients' after the shop's own; the
// total is the closing of the roll-forward.
func (b *book) fillInStock() {
	s := b.inStock
	s.Landscape, s.Freeze = true, 1
	s.Note("The longest there first. The total is the closing of the sheet Stock roll-forward. Days are from the " +
		"day it came to the period's last day, which stands on the Cover.")
	byAge := func(x, y figures.Piece) int {
		return cmp.Or(x.Record.GotOn.Compare(y.Record.GotOn), cmp.Compare(x.Record.ID, y.Record.ID))
	}
	sums := []string{words.PartPaymentsHeld, "Book cost"}
	var rows []int
	var held, cost money.Cents
	group := func(status, label string, one, many string) {
		list := b.in.Chosen(func(p figures.Piece) bool { return p.Status == status }, byAge)
		if len(list) == 0 {
			return
		}
		s.Row(wb.Group, wb.Text(label))
		first := s.NextRow()
		for _, p := range list {
			b.stocked(p)
			held, cost = held+p.Held, cost+p.BookCost
		}
		rows = append(rows, addSums(s, wb.Subtotal, first, sums, wb.Text(words.Plural(len(list), one, many))))
	}
	group("in stock", "The shop's own", "piece in stock", "pieces in stock")
	group("client", "Clients' pieces, not counted as stock; their costs stand here as work in hand", "client's piece",
		"clients' pieces")
	all := func(head string) string {
		var out []string
		for _, row := range rows {
			out = append(out, s.Here(head, row))
		}
		return cmp.Or(strings.Join(out, "+"), "0")
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
		dayCell(p.Record.GotOn), days, wb.Hours(money.OrZero(p.Hours)).By(at("Hours")), amountIf(b.in.Asking(p.Record)),
		amount(p.Held).By(at(words.PartPaymentsHeld)), amount(p.BookCost).By(at("Book cost")))
}
