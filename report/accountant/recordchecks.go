package accountant

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	wb "piecebook/report/workbook"
)

// recordChecks hold the postings against the records themselves, over all time
// up to the last day.
func (b *book) recordChecks() []check {
	f := b.in.Month
	out := []check{}
	if t := tieOf(f, figures.TieBought); t.Name != "" {
		reached := b.sumIfs("Amount", "From", `"shelf"`, "To", `"pieces"`) + "+" + b.sumIfs("Amount", "To", `"shelf losses"`) + "+" + b.shelf.Cell("Closing", b.shelf.LastRow())
		paid := b.recordSum("purchases", "cost", "bought_on", "") + "+" + b.recordSum("purchases", "tax_paid", "bought_on", "") + "+" + b.recordSum("openings", "cost", "", "no")
		out = append(out, check{"Every cent of supplies bought", "put into pieces, lost, and on the shelf, over all time, against what the records of purchases and openings say was paid",
			amount(t.Reached).By(reached), amount(t.Against).By(paid)})
	}
	if t := tieOf(f, figures.TieSalesTax); t.Name != "" {
		owed := ""
		for _, x := range []struct{ sign, kind string }{{"+", "sale"}, {"+", "part payment"}, {"-", "refund"}, {"-", "return"}} {
			owed += x.sign + b.recordSum("sales", "sales_tax", "sold_on", x.kind)
		}
		owed += "-" + b.recordSum("tax paid", "amount", "paid_on", "") + "-" + b.recordSum("tax paid", "kept", "paid_on", "")
		out = append(out, check{"Sales tax owed", "collected, less given back, paid over and kept, by the records, against the statement",
			amount(t.Reached).By(owed[1:]), amount(t.Against).By(b.statement.Cell(b.periods[0].head, find(b.statement, lineTaxOwed)))})
	}
	return append(out, b.receiptsCheck())
}

// receiptsCheck holds all receipts ever posted against the Sales records.
func (b *book) receiptsCheck() check {
	posted, records, by := amount(0), "", ""
	var written money.Cents
	for _, x := range b.in.Books.Sales {
		switch {
		case x.On.InMonth() > b.in.Month.To:
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
		by += x.sign + b.sumIfs("Amount", "Why", `"`+string(x.why)+`"`)
		for _, column := range []string{"price", "delivery_charged"} {
			records += x.sign + b.recordSum("sales", column, "sold_on", string(x.why))
		}
		for _, p := range b.in.Postings {
			if p.Reason == x.why {
				c := p.Cents
				if x.sign == "-" {
					c = -c
				}
				posted.Value = plus(posted, amount(c))
			}
		}
	}
	return check{"Receipts", "sales and part payments less refunds and returns, over all time: the postings against the records of sales", posted.By(by[1:]), amount(written).By(records[1:])}
}

// recordSum is the sum of a money column of the records up to the last day;
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
		conditions = append(conditions, title(on), `"<="&`+b.lastDay())
	}
	return sumIfs(s, title(column), conditions...)
}

// plus and subtract reckon with the values of cells.
func plus(a, c wb.Cell) *big.Rat     { return new(big.Rat).Add(valueOf(a), valueOf(c)) }
func subtract(a, c wb.Cell) *big.Rat { return new(big.Rat).Sub(valueOf(a), valueOf(c)) }

func valueOf(c wb.Cell) *big.Rat {
	if c.Value == nil {
		return new(big.Rat)
	}
	return c.Value
}
