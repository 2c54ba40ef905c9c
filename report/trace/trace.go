// Package trace composes the answer to 'why': the postings under a figure, each
// with how it came about and its records.
package trace

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Group is postings of one kind within a figure, shown under a subtotal.
type Group struct {
	Title    string // blank: the figure's only one
	Postings []ledger.Posting
	// Netted tells each piece and supply once, with what its postings come to:
	// of stock, in which most of what came in has gone out again.
	Netted bool
}

// Doc is the postings under a figure, each with its arithmetic and sources.
// Title names the figure; total is the figure they must add up to, and a
// difference is printed where they do not. Each posting counts with the sign
// its Cents have: the caller turns those that go against the figure.
func Doc(in report.Input, title string, postings []ledger.Posting, total money.Cents) page.Document {
	return Grouped(in, title, []Group{{Postings: postings}}, total)
}

// Grouped is WhyDoc with the postings in groups, each with its subtotal.
func Grouped(in report.Input, title string, groups []Group, total money.Cents) page.Document {
	d := in.Document("Why")
	d.Subject = title
	d.Sections = append([]page.Section{{Title: title + ": " + in.Spoken(total), Blocks: whyBlocks(&in, groups, total)}},
		drawnFrom(&in, groups)...)
	return d
}

// whyBlocks is the table of postings and what is wrong with it, if anything.
func whyBlocks(in *report.Input, groups []Group, total money.Cents) []page.Block {
	t := page.Table{Columns: page.Heads{}.Date("Date").Wide(3, "What").Wide(1, "From → to").Money("Amount").
		With(recordColumn)}
	var sum money.Cents
	lines := 0
	for _, g := range groups {
		part := (&report.Listed{Postings: g.Postings}).Total()
		rows := whyRows(in, g)
		lines += len(g.Postings)
		sum += part
		if g.Title != "" && len(rows) > 0 {
			t.AddStyled(page.Group, page.Text(g.Title))
		}
		t.Rows = append(t.Rows, rows...)
		if g.Title != "" && len(rows) > 1 {
			t.AddStyled(page.Subtotal, page.Empty(), page.Text("together"), page.Empty(), cells.Full(part))
		}
	}
	if lines == 0 {
		return []page.Block{page.Paragraph{Text: "Nothing was posted under it, so it is " + in.Spoken(total) + "."}}
	}
	t.AddStyled(page.GrandTotal, page.Empty(), page.Text("Together"), page.Empty(), cells.Full(sum))
	out := []page.Block{t}
	if sum != total {
		out = append(out, page.Paragraph{Text: "LOOK: the figure is " + in.Spoken(total) + ", " + in.Spoken(total-sum) +
			" away from these postings."})
	}
	return out
}

// whyRows are a group's lines: of a netted one what the postings of each piece,
// and of each supply, come to.
func whyRows(in *report.Input, g Group) []page.Row {
	var rows []page.Row
	if g.Netted {
		for _, of := range report.GroupsOf(g.Postings, nameOf) {
			rows = append(rows, page.Line(page.Empty(), page.Text(nameOf(of[0])),
				page.Text(words.Plural(len(of), "line", "lines")), cells.Money(total(of)), page.Empty()))
		}
		return rows
	}
	for _, p := range g.Postings {
		row := page.Line(page.Date(in.Day(p.Date)), page.Text(whyWords(p)), page.Text(fromTo(p)), cells.Money(p.Cents),
			page.Text(words.Sources(recordsOf(in, p))))
		row.Note = words.How(p)
		rows = append(rows, row)
	}
	return rows
}

// recordsOf are a posting's records: of a correction, which has none of its own, the
// changed record that it is of. That is the only one changed, else those of its
// piece or supply; what came through others' shares has none.
func recordsOf(in *report.Input, p ledger.Posting) []fault.Place {
	if len(p.Source) > 0 || !closing.IsCorrection(&p) {
		return p.Source
	}
	var out []fault.Place
	for _, c := range in.Corrections {
		for _, change := range c.Changes {
			l := change.Line()
			its := p.Piece != "" && (l.Cells["piece"] == p.Piece || l.Cells["id"] == p.Piece) ||
				p.Supply != "" && l.Cells["supply"] == p.Supply
			if c.Month() == p.Month && (its || len(c.Changes) == 1) {
				out = append(out, l.Place)
			}
		}
	}
	return out
}

// accountWords are the accounts as the owner would call them.
var accountWords = map[ledger.Account]string{
	ledger.Paid: "money paid", ledger.Bank: "money in", ledger.Receipts: "sales", ledger.Shelf: "the shelf",
	ledger.Pieces:      "the piece",
	ledger.CostOfSales: "cost of pieces sold", ledger.Lost: "pieces lost", ledger.Owner: "kept or donated",
	ledger.ShelfLosses:  "supplies lost",
	ledger.SellingCosts: "selling costs", ledger.Trips: "trips", ledger.Expenses: "expenses",
	ledger.EquipmentCost: "equipment",
	ledger.Other:         "other income", ledger.TaxOwed: "sales tax owed", ledger.Overheads: "the month's shop costs",
	ledger.Allotted:   "its part of shop costs",
	ledger.WrittenOff: "equipment over years",
}

func fromTo(p ledger.Posting) string { return accountWords[p.From] + " → " + accountWords[p.To] }

// drawnFrom tells, of each shared supply cost in the postings, which purchases it
// was drawn from.
func drawnFrom(in *report.Input, groups []Group) []page.Section {
	seen, from := map[*ledger.Shared]bool{}, stockOf(in)
	t := page.Table{Columns: page.Heads{}.Wide(1, "Taken, oldest first").Money("Comes to").Small("Record")}
	for _, g := range groups {
		for _, p := range g.Postings {
			if g.Netted || p.Of == nil || len(p.Of.Drawn) == 0 || seen[p.Of] {
				continue
			}
			seen[p.Of] = true
			t.Rows = append(t.Rows, from.drawnRows(p.Of)...)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Section{{Title: "Where the supplies' cost comes from", Blocks: []page.Block{t}}}
}

// stock says how what is drawn from the shelf came there, and in what.
type stock struct {
	in        *report.Input
	came      map[fault.Place]string
	container map[string]string
}

func stockOf(in *report.Input) *stock {
	out := &stock{in: in, came: map[fault.Place]string{}, container: map[string]string{}}
	for i := range in.Books.Openings {
		out.came[in.Books.Openings[i].At] = "there on"
	}
	for i := range in.Books.Purchases {
		out.came[in.Books.Purchases[i].At] = "bought"
	}
	for i := range in.Books.Supplies {
		s := &in.Books.Supplies[i]
		out.container[s.Name] = s.Container
	}
	return out
}

// drawnRows are a line for each purchase: what was taken of it, and its cost.
func (x *stock) drawnRows(s *ledger.Shared) []page.Row {
	when := s.Month.Name()
	if s.Opened != 0 && s.Opened != s.Month {
		when = s.Opened.Name() + " to " + when
	}
	rows := []page.Row{page.Styled(page.Group, page.Text(s.Supply+", "+when))}
	for _, d := range s.Drawn {
		rows = append(rows, page.Line(page.Text(x.drawnWords(s, d)), cells.Money(d.Cents),
			page.Text(words.Sources([]fault.Place{d.At}))))
	}
	if len(s.Drawn) > 1 {
		rows = append(rows, page.Styled(page.Subtotal, page.Text("together"), cells.Full(s.Total)))
	}
	return rows
}

// drawnWords is what was taken of a purchase.
func (x *stock) drawnWords(s *ledger.Shared, d ledger.Drawn) string {
	return fmt.Sprintf("%s of %s × %s %s %s for %s", money.AtMost(d.Amount, 4), money.AtMost(d.Of, 4),
		cmp.Or(x.container[s.Supply], "container"), cmp.Or(x.came[d.At], "found by the count of"), x.in.Day(d.On),
		d.Cost.Grouped())
}

// Ratio is a figure that is no sum: what it is worked out of, each part with
// its own lines. Detail gives the postings of a sum.
func Ratio(in report.Input, title string, p figures.Ratio, detail func(figures.ID) figures.Detail) page.Document {
	d := in.Document("Why")
	figure, text := ratioWords(&in, p)
	if figure != "" {
		title += ": " + figure
	}
	d.Subject = title
	d.Sections = []page.Section{{Title: title, Blocks: []page.Block{page.Paragraph{Style: page.Lead, Text: text}}}}
	var groups []Group
	for _, name := range p.Sums {
		b := detail(name)
		group := Group{Postings: b.Postings}
		groups = append(groups, group)
		d.Sections = append(d.Sections, page.Section{Title: words.Label(figures.OfPiece, name),
			Blocks: whyBlocks(&in, []Group{group}, b.Total)})
	}
	if len(p.Hours) > 0 {
		d.Sections = append(d.Sections, page.Section{Title: "Hours", Blocks: []page.Block{hoursTable(&in, p.Hours)}})
	}
	d.Sections = append(d.Sections, drawnFrom(&in, groups)...)
	return d
}

// Hours is the records of hours and their sum.
func Hours(in report.Input, title string, hours []figures.HoursRecord) page.Document {
	d := in.Document("Why")
	d.Subject = title
	d.Sections = []page.Section{{Title: title, Blocks: []page.Block{hoursTable(&in, hours)}}}
	return d
}

// ByName are a group's postings as a group for each piece and supply, in the
// order of their names.
func ByName(g Group) []Group {
	var out []Group
	for _, of := range report.GroupsOf(g.Postings, nameOf) {
		out = append(out, Group{Title: g.Title + ": " + nameOf(of[0]), Postings: of})
	}
	slices.SortStableFunc(out, func(a, b Group) int { return cmp.Compare(a.Title, b.Title) })
	return out
}

// nameOf is what a posting of stock is about.
func nameOf(p ledger.Posting) string {
	if p.Piece == "" {
		return p.Supply
	}
	return "Piece " + p.Piece
}

// hoursTable is each record's hours and their sum.
func hoursTable(in *report.Input, hours []figures.HoursRecord) page.Table {
	t := page.Table{Columns: page.Heads{}.Date("Date").Wide(1, "What").Number("Hours").Small("Record")}
	sum := new(big.Rat)
	for _, h := range hours {
		t.Add(page.Date(in.Day(h.On)), page.Text(words.Capital(h.Task)), page.Number(money.AtMost(h.Hours, 4)),
			page.Text(words.Sources([]fault.Place{h.At})))
		sum.Add(sum, h.Hours)
	}
	t.AddStyled(page.GrandTotal, page.Empty(), page.Text("Together"), page.Number(money.AtMost(sum, 4)))
	return t
}

// ratioWords is the figure, blank where it has none, and its arithmetic, for a
// pocket calculator.
func ratioWords(in *report.Input, p figures.Ratio) (figure, text string) {
	x := p.Piece
	hours := money.AtMost(money.OrZero(x.Hours), 4) + " hours"
	days, held := "", ""
	if x.DaysHeld != nil {
		held = words.Plural(*x.DaysHeld, "day", "days")
		days = fmt.Sprintf("%s, from %s to %s", held, in.Day(x.Record.GotOn), in.Day(x.SoldOn))
	}
	spoken := func(c *money.Cents) string {
		if c == nil {
			return ""
		}
		return in.Spoken(*c)
	}
	percent := func(ratio *big.Rat) string {
		if ratio == nil {
			return ""
		}
		return words.Percent(ratio)
	}
	before, after := "Profit before shop costs "+spoken(x.Profit), "Profit after shop costs "+spoken(x.ProfitAfterOverhead)
	switch p.Name {
	case "hours":
		if len(p.Hours) == 0 {
			return "", "No hours are written down for it."
		}
		return hours, "As written down:"
	case "days_held":
		figure, text = held, days
	case "profit_per_hour":
		figure = spoken(x.ProfitPerHour)
		text = fmt.Sprintf("%s ÷ %s = %s an hour", before, hours, figure)
	case "profit_per_hour_after_overhead":
		figure = spoken(x.ProfitPerHourAfterOverhead)
		text = fmt.Sprintf("%s ÷ %s = %s an hour", after, hours, figure)
	case "margin":
		figure = percent(x.Margin)
		text = fmt.Sprintf("%s ÷ receipts %s = %s", before, in.Spoken(x.Receipts), figure)
	case "return_on_cost":
		figure = percent(x.ReturnOnCost)
		text = fmt.Sprintf("%s ÷ book cost %s = %s", before, in.Spoken(x.BookCost), figure)
	case "return_a_year":
		figure = percent(x.ReturnAYear)
		text = fmt.Sprintf("%s ÷ book cost %s × 365 ÷ %s = %s a year", before, in.Spoken(x.BookCost), days, figure)
	}
	if figure == "" {
		text = "It is blank: " + blankBecause(x)
	}
	return figure, text + "."
}

// blankBecause says what a ratio lacks.
func blankBecause(x figures.Piece) string {
	switch {
	case x.Profit == nil:
		return "the piece has not been sold, so there is no profit to tell"
	case x.Hours == nil || x.Hours.Sign() == 0:
		return "no hours are written down, or nothing was taken or paid to divide by"
	}
	return "there is nothing to divide by"
}

// whyWords is a posting's reason with its piece and supply.
func whyWords(p ledger.Posting) string {
	text := []string{words.Reason(p.Reason)}
	for _, s := range []string{p.Piece, p.Supply, p.Group} {
		if s != "" {
			text = append(text, s)
		}
	}
	return words.Capital(strings.Join(text, ", "))
}
