package year

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// trail leads from records to the year's postings that rest on them.
type trail struct {
	postings []ledger.Posting
	rows     map[fault.Place][]int // by file, sheet and row
}

func trailOf(in *report.YearInput) trail {
	t := trail{postings: slices.Collect(in.InMonth()), rows: map[fault.Place][]int{}}
	for i, p := range t.postings {
		for _, at := range p.Source {
			at.Column = ""
			t.rows[at] = append(t.rows[at], i)
		}
	}
	return t
}

// of is the postings of records where they come to an amount; else the amount
// as the records have it.
func (t trail) of(title string, cents money.Cents, places ...fault.Place) page.Ref {
	var at []int
	for _, p := range places {
		p.Column = ""
		at = append(at, t.rows[p]...)
	}
	slices.Sort(at)
	out := &report.Listed{Title: title}
	for _, i := range slices.Compact(at) {
		out.Postings = append(out.Postings, t.postings[i])
	}
	if total := out.Total(); len(out.Postings) > 0 && total.Abs() == cents.Abs() {
		return out
	}
	if len(places) == 1 {
		return report.Typed{What: title, At: places[0], Cents: cents}
	}
	return inWords(title, "Records: "+words.AllSources(places)+".", cents)
}

// owed are the postings of one reason that moved the sales tax owed by an
// amount; nil where none did.
func (t trail) owed(title string, cents money.Cents) page.Ref {
	reasons := map[ledger.Reason]*report.Listed{}
	var list []*report.Listed // in the order that they first come
	for _, p := range t.postings {
		sign := figures.Sign(1)
		if p.To == ledger.TaxOwed {
			sign = -1
		}
		if p.From != ledger.TaxOwed && p.To != ledger.TaxOwed {
			continue
		}
		if reasons[p.Reason] == nil {
			reasons[p.Reason] = &report.Listed{Title: title}
			list = append(list, reasons[p.Reason])
		}
		reasons[p.Reason].Add(p, sign)
	}
	for _, x := range list {
		if x.Total() == cents {
			return x
		}
	}
	return nil
}

// ofChannel are the postings of a channel that count in one of its lines.
func (t trail) ofChannel(title, channel string, id figures.ID) page.Ref {
	out := &report.Listed{Title: title}
	for _, p := range t.postings {
		if strings.EqualFold(strings.TrimSpace(p.Group), strings.TrimSpace(channel)) {
			if line, sign := figures.LineOf(figures.OfChannel, &p); line != nil && line.ID == id {
				out.Add(p, sign)
			}
		}
	}
	return out
}

// inWords is an amount with a sentence on how it comes about.
func inWords(title, text string, cents money.Cents) *report.Worked {
	return &report.Worked{Title: title, Words: text, Cents: cents}
}

// ofSales is an amount of a channel's sales records, one by one.
func ofSales(in *report.YearInput, channel, title string, pick func(ledger.Sale) money.Cents) *report.Worked {
	out := &report.Worked{Title: words.Channel(channel) + ": " + words.Uncapital(title)}
	for _, x := range in.Books.Sales {
		if x.On.Year != in.Tax.Year || !strings.EqualFold(strings.TrimSpace(x.Channel), strings.TrimSpace(channel)) {
			continue
		}
		if c := pick(x); c != 0 {
			out.Terms = append(out.Terms, report.Term{Cents: c, Source: []fault.Place{x.At},
				Label: in.Day(x.On) + ": " + strings.Join(x.Pieces, ", ")})
		}
	}
	return out
}

// givesBack says that a line of Sales gives money back.
func givesBack(x ledger.Sale) bool { return x.Type == ledger.Refund || x.Type == ledger.Return }

// taken is what a sale that gives nothing back has of an amount.
func taken(pick func(ledger.Sale) money.Cents) func(ledger.Sale) money.Cents {
	return func(x ledger.Sale) money.Cents {
		if givesBack(x) {
			return 0
		}
		return pick(x)
	}
}

// writtenOff is what was written off of a tool in the years up to one.
func writtenOff(a *taxyear.Asset, upTo int) *report.Worked {
	out := &report.Worked{Title: a.Record.What + ": written off in earlier years"}
	if len(a.Yearly) == 0 && a.Before != 0 {
		out.Terms = []report.Term{{Label: fmt.Sprint(a.Record.On.Year), Cents: a.Before, Source: []fault.Place{a.Record.At}}}
	}
	for i, c := range a.Yearly {
		if year := a.Record.On.Year + i; year < upTo && c != 0 {
			out.Terms = append(out.Terms, report.Term{Label: fmt.Sprint(year), Cents: c, Source: []fault.Place{a.Record.At}})
		}
	}
	return out
}
