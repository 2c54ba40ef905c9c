package costing

import (
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
		fee, cardFee, howFee, howCard := r.fees(s)
		why := map[ledger.SaleType]ledger.Reason{ledger.SaleLine: ledger.ReasonSale,
			ledger.PartPayment: ledger.ReasonPartPayment,
			ledger.Refund:      ledger.ReasonRefund, ledger.Return: ledger.ReasonReturn}[s.Type]
		if in {
			r.overPieces(s, s.Price, typed(ledger.FieldPrice), ledger.Posting{From: ledger.Receipts, To: ledger.Bank,
				Reason: why})
			r.overPieces(s, s.DeliveryCharged, typed(ledger.FieldDelivery), ledger.Posting{From: ledger.Receipts,
				To: ledger.Bank, Reason: why})
			r.overPieces(s, s.SalesTax, typed(ledger.FieldSalesTax), ledger.Posting{From: ledger.TaxOwed, To: ledger.Bank,
				Reason: ledger.ReasonTaxCollected})
			r.overPieces(s, fee, howFee, ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts, Reason: ledger.ReasonFee})
			r.overPieces(s, cardFee, howCard, ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts,
				Reason: ledger.ReasonCardFee})
		} else {
			r.overPieces(s, s.Price, back(ledger.FieldPrice), ledger.Posting{From: ledger.Bank, To: ledger.Receipts,
				Reason: why})
			r.overPieces(s, s.DeliveryCharged, back(ledger.FieldDelivery), ledger.Posting{From: ledger.Bank, To: ledger.Receipts,
				Reason: why})
			r.overPieces(s, s.SalesTax, back(ledger.FieldSalesTax), ledger.Posting{From: ledger.Bank, To: ledger.TaxOwed,
				Reason: ledger.ReasonTaxRefunded})
			r.overPieces(s, -fee, back(ledger.FieldFee), ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts,
				Reason: ledger.ReasonFee})
			r.overPieces(s, -cardFee, back(ledger.FieldCardFee), ledger.Posting{From: ledger.Paid, To: ledger.SellingCosts,
				Reason: ledger.ReasonCardFee})
		}
		r.overPieces(s, s.DeliveryCost, typed(ledger.FieldDeliveryCost), ledger.Posting{From: ledger.Paid,
			To: ledger.SellingCosts, Reason: ledger.ReasonDelivery})
	}
}

// overPieces shares one amount of a Sales line over its pieces.
func (r *run) overPieces(s ledger.Sale, total money.Cents, how ledger.Derivation, p ledger.Posting) {
	p.How, p.Date, p.Group, p.Source = how, s.On, s.Channel, []fault.Place{s.At}
	ids := ledger.Distinct(s.Pieces)
	weights, by := ledger.SaleWeights(r.piece, ids)
	r.over(total, ids, weights, by, p)
}

func typed(f ledger.Field) ledger.Derivation {
	return ledger.Derivation{Method: ledger.Typed, Field: f}
}

func back(f ledger.Field) ledger.Derivation {
	return ledger.Derivation{Method: ledger.PaidBack, Field: f}
}

// fees is a line's fee and card fee: typed ones win, zero too; blank ones are
// worked out for sales and part payments by the channel's latest terms not
// after the sale.
func (r *run) fees(s ledger.Sale) (fee, cardFee money.Cents, howFee, howCard ledger.Derivation) {
	terms := ChannelTerms(r.channels[s.Channel], s.On)
	in := s.Type == ledger.SaleLine || s.Type == ledger.PartPayment
	howFee, howCard = typed(ledger.FieldFee), typed(ledger.FieldCardFee)
	switch {
	case s.Fee != nil:
		fee = *s.Fee
	case in && terms != nil:
		fee, howFee = WorkedOutFee(terms, s)
	}
	switch {
	case s.CardFee != nil:
		cardFee = *s.CardFee
	case in && terms != nil:
		cardFee, howCard = WorkedOutCardFee(terms, s)
	}
	return fee, cardFee, howFee, howCard
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
func WorkedOutFee(t *ledger.Channel, s ledger.Sale) (money.Cents, ledger.Derivation) {
	base := s.Price + s.DeliveryCharged
	fee := t.FeeByPercent(base)
	if fee < t.FeeLeast {
		return t.FeeLeast, ledger.Derivation{Method: ledger.FeeLeast, Field: ledger.FieldFee,
			Amounts: []ledger.Amount{{Name: ledger.AmountLeast, Cents: t.FeeLeast}}}
	}
	return fee, workedOut(ledger.FieldFee, base, t.FeePercent, t.FeeFixed)
}

// WorkedOutCardFee is (price + delivery_charged + sales_tax) × card_percent +
// card_fixed, rounded once, half to even.
func WorkedOutCardFee(t *ledger.Channel, s ledger.Sale) (money.Cents, ledger.Derivation) {
	base := s.Price + s.DeliveryCharged + s.SalesTax
	return t.CardFeeOn(base), workedOut(ledger.FieldCardFee, base, t.CardPercent, t.CardFixed)
}

func workedOut(f ledger.Field, base money.Cents, percent *big.Rat, fixed money.Cents) ledger.Derivation {
	return ledger.Derivation{Method: ledger.FeeWorkedOut, Field: f, Rate: money.OrZero(percent),
		Amounts: []ledger.Amount{{Name: ledger.AmountBase, Cents: base}, {Name: ledger.AmountFixed, Cents: fixed}}}
}
