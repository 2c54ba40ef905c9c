package accountant

import (
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// fillStatement is the income statement: each line the sum of the postings
// that name it, or of lines above it.
func (b *book) fillStatement(s *wb.Sheet) {
	s.Note("Amounts in " + b.in.Month.Currency + ". Receipts count on the day the money came; a piece's cost when it is " +
		"sold. Costs are positive; brackets mean that a line goes against its usual way.")
	s.Note("Each amount is the sum of the postings whose 'Statement line' is the line's name, of the months above.")
	b.noteOlder(s)
	b.fillPeriods(s)
	rows := map[figures.ID]rowRun{}
	counts := map[figures.ID]bool{} // in net profit
	for _, leaf := range figures.Leaves(figures.OfStatement, figures.LineNetProfit) {
		counts[leaf.ID] = true
	}
	for _, l := range figures.LinesOf(figures.OfStatement) {
		if l.ID == figures.LineTiedUp {
			continue // it has the sheets Stock roll-forward and Shelf
		}
		run := rowRun{first: s.NextRow()}
		if l.ByGroup {
			for _, group := range b.groups() {
				b.amounts(s, wb.Normal, words.GroupLabel(group),
					func(f figures.Figures) money.Cents { return f.Statement.Expenses[group] }, b.named(s, "", "In the statement",
						"Statement line"))
			}
		} else {
			b.amounts(s, statementStyle(l, counts[l.ID]), statementLabel(l.ID),
				func(f figures.Figures) money.Cents { return f.Statement.Amount(l.ID) }, b.statementFormula(s, l, rows))
		}
		run.last = s.LastRow()
		rows[l.ID] = run
	}
}

// statementFormula is how a line's cell is worked out, by its column's head.
func (b *book) statementFormula(s *wb.Sheet, l *figures.Line, rows map[figures.ID]rowRun) func(head string) string {
	switch {
	case l.Sum != nil:
		var runs []rowRun
		for _, a := range l.Sum {
			run := rows[a.ID]
			run.less = a.Less
			runs = append(runs, run)
		}
		return func(head string) string { return total(s, head, runs) }
	case l.Again:
		return b.posted(func(head string) string {
			if l.ID == figures.LineUnfinished && b.period(head).f.To != b.in.Month.To {
				return "" // the postings say what is unfinished at the end
			}
			return b.byRules(l, spanned(s, l, head)...)
		})
	}
	return b.named(s, "", "In the statement", "Statement line")
}

// named is the formula of the next row: the postings of its column's months
// that name the row's label, with a sign before it.
func (b *book) named(s *wb.Sheet, sign, amount, line string) func(head string) string {
	at := s.NextRow()
	return b.posted(func(head string) string {
		return sign + b.sumIfs(amount, append([]string{line, fmt.Sprintf("$A%d", at)}, within(s, head)...)...)
	})
}

func statementStyle(l *figures.Line, counts bool) wb.Style {
	switch {
	case l.ID == figures.LineGrossReceipts:
		return wb.First
	case l.ID == figures.LineNetProfit:
		return wb.GrandTotal
	case l.Sum != nil:
		return wb.Subtotal
	case !counts:
		return wb.Quiet
	}
	return wb.Normal
}

// monthColumns are a line's name and its amount in each of up to twelve months.
func monthColumns(in *report.Input) []wb.Column {
	out := heads{}.text(46, "Line")
	for _, f := range in.Last {
		out = out.money(14, f.To.Name())
	}
	return out
}

// fillMonths is the statement of each of up to twelve months ending with the
// period.
func (b *book) fillMonths() {
	b.months.Landscape, b.months.Freeze = true, 1
	was := b.periods
	b.periods = nil
	for _, f := range b.in.Last {
		b.periods = append(b.periods, period{f.To.Name(), f})
	}
	b.fillStatement(b.months)
	b.periods = was
}

// noteOlder marks columns whose amounts are values.
func (b *book) noteOlder(s *wb.Sheet) {
	var names []string
	for _, p := range b.periods {
		if b.older(p.head) {
			names = append(names, p.head)
		}
	}
	if len(names) > 0 {
		s.Note("Before the tax year, so values as they were printed, not sums of postings: " + strings.Join(names, ", ") +
			".")
	}
}

// groups are the groups of expenses with an amount in one of the columns.
func (b *book) groups() []string {
	seen := map[string]bool{}
	for _, p := range b.periods {
		for g := range p.f.Statement.Expenses {
			seen[g] = true
		}
	}
	return sortedKeys(seen)
}

// find is the row of a line by its name; a sheet without it has a mistake of
// the program's.
func find(s *wb.Sheet, label string) int {
	for i, r := range s.Rows() {
		if len(r.Cells) > 0 && r.Cells[0].Text == label {
			return s.FirstRow() + i
		}
	}
	panic("no line " + label + " in " + s.Name)
}

// fillStock is the pieces' roll-forward at book cost.
func (b *book) fillStock() {
	s := b.stock
	s.Note("Each amount is the sum of the postings whose 'Stock line' is the line's name, of the months above. The " +
		"opening is all that came before them.")
	b.noteOlder(s)
	b.fillPeriods(s)
	var runs []rowRun
	for _, l := range figures.LinesOf(figures.OfStock) {
		run := rowRun{first: s.NextRow(), last: s.NextRow(), less: l.Rules[0].From == ledger.Pieces}
		sign := ""
		if run.less {
			sign = "-"
		}
		style, by := wb.Normal, b.named(s, sign, "In the stock", "Stock line")
		switch {
		case l.ID == figures.LineClosing:
			style, by = wb.GrandTotal, func(head string) string { return total(s, head, runs) }
		case l.ID == figures.LineOpening:
			style, by = wb.First, b.posted(func(head string) string { return b.byRules(l, spanned(s, l, head)...) })
		}
		b.amounts(s, style, words.Label(figures.OfStock, l.ID), func(f figures.Figures) money.Cents {
			return f.Stock.Amount(l.ID)
		}, by)
		runs = append(runs, run)
	}
}
