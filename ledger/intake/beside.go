package intake

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// ownMoney is the column of money that stands in the sheet under its own name
// and that another header answers to as well: Cost beside Price. With other
// amounts in it one of the two would be left out without a sign; with the same,
// or none, it does not matter which is read.
func (r *Reader) ownMoney(s *sheets.Sheet, b *Block, fields []*templates.Field, i int) *templates.Field {
	key := headerKey(b.headers[i])
	for j := range b.table.Fields {
		f := &b.table.Fields[j]
		if !isMoney(f.Cell) || !answers(f, key, false) {
			continue
		}
		at := slices.Index(fields, f)
		if at < 0 {
			continue
		}
		for _, l := range s.Lines[1:] {
			if i >= len(l.Cells) || isExample(s, l) || saysTotal(l) || strings.TrimSpace(l.Cells[i]) == "" {
				continue
			}
			if at >= len(l.Cells) || strings.TrimSpace(l.Cells[at]) != strings.TrimSpace(l.Cells[i]) {
				return f
			}
		}
	}
	return nil
}

// eitherMoney are the lines that would tell two columns of money apart.
func (r *Reader) eitherMoney(b *Block, first, second column) string {
	var lines []string
	line := func(c column, field string) {
		lines = append(lines, fmt.Sprintf("%s = %s", tomlText(c.header), tomlText(field)))
	}
	if b.table.Name == "pieces" && second.field.Name == "price" {
		for _, c := range []column{first, second} {
			for _, field := range []string{"sold_price", "asking"} {
				if _, taken := b.columns[field]; !taken && says(c.header, []string{"price"}) {
					line(c, field)
				}
			}
		}
	}
	line(first, NoTable)
	line(second, NoTable)
	return strings.Join(lines, " or ")
}

// noteBesideMoney notes columns beside a price that make it mean something else.
func (r *Reader) noteBesideMoney(s *sheets.Sheet, at fault.Place, b *Block) {
	if b.broken || b.faulty {
		return
	}
	r.noteQuantity(s, at, b)
	r.noteSaleTax(s, at, b)
}

// countWords are the headers of a number of things.
var countWords = []string{"qty", "quantity", "count", "howmany", "noof", "units", "pcs"}

// noteQuantity notes a number of things beside a price in a table whose price
// is the whole line's. It could move what the others would cost.
func (r *Reader) noteQuantity(s *sheets.Sheet, at fault.Place, b *Block) {
	price, there := b.columns[map[string]string{"purchases": "cost", "parts": "cost", "sales": "price"}[b.table.Name]]
	if !there {
		return
	}
	many, asked := b.columns["containers"]
	if asked && !says(price.header, []string{"price", "each", "unit"}) {
		return // by its name the line's
	}
	if !asked {
		i := slices.IndexFunc(b.unknown, func(c column) bool { return slices.Contains(countWords, values.Compact(c.header)) })
		if i < 0 {
			return
		}
		many = b.unknown[i]
	}
	style := values.PlainStyle(r.settings, s.InBook)
	var first sample
	var cents int64
	for _, l := range s.Lines[1:] {
		if max(many.index, price.index) >= len(l.Cells) || isExample(s, l) || saysTotal(l) {
			continue
		}
		n, refusal := measure.Number(l.Cells[many.index], style)
		c, other := measure.Money(l.Cells[price.index], style)
		if refusal != nil || other != nil || n.Cmp(big.NewRat(1, 1)) <= 0 || c == 0 {
			continue
		}
		if first.row == 0 {
			first = sample{s.Cell(l, many.index), l.Number}
		}
		more := new(big.Rat).Sub(n, big.NewRat(1, 1))
		cents += money.RoundHalfEven(more.Mul(more, new(big.Rat).SetInt64(int64(c.Abs())))).Int64()
	}
	if first.row == 0 {
		return
	}
	fix := "If not, name the column total cost."
	if !asked {
		b.count = many.index + 1
		fix = fmt.Sprintf("If not, put %s = %s under [%s] of settings.toml.", tomlText(many.header), tomlText(NoTable), columnsSection(b.table.Name))
	}
	at.Row = first.row
	r.problems.Add(fault.Problem{Code: fault.CodeQuantityUnread, Note: true, Place: at.At(many.header), Found: first.cell.Text, MoneyCents: cents,
		Why: fmt.Sprintf("The column %q is read as what the whole line came to, whatever the number in %q.", price.header, many.header),
		Fix: "If it is the price of one, type what the whole line came to. " + fix})
}

// noteSaleTax notes a tax that stands behind the price a piece sold for, and is
// read as what was paid on buying it.
func (r *Reader) noteSaleTax(s *sheets.Sheet, at fault.Place, b *Block) {
	tax, there := b.columns["tax_paid"]
	sold, isSold := b.columns["sold_price"]
	_, told := b.columns["sales_tax"]
	bought, isBought := b.columns["price"]
	if b.table.Name != "pieces" || !there || !isSold || told || headerKey(tax.header) == headerKey("tax paid") || tax.index < sold.index ||
		isBought && bought.index > sold.index && bought.index < tax.index || says(tax.header, []string{"purchase", "bought"}) {
		return
	}
	cents := r.sumOf(s, tax.index)
	if cents == 0 {
		return
	}
	r.problems.Add(fault.Problem{Code: fault.CodeTaxEither, Note: true, Place: at.At(tax.header), Found: tax.header, MoneyCents: cents,
		Why: fmt.Sprintf("This column stands behind %q and is read as the tax paid when the piece was bought, which is part of its cost.", sold.header),
		Fix: fmt.Sprintf("If it is the tax taken from the buyer, put %s = \"sales_tax\" under [columns.pieces] of settings.toml. If not, name it tax paid.", tomlText(tax.header))})
}
