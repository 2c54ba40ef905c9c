package checks

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// shareOf is what each piece of a Sales line has of its price and of its
// delivery charge. The two are shared apart, as costing does.
func (l *look) shareOf(s *ledger.Sale) map[string]saleShare {
	pieces := ledger.Distinct(s.Pieces)
	weights, _ := ledger.SaleWeights(l.pieces, pieces)
	price, delivery := money.Share(s.Price, weights), money.Share(s.DeliveryCharged, weights)
	out := map[string]saleShare{}
	for i, id := range pieces {
		out[id] = saleShare{price[i].Cents, delivery[i].Cents}
	}
	return out
}

// saleShare is one piece's part of a Sales line.
type saleShare struct{ price, delivery money.Cents }

// refundsWithinPaid compares what went back for each piece, by date, with what
// had been paid for it by then.
func (l *look) refundsWithinPaid() {
	sales := byDate(l.books.Sales, func(s *ledger.Sale) (calendar.Date, fault.Place) { return s.On, s.At })
	paid, back := map[string]money.Cents{}, map[string]money.Cents{}
	for len(sales) > 0 {
		n := 1
		for n < len(sales) && sales[n].On == sales[0].On {
			n++
		}
		// What came in on a day covers what went back on it.
		for _, s := range sales[:n] {
			if s.Type == ledger.SaleLine || s.Type == ledger.PartPayment {
				for id, part := range l.shareOf(s) {
					paid[id] += part.price + part.delivery
				}
			}
		}
		for _, s := range sales[:n] {
			if s.Type == ledger.Refund || s.Type == ledger.Return {
				l.giveBack(s, paid, back)
			}
		}
		sales = sales[n:]
	}
}

// giveBack adds a refund or return to what went back, or tells that it is more
// than was paid; then it is not added, so that the next is judged by itself.
func (l *look) giveBack(s *ledger.Sale, paid, back map[string]money.Cents) {
	shares := l.shareOf(s)
	for _, id := range ledger.Distinct(s.Pieces) {
		share := shares[id].price + shares[id].delivery
		if l.refused[pieceLine{s.At, id}] {
			continue
		}
		if back[id]+share <= paid[id] {
			back[id] += share
			continue
		}
		room := max(0, paid[id]-back[id])
		why := fmt.Sprintf("By %s, %s was paid for %s and %s given back; this line gives back %s more.",
			l.day(s.On), l.amount(paid[id]), id, l.amount(back[id]), l.amount(share))
		fix := fmt.Sprintf("Type at most %s in Price and Delivery charged together, or enter the payment that is "+
			"missing in Sales.", l.typed(room))
		switch {
		case room == 0:
			fix = "Correct Pieces, Sold on or Type here, delete the line, or enter the payment that is missing in Sales."
		case len(shares) > 1:
			fix = fmt.Sprintf("Enter one line for each piece with at most %s for %s, or the payment that is missing in Sales.",
				l.typed(room), id)
		}
		l.fail(fault.CodeRefundAbovePaid, saleCell(s, "price"), l.typed(s.Price), why, fix)
	}
}

// balanceOrWhole notes a sale after part payments where both together pass
// what was asked: then its price may be the whole price, which would count the
// part payments twice. It could move the part payments.
func (l *look) balanceOrWhole() {
	sales := byDate(l.past.Sales, func(s *ledger.Sale) (calendar.Date, fault.Place) { return s.On, s.At })
	ahead := map[string]money.Cents{} // by piece: paid in parts for the sale to come, less what went back
	for _, s := range sales {
		if s.Type == ledger.SaleLine {
			l.heldToAsking(s, ahead)
		}
		for id, share := range l.shareOf(s) {
			switch s.Type {
			case ledger.PartPayment:
				ahead[id] += share.price
			case ledger.Refund:
				ahead[id] = max(0, ahead[id]-share.price)
			default:
				ahead[id] = 0
			}
		}
	}
}

// heldToAsking notes one sale; ahead is what was paid before it.
func (l *look) heldToAsking(s *ledger.Sale, ahead map[string]money.Cents) {
	var paid, asked money.Cents
	pieces := ledger.Distinct(s.Pieces)
	for _, id := range pieces {
		p := l.pieces[id]
		if p == nil || p.Asking == nil {
			return
		}
		paid += ahead[id]
		asked += *p.Asking
	}
	if paid <= 0 || s.Price <= 0 || paid+s.Price <= asked {
		return
	}
	fix := fmt.Sprintf("If %s is the whole price, type what was left to pay, %s; if it is what was left to pay, leave it.",
		l.typed(s.Price), l.typed(max(0, s.Price-paid)))
	l.note(fault.CodeBalanceOrWhole, saleCell(s, "price"), l.typed(s.Price),
		fmt.Sprintf("With the part payments before it, %s, this comes to %s for %s, above the %s asked.",
			l.amount(paid), l.amount(paid+s.Price), list(pieces), l.amount(asked)), fix, min(paid, s.Price))
}
