package month

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
)

// takings is what a channel took in for the shop over some days, and kept of it.
type takings struct {
	sales money.Cents // money for pieces and sales tax, less what went back
	fees  money.Cents
}

func (t takings) left() money.Cents { return t.sales - t.fees }

// took sums a channel's sales after one day up to and with another. The first
// may be zero: from the beginning.
func took(in *report.Input, channel string, after, through calendar.Date) takings {
	var t takings
	for _, p := range in.Postings {
		if p.Group != channel || p.Date.After(through) || !after.IsZero() && !p.Date.After(after) {
			continue
		}
		switch p.Reason {
		case ledger.ReasonSale, ledger.ReasonPartPayment, ledger.ReasonRefund, ledger.ReasonReturn, ledger.ReasonTaxCollected, ledger.ReasonTaxRefunded:
			if p.To == ledger.Bank {
				t.sales += p.Cents
			} else {
				t.sales -= p.Cents
			}
		case ledger.ReasonFee, ledger.ReasonCardFee:
			t.fees += p.Cents
		}
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

// bank holds each payout of the period against the sales it covers, and tells
// what has not arrived.
func bank(in *report.Input) []page.Block {
	all := payouts(in)
	var out []page.Block
	open := page.Table{Caption: "Not yet arrived at the end of " + in.Month.To.Name(), Whole: true, Columns: []page.Column{{Head: "Channel", Weight: 1},
		{Head: "Sales since", Kind: page.KindDate}, {Head: "Sales", Kind: page.KindMoney}, {Head: "Fees", Kind: page.KindMoney}, {Head: "To come", Kind: page.KindMoney}}}
	var toCome money.Cents
	for _, channel := range slices.Sorted(maps.Keys(all)) {
		var last calendar.Date
		for _, p := range all[channel] {
			if in.Within(p.On) {
				out = append(out, payoutTable(in, p, last))
			}
			last = later(last, coveredTo(p))
		}
		if t := took(in, channel, last, in.Month.To.Last()); t != (takings{}) {
			open.Rows = append(open.Rows, page.Line(page.Text(channel), page.Date(last.AddDays(1).String()), cells.Money(t.sales), cells.Money(t.fees), cells.Money(t.left())))
			toCome += t.left()
		}
	}
	switch {
	case len(all) == 0:
		return []page.Block{page.Paragraph{Text: "No payout has been written down, so there is nothing to hold against the sales."}}
	case len(out) == 0:
		out = append(out, page.Paragraph{Text: "No payout came in " + in.Month.To.Name() + "."})
	}
	if len(open.Rows) == 0 {
		return append(out, page.Paragraph{Text: "All that the channels with payouts have taken in has arrived."})
	}
	open.Rows = append(open.Rows, page.Styled(page.GrandTotal, page.Text("To come"), page.Empty(), page.Empty(), page.Empty(), cells.Money(toCome)))
	open.Note = "Before rent and anything else the channel will keep. Only channels with a payout on record are listed."
	return append(out, open)
}

func later(a, b calendar.Date) calendar.Date {
	if b.After(a) {
		return b
	}
	return a
}

// payoutTable is one payout held against the sales it covers.
func payoutTable(in *report.Input, p ledger.Payout, last calendar.Date) page.Block {
	from := "from the first"
	if !last.IsZero() {
		from = "after " + last.String()
	}
	t := took(in, p.Channel, last, coveredTo(p))
	due := t.left() - p.Rent - p.Other
	table := page.Table{Caption: p.Channel + ", paid on " + p.On.String(), Span: 5, Whole: true, NoHead: true, Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
	add := func(style page.RowStyle, label string, c money.Cents) {
		cell := cells.Money(c)
		if style != page.Normal {
			cell = page.FullMoney(int64(c))
		}
		table.Rows = append(table.Rows, page.Styled(style, page.Text(label), cell))
	}
	add(page.Normal, fmt.Sprintf("Sales %s, through %s, with sales tax, less what went back", from, coveredTo(p)), t.sales)
	add(page.Normal, "less: fees", -t.fees)
	add(page.Normal, "less: rent withheld", -p.Rent)
	if p.Other != 0 {
		add(page.Normal, "less: other withheld", -p.Other)
	}
	add(page.Subtotal, "Should have arrived", due)
	add(page.Normal, "Arrived, "+p.At.Short(), p.Amount)
	label := "Difference"
	if p.Amount != due {
		label = "Difference: ask the channel, or look for a sale, fee or rent that is not written down"
	}
	add(page.GrandTotal, label, p.Amount-due)
	return table
}

// bankNotArrived is what of the bank wants doing: payouts that differ.
func bankNotArrived(in *report.Input) []wanting {
	var out []wanting
	all := payouts(in)
	for _, channel := range slices.Sorted(maps.Keys(all)) {
		var last calendar.Date
		for _, p := range all[channel] {
			if in.Within(p.On) {
				t := took(in, channel, last, coveredTo(p))
				if off := p.Amount - (t.left() - p.Rent - p.Other); off != 0 {
					out = append(out, wanting{fmt.Sprintf("The payout of %s on %s differs from its sales.", channel, p.On), off.Abs(), "Bank", bankAnchor})
				}
			}
			last = later(last, coveredTo(p))
		}
	}
	return out
}
