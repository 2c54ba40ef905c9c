package accountant

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// recordTable is one table of the records as a sheet: its descriptor's name,
// its columns by their descriptors' names, and its rows.
type recordTable struct {
	name   string
	fields []string
	kinds  []wb.Kind
	places []fault.Place
	rows   [][]wb.Cell
}

// field is a column of a record: which, of what kind, and how its cell is got.
type field[T any] struct {
	name string
	kind wb.Kind
	cell func(T) wb.Cell
}

// tabled brings the records of one table into rows, in the order of their places.
func tabled[T any](name string, records []T, at func(T) fault.Place, fields ...field[T]) recordTable {
	t := recordTable{name: name}
	for _, f := range fields {
		t.fields, t.kinds = append(t.fields, f.name), append(t.kinds, f.kind)
	}
	sorted := slices.Clone(records)
	slices.SortStableFunc(sorted, func(a, b T) int { return at(a).Compare(at(b)) })
	for _, r := range sorted {
		row := make([]wb.Cell, len(fields))
		for i, f := range fields {
			row[i] = f.cell(r)
		}
		t.places, t.rows = append(t.places, at(r)), append(t.rows, row)
	}
	return t
}

// listOf is a list of pieces as a cell.
func listOf(pieces []string) wb.Cell { return wb.Text(strings.Join(pieces, ", ")) }

// plainNumber is a number as it was written, to four decimals at most.
func plainNumber(x *big.Rat) wb.Cell { return wb.Number(x, -4) }

func yearCell(y int) wb.Cell {
	if y == 0 {
		return wb.Cell{}
	}
	return wb.Number(big.NewRat(int64(y), 1), -1)
}

// addRecords lays out a sheet for each table that has rows.
func (b *book) addRecords() {
	for _, t := range b.recordTables() {
		if len(t.rows) == 0 {
			continue
		}
		cols := []wb.Column{{Head: "File"}, {Head: "Sheet"}, {Head: "Row", Kind: wb.KindNumber}}
		for i, f := range t.fields {
			cols = append(cols, wb.Column{Head: b.fieldTitle(t.name, f), Kind: t.kinds[i]})
		}
		b.records[t.name] = b.book.Add(b.tableTitle(t.name)+" as read", b.tableTitle(t.name)+", as read", cols...)
	}
}

func (b *book) tableTitle(name string) string {
	for _, t := range b.in.Tables {
		if t.Name == name {
			return t.Title
		}
	}
	return words.Capital(name)
}

func (b *book) fieldTitle(table, name string) string {
	for _, t := range b.in.Tables {
		for _, f := range t.Fields {
			if t.Name == table && f.Name == name {
				return f.Title
			}
		}
	}
	return words.Capital(strings.ReplaceAll(name, "_", " "))
}

// fillRecords writes the records with their places.
func (b *book) fillRecords() {
	for _, t := range b.recordTables() {
		s := b.records[t.name]
		if s == nil {
			continue
		}
		s.Landscape, s.Filter, s.Freeze = true, true, 3
		s.Note("Every row of this table that was read, also those after the period, with where it stands. Names and lists are resolved; amounts of supplies are in their usual containers.")
		for i, row := range t.rows {
			at := t.places[i]
			cells := []wb.Cell{wb.Text(at.File), wb.Text(at.Sheet), no(at.Row)}
			s.Row(wb.Normal, append(cells, row...)...)
		}
	}
}

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

// shortNames are the kinds of record columns for short.
const (
	kText   = wb.KindText
	kMoney  = wb.KindMoney
	kNumber = wb.KindNumber
	kDate   = wb.KindDate
)

// recordTables are all tables, in the order of the descriptors.
func (b *book) recordTables() []recordTable {
	k := b.in.Books
	if k == nil {
		return nil
	}
	out := append(pieceTables(k), supplyTables(k)...)
	out = append(out, workTables(k)...)
	return append(out, moneyTables(k)...)
}

// pieceTables are the records of what came and what it is.
func pieceTables(k *ledger.Books) []recordTable {
	area := func(p ledger.Piece) wb.Cell { return wb.Number(p.Area, 2) }
	return []recordTable{
		tabled("pieces", k.Pieces, func(p ledger.Piece) fault.Place { return p.At },
			field[ledger.Piece]{"piece", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.ID) }},
			field[ledger.Piece]{"kind", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Kind) }},
			field[ledger.Piece]{"description", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Description) }},
			field[ledger.Piece]{"set", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Set) }},
			field[ledger.Piece]{"how", kText, func(p ledger.Piece) wb.Cell { return wb.Text(string(p.How)) }},
			field[ledger.Piece]{"got_on", kDate, func(p ledger.Piece) wb.Cell { return dayCell(p.GotOn) }},
			field[ledger.Piece]{"from", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.From) }},
			field[ledger.Piece]{"price", kMoney, func(p ledger.Piece) wb.Cell { return amount(p.Price) }},
			field[ledger.Piece]{"tax_paid", kMoney, func(p ledger.Piece) wb.Cell { return amount(p.TaxPaid) }},
			field[ledger.Piece]{"pickup", kMoney, func(p ledger.Piece) wb.Cell { return amount(p.Pickup) }},
			field[ledger.Piece]{"lot", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Lot) }},
			field[ledger.Piece]{"worth", kMoney, func(p ledger.Piece) wb.Cell { return amountIf(p.Worth) }},
			field[ledger.Piece]{"area", kNumber, area},
			field[ledger.Piece]{"area from", kText, func(p ledger.Piece) wb.Cell { return wb.Text(string(p.AreaFrom)) }},
			field[ledger.Piece]{"schedule", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Schedule) }},
			field[ledger.Piece]{"started_on", kDate, func(p ledger.Piece) wb.Cell { return dayCell(p.StartedOn) }},
			field[ledger.Piece]{"finished_on", kDate, func(p ledger.Piece) wb.Cell { return dayCell(p.FinishedOn) }},
			field[ledger.Piece]{"listed_on", kDate, func(p ledger.Piece) wb.Cell { return dayCell(p.ListedOn) }},
			field[ledger.Piece]{"asking", kMoney, func(p ledger.Piece) wb.Cell { return amountIf(p.Asking) }},
			field[ledger.Piece]{"made", kNumber, func(p ledger.Piece) wb.Cell { return yearCell(p.Made) }},
			field[ledger.Piece]{"old_finish", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.OldFinish) }},
			field[ledger.Piece]{"condition", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Condition) }},
			field[ledger.Piece]{"photo_before", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.PhotoBefore) }},
			field[ledger.Piece]{"photo_after", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.PhotoAfter) }},
			field[ledger.Piece]{"receipt", kText, func(p ledger.Piece) wb.Cell { return wb.Text(p.Receipt) }}),
		tabled("lots", k.Lots, func(l ledger.Lot) fault.Place { return l.At },
			field[ledger.Lot]{"lot", kText, func(l ledger.Lot) wb.Cell { return wb.Text(l.ID) }},
			field[ledger.Lot]{"got_on", kDate, func(l ledger.Lot) wb.Cell { return dayCell(l.GotOn) }},
			field[ledger.Lot]{"from", kText, func(l ledger.Lot) wb.Cell { return wb.Text(l.From) }},
			field[ledger.Lot]{"price", kMoney, func(l ledger.Lot) wb.Cell { return amount(l.Price) }},
			field[ledger.Lot]{"fees", kMoney, func(l ledger.Lot) wb.Cell { return amount(l.Fees) }},
			field[ledger.Lot]{"tax_paid", kMoney, func(l ledger.Lot) wb.Cell { return amount(l.TaxPaid) }},
			field[ledger.Lot]{"pickup", kMoney, func(l ledger.Lot) wb.Cell { return amount(l.Pickup) }},
			field[ledger.Lot]{"share_by", kText, func(l ledger.Lot) wb.Cell { return wb.Text(l.ShareBy) }},
			field[ledger.Lot]{"receipt", kText, func(l ledger.Lot) wb.Cell { return wb.Text(l.Receipt) }}),
		tabled("surfaces", k.Surfaces, func(s ledger.Surface) fault.Place { return s.At },
			field[ledger.Surface]{"piece", kText, func(s ledger.Surface) wb.Cell { return wb.Text(s.Piece) }},
			field[ledger.Surface]{"part", kText, func(s ledger.Surface) wb.Cell { return wb.Text(s.Part) }},
			field[ledger.Surface]{"shape", kText, func(s ledger.Surface) wb.Cell { return wb.Text(s.Shape) }},
			field[ledger.Surface]{"count", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Count) }},
			field[ledger.Surface]{"width", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Width) }},
			field[ledger.Surface]{"height", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Height) }},
			field[ledger.Surface]{"top", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Top) }},
			field[ledger.Surface]{"bottom", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Bottom) }},
			field[ledger.Surface]{"sides", kNumber, func(s ledger.Surface) wb.Cell { return yearCell(s.Sides) }},
			field[ledger.Surface]{"faces", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Faces) }},
			field[ledger.Surface]{"relief", kNumber, func(s ledger.Surface) wb.Cell { return plainNumber(s.Relief) }}),
	}
}

// supplyTables are the records of the shelf.
func supplyTables(k *ledger.Books) []recordTable {
	coverage := func(s ledger.Supply) wb.Cell {
		if s.UseAll {
			return wb.Text("all")
		}
		return plainNumber(s.Coverage)
	}
	return []recordTable{
		tabled("supplies", k.Supplies, func(s ledger.Supply) fault.Place { return s.At },
			field[ledger.Supply]{"supply", kText, func(s ledger.Supply) wb.Cell { return wb.Text(s.Name) }},
			field[ledger.Supply]{"group", kText, func(s ledger.Supply) wb.Cell { return wb.Text(s.Group) }},
			field[ledger.Supply]{"container", kText, func(s ledger.Supply) wb.Cell { return wb.Text(s.Container) }},
			field[ledger.Supply]{"share_by", kText, func(s ledger.Supply) wb.Cell { return wb.Text(string(s.ShareBy)) }},
			field[ledger.Supply]{"coverage", kNumber, coverage},
			field[ledger.Supply]{"stays", kText, func(s ledger.Supply) wb.Cell { return wb.Text(yesNo(s.Stays)) }},
			field[ledger.Supply]{"caution", kText, func(s ledger.Supply) wb.Cell { return wb.Text(s.Caution) }}),
		tabled("purchases", k.Purchases, func(p ledger.Purchase) fault.Place { return p.At },
			field[ledger.Purchase]{"bought_on", kDate, func(p ledger.Purchase) wb.Cell { return dayCell(p.On) }},
			field[ledger.Purchase]{"supply", kText, func(p ledger.Purchase) wb.Cell { return wb.Text(p.Supply) }},
			field[ledger.Purchase]{"containers", kNumber, func(p ledger.Purchase) wb.Cell { return plainNumber(p.Amount) }},
			field[ledger.Purchase]{"cost", kMoney, func(p ledger.Purchase) wb.Cell { return amount(p.Cost) }},
			field[ledger.Purchase]{"tax_paid", kMoney, func(p ledger.Purchase) wb.Cell { return amount(p.TaxPaid) }},
			field[ledger.Purchase]{"from", kText, func(p ledger.Purchase) wb.Cell { return wb.Text(p.From) }},
			field[ledger.Purchase]{"receipt", kText, func(p ledger.Purchase) wb.Cell { return wb.Text(p.Receipt) }}),
		tabled("openings", k.Openings, func(o ledger.Opening) fault.Place { return o.At },
			field[ledger.Opening]{"on", kDate, func(o ledger.Opening) wb.Cell { return dayCell(o.On) }},
			field[ledger.Opening]{"supply", kText, func(o ledger.Opening) wb.Cell { return wb.Text(o.Supply) }},
			field[ledger.Opening]{"amount", kNumber, func(o ledger.Opening) wb.Cell { return plainNumber(o.Amount) }},
			field[ledger.Opening]{"cost", kMoney, func(o ledger.Opening) wb.Cell { return amount(o.Cost) }},
			field[ledger.Opening]{"deducted", kText, func(o ledger.Opening) wb.Cell { return wb.Text(yesNo(o.Deducted)) }}),
		tabled("schedules", k.Schedules, func(l ledger.ScheduleLine) fault.Place { return l.At },
			field[ledger.ScheduleLine]{"schedule", kText, func(l ledger.ScheduleLine) wb.Cell { return wb.Text(l.Schedule) }},
			field[ledger.ScheduleLine]{"supply", kText, func(l ledger.ScheduleLine) wb.Cell { return wb.Text(l.Supply) }},
			field[ledger.ScheduleLine]{"coats", kNumber, func(l ledger.ScheduleLine) wb.Cell { return plainNumber(l.Coats) }}),
		tabled("counts", k.Counts, func(c ledger.Count) fault.Place { return c.At },
			field[ledger.Count]{"counted_on", kDate, func(c ledger.Count) wb.Cell { return dayCell(c.On) }},
			field[ledger.Count]{"supply", kText, func(c ledger.Count) wb.Cell { return wb.Text(c.Supply) }},
			field[ledger.Count]{"left", kNumber, func(c ledger.Count) wb.Cell { return plainNumber(c.Left) }},
			field[ledger.Count]{"discarded", kNumber, func(c ledger.Count) wb.Cell { return plainNumber(c.Discarded) }}),
	}
}
