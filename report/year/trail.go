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
	return report.InWords(title, "Records: "+words.AllSources(places)+".", cents)
}

// owed are the postings of one reason that moved the sales tax owed by an
// amount; nil where none did.
func (t trail) owed(title string, cents money.Cents) page.Ref {
	for _, of := range report.GroupsOf(t.postings, func(p ledger.Posting) ledger.Reason { return p.Reason }) {
		list := &report.Listed{Title: title}
		for _, p := range of {
			switch {
			case p.To == ledger.TaxOwed:
				list.Add(p, -1)
			case p.From == ledger.TaxOwed:
				list.Add(p, 1)
			}
		}
		if len(list.Postings) > 0 && list.Total() == cents {
			return list
		}
	}
	return nil
}

// ofChannel are the postings of a channel that count in one of its lines.
func (t trail) ofChannel(title, channel string, id figures.ID) page.Ref {
	out := &report.Listed{Title: title}
	for _, p := range t.postings {
		if !sameChannel(p.Group, channel) {
			continue
		}
		if line, sign := figures.LineOf(figures.OfChannel, &p); line != nil && line.ID == id {
			out.Add(p, sign)
		}
	}
	return out
}

// ofSales is an amount of a channel's sales records, one by one: of those that
// give money back, or of the others.
func ofSales(in *report.YearInput, channel, title string, back bool,
	pick func(ledger.Sale) money.Cents) *report.Worked {
	out := report.SumOf(words.Channel(channel) + ": " + words.Uncapital(title))
	for _, x := range in.Books.Sales {
		c := pick(x)
		if c != 0 && x.On.Year == in.Tax.Year && givesBack(x) == back && sameChannel(x.Channel, channel) {
			out.Recorded(in.Day(x.On)+": "+strings.Join(x.Pieces, ", "), c, x.At)
		}
	}
	return out
}

// sameChannel says that two records name one channel.
func sameChannel(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// givesBack says that a line of Sales gives money back.
func givesBack(x ledger.Sale) bool { return x.Type == ledger.Refund || x.Type == ledger.Return }

// writtenOff is what was written off of a tool in the years up to one.
func writtenOff(a *taxyear.Asset, upTo int) *report.Worked {
	out := report.SumOf(a.Record.What + ": written off in earlier years")
	if len(a.Yearly) == 0 && a.Before != 0 {
		out.Recorded(fmt.Sprint(a.Record.On.Year), a.Before, a.Record.At)
	}
	for i, c := range a.Yearly {
		if year := a.Record.On.Year + i; year < upTo && c != 0 {
			out.Recorded(fmt.Sprint(year), c, a.Record.At)
		}
	}
	return out
}
