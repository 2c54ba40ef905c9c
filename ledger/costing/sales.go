package costing

import (
	"fmt"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// salesMoney posts the month's Sales lines: receipts, tax and selling costs,
// each shared over the line's pieces on its own.
func (r *run) salesMoney() {
	for _, s := range r.index.sales[r.m] {
		in := s.Type == ledger.SaleLine || s.Type == ledger.PartPayment
		fee, cardFee, worked := r.fees(s)
		why := map[ledger.SaleType]ledger.Reason{ledger.SaleLine: ledger.ReasonSale, ledger.PartPayment: ledger.ReasonPartPayment,
			ledger.Refund: ledger.ReasonRefund, ledger.Return: ledger.ReasonReturn}[s.Type]
		if in {
			r.overPieces(s, s.Price, "price", ledger.Posting{From: ledger.Receipts, To: ledger.Bank, Reason: why})
			r.overPieces(s, s.DeliveryCharged, "delivery charged", ledger.Posting{From: ledger.Receipts, To: ledger.Bank, Reason: why})
			r.overPieces(s, s.SalesTax, "sales tax", ledger.Posting{From: ledger.TaxOwed, To: ledger.Bank, Reason: ledger.ReasonTaxCollected})
			r.overPieces(s, fee, "fee"+worked[0], ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonFee})
			r.overPieces(s, cardFee, "card fee"+worked[1], ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonCardFee})
		} else {
			r.overPieces(s, s.Price, "price given back", ledger.Posting{From: ledger.Bank, To: ledger.Receipts, Reason: why})
			r.overPieces(s, s.DeliveryCharged, "delivery given back", ledger.Posting{From: ledger.Bank, To: ledger.Receipts, Reason: why})
			r.overPieces(s, s.SalesTax, "sales tax given back", ledger.Posting{From: ledger.Bank, To: ledger.TaxOwed, Reason: ledger.ReasonTaxRefunded})
			r.overPieces(s, -fee, "fee given back by the channel", ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonFee})
			r.overPieces(s, -cardFee, "card fee given back", ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonCardFee})
		}
		r.overPieces(s, s.DeliveryCost, "delivery cost", ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonDelivery})
	}
}

// overPieces shares one amount of a Sales line over its pieces.
func (r *run) overPieces(s ledger.Sale, total money.Cents, what string, p ledger.Posting) {
	ids := sorted(s.Pieces)
	weights, basis := ledger.SaleWeights(r.piece, ids)
	parts := money.Share(total, weights)
	if len(ids) > 1 && total != 0 {
		p.Of = r.sharing(ledger.Shared{Reason: p.Reason, What: what, Total: total, Unit: basis, Source: []fault.Place{s.At}}, ids, weights, parts)
	}
	for i, part := range parts {
		p.Date, p.Piece, p.Cents, p.Source, p.Line = s.On, ids[i], part.Cents, []fault.Place{s.At}, i
		p.Group = s.Channel
		p.Arithmetic = what
		if len(ids) > 1 {
			p.Arithmetic = fmt.Sprintf("%s: %s over %d pieces %s = %s%s", what, total.Grouped(), len(ids), basis, part.Cents.Grouped(), extra(part))
		}
		r.post(p)
	}
}

// fees is a line's fee and card fee: typed ones win, zero too; blank ones are
// worked out for sales and part payments by the channel's latest terms not
// after the sale, and the words say so.
func (r *run) fees(s ledger.Sale) (fee, cardFee money.Cents, words [2]string) {
	terms := ChannelTerms(r.channels[s.Channel], s.On)
	in := s.Type == ledger.SaleLine || s.Type == ledger.PartPayment
	switch {
	case s.Fee != nil:
		fee = *s.Fee
	case in && terms != nil:
		fee, words[0] = WorkedOutFee(terms, s)
	}
	switch {
	case s.CardFee != nil:
		cardFee = *s.CardFee
	case in && terms != nil:
		cardFee, words[1] = WorkedOutCardFee(terms, s)
	}
	return fee, cardFee, words
}

// ChannelTerms is the latest of a channel's terms not after the day; nil
// where there are none. The terms come by date.
func ChannelTerms(terms []ledger.Channel, on calendar.Date) *ledger.Channel {
	for i := len(terms) - 1; i >= 0; i-- {
		if !terms[i].FromDate.After(on) {
			return &terms[i]
		}
	}
	return nil
}

// WorkedOutFee is the larger of fee_least and (price + delivery_charged) ×
// fee_percent + fee_fixed, rounded once, half to even.
func WorkedOutFee(t *ledger.Channel, s ledger.Sale) (money.Cents, string) {
	base := s.Price + s.DeliveryCharged
	fee := money.Round(add(percentOf(base, t.FeePercent), t.FeeFixed.Rat()))
	words := ", worked out: " + feeWords(base, t.FeePercent, t.FeeFixed)
	if fee < t.FeeLeast {
		return t.FeeLeast, fmt.Sprintf(", worked out: the least is %s", t.FeeLeast.Grouped())
	}
	return fee, words
}

// WorkedOutCardFee is (price + delivery_charged + sales_tax) × card_percent +
// card_fixed, rounded once, half to even.
func WorkedOutCardFee(t *ledger.Channel, s ledger.Sale) (money.Cents, string) {
	base := s.Price + s.DeliveryCharged + s.SalesTax
	return money.Round(add(percentOf(base, t.CardPercent), t.CardFixed.Rat())),
		", worked out: " + feeWords(base, t.CardPercent, t.CardFixed)
}

// feeWords is a fee's arithmetic; a fixed part of nothing is left out.
func feeWords(base money.Cents, percent *big.Rat, fixed money.Cents) string {
	words := fmt.Sprintf("%s × %s %%", base.Grouped(), percentWords(percent))
	if fixed == 0 {
		return words
	}
	return words + " + " + fixed.Grouped()
}

func percentOf(base money.Cents, percent *big.Rat) *big.Rat {
	if percent == nil {
		return zero
	}
	return quo(mul(base.Rat(), percent), big.NewRat(100, 1))
}

func percentWords(percent *big.Rat) string {
	if percent == nil {
		return "0"
	}
	return money.AtMost(percent, 4)
}
