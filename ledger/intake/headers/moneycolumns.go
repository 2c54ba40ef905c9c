package headers

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// ownMoney is the column of money that stands in the sheet under its own name
// and that another header answers to as well: Cost beside Price. With other
// amounts in it one of the two would be left out without a sign; with the same,
// or none, it does not matter which is read.
func (r *Reader) ownMoney(b *Block, fields []*templates.Field, i int) *templates.Field {
	for _, f := range r.names.Called(b.Table, b.headers[i]) {
		if !columns.IsMoney(f.Cell) {
			continue
		}
		at := slices.Index(fields, f)
		if at < 0 {
			continue
		}
		for l := range columns.Rows(b.sheet) {
			if l.Text(i) != "" && l.Text(at) != l.Text(i) {
				return f
			}
		}
	}
	return nil
}

// alsoMoney are what columns of money may be besides, by a word of their names.
var alsoMoney = []struct{ of, word, is string }{{"price", "price", "sold_price"}, {"price", "price", "asking"},
	{"cost", "amount", "containers"}}

// eitherMoney are the lines that would tell two columns of money apart.
func (r *Reader) eitherMoney(b *Block, first, second Column) string {
	var lines []string
	line := func(c Column, field string) {
		lines = append(lines, settings.NameLine(c.Header, field))
	}
	for _, c := range []Column{first, second} {
		for _, other := range alsoMoney {
			_, taken := b.Columns[other.is]
			if f := b.Table.Field(other.is); second.Field.Name == other.of && f != nil && !taken &&
				columns.HasWord(c.Header, []string{other.word}) && r.allRead(b.sheet, c, f) &&
				r.tell(b, c.Header, other.is) {
				line(c, other.is)
			}
		}
	}
	for _, c := range []Column{first, second} {
		line(c, settings.NoTable)
		if cents := columns.SumOf(b.sheet, c.Index, r.settings); cents != 0 {
			lines[len(lines)-1] += fmt.Sprintf(" (the %s in it is then in no figure)", money.Cents(cents).Grouped())
		}
	}
	return strings.Join(lines, " or ")
}

// netOfSales takes a column of what was left for one that is not read where its
// table has nothing it could be left of.
func (b *Block) netOfSales() {
	net, there := b.Columns["net"]
	_, dated := b.Columns["sold_on"]
	_, priced := b.Columns["sold_price"]
	if there && b.Table.Name == "pieces" && !dated && !priced {
		delete(b.Columns, "net")
		b.unknown = append(b.unknown, Column{Index: net.Index, Header: net.Header, table: net.table})
	}
}

// noteBesideMoney notes columns beside a price that make it mean something else.
func (r *Reader) noteBesideMoney(b *Block) {
	if b.Broken || b.Faulty {
		return
	}
	r.noteQuantity(b)
	r.noteSaleTax(b)
	r.noteAllBelow(b)
	r.askShopPart(b)
}

// askShopPart asks about a column that says which part of the amounts beside it is the
// shop's, in percent, where some of it is not.
func (r *Reader) askShopPart(b *Block) {
	var first columns.Sample
	i := slices.IndexFunc(b.unknown, func(c Column) bool {
		percent := strings.Contains(c.Header, "%") || columns.HasWord(c.Header, []string{"percent", "pct"})
		cells := columns.Samples(b.sheet, c.Index)
		part := slices.IndexFunc(cells, func(x columns.Sample) bool {
			text := x.Cell.Text
			return !slices.Contains([]string{"100%", "100 %", "100", "1"}, text) && (percent || x.Cell.IsPercent() ||
				strings.HasSuffix(text, "%") || strings.HasPrefix(strings.TrimPrefix(text, "0"), "."))
		})
		if !columns.HasWord(c.Header, []string{"business", "biz", "shop"}) || part < 0 {
			return false
		}
		first = cells[part]
		return true
	})
	if i < 0 {
		return
	}
	c, at := b.unknown[i], b.at(b.unknown[i].Header)
	b.unknown, b.Faulty = slices.Delete(slices.Clone(b.unknown), i, i+1), true
	at.Row = first.Row
	r.problems.Add(fault.Problem{Code: fault.CodeShopPart, Place: at, Found: values.Shown(first.Cell),
		Why: "By its name this column says how much of each amount is the shop's, and it is not read.",
		Fix: fmt.Sprintf("Type only the shop's part as the amount. Once the amounts are that, %s.",
			b.put(c.Header, settings.NoTable))})
}

// saidInSettings says that the owner has named the column's field in settings.
func (r *Reader) saidInSettings(b *Block, c Column) bool {
	for header := range r.settings.Columns[b.Table.Name] {
		if settings.HeaderKey(header) == settings.HeaderKey(c.Header) {
			return true
		}
	}
	return false
}

// noteQuantity notes a number of things beside a price in a table whose price
// is the whole line's. It could move what the others would cost.
func (r *Reader) noteQuantity(b *Block) {
	field := map[string]string{"purchases": "cost", "parts": "cost", "sales": "price"}[b.Table.Name]
	price, there := b.Columns[field]
	if !there || r.saidInSettings(b, price) {
		return
	}
	many, asked := b.Columns["containers"]
	if asked && !columns.HasWord(price.Header, []string{"price", "each", "unit"}) {
		return // by its name the line's
	}
	if !asked {
		i := slices.IndexFunc(b.unknown, func(c Column) bool { return columns.CountsThings(c.Header) })
		if i < 0 {
			return
		}
		many = b.unknown[i]
	}
	style := values.PlainStyle(r.settings, b.sheet.InBook)
	var first columns.Sample
	var cents int64
	for l := range columns.Rows(b.sheet) {
		n, refusal := measure.Number(l.Text(many.Index), style)
		c, other := measure.Money(l.Text(price.Index), style)
		if refusal != nil || other != nil || n.Cmp(big.NewRat(1, 1)) <= 0 || c == 0 {
			continue
		}
		if first.Row == 0 {
			first = columns.Sample{Cell: b.sheet.Cell(l, many.Index), Row: l.Number}
		}
		more := new(big.Rat).Sub(n, big.NewRat(1, 1))
		cents += money.RoundHalfEven(more.Mul(more, new(big.Rat).SetInt64(int64(c.Abs())))).Int64()
	}
	if first.Row == 0 {
		return
	}
	put := b.put(price.Header, field)
	if !asked {
		b.count = many.Index + 1
		put = b.put(many.Header, settings.NoTable)
	}
	at := b.at(many.Header)
	at.Row = first.Row
	r.problems.Add(fault.Problem{Code: fault.CodeQuantityUnread, Note: true, Place: at,
		Found: first.Cell.Text, MoneyCents: cents,
		Why: fmt.Sprintf("The column %q is read as what the whole line came to, whatever the number in %q.", price.Header,
			many.Header),
		Fix: "If it is the price of one, type what the whole line came to. If not, " + put + "."})
}

// noteSaleTax notes a tax that stands after the price a piece sold for, and is
// read as what was paid on buying it.
func (r *Reader) noteSaleTax(b *Block) {
	tax, there := b.Columns["tax_paid"]
	sold, isSold := b.Columns["sold_price"]
	_, typed := b.Columns["sales_tax"]
	bought, isBought := b.Columns["price"]
	if b.Table.Name != "pieces" || !there || !isSold || typed ||
		settings.HeaderKey(tax.Header) == settings.HeaderKey("tax paid") || tax.Index < sold.Index ||
		isBought && bought.Index > sold.Index && bought.Index < tax.Index ||
		columns.HasWord(tax.Header, []string{"purchase", "bought"}) {
		return
	}
	cents := columns.SumOf(b.sheet, tax.Index, r.settings)
	if cents == 0 {
		return
	}
	fix := "If it is the tax paid on buying, name it tax paid."
	if r.tell(b, tax.Header, "sales_tax") {
		fix = fmt.Sprintf("If it is the tax taken from the buyer, %s. If not, name it tax paid.",
			b.put(tax.Header, "sales_tax"))
	}
	r.problems.Add(fault.Problem{Code: fault.CodeTaxEither, Note: true, Place: b.at(tax.Header), Found: tax.Header,
		MoneyCents: cents,
		Why: fmt.Sprintf("This column comes after %q and is read as the tax paid when the piece was bought, which is "+
			"part of its cost.", sold.Header),
		Fix: fix})
}

// belowLeast is how many amounts it takes, all below 0, for a minus to be how the owner
// writes what went out.
const belowLeast = 2

// noteAllBelow notes a column of what was paid all of whose amounts are below 0, which
// is money back. It could move all of it twice.
func (r *Reader) noteAllBelow(b *Block) {
	field := map[string]string{"expenses": "amount", "parts": "cost", "purchases": "cost"}[b.Table.Name]
	c, there := b.Columns[field]
	if !there {
		return
	}
	cells, sum := columns.Samples(b.sheet, c.Index), money.Cents(0)
	for _, x := range cells {
		cents, refusal := values.Money(x.Cell, r.settings)
		if refusal != nil || cents >= 0 {
			return
		}
		sum += cents.Abs()
	}
	if len(cells) < belowLeast {
		return
	}
	r.problems.Add(fault.Problem{Code: fault.CodeAllBelow, Note: true, Place: b.at(c.Header), Found: cells[0].Cell.Text,
		MoneyCents: int64(2 * sum),
		Why: fmt.Sprintf("All %d amounts of this column are below 0, so the %s in it is read as money that came back.",
			len(cells), sum.Grouped()),
		Fix: "If it is what was paid, type the amounts without the minus sign."})
}
