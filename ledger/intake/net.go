package intake

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
)

// netFee is a fee that was worked out from what reached the owner.
type netFee struct {
	rec  *record
	sale ledger.Sale
	card bool // the card's fee is in it
}

// feeFromNet works a sale's fee out where only what reached the owner is
// written: price + delivery charged − card fee − net. With sales tax in play,
// on money that went back, or where the fee would be below 0, it is asked for.
// A card fee that is blank is in the fee.
func (rec *record) feeFromNet(s *ledger.Sale) {
	net, ok := rec.MoneyOr("net", true)
	if !ok || rec.Refused {
		return
	}
	card := money.Cents(0)
	if s.CardFee != nil {
		card = *s.CardFee
	}
	fee := s.Price + s.DeliveryCharged - card - net
	if s.Fee != nil {
		if *s.Fee != fee && *s.Fee != fee-rec.ownCost() && *s.Fee != fee-s.DeliveryCost {
			sale := *s
			rec.r.afterSales = append(rec.r.afterSales, func() {
				left := sale.Price + sale.DeliveryCharged - card - *sale.Fee
				if back, fees, _ := rec.r.wentBack(&sale); back != 0 && (left-net == back || left-net == back-fees) {
					return // what went back is in a line of its own
				}
				rec.Note("net", fault.CodeNetDiffers, int64((*sale.Fee - fee).Abs()),
					fmt.Sprintf("With the fee of %s that is typed %s would be left, and this says %s.", sale.Fee.Grouped(),
						left.Grouped(), net.Grouped()), "The typed fee counts. See which of the two is right.")
			})
		}
		return
	}
	switch {
	case s.SalesTax != 0 || s.MarketplaceTax != 0:
		rec.failNet("Sales tax is in play, and whether this is with it or without cannot be known, so the fee cannot be " +
			"worked out.")
	case s.DeliveryCost != 0:
		rec.failNet("Delivery was paid for too, and whether it was taken off before this cannot be known, so " +
			"the fee cannot be worked out.")
	case s.Type == ledger.Refund || s.Type == ledger.Return:
		rec.failNet("Money went back here, so what the fee is cannot be worked out from what was left.")
	case fee < 0:
		rec.failNet(fmt.Sprintf("This is above the price with delivery, less the card fee, which is %s, so it "+
			"is not what was left of it.", (s.Price + s.DeliveryCharged - card).Grouped()))
	case rec.mayBeProfit(fee):
		rec.FailForCause("net", "profit", fault.CodeNetUnclear, func(c *rows.Cause) (string, string) {
			table, header := rec.Block.Table.Name, rec.Block.Columns["net"].Header
			why := "This may be what was left after the fees, or the profit, with what the piece cost taken off." + c.More()
			if rec.r.lines.Tell(settings.ColumnsSection(table), settings.NameLine(header, "net"), c.First.Place) {
				return why, fmt.Sprintf("If it is what was left after the fees, %s; if it is the profit, put %s.",
					settings.PutColumn(table, header, "net"), settings.NameLine(header, settings.NoTable))
			}
			return why, fmt.Sprintf("If it is the profit, %s. If not, type the fee in a column fee.",
				settings.PutColumn(table, header, settings.NoTable))
		})
	default:
		rec.r.nets = append(rec.r.nets, netFee{rec, *s, s.CardFee == nil})
		s.Fee = &fee
		if s.CardFee == nil {
			s.CardFee = new(money.Cents)
		}
		rec.NoteForCause("net", "", fault.CodeFeeFromNet, int64(fee), func(c *rows.Cause) (string, string) {
			return fmt.Sprintf("The fee is worked out from this column: price and delivery charged less card fee "+
				"and this, here %s.", fee.Grouped()) + c.More(), "If it is something else, type the fee in a column fee."
		})
	}
}

// ownCost is what a piece cost by its own row.
func (rec *record) ownCost() money.Cents {
	if rec.Block.Table.Name != "pieces" {
		return 0
	}
	c, refusal := values.Money(rec.Cell("price"), rec.r.settings)
	if refusal != nil {
		return 0
	}
	return c
}

// mayBeProfit says that a column called only net may as well hold the profit of a
// piece: so much would go in fees as the piece cost.
func (rec *record) mayBeProfit(fee money.Cents) bool {
	header := rec.Block.Columns["net"].Header
	if rec.Block.Table.Name != "pieces" || settings.HeaderKey(header) != "net" {
		return false
	}
	for own := range rec.r.settings.Columns["pieces"] {
		if settings.HeaderKey(own) == settings.HeaderKey(header) {
			return false
		}
	}
	cost := rec.ownCost()
	return cost > 0 && fee >= cost
}

// failNet asks for the fee.
func (rec *record) failNet(why string) {
	rec.Fail("net", fault.CodeNetUnclear, why, fmt.Sprintf("Type the fee in a column fee, 0 if there was none; this cell "+
		"then does no harm. If the column is not to be read, %s.",
		settings.PutColumn(rec.Block.Table.Name, rec.Block.Columns["net"].Header, settings.NoTable)))
}

// noteNetFees notes fees worked out from what reached the owner that are not what
// the channel's terms give. The first counts.
func (r *reading) noteNetFees() {
	for _, n := range r.nets {
		var terms *ledger.Channel
		for i, c := range r.books.Channels {
			if values.Fold(c.Name) == values.Fold(n.sale.Channel) && !c.FromDate.After(n.sale.On) &&
				(terms == nil || c.FromDate.After(terms.FromDate)) {
				terms = &r.books.Channels[i]
			}
		}
		if terms == nil {
			continue
		}
		base := n.sale.Price + n.sale.DeliveryCharged
		usual := max(terms.FeeByPercent(base), terms.FeeLeast)
		if n.card {
			usual += terms.CardFeeOn(base)
		}
		net, _ := n.rec.MoneyOr("net", true)
		fee := base - net
		if n.sale.CardFee != nil {
			fee -= *n.sale.CardFee
		}
		if fee != usual {
			n.rec.Note("net", fault.CodeNetDiffers, int64((fee - usual).Abs()),
				fmt.Sprintf("By this the fee is %s, and by the terms of %s in Channels it would be %s.", fee.Grouped(),
					terms.Name, usual.Grouped()), "The first counts. See whether the terms have changed.")
		}
	}
}
