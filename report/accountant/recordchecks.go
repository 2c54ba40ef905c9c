package accountant

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	wb "piecebook/report/workbook"
)

// recordChecks compare the postings with the records themselves, over the tax
// year up to the last day.
func (b *book) recordChecks() []check {
	f := b.in.Month
	out := []check{}
	inYear := []string{"Month", `">="&` + b.yearDay()}
	if t := tieOf(f, figures.TieBought); t.Name != "" {
		reached := b.sumIfs("Amount", append([]string{"From", `"shelf"`, "To", `"pieces"`}, inYear...)...) + "+" + b.sumIfs(
			"Amount", append([]string{"To", `"shelf losses"`}, inYear...)...) + "+" + b.shelf.Cell("Closing", b.shelf.LastRow())
		paid := b.recordSum("purchases", "cost", "bought_on", "") + "+" + b.recordSum("purchases", "tax_paid",
			"bought_on", "") + "+"
		if b.carried {
			paid += b.openingFormula(ledger.Shelf, "To")
		} else {
			paid += b.recordSum("openings", "cost", "", "no")
		}
		more, corrected := b.earlier("+", "To", string(ledger.Shelf))
		paid += more
		used := b.sumYear(func(p ledger.Posting) bool {
			return p.From == ledger.Shelf && p.To == ledger.Pieces || p.To == ledger.ShelfLosses
		})
		out = append(out, check{"Every cent of supplies bought", "put into pieces, lost, and on the shelf, against the " +
			"shelf's opening and what the records of purchases and openings say was paid in the tax year",
			amount(used + b.shelfClosing()).By(reached), amount(b.openingBalance(ledger.Shelf) + b.suppliesPaid() +
				corrected).By(paid)})
	}
	if t := tieOf(f, figures.TieSalesTax); t.Name != "" {
		owed := b.openingFormula(ledger.TaxOwed, "From")
		for _, x := range []struct{ sign, kind string }{{"+", "sale"}, {"+", "part payment"}, {"-", "refund"},
			{"-", "return"}} {
			owed += x.sign + b.recordSum("sales", "sales_tax", "sold_on", x.kind)
		}
		owed += "-" + b.recordSum("tax paid", "amount", "paid_on", "") + "-" + b.recordSum("tax paid", "kept", "paid_on", "")
		in, _ := b.earlier("+", "From", string(ledger.TaxOwed))
		gone, _ := b.earlier("-", "To", string(ledger.TaxOwed))
		owed += in + gone
		out = append(out, check{"Sales tax owed", "owed when the tax year began, collected, less given back, paid over and " +
			"kept, by the records, against the statement",
			amount(t.Reached).By(owed), amount(t.Against).By(b.statement.Cell(b.periods[0].head,
				find(b.statement, statementLabel(figures.LineSalesTaxOwed))))})
	}
	return append(out, b.receiptsCheck())
}

// inYear says that a day is in the tax year so far.
func (b *book) inYear(on calendar.Date) bool {
	return on.InMonth() >= b.from && on.InMonth() <= b.in.Month.To
}

// suppliesPaid is what the records say was paid for supplies in the tax year.
func (b *book) suppliesPaid() money.Cents {
	var sum money.Cents
	for _, p := range b.in.Books.Purchases {
		if b.inYear(p.On) {
			sum += p.Total()
		}
	}
	if !b.carried {
		for _, o := range b.in.Books.Openings {
			if !o.Deducted {
				sum += o.Cost
			}
		}
	}
	return sum
}

// receiptsCheck compares the tax year's receipts with the Sales records.
func (b *book) receiptsCheck() check {
	records, by := "", ""
	var posted, written money.Cents
	for _, x := range b.in.Books.Sales {
		switch {
		case !b.inYear(x.On):
		case x.Type == ledger.Refund || x.Type == ledger.Return:
			written -= x.Price + x.DeliveryCharged
		default:
			written += x.Price + x.DeliveryCharged
		}
	}
	for _, x := range []struct {
		sign string
		why  ledger.Reason
	}{{"+", ledger.ReasonSale}, {"+", ledger.ReasonPartPayment}, {"-", ledger.ReasonRefund}, {"-", ledger.ReasonReturn}} {
		by += x.sign + b.sumIfs("Amount", "Why", `"`+string(x.why)+`"`, "Month", `">="&`+b.yearDay())
		for _, column := range []string{"price", "delivery_charged"} {
			records += x.sign + b.recordSum("sales", column, "sold_on", string(x.why))
		}
		sum := b.sumYear(func(p ledger.Posting) bool { return p.Reason == x.why })
		if x.sign == "-" {
			sum = -sum
		}
		posted += sum
		more, corrected := b.earlier(x.sign, "Why", string(x.why))
		records, written = records+more, written+corrected
	}
	return check{"Receipts", "sales and part payments less refunds and returns, over the tax year: the postings against " +
		"the records of sales", amount(posted).By(by[1:]), amount(written).By(records[1:])}
}

// recordSum is the sum of a money column of the tax year's records up to the last day;
// only of one kind where that is said: the type of a sale, deducted or not.
func (b *book) recordSum(table, column, on, kind string) string {
	s := b.records[table]
	if s == nil {
		return "0"
	}
	title := func(name string) string { return b.fieldTitle(table, name) }
	var conditions []string
	if kind != "" {
		which := map[string]string{"sales": "type", "openings": "deducted"}[table]
		conditions = append(conditions, title(which), `"`+kind+`"`)
	}
	if on != "" {
		conditions = append(conditions, title(on), `">="&`+b.yearDay(), title(on), `"<="&`+b.lastDay())
	}
	return sumIfs(s, title(column), conditions...)
}

// plus and subtract work with the values of cells.
func plus(a, c wb.Cell) *big.Rat     { return new(big.Rat).Add(valueOf(a), valueOf(c)) }
func subtract(a, c wb.Cell) *big.Rat { return new(big.Rat).Sub(valueOf(a), valueOf(c)) }

func valueOf(c wb.Cell) *big.Rat {
	if c.Value.None() {
		return new(big.Rat)
	}
	return c.Value.Rat()
}
