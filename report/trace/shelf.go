package trace

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// detail is a supply's shelf in the period: what was there month by month,
// what was bought, used and lost, and what is left.
func (b supplyBook) detail(o *opener) page.Detail {
	t := &ledgerTable{o: o, Table: page.Table{Columns: bookColumns}}
	for _, line := range figures.LinesOf(figures.OfShelf) {
		s, name := o.in.LineOfSupply(b.supply, line.ID), words.Label(figures.OfShelf, line.ID)
		postings := o.listed(s)
		switch {
		case line.ID == figures.LineClosing:
			t.sum(name, s)
		case len(postings) == 0:
		case line.ID == figures.LineOpening:
			t.head(name, total(postings), s, 0)
			o.before(t, postings)
		case line.ID == figures.LineUsed:
			t.head(name, total(postings), s, 0)
			o.used(t, postings, func(s report.Whole) page.Ref { return s })
		default:
			t.line(name, s, 0)
		}
	}
	return page.Detail{Of: b, Title: b.supply + ": the shelf in " + words.Months(o.in.Month.From, o.in.Month.To),
		Blocks: []page.Block{page.Paragraph{Text: "Its row of the shelf", Link: report.SupplyAnchor(b.supply)}, t.Table}}
}

// ifThere opens only where another figure asks for the same.
type ifThere struct{ page.Ref }

// used is what pieces were charged: each shared total with all its parts in one
// row, and what is no part of one. of says how a total is opened.
func (o *opener) used(t *ledgerTable, postings []ledger.Posting, of func(report.Whole) page.Ref) {
	for _, parts := range together(postings, func(p ledger.Posting) bool { return isPart(p) }) {
		if !isPart(parts[0]) {
			t.take(parts)
			continue
		}
		whole := of(report.Whole{Shared: parts[0].Of})
		amount := cells.Money(total(parts))
		if total(parts).Abs() == parts[0].Of.Total.Abs() {
			amount.Of = whole
		}
		t.Add(page.Date(o.in.Day(parts[len(parts)-1].Date)), page.Text("shared over "+
			words.Plural(len(parts), "use", "uses")).Opens(whole), page.Empty(), amount,
			page.Text(words.Sources(sources(parts))))
	}
}

// isPart says that a posting is a part of a shared total.
func isPart(p ledger.Posting) bool { return p.Of != nil && p.Line >= 0 && len(p.Of.Lines) > 0 }

// sources are all records of postings.
func sources(postings []ledger.Posting) []fault.Place {
	var out []fault.Place
	for _, p := range postings {
		out = append(out, p.Source...)
	}
	return out
}

// event is what postings to several pieces share: the total that they are
// parts of, whatever their days, else what was done on one day.
type event struct {
	of     *ledger.Shared
	on     calendar.Date
	method ledger.Method
}

// together puts those postings that are chosen together by what made them, in
// the order that each first comes; the others stay alone.
func together(postings []ledger.Posting, chosen func(ledger.Posting) bool) [][]ledger.Posting {
	var out [][]ledger.Posting
	at := map[event]int{}
	for _, p := range postings {
		key := event{p.Of, p.Date, p.How.Method}
		if isPart(p) {
			key = event{of: p.Of}
		}
		i, known := at[key]
		if !known || !chosen(p) {
			i = len(out)
			out = append(out, nil)
		}
		if chosen(p) {
			at[key] = i
		}
		out[i] = append(out[i], p)
	}
	return out
}

// recentMonths is how many months before the period a shelf's postings are told
// one by one.
const recentMonths = 2

// before is what came to and went from a shelf before the period: what pieces
// were charged by one event is one row, and so is what came and went in a year
// up to the last months before the period, by why.
func (o *opener) before(t *ledgerTable, postings []ledger.Posting) {
	recent := slices.IndexFunc(postings, func(p ledger.Posting) bool { return p.Month >= o.in.Month.From-recentMonths })
	if recent < 0 {
		recent = len(postings)
	}
	t.yearly(postings[:recent])
	for _, of := range together(postings[recent:], func(p ledger.Posting) bool { return p.Piece != "" }) {
		if len(of) == 1 || isPart(of[0]) {
			o.used(t, of, func(s report.Whole) page.Ref { return ifThere{s} })
			continue
		}
		t.inOne(page.Date(o.in.Day(of[0].Date)), of, words.Plural(len(of), "piece", "pieces"))
	}
}

// yearly adds a row for each year and reason.
func (t *ledgerTable) yearly(postings []ledger.Posting) {
	for _, of := range report.GroupsOf(postings, func(p ledger.Posting) int { return p.Month.Year() }) {
		year := of[0].Month.Year()
		when := fmt.Sprint(year)
		if year == (t.o.in.Month.From - recentMonths).Year() {
			when = words.Months(of[0].Month, of[len(of)-1].Month)
		}
		t.byReason(page.Text(when), of)
	}
}

// byReason adds a row for each reason of postings.
func (t *ledgerTable) byReason(when page.Cell, postings []ledger.Posting) {
	by := map[ledger.Reason][]ledger.Posting{}
	for _, p := range postings {
		by[p.Reason] = append(by[p.Reason], p)
	}
	for _, reason := range slices.Sorted(maps.Keys(by)) {
		t.inOne(when, by[reason], words.Plural(len(by[reason]), "posting", "postings"))
	}
}

// inOne adds one row for postings with one reason.
func (t *ledgerTable) inOne(when page.Cell, of []ledger.Posting, many string) {
	row := t.Add(make([]page.Cell, len(t.Columns))...)
	row.Cells[0], row.Cells[1] = when, page.Text(words.Capital(words.Reason(of[0].Reason))+", "+many)
	row.Cells[len(t.Columns)-2], row.Cells[len(t.Columns)-1] = cells.Money(total(of)),
		page.Text(words.Sources(sources(of)))
}
