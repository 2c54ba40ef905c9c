package accountant

import (
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// fillTies writes the reconciliations of the year: what is a sum of postings
// as a formula, what comes from a list or the records as it is there.
func (b *yearBook) fillTies() {
	s := b.ties
	for _, t := range b.yearTies() {
		terms, against := b.live(t)
		s.Row(wb.Group, wb.Text(words.Capital(t.Name)))
		first := s.NextRow()
		for i, x := range t.Terms {
			cell := amount(x.Cents)
			if i < len(terms) && terms[i] != "" {
				cell = cell.By(terms[i])
			}
			s.Row(wb.Normal, wb.Text(words.Capital(words.Term(t.Name, x))), cell)
		}
		reached := s.Row(wb.Subtotal, wb.Text("Together"), amount(t.Reached).InFull().By(sumOf(s, "Amount", first)))
		row := s.NextRow()
		cell := amount(t.Against).InFull()
		if against != "" {
			cell = cell.By(against)
		}
		s.Row(wb.Normal, wb.Text(words.Capital(words.Against(t))), cell, amount(t.Difference).InFull().By(
			s.Here("Amount", reached)+"-"+s.Here("Amount", row)))
		b.tieRow[t.Name] = [2]int{reached, row}
	}
}

// yearTies are the reconciliations that only a year has; those of all periods
// stand on the sheets of what they reconcile.
func (b *yearBook) yearTies() []figures.Tie { return b.y.Ties[len(b.y.Figures.TieOut):] }

// live are the formulas of a reconciliation's terms, blank for what comes from a
// list, and of what they are compared with.
func (b *yearBook) live(t figures.Tie) (terms []string, against string) {
	head := b.periods[0].head
	statement := func(id figures.ID) string { return b.statement.Cell(head, find(b.statement, statementLabel(id))) }
	written := b.partCell(figures.LineDepreciation, true)
	switch t.Name {
	case taxyear.TieCost:
		for _, x := range []struct {
			id   figures.ID
			less bool
		}{{figures.LineOpeningStock, false}, {figures.LineAcquired, false}, {figures.LineKept, true},
			{figures.LineSuppliesBought, false}, {figures.LineParts, false}, {figures.LineOutsideWork, false},
			{figures.LineClosingStock, true}} {
			terms = append(terms, b.partCell(x.id, x.less))
		}
		return terms, b.leftStock()
	case taxyear.TieMonths:
		for _, m := range b.y.Months {
			terms = append(terms, b.months.Cell(m.To.Name(), find(b.months, statementLabel(figures.LineNetProfit))))
		}
		return append(terms, written), addedUp(statement(figures.LineNetProfit), written)
	case taxyear.TieLines:
		return []string{statement(figures.LineNetProfit), written}, b.line(b.y.Table.Holds.Profit).Formula
	case taxyear.TieStock:
		return nil, b.partCell(figures.LineClosingStock, false)
	case taxyear.TieOpening:
		return nil, b.partCell(figures.LineOpeningStock, false)
	case taxyear.TieChannels:
		return nil, statement(figures.LineNetReceipts)
	case taxyear.TieMileage:
		row := find(b.trips, allTrips)
		return []string{b.trips.Cell("Drive", row), b.trips.Cell("Tolls", row)}, b.partCell(figures.LineTrips, false)
	case taxyear.TieGone:
		return nil, statement(figures.LineKept) + "+" + statement(figures.LinePiecesLost)
	case taxyear.TieEquipment:
		return nil, addedUp(b.partCell(figures.LineAtOnce, false), b.partCell(figures.LineAboveLimit, false),
			b.partCell(figures.LineDepreciation, false))
	}
	return nil, ""
}

// partCell is the formula of an amount that a line takes, whichever way that
// line counts it, or of the same taken away; "0" where no line takes it.
func (b *yearBook) partCell(id figures.ID, less bool) string {
	for i, l := range b.y.Lines {
		for j, p := range l.Parts {
			if p.Amount != id {
				continue
			}
			head := "Of which"
			if len(l.Takes) == 1 {
				head = "Amount"
			}
			cell := b.lines.Cell(head, b.partRow[[2]int{i, j}])
			if p.Less != less {
				return "-" + cell
			}
			return cell
		}
	}
	return "0"
}

// addedUp is the sum of formulas, each with its sign before it or none.
func addedUp(formulas ...string) string {
	out := formulas[0]
	for _, f := range formulas[1:] {
		if !strings.HasPrefix(f, "-") {
			out += "+"
		}
		out += f
	}
	return out
}

// leftStock is what left the form's stock in the year for cost of sales and
// losses, less what came back.
func (b *yearBook) leftStock() string {
	out := ""
	for _, a := range []ledger.Account{ledger.CostOfSales, ledger.ShelfLosses, ledger.Lost} {
		for _, side := range []string{"To", "From"} {
			out += "-" + b.sumIfs("In the form's stock", append([]string{side, `"` + string(a) + `"`}, b.ofPeriod()...)...)
		}
	}
	return out
}

// yearChecks compare each of the form's lines with the program's own figure, and
// with the statement and the registers.
func (b *yearBook) yearChecks() []check {
	st := b.y.Figures.Statement
	head := b.periods[0].head
	statement := func(id figures.ID, c money.Cents) wb.Cell {
		return amount(c).By(b.statement.Cell(head, find(b.statement, statementLabel(id))))
	}
	last := func(s *wb.Sheet, column string, c money.Cents) wb.Cell {
		return amount(c).By(s.Cell(column, s.LastRow()))
	}
	var received, back, equipment money.Cents
	for _, c := range b.y.Channels {
		received, back = received+c.Gross(), back+c.Refunds
	}
	for i := range b.y.Assets {
		equipment += b.y.Assets[i].This(b.y.Year)
	}
	out := []check{{"Equipment", "the sheet Equipment against what the form's lines take of equipment",
		last(b.equipment, "This year", equipment), b.tieCell(taxyear.TieEquipment, 1)}}
	// A line that takes more than the one amount has nothing to be compared with.
	for _, x := range []struct {
		id    figures.ID
		is    string
		cents money.Cents
		sheet string // the column of the sheet Channels that has it too
		by    money.Cents
	}{
		{figures.LineGrossReceipts, "gross receipts", st.GrossReceipts, "Received", received},
		{figures.LineRefunds, "refunds and returns", st.Refunds, "Given back", back},
		{figures.LineTrips, "trips", st.Trips, "", 0},
	} {
		number := b.y.Alone(x.id)
		if number == "" {
			continue
		}
		out = append(out, check{"Line " + number, "the form's line against the statement's " + x.is, b.line(number),
			statement(x.id, x.cents)})
		if x.sheet != "" {
			out = append(out, check{x.sheet + " by channel", "the sheet Channels against line " + number,
				last(b.channels, x.sheet, x.by), b.line(number)})
		}
	}
	for _, t := range b.yearTies() {
		out = append(out, check{"Reconciliation: " + t.Name, "the sheet Reconciliations: the terms added up, against " +
			words.Against(t), b.tieCell(t.Name, 0), b.tieCell(t.Name, 1)})
	}
	for _, l := range b.y.Lines {
		out = append(out, check{"Line " + l.Line + " as printed", "the sheet Form lines against the figure of year.pdf and " +
			"figures.json", b.line(l.Line), amount(l.Cents)})
	}
	return out
}

// tieCell is a reconciliation's sum (0), or what it is compared with (1).
func (b *yearBook) tieCell(name string, side int) wb.Cell {
	for _, t := range b.yearTies() {
		if t.Name == name {
			return amount([2]money.Cents{t.Reached, t.Against}[side]).By(b.ties.Cell("Amount", b.tieRow[name][side]))
		}
	}
	return amount(0)
}
