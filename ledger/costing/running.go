package costing

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// postTrips posts the month's trips: miles × the rate of the date, rounded per
// trip, plus tolls, shared equally over its pieces.
func (r *run) postTrips() {
	for _, t := range r.index.trips[r.m] {
		rate := ledger.RateOn(r.b.Settings.Mileage, t.On)
		if rate == nil {
			r.fail(fault.NoMileageRate, t.At.At("on"), t.On.String(), "No mileage rate is known for this date.",
				`Check the date; or give the rate in settings.toml under [mileage], as in "2014-01-01" = 0.56.`)
			continue
		}
		drive := t.Driven(rate)
		how := ledger.Derivation{Method: ledger.Driven, Words: t.Purpose, Quantity: t.Miles,
			Unit: r.b.Settings.DistanceUnit(), Rate: rate.PerMile,
			Amounts: []ledger.Amount{{Name: ledger.AmountTolls, Cents: t.Tolls}}}
		r.overEqual(drive+t.Tolls, t.Pieces, how, ledger.Posting{Date: t.On, From: ledger.Paid, To: ledger.Trips,
			Reason: ledger.ReasonTrip, Source: []fault.Place{t.At}})
	}
}

// overEqual posts a total shared equally over pieces, or with no piece.
func (r *run) overEqual(total money.Cents, pieces []string, how ledger.Derivation, p ledger.Posting) {
	p.How = how
	if len(pieces) == 0 {
		p.Cents = total
		r.post(p)
		return
	}
	ids := ledger.Distinct(pieces)
	r.over(total, ids, ledger.EqualWeights(len(ids)), ledger.Equally, p)
}

// over posts a total shared over pieces by weights.
func (r *run) over(total money.Cents, ids []string, weights []*big.Rat, by ledger.ShareBy, p ledger.Posting) {
	parts := money.Share(total, weights)
	if len(ids) > 1 && total != 0 {
		p.Of = r.sharing(&ledger.Shared{Reason: p.Reason, How: p.How, Total: total, By: by, Source: p.Source}, ids,
			weights, parts)
	}
	for i, part := range parts {
		p.Piece, p.Cents, p.Line = ids[i], part.Cents, i
		r.post(p)
	}
}

// postExpenses posts expenses and what equipment is written off at once.
func (r *run) postExpenses() {
	for _, e := range r.index.expenses[r.m] {
		r.overEqual(e.Amount, e.Pieces, ledger.Derivation{Method: ledger.Typed, Words: e.What}, ledger.Posting{Date: e.On,
			From: ledger.Paid, To: ledger.Expenses,
			Group: e.Group, Reason: ledger.ReasonExpense, Source: []fault.Place{e.At}})
	}
	for _, e := range r.index.equipment[r.m] {
		if e.Life != ledger.LifeAtOnce {
			continue
		}
		group := ""
		if e.Above {
			group = ledger.GroupAboveLimit
		}
		r.post(ledger.Posting{Date: e.On, Cents: e.Cost + e.TaxPaid, From: ledger.Paid, To: ledger.EquipmentCost,
			Group: group, Reason: ledger.ReasonEquipment, Source: []fault.Place{e.At},
			How: ledger.Derivation{Method: ledger.AtOnce,
				Words: e.What}})
	}
}

// postOtherIncome posts income other than from sales, and sales tax sent in.
func (r *run) postOtherIncome() {
	for _, o := range r.index.income[r.m] {
		r.post(ledger.Posting{Date: o.On, Cents: o.Amount, From: ledger.Other, To: ledger.Bank, Group: o.Group,
			Reason: ledger.ReasonOtherIncome, Source: []fault.Place{o.At}, How: ledger.Derivation{Method: ledger.Typed,
				Words: o.What}})
	}
	for _, x := range r.index.removals[r.m] {
		r.post(ledger.Posting{Date: x.On, Cents: x.Received, From: ledger.Other, To: ledger.Bank, Piece: x.Piece,
			Group:  x.Why,
			Reason: ledger.ReasonReceived, Source: []fault.Place{x.At}, How: typed(ledger.FieldReceived)})
	}
	for _, t := range r.index.taxPaid[r.m] {
		r.post(ledger.Posting{Date: t.On, Cents: t.Amount, From: ledger.Paid, To: ledger.TaxOwed,
			Reason: ledger.ReasonTaxPaid, Source: []fault.Place{t.At}, How: ledger.Derivation{Method: ledger.Typed,
				Field: ledger.FieldTaxPaid, Words: t.Period}})
		r.post(ledger.Posting{Date: t.On, Cents: t.Kept, From: ledger.Other, To: ledger.TaxOwed,
			Reason: ledger.ReasonAllowance, Source: []fault.Place{t.At}, How: ledger.Derivation{Method: ledger.Typed,
				Field: ledger.FieldAllowance, Words: t.Period}})
	}
}

// postOverheads allots the month's overheads to the pieces worked on, as a
// memorandum: expenses and trips without a piece, shelf losses, and equipment
// written off at once. With no work they stay with no piece.
func (r *run) postOverheads() {
	var total money.Cents
	for _, p := range r.postings {
		switch {
		case p.To == ledger.Expenses && p.Piece == "", p.To == ledger.Trips && p.Piece == "",
			p.To == ledger.ShelfLosses, p.To == ledger.EquipmentCost:
			total += p.Cents
		}
	}
	if total == 0 {
		return
	}
	base, by := r.overheadBase()
	ids := keys(base)
	weights := make([]*big.Rat, len(ids))
	for i, id := range ids {
		weights[i] = base[id]
	}
	all := sum(weights)
	p := ledger.Posting{Date: r.m.Last(), From: ledger.Overheads, To: ledger.Allotted, Reason: ledger.ReasonOverhead,
		How: ledger.Derivation{Method: ledger.Overhead}}
	if all.Sign() == 0 {
		p.Cents = total
		r.post(p)
		return
	}
	parts := money.Share(total, weights)
	p.Of = r.sharing(&ledger.Shared{Reason: p.Reason, How: p.How, Total: total, By: by, Unit: r.b.Settings.AreaUnit()},
		ids, weights, parts)
	for i, part := range parts {
		p.Piece, p.Cents, p.Source, p.Line = ids[i], part.Cents, r.work.rows[ids[i]], i
		r.post(p)
	}
}

// overheadBase is what overheads are shared by this month.
func (r *run) overheadBase() (map[string]*big.Rat, ledger.ShareBy) {
	switch r.b.Settings.OverheadBy {
	case "area":
		return r.work.coated, ledger.ByArea
	case "pieces":
		ones := map[string]*big.Rat{}
		for id := range r.work.rows {
			ones[id] = big.NewRat(1, 1)
		}
		return ones, ledger.ByPieces
	}
	return r.work.hours, ledger.ByHours
}
