package tables

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// What the columns of a cash book are called: the day, the words, what came in, what
// went out; or one amount with a sign.
var (
	cashDays = headerKeys("date", "day", "when", "datetime", "date and time", "timestamp", "transaction date", "posted",
		"posting date")
	cashWords = headerKeys("what", "description", "details", "detail", "item", "memo", "note", "notes", "particulars",
		"transaction", "for", "for what", "what for", "payee", "name", "reference")
	cashIn = headerKeys("in", "money in", "cash in", "paid in", "received", "money received", "income",
		"credit", "credits",
		"deposit", "deposits", "receipt", "receipts", "came in")
	cashOut = headerKeys("out", "money out", "cash out", "paid out", "paid", "spent", "money spent", "expense", "expenses",
		"debit", "debits", "withdrawal", "withdrawals", "payment", "payments", "went out")
	cashFee    = headerKeys("fee", "fees", "amount (fee)", "transaction fee", "processing fee")
	cashEither = headerKeys("amount", "transaction amount", "amount (total)", "total", "value")
)

// cashTable is what each of the two is read as.
var cashTable = map[string]string{"In": "sales", "Out": "purchases"}

// cashBook is a sheet that says of each row what came in or went out: two tables in the
// same rows.
type cashBook struct {
	sheet   *sheets.Sheet
	in, out *sheets.Sheet
	cents   [2]money.Cents
	named   bool // the sheet is named for a table, whose columns are not all there
}

// cashParts are a cash book's two tables, each with the rows that have its amount; nil
// where a sheet is none. A sheet whose columns fit the table it is named for (whole) or
// another is that, and one with more columns of money is not told for a cash book.
func (r *Finder) cashParts(s *sheets.Sheet, whole *templates.Table) []*sheets.Sheet {
	for head, l := range s.Lines[:min(len(s.Lines), sheets.TitleRowsMax)] {
		day, what := cashColumn(l, cashDays), cashColumn(l, cashWords)
		in, out := cashColumn(l, cashIn), cashColumn(l, cashOut)
		if in < 0 && out < 0 && whole == nil {
			if in = cashColumn(l, cashEither); r.hasBothSigns(s, head, in) {
				out = in
			}
		}
		if day < 0 || what < 0 || in < 0 || out < 0 {
			continue
		}
		fee := cashColumn(l, cashFee)
		if r.isOneTable(s, l, whole) || r.hasMoreMoney(s, head, []int{day, what, in, out, fee}) {
			return nil
		}
		book := cashBook{sheet: s, named: whole != nil}
		book.in, book.cents[0] = r.cashPart(s, head, [4]int{day, what, in, fee}, "In", in != out, 1)
		book.out, book.cents[1] = r.cashPart(s, head, [4]int{day, what, out, -1}, "Out", in != out, -1)
		parts := []*sheets.Sheet{book.in, book.out}
		r.sawSheet(s)
		if !r.cashTables(book, parts) {
			r.cash = append(r.cash, book)
		} else if in != out {
			r.tellCashRows(s, head, in, out)
		}
		return parts
	}
	return nil
}

// isOneTable says that the names of a sheet are those of one table.
func (r *Finder) isOneTable(s *sheets.Sheet, head sheets.Line, whole *templates.Table) bool {
	if whole != nil {
		found, _ := r.names.Fields(whole, head.Cells)
		return !slices.ContainsFunc(columns.Lacking(whole, found), func(name string) bool {
			return !whole.Field(name).ColumnMayBeMissing
		})
	}
	t, _ := r.Fitting(s)
	if t == nil {
		return false
	}
	n, _ := r.names.In(t, head.Cells)
	return n > fitLeast
}

// hasMoreMoney says that a sheet has money in other columns than some, what is worked
// out from them apart.
func (r *Finder) hasMoreMoney(s *sheets.Sheet, head int, but []int) bool {
	for i, text := range s.Lines[head].Cells {
		if !slices.Contains(but, i) && strings.TrimSpace(text) != "" && !columns.HasWord(text, columns.DerivedWords) &&
			columns.LooksMoney(s, text, i, s.Lines[head+1:], r.settings) {
			return true
		}
	}
	return false
}

// tellCashRows tells the rows of a cash book that is read that are in both of its
// tables, and those that are in neither.
func (r *Finder) tellCashRows(s *sheets.Sheet, head, in, out int) {
	place := s.Place()
	for _, l := range s.Lines[head+1:] {
		place.Row = l.Number
		switch both := l.Text(in) != "" && l.Text(out) != ""; {
		case columns.SaysTotal(l):
		case both:
			r.problems.Add(fault.Problem{Code: fault.CodeCashBook, Place: place, Found: sheets.Shortened(l.Shown()),
				Why: "This row has money in and money out, so it is not clear what each is for.",
				Fix: "Type the two in rows of their own, each with its words."})
		case l.Text(in)+l.Text(out) == "":
			r.problems.Add(fault.Problem{Code: fault.CodeCashBook, Note: true, AsksNothing: true, Place: place,
				Found: sheets.Shortened(l.Shown()), Why: "This row has neither money in nor money out, so it is left out.",
				Fix: "It may stay."})
		}
	}
}

// headerKeys are headers as they are compared.
func headerKeys(names ...string) map[string]bool {
	out := map[string]bool{}
	for _, name := range names {
		out[settings.HeaderKey(name)] = true
	}
	return out
}

// cashColumn is the first column of a line that has one of some names; -1 for none.
func cashColumn(l sheets.Line, names map[string]bool) int {
	return slices.IndexFunc(l.Cells, func(text string) bool { return names[settings.HeaderKey(strings.Trim(text, " $"))] })
}

// hasBothSigns says that a column has amounts below and above nothing.
func (r *Finder) hasBothSigns(s *sheets.Sheet, head, column int) bool {
	below, above := false, false
	for _, l := range s.Lines[head+1:] {
		if column < 0 || l.Text(column) == "" {
			continue
		}
		sign, _ := r.cashAmount(s, l, column)
		below, above = below || sign < 0, above || sign > 0
	}
	return below && above
}

// cashAmount is the sign and the amount of a cell without it.
func (r *Finder) cashAmount(s *sheets.Sheet, l sheets.Line, column int) (sign int, amount string) {
	text := l.Text(column)
	amount = strings.Trim(text, "+-−() ")
	cell := s.Cell(l, column)
	cell.Text = amount
	if _, refusal := values.Money(cell, r.settings); amount != "" && refusal == nil {
		sign = 1
		if strings.ContainsAny(text[:1], "-(") || strings.HasPrefix(text, "−") || strings.HasSuffix(text, "-") {
			sign = -1
		}
	}
	return sign, amount
}

// cashPart is one of the two tables of a cash book: the columns of the day, the words,
// the amount and, where there is one (else -1), what was kept of it, under names that
// every table knows them by. hasOwn says that the
// amount has a column of its own, where a minus before each means no more than none;
// else it is what has a sign.
func (r *Finder) cashPart(s *sheets.Sheet, head int, at [4]int, name string, hasOwn bool, sign int) (
	part *sheets.Sheet, cents money.Cents) {
	part = s.Part(name, sheets.CellName(at[2], s.Lines[head].Number), 0, head, 0, len(s.Lines[head].Cells))
	part.IsCash = true
	allBelow := hasOwn && !slices.ContainsFunc(s.Lines[head+1:], func(l sheets.Line) bool {
		is, _ := r.cashAmount(s, l, at[2])
		return is >= 0 && l.Text(at[2]) != ""
	})
	for i, l := range s.Lines[head:] {
		cells := make([]string, slices.Max(at[:])+1)
		is, amount := r.cashAmount(s, l, at[2])
		if hasOwn && !allBelow {
			amount = l.Text(at[2])
		}
		if i > 0 && (amount == "" || !hasOwn && is != sign) {
			continue
		}
		for j, c := range at {
			switch {
			case c < 0:
			case i == 0:
				cells[c] = []string{"Date", "Item", "Amount", "Fee"}[j]
			case j == 2:
				cells[c] = amount
			default:
				cells[c] = l.Text(c)
			}
		}
		total := columns.SaysTotal(l)
		l.Cells = cells
		part.Lines = append(part.Lines, l)
		if x, refusal := values.Money(s.Cell(l, at[2]), r.settings); refusal == nil && !total && i > 0 {
			cents += x.Abs()
		}
	}
	return part, cents
}

// cashTables finds the tables that settings.toml names the two for. It says whether it
// names any; else they are no tables, which is told once all sheets are known.
func (r *Finder) cashTables(book cashBook, parts []*sheets.Sheet) bool {
	if slices.ContainsFunc(parts, func(p *sheets.Sheet) bool {
		t, ignored := r.namedPart(p)
		return t != nil || ignored
	}) {
		r.partTables(nil, parts)
		return true
	}
	for _, p := range parts {
		r.ofPart[p] = partTable{told: true}
	}
	return false
}

// tellCashBooks notes cash books, with what each side of them can be read as. Where
// another sheet has what came in or went out it may be the same money twice, and only
// the message names the line.
func (r *Finder) tellCashBooks() {
	for _, b := range r.cash {
		place := b.sheet.Place()
		line := func(p *sheets.Sheet, table string, cents money.Cents) string {
			text := settings.NameLine(p.Known, table)
			ok := cents != 0
			if ok && r.named[table] {
				ok = r.lines.Tell("sheets", text, place)
			} else if ok {
				ok = r.lines.Propose("sheets", text, place)
			}
			if !ok {
				text = settings.NameLine(p.Known, settings.NoTable)
			}
			return text
		}
		fix := fmt.Sprintf("Under [sheets] of settings.toml put %s to read what came in as sales of the pieces "+
			"it names, and "+
			"%s to read what went out as a list of receipts.", line(b.in, "sales", b.cents[0]),
			line(b.out, "purchases", b.cents[1]))
		r.problems.Add(fault.Problem{Code: fault.CodeCashBook, Note: !b.named, Place: place,
			MoneyCents: int64(b.cents[0] + b.cents[1]),
			Why: fmt.Sprintf("This sheet says what came in and what went out, which are two tables here, so it was skipped: "+
				"the %s in and the %s out are in no figure.", b.cents[0].Grouped(), b.cents[1].Grouped()),
			Fix: fix + fmt.Sprintf(" If other sheets have the same money, put %s.",
				settings.NameLine(b.sheet.Known, settings.NoTable))})
	}
}
