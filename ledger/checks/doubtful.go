package checks

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// How far from the usual is far: a slip of the decimal point or a zero too many
// is ten times or a hundred times. Rates of tax and fees differ least, lines of
// one table most. No source; set so that books where nothing is wrong have next to
// no notes.
const (
	farRate  = 4  // of taxes and fees, and containers of one supply
	farKind  = 6  // of one kind, payee, destination, and pickups and deliveries
	farGroup = 8  // of one group
	farRow   = 8  // of another amount of the same row
	farTable = 40 // of one table
	// leastMoved is the least that a note of this kind is worth.
	leastMoved money.Cents = 200
)

// amountsDoubtful notes a cost, tax, fee, distance or expense that is far from what
// is usual, or above what its own row allows. Of one row the largest is reported:
// a slip in the cost makes its tax look wrong too.
func (l *look) amountsDoubtful() {
	var all []sized
	for _, gather := range []func() []sized{l.sizedPieces, l.sizedLots, l.sizedSupplies, l.sizedParts, l.sizedTrips,
		l.sizedExpenses, l.sizedSales} {
		all = append(all, slices.DeleteFunc(gather(), func(s sized) bool { return s.cents <= 0 })...)
	}
	largest := map[fault.Place]doubt{}
	for _, d := range l.doubts(all, false) {
		row := d.at.At("")
		if had, there := largest[row]; d.moves >= leastMoved && (!there || cmp.Or(cmp.Compare(d.moves, had.moves),
			cmp.Compare(had.at.Column, d.at.Column)) > 0) {
			largest[row] = d
		}
	}
	for _, d := range largest {
		it := "it"
		if d.base > 0 {
			it = "it, or the amount it is on,"
		}
		l.note(fault.CodeAmountDoubtful, d.at, d.found, d.why, fmt.Sprintf("Correct %s if a digit is wrong or the decimal "+
			"point has slipped; otherwise leave it.", it), d.moves)
	}
}

// sized is an amount of money of a cell, with what it is compared with; of nothing,
// and of money back, there is no usual.
func (l *look) sized(at fault.Place, about string, c money.Cents, usual ...usual) sized {
	if c <= 0 {
		return sized{cents: c}
	}
	return sized{at: at, found: l.typed(c), about: fmt.Sprintf("%s %s", about, l.amount(c)), cents: c, value: int64(c),
		usual: usual}
}

// within is an amount that its row allows up to a limit.
func (s sized) within(most money.Cents, above string) sized {
	s.most, s.above = most, above
	return s
}

// atLeast is an amount that its row allows down to a limit.
func (s sized) atLeast(least money.Cents, below string) sized {
	s.least, s.below = least, below
	return s
}

// part is an amount as a part of another, in 10,000: a tax of a cost.
func (l *look) part(at fault.Place, about string, c, of money.Cents, usual ...usual) sized {
	s := l.sized(at, about, c, usual...)
	if of <= 0 {
		s.usual = nil
		return s
	}
	s.value, s.base = int64(c)*10_000/int64(of), of
	s.about = fmt.Sprintf("%s on %s is %s %%", s.about, l.amount(of), l.decimal(money.AtMost(big.NewRat(s.value, 100), 1)))
	return s
}

// tax is the tax of a line.
func (l *look) tax(at fault.Place, c, of money.Cents) sized {
	s := l.part(at.At("tax_paid"), "Tax of", c, of, usual{"tax", farRate, 3, "lines with tax"})
	return s.within(of*3/10, "more than any sales tax")
}

// brings is what a piece is asked for, else what it sold for; 0 where neither
// is known.
type brings struct {
	cents money.Cents
	words string
}

// brought is what each piece brings.
func (l *look) brought() func(id string) brings {
	sold := map[string]money.Cents{}
	for _, s := range l.soldPieces() {
		sold[s.piece] = s.price
	}
	return func(id string) brings {
		if p := l.pieces[id]; p != nil && p.Asking != nil {
			return brings{*p.Asking, fmt.Sprintf("the %s that is asked for %s", l.amount(*p.Asking), id)}
		}
		return brings{sold[id], fmt.Sprintf("the %s that %s sold for", l.amount(sold[id]), id)}
	}
}

func (l *look) sizedPieces() (out []sized) {
	brought := l.brought()
	for p := range ledger.Each(l.past.Pieces) {
		if l.through != 0 && p.GotOn.InMonth() > l.through {
			continue
		}
		most := brought(p.ID)
		kind := templates.KindKey(p.Kind)
		out = append(out, l.sized(p.At.At("price"), p.ID+" cost", p.Price, usual{"kind " + kind, farKind, 3,
			"pieces bought of its kind"}, usual{"piece", farTable, 5, "pieces bought"}).within(most.cents,
			"above "+most.words).atLeast(l.foundWorth(p)))
		out = append(out, l.pickup(p.At, p.Pickup).within(most.cents, "above "+most.words))
		if p.Worth != nil && *p.Worth > 0 {
			out = append(out, l.sized(p.At.At("worth"), p.ID+" was worth", *p.Worth, usual{"worth", farTable, 3,
				"pieces with a worth"}).within(3*most.cents, "over 3 times "+most.words))
		}
		out = append(out, l.tax(p.At, p.TaxPaid, p.Price))
	}
	return out
}

// foundWorth is the least that is likely to be paid for pieces by what they were
// worth as found; 0 where not all have a worth.
func (l *look) foundWorth(pieces ...*ledger.Piece) (least money.Cents, below string) {
	var sum money.Cents
	for _, p := range pieces {
		if p.Worth == nil {
			return 0, ""
		}
		sum += *p.Worth
	}
	return sum / farRow, fmt.Sprintf("under 1/%d of its worth of %s", farRow, l.amount(sum))
}

func (l *look) pickup(at fault.Place, c money.Cents) sized {
	return l.sized(at.At("pickup"), "Having it brought cost", c, usual{"pickup", farKind, 2, "pickups"})
}

func (l *look) sizedLots() (out []sized) {
	brought, most, none := l.brought(), map[string]money.Cents{}, map[string]bool{}
	pieces := map[string][]*ledger.Piece{}
	for p := range ledger.Each(l.past.Pieces) {
		one := brought(p.ID).cents
		pieces[p.Lot] = append(pieces[p.Lot], p)
		most[p.Lot] += one
		none[p.Lot] = none[p.Lot] || one == 0
	}
	for lot := range none {
		if none[lot] {
			delete(most, lot)
		}
	}
	for lot := range ledger.Each(l.past.Lots) {
		if l.through != 0 && lot.GotOn.InMonth() > l.through {
			continue
		}
		out = append(out, l.sized(lot.At.At("price"), "The lot cost", lot.Price, usual{"lot", farGroup, 3, "lots"}).within(
			most[lot.ID], fmt.Sprintf("above the %s that its pieces are asked or sold for",
				l.amount(most[lot.ID]))).atLeast(l.foundWorth(pieces[lot.ID]...)))
		out = append(out, l.sized(lot.At.At("fees"), "The fees are", lot.Fees).within(lot.Price/2,
			"more than half of the lot's price").atLeast(lot.Price/50, "under 2 % of the lot's price"))
		out = append(out, l.pickup(lot.At, lot.Pickup).within(lot.Price*2, "over twice the lot's price"))
		out = append(out, l.tax(lot.At, lot.TaxPaid, lot.Price+lot.Fees))
	}
	return out
}

// sizedSupplies is what containers cost, of lines bought and of openings, and
// tools, which have no like but other lines.
func (l *look) sizedSupplies() (out []sized) {
	container := func(at fault.Place, supply string, c money.Cents, amount *big.Rat) {
		s := l.supply[supply]
		if c <= 0 || amount == nil || amount.Sign() <= 0 || s == nil {
			return
		}
		each := new(big.Rat).Quo(c.Rat(), amount)
		x := l.sized(at.At("cost"), fmt.Sprintf("A container of %s cost", supply), money.Round(each),
			usual{"supply " + supply,
				farRate, 2, "lines of it"}, usual{"group " + s.Group + " of " + s.Container, farGroup, 3, "lines of its group"},
			usual{"container", farTable, 5, "lines of supplies"})
		x.found, x.cents = l.typed(c), c
		out = append(out, x)
	}
	for p := range ledger.Each(l.past.Purchases) {
		container(p.At, p.Supply, p.Cost, p.Amount)
		out = append(out, l.tax(p.At, p.TaxPaid, p.Cost))
	}
	for o := range ledger.Each(l.past.Openings) {
		container(o.At, o.Supply, o.Cost, o.Amount)
	}
	for e := range ledger.Each(l.past.Equipment) {
		out = append(out, l.sized(e.At.At("cost"), e.What+" cost", e.Cost, usual{"equipment", farTable, 3, "tools"}))
		out = append(out, l.tax(e.At, e.TaxPaid, e.Cost))
	}
	return out
}

func (l *look) sizedParts() (out []sized) {
	brought := l.brought()
	for p := range ledger.Each(l.past.Parts) {
		var most brings
		if ids := ledger.Distinct(p.Pieces); len(ids) == 1 {
			most = brought(ids[0])
		}
		out = append(out, l.sized(p.At.At("cost"), p.What+" cost", p.Cost, usual{"part " + words(p.What), farKind, 3,
			"lines of the same name"}, usual{"part", farTable, 5, "lines of parts"}).within(most.cents, "above "+most.words))
		out = append(out, l.tax(p.At, p.TaxPaid, p.Cost))
	}
	return out
}

func (l *look) sizedTrips() (out []sized) {
	for t := range ledger.Each(l.past.Trips) {
		if t.Miles != nil && t.Miles.Sign() > 0 {
			cents := l.tripCents(t) - t.Tolls
			s := l.sized(t.At.At("miles"), "", cents, usual{"to " + words(t.To+" "+t.Purpose), farKind, 3,
				"trips there for the same"}, usual{"trip", farGroup, 4, "trips"})
			s.found = l.decimal(money.AtMost(t.Miles, 4))
			s.about = fmt.Sprintf("The trip of %s comes to %s", s.found, l.amount(cents))
			out = append(out, s)
		}
		out = append(out, l.sized(t.At.At("tolls"), "Tolls of", t.Tolls, usual{"tolls", farKind, 2,
			"trips with tolls"}).within(500+l.tripCents(t)-t.Tolls, "far above what the drive itself comes to"))
	}
	return out
}

func (l *look) sizedExpenses() (out []sized) {
	for e := range ledger.Each(l.past.Expenses) {
		out = append(out, l.sized(e.At.At("amount"), e.What+" came to", e.Amount, usual{"expense " + regularKey(e), farKind,
			3, "times it came"}, usual{"expenses " + e.Group, farGroup, 3, "expenses of its group"},
			usual{"expense", farTable, 5, "expenses"}))
	}
	for o := range ledger.Each(l.past.OtherIncome) {
		out = append(out, l.sized(o.At.At("amount"), o.What+" came to", o.Amount, usual{"income " + o.Group, farGroup, 3,
			"lines of its group"}, usual{"income", farTable, 5, "lines of other income"}))
	}
	return out
}

// sizedSales is the fees, taxes and deliveries of sales; what they sold for is
// looked at by kind.
func (l *look) sizedSales() (out []sized) {
	for s := range ledger.Each(l.past.Sales) {
		if s.Type != ledger.SaleLine || s.Price <= 0 {
			continue
		}
		out = append(out, l.sizedFees(s)...)
		for column, tax := range map[string]money.Cents{"sales_tax": s.SalesTax, "marketplace_tax": s.MarketplaceTax} {
			if whole := s.Price + s.DeliveryCharged; tax > 0 {
				out = append(out, l.part(saleCell(s, column), "Tax of", tax, whole, usual{column, farRate, 3,
					"sales with this tax"}).within(whole*3/10, "more than any sales tax"))
			}
		}
		for column, c := range map[string]money.Cents{"delivery_charged": s.DeliveryCharged,
			"delivery_cost": s.DeliveryCost} {
			if c <= 0 {
				continue
			}
			x := l.sized(saleCell(s, column), "Delivery of", c, usual{column, farKind, 2, "deliveries"}).within(s.Price,
				"above the price")
			if charged := s.DeliveryCharged; column == "delivery_cost" && charged > 0 {
				x = x.within(charged*farRow, fmt.Sprintf("over %d times the %s that was charged for it", farRow,
					l.amount(charged))).
					atLeast(charged/farRow, fmt.Sprintf("under 1/%d of the %s that was charged for it", farRow, l.amount(charged)))
			}
			out = append(out, x)
		}
	}
	slices.SortStableFunc(out, func(a, b sized) int { return a.at.Compare(b.at) })
	return out
}

// sizedFees is the typed fees of a sale, by its channel's terms where there are
// some, else by what fees cost anywhere (common practice, no source).
func (l *look) sizedFees(s *ledger.Sale) (out []sized) {
	terms := l.termsOf(s)
	if s.Fee != nil && *s.Fee > 0 {
		fee := l.part(saleCell(s, "fee"), "A fee of", *s.Fee, s.Price, usual{"fee " + channelKey(s.Channel), farRate, 3,
			"fees there"}).within(s.Price/2, "more than half of the price")
		if terms != nil {
			fee = l.byTerms(fee, max(terms.FeeLeast, terms.FeeByPercent(s.Price+s.DeliveryCharged)))
		}
		out = append(out, fee)
	}
	if s.CardFee != nil && *s.CardFee > 0 {
		fee := l.part(saleCell(s, "card_fee"), "A card fee of", *s.CardFee, s.Price, usual{"card", farRate, 3,
			"card fees"}).within(s.Price/8+100, "far above what cards cost").atLeast(s.Price/200, "far below what cards cost")
		if terms != nil {
			fee = l.byTerms(fee, terms.CardFeeOn(s.Price+s.DeliveryCharged+s.SalesTax))
		}
		out = append(out, fee)
	}
	return out
}

// byTerms is a fee with the limits that its channel's terms set it; without terms
// for it the limits stay.
func (l *look) byTerms(fee sized, likely money.Cents) sized {
	if likely <= 0 {
		return fee
	}
	words := fmt.Sprintf("the %s that the channel's terms come to", l.amount(likely))
	return fee.within(likely*farRate, fmt.Sprintf("over %d times %s", farRate, words)).
		atLeast(likely/farRate, "under a quarter of "+words)
}

// termsOf is the latest of a sale's channel's terms not after its day; nil: none, or
// two of one day, which is an error of its own.
func (l *look) termsOf(s *ledger.Sale) *ledger.Channel {
	var latest []*ledger.Channel
	for c := range ledger.Each(l.books.Channels) {
		if channelKey(c.Name) != channelKey(s.Channel) || c.FromDate.After(s.On) ||
			len(latest) > 0 && c.FromDate.Before(latest[0].FromDate) {
			continue
		}
		if len(latest) > 0 && latest[0].FromDate.Before(c.FromDate) {
			latest = nil
		}
		latest = append(latest, c)
	}
	if len(latest) != 1 {
		return nil
	}
	return latest[0]
}
