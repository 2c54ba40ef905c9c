package headers

import (
	"fmt"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/money"
)

// askDelivery asks about a column of sales that is only called delivery: it may be
// what the buyer paid for it, or what it cost the shop. It is known where the other
// of the two has a column, and where price, fees and net agree with one of them.
func (r *Reader) askDelivery(b *Block) {
	c, there := b.Columns["delivery_charged"]
	_, other := b.Columns["delivery_cost"]
	if !there || other || settings.HeaderKey(c.Header) != "delivery" || r.saidInSettings(b, c) {
		return
	}
	cents := columns.SumOf(b.sheet, c.Index, r.settings)
	if cents == 0 {
		return
	}
	charged, cost := r.netDecides(b, c)
	switch {
	case charged && !cost:
		return
	case cost && !charged:
		delete(b.Columns, "delivery_charged")
		c.Field = b.Table.Field("delivery_cost")
		b.Columns["delivery_cost"] = c
		return
	}
	at := b.at(c.Header)
	fix := fmt.Sprintf("Name it for what it is, or say so under [%s] of settings.toml.",
		settings.ColumnsSection(b.Table.Name))
	for _, is := range []struct{ when, field string }{{"buyers", "delivery_charged"}, {"the shop", "delivery_cost"}} {
		if r.tell(b, c.Header, is.field) {
			fix += fmt.Sprintf(" If %s paid it: %s.", is.when, settings.NameLine(c.Header, is.field))
		}
	}
	b.Other["delivery_charged"] = true
	r.problems.Add(fault.Problem{Code: fault.CodeDeliveryEither, Place: at, Found: c.Header, MoneyCents: cents,
		Why: fmt.Sprintf("The %s in this column may be what buyers paid for delivery, or what delivery cost the shop.",
			money.Cents(cents).Grouped()),
		Fix: fix})
}

// netDecides says whether in all lines with a delivery the price, the fees and the
// net that are typed agree with its being charged, and with its being a cost.
func (r *Reader) netDecides(b *Block, delivery Column) (charged, cost bool) {
	net, isNet := b.Columns["net"]
	_, isFee := b.Columns["fee"]
	if !isNet || !isFee {
		return false, false
	}
	charged, cost = true, true
	for l := range columns.Rows(b.sheet) {
		d, filled := r.cellMoney(b.sheet, delivery, l)
		if !filled || d == 0 {
			continue
		}
		left, read := r.cellMoney(b.sheet, net, l)
		for field, sign := range map[string]money.Cents{"price": -1, "fee": 1, "card_fee": 1} {
			if of, there := b.Columns[field]; there && l.Text(of.Index) != "" {
				x, ok := r.cellMoney(b.sheet, of, l)
				left, read = left+sign*x, read && ok
			}
		}
		charged, cost = charged && read && left == d, cost && read && left == -d
	}
	return charged, cost
}
