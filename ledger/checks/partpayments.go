package checks

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// balanceOrWhole notes a sale after part payments where both together pass
// what was asked: then its price may be the whole price, which would count the
// part payments twice. It could move the part payments.
func (l *look) balanceOrWhole() {
	sales := pointers(l.past.Sales)
	byDateThenPlace(sales, func(s *ledger.Sale) (calendar.Date, fault.Place) { return s.On, s.At })
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
	pieces := distinct(s.Pieces)
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
