package year

import (
	"cmp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// expenses is what stands on the lines that take neither income nor the cost of
// what was sold: fees by channel, all else by what was paid for, each with how
// often. The records one by one are in the workbook.
func expenses(in *report.YearInput) []page.Block {
	t := page.Table{Columns: page.Heads{}.Wide(1, "What").Number("Records").Money("Amount")}
	for _, l := range in.Tax.Lines {
		if len(l.Takes) == 0 || len(l.Postings) == 0 || ofCost(in, l) || ofIncome(in, l) {
			continue
		}
		t.AddStyled(page.Group, page.Text("Line "+l.Line+": "+l.Label))
		if row, shown := toldElsewhere(in, l); shown {
			t.Rows = append(t.Rows, row)
			continue
		}
		parts := filled(l)
		for _, p := range parts {
			rows := expenseRows(p)
			t.Rows = append(t.Rows, rows...)
			if len(parts) > 1 && len(rows) > 1 {
				t.AddStyled(page.Subtotal, page.Text(words.Capital(p.Plain())), page.Empty(),
					cells.Money(p.Cents).Opens(partOf(in, &l, p)))
			}
		}
		t.AddStyled(page.Total, page.Text("Line "+l.Line), page.Empty(), cells.Money(l.Cents).Opens(lineOf(in, &l)))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = "Every record with its date and receipt is in year.xlsx, on the sheet Receipts."
	return []page.Block{t}
}

// filled are the amounts of the books that a line takes, without those that have no records.
func filled(l taxyear.Line) []taxyear.Part {
	return slices.DeleteFunc(slices.Clone(l.Parts), func(p taxyear.Part) bool { return p.Line || len(p.Postings) == 0 })
}

// expenseRows are a part's postings by what they were for, in the order they
// first came.
func expenseRows(p taxyear.Part) []page.Row {
	text := func(x ledger.Posting) string { return expenseWords(p, x) }
	var out []page.Row
	for _, of := range report.GroupsOf(p.Postings, text) {
		records := map[fault.Place]bool{}
		for _, x := range of {
			for _, place := range x.Source {
				records[place] = true
			}
		}
		list := &report.Listed{Title: words.Capital(text(of[0])), Postings: of}
		out = append(out, page.Line(page.Text(list.Title), cells.Count(len(records)), cells.Money(list.Total()).Opens(list)))
	}
	return out
}

// expenseWords says what a posting was paid for.
func expenseWords(part taxyear.Part, p ledger.Posting) string {
	how := p.How
	if p.Of != nil {
		how = p.Of.How
	}
	switch p.Reason {
	case ledger.ReasonFee, ledger.ReasonCardFee, ledger.ReasonDelivery:
		return part.Plain() + ", " + words.Channel(p.Group)
	}
	return cmp.Or(p.Supply, how.Words, words.How(p))
}

// toldElsewhere is the one row of a line whose records have pages of their own.
func toldElsewhere(in *report.YearInput, l taxyear.Line) (page.Row, bool) {
	var where page.Cell
	switch {
	case takesOnly(l, figures.LineTrips):
		where = page.TextTo("Trip by trip in the mileage log", taxyear.SecMileage)
	case takesOnly(l, figures.LineDepreciation, figures.LineAboveLimit, figures.LineAtOnce):
		where = page.TextTo("Item by item in the equipment register", taxyear.SecEquipment)
	default:
		return page.Row{}, false
	}
	return page.Line(where, page.Empty(), cells.Money(l.Cents).Opens(lineOf(in, &l))), true
}

// takesOnly says that a line takes nothing but these amounts of the books.
func takesOnly(l taxyear.Line, ids ...figures.ID) bool {
	return len(l.Parts) > 0 && !slices.ContainsFunc(l.Parts, func(p taxyear.Part) bool {
		return p.Line || !slices.Contains(ids, p.Amount)
	})
}

// ofIncome says that a line takes income.
func ofIncome(in *report.YearInput, l taxyear.Line) bool {
	return slices.Contains([]string{in.Tax.Number(figures.LineGrossReceipts), in.Tax.Number(figures.LineRefunds),
		in.Tax.Number(figures.LineOtherIncome)}, l.Line)
}
