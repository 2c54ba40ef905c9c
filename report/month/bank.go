package month

import (
	"cmp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// takings is what a channel took in for the shop over some days, and kept of it.
type takings struct {
	sales money.Cents // money for pieces and sales tax, less what went back
	fees  money.Cents

	of, feesOf *report.Listed // the postings of each
}

// none says that nothing was taken in and nothing kept.
func (t takings) none() bool { return t.sales == 0 && t.fees == 0 }

func (t takings) left() money.Cents { return t.sales - t.fees }

// took sums a channel's sales after one day up to and with another. The first
// may be zero: from the beginning.
func took(in *report.Input, channel string, after, through calendar.Date) takings {
	sales, fees := figures.Find(figures.OfPayout, figures.LineTaken), figures.Find(figures.OfPayout, figures.LineFees)
	t := takings{of: &report.Listed{Title: channel + ": sales with tax"},
		feesOf: &report.Listed{Title: channel + ": fees"}}
	for _, p := range in.Postings {
		if p.Group != channel || p.Date.After(through) || !after.IsZero() && !p.Date.After(after) {
			continue
		}
		t.sales += t.of.Add(p, sales.Sign(&p))
		t.fees += t.feesOf.Add(p, fees.Sign(&p))
	}
	return t
}

// payouts are each channel's up to the period's end, by day.
func payouts(in *report.Input) map[string][]ledger.Payout {
	out := map[string][]ledger.Payout{}
	for _, p := range in.Books.Payouts {
		if p.On.InMonth() <= in.Month.To {
			out[p.Channel] = append(out[p.Channel], p)
		}
	}
	for _, list := range out {
		slices.SortStableFunc(list, func(a, b ledger.Payout) int {
			return cmp.Or(a.On.Compare(b.On), coveredTo(a).Compare(coveredTo(b)), a.At.Compare(b.At))
		})
	}
	return out
}

// coveredTo is the last day of sales that a payout covers: the day it came
// where it does not say.
func coveredTo(p ledger.Payout) calendar.Date {
	if p.Through.IsZero() {
		return p.On
	}
	return p.Through
}

// payout is a payout of the period beside the sales it covers, or with no day
// of its own what a channel took in since its last.
type payout struct {
	takings
	channel       string
	from, through calendar.Date // of the sales; from is zero from the first on
	on            calendar.Date
	amount        money.Cents
	rent, other   money.Cents // withheld
	at            fault.Place
}

// due is what should have arrived.
func (p payout) due() money.Cents { return p.left() - p.rent - p.other }

// dueOf is what that is worked out of.
func (p payout) dueOf() *report.Worked {
	out := report.SumOf(p.channel+": due").Plus("Sales, with tax", p.sales, p.of).Less("fees", p.fees, p.feesOf)
	if p.rent != 0 {
		out.Less("rent withheld", p.rent, p.typed("Rent withheld", p.rent))
	}
	if p.other != 0 {
		out.Less("other withheld", p.other, p.typed("Other withheld", p.other))
	}
	return out
}

// typed is an amount as the payout's record has it.
func (p payout) typed(what string, cents money.Cents) report.Typed {
	return report.Typed{What: p.channel + ": " + words.Uncapital(what), At: p.at, Cents: cents}
}

// differsOf is what arrived less what was due.
func (p payout) differsOf() *report.Worked {
	return report.SumOf(p.channel+": differs").Plus("Arrived", p.amount, p.typed("Arrived", p.amount)).
		Less("due", p.due(), p.dueOf())
}

// payoutsOf are the payouts of the period, and what each channel that pays out
// has taken in since its last.
func payoutsOf(in *report.Input) (paid, open []payout) {
	all := payouts(in)
	for _, channel := range sortedNames(all) {
		var last calendar.Date
		for _, p := range all[channel] {
			if in.Within(p.On) {
				paid = append(paid, payout{takings: took(in, channel, last, coveredTo(p)), channel: channel, from: last,
					through: coveredTo(p), on: p.On, amount: p.Amount, rent: p.Rent, other: p.Other, at: p.At})
			}
			last = later(last, coveredTo(p))
		}
		if t := took(in, channel, last, in.Month.To.Last()); !t.none() {
			open = append(open, payout{takings: t, channel: channel, from: firstSale(in, channel, last),
				through: in.Month.To.Last()})
		}
	}
	return paid, open
}

// firstSale is the day of a channel's first money after a day.
func firstSale(in *report.Input, channel string, after calendar.Date) calendar.Date {
	var first calendar.Date
	for _, p := range in.Postings {
		if p.Group == channel && p.Date.After(after) && (first.IsZero() || p.Date.Before(first)) {
			first = p.Date
		}
	}
	return first
}

// bank is each payout of the period against the sales it covers, and what has
// not arrived; nothing where no payout is on record.
func bank(in *report.Input) []page.Block {
	paid, open := payoutsOf(in)
	t := page.Table{Whole: true, Columns: page.Heads{}.Wide(1, "Channel").Date("Paid on", "For sales").
		Money("Sales, with tax", "Fees", "Rent withheld", "Other withheld", "Due", "Arrived", "Differs").Small("Record")}
	for _, p := range paid {
		t.Add(page.Text(p.channel), day(in, p.on), page.Date("to "+in.Day(p.through)), cells.Money(p.sales).Opens(p.of),
			cells.Money(p.fees).Opens(p.feesOf), cells.Money(p.rent).Opens(p.typed("Rent withheld", p.rent)),
			cells.Money(p.other).Opens(p.typed("Other withheld", p.other)), cells.Money(p.due()).Opens(p.dueOf()),
			cells.Money(p.amount).Opens(p.typed("Arrived", p.amount)), cells.Full(p.amount-p.due()).Opens(p.differsOf()),
			page.Text(p.at.Short()))
	}
	if slices.ContainsFunc(paid, func(p payout) bool { return p.amount != p.due() }) {
		t.Note = "Where it differs: ask the channel, or look for a sale, fee or rent that is not written down. "
	}
	for _, p := range open {
		t.Add(page.Text(p.channel), page.Date("to come"), page.Date("from "+in.Day(p.from)), cells.Money(p.sales).Opens(p.of),
			cells.Money(p.fees).Opens(p.feesOf), page.Empty(), page.Empty(), cells.Money(p.left()).Opens(p.dueOf()))
	}
	if len(open) > 0 {
		t.Note += "To come is in receipts already; it is before rent and anything else the channel will keep."
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{cells.WithoutBlank(t, "Rent withheld", "Other withheld", "Arrived", "Differs", "Record")}
}

func later(a, b calendar.Date) calendar.Date {
	if b.After(a) {
		return b
	}
	return a
}
