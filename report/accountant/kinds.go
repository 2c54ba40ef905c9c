package accountant

import (
	"math/big"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// perHourStep is what estimates per hour are rounded to, in cents: they are not
// sure to the cent.
const perHourStep = 10

// The names of the sheets.
const (
	kindsSheet  = "Kinds"
	judgedSheet = "Kind pieces"
)

// KindsSheets are the kinds for a workbook: a row a kind, its sums as formulas
// over the sheet of the pieces they are made of, its estimates as they are.
func KindsSheets(in report.Input, r kinds.Report) []BookSheet {
	unit := in.Settings().AreaUnit()
	list := heads{}.number(0, "No.").text(0, "Kind").number(0, "Sold or lost").money(13, "Receipts", words.SoldLessBought).
		money(17, words.BeforeShopCosts, "Counted by the hour").hours(0, "Hours").
		number(13, "An hour before shop costs, unrounded").number(15, "Coated, "+unit).number(0, "Place").
		money(11, "Long-run average an hour", "From", "To").percent(11, "Chance of the target", "Chance to be best").
		number(0, "In stock now").money(13, "Money tied up").hours(0, "Hours in them")
	pieces := heads{}.number(0, "Kind no.").text(0, "Kind", "Piece", "How it left").date(0, "Left on").number(0, "One").
		money(13, "Receipts", "Acquired for", words.SoldLessBought).money(17, words.BeforeShopCosts, "Counted by the hour").
		hours(0, "Hours").number(15, "Coated, "+unit)
	return []BookSheet{
		{Name: kindsSheet, Title: "Kinds, " + r.Scope.String(), About: "each kind's pieces added up, and what " +
			"an hour on it " +
			"brings in the long run", Columns: list,
			Fill: func(book *wb.Book, s *wb.Sheet) {
				judged := book.Sheet(judgedSheet)
				fillJudged(judged, r, unit)
				fillKinds(s, judged, r, unit)
			}},
		{Name: judgedSheet, Title: "The pieces that kinds are judged by", About: "every piece sold, scrapped " +
			"or stolen, that " +
			"the sheet Kinds adds up", Columns: pieces,
			Fill: func(*wb.Book, *wb.Sheet) {}}, // filled with the sheet that adds it up
	}
}

// fillJudged lists every judged piece, kind by kind.
func fillJudged(s *wb.Sheet, r kinds.Report, unit string) {
	s.Landscape, s.Filter, s.Freeze = true, true, 3
	s.Note("Each over its whole life. Profit before shop costs has what was received for a lost one in it; 'Counted by " +
		"the hour' leaves out pieces sold without hours, as what an hour brings does.")
	for i, k := range r.Kinds {
		for _, x := range k.Judged {
			row := s.NextRow()
			timed, hours := money.Cents(0), wb.Cell{}
			if x.ByHour() {
				timed, hours = x.Result, wb.Hours(x.Hours)
			}
			s.Row(wb.Normal, wb.Whole(i+1), wb.Text(k.Name), wb.Text(x.Record.ID), wb.Text(x.Status), dayCell(x.Left),
				wb.Whole(1), amount(x.Receipts), amount(x.Acquisition),
				amount(x.Receipts-x.Acquisition).By(s.Here("Receipts", row)+"-"+s.Here("Acquired for", row)), amount(x.Result),
				amount(timed), hours, wb.Number(x.Coated, 2))
		}
	}
}

// fillKinds writes a row a kind, best first, and all of them together.
func fillKinds(s, judged *wb.Sheet, r kinds.Report, unit string) {
	s.Landscape, s.Freeze = true, 2
	s.Note("Sums are over the pieces of the sheet " + judgedSheet + ". The long-run average an hour before shop costs, " +
		"from, to and the chances are estimates, rounded: what an hour on each kind brought, drawn toward the shop's " +
		"by how few and how scattered its sales are, and between what it lies with nine chances in ten; the target " +
		"is judged after usual shop costs. Kinds without a place have too few sales to rank.")
	first := s.NextRow()
	for i, k := range r.Kinds {
		row := s.NextRow()
		of := func(head string) string {
			return sumIfs(judged, head, "Kind no.", s.Here("No.", row))
		}
		s.Row(wb.Normal, append(kindSums(s, row, wb.Whole(i+1), k, unit, of), kindGuesses(k)...)...)
	}
	last, row := s.LastRow(), s.NextRow()
	of := func(head string) string { return "SUM(" + s.HereRange(countHead(head), first, last) + ")" }
	if last < first {
		of = func(string) string { return "0" }
	}
	s.Row(wb.GrandTotal, append(kindSums(s, row, wb.Cell{}, r.Shop, unit, of),
		kindGuesses(kinds.Kind{InStock: r.Shop.InStock, TiedUp: r.Shop.TiedUp, TiedHours: r.Shop.TiedHours})...)...)
}

// countHead is the column of the kinds that a column of the pieces is summed in.
func countHead(head string) string {
	if head == "One" {
		return "Sold or lost"
	}
	return head
}

// kindSums are a row's sums, by the formula that sums a column of the pieces.
func kindSums(s *wb.Sheet, row int, number wb.Cell, k kinds.Kind, unit string, of func(head string) string) []wb.Cell {
	out := []wb.Cell{number, wb.Text(k.Name), wb.Whole(len(k.Judged)).By(of("One")), amount(k.Receipts).By(of("Receipts")),
		amount(k.SoldLessBought).By(of(words.SoldLessBought)), amount(k.Result).By(of(words.BeforeShopCosts)),
		amount(k.TimedResult).By(of("Counted by the hour")),
		wb.Hours(k.Hours).By(of("Hours")), {}, wb.Number(k.Coated, 2).By(of("Coated, " + unit))}
	if k.Hours.Sign() > 0 {
		exact := units(new(big.Rat).Quo(k.TimedResult.Rat(), k.Hours))
		out[8] = wb.Exact(exact).By(s.Here("Counted by the hour", row) + "/" + s.Here("Hours", row))
	}
	return out
}

// kindGuesses are a row's estimates, and what the kind holds now.
func kindGuesses(k kinds.Kind) []wb.Cell {
	out, e := make([]wb.Cell, 6), k.Estimate
	if e.Ranked {
		out[0] = wb.Whole(e.Place)
	}
	if e.Known {
		for i, x := range []float64{e.Expected, e.Low, e.High} {
			if c, ok := kinds.Rounded(x, perHourStep); ok {
				out[1+i] = amount(c).InFull()
			}
		}
		for i, x := range []float64{e.Beats, e.Best} {
			if c, ok := kinds.Rounded(1000*x, 1); ok {
				out[4+i] = wb.Percent(big.NewRat(int64(c), 1000))
			}
		}
	}
	return append(out, wb.Whole(k.InStock), amount(k.TiedUp), wb.Hours(k.TiedHours))
}
