package checks

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// farTimes is how many times its kind's median, up or down, a price may be,
// and kindLeast how many others there must be to judge by.
const (
	farTimes  = 4
	kindLeast = 3
)

// soldFor is a piece that is sold: what for, and the line that took it out.
type soldFor struct {
	piece string
	price money.Cents // before tax and delivery, part payments in it
	sale  *ledger.Sale
}

// soldPieces is the pieces standing sold at the end of the month through.
func (l *look) soldPieces() []soldFor {
	if l.sold == nil {
		l.sold = l.findSold()
	}
	return l.sold
}

func (l *look) findSold() []soldFor {
	prices := map[string]money.Cents{}
	last := map[string]*ledger.Sale{}
	for s := range ledger.Each(l.past.Sales) {
		for id, share := range l.shareOf(s) {
			switch s.Type {
			case ledger.PartPayment:
				if !s.On.Before(l.cameBack(id)) {
					prices[id] += share.price
				}
			case ledger.SaleLine:
				if l.standsSold(id, s.At) {
					prices[id] += share.price
					last[id] = s
				}
			}
		}
	}
	out := []soldFor{}
	for id, s := range last {
		out = append(out, soldFor{id, prices[id], s})
	}
	slices.SortFunc(out, func(a, b soldFor) int { return cmp.Compare(a.piece, b.piece) })
	return out
}

// standsSold says that the piece stands sold at the end of the month through,
// by the line at that place; an earlier sale that came back does not count.
func (l *look) standsSold(piece string, by fault.Place) bool {
	of := l.stands[piece]
	for i := len(of) - 1; i >= 0; i-- {
		if l.through == 0 || of[i].on.InMonth() <= l.through {
			return of[i].how == sold && of[i].at == by
		}
	}
	return false
}

// cameBack is the day the piece last came back, or zero.
func (l *look) cameBack(piece string) calendar.Date {
	var last calendar.Date
	for _, s := range l.stands[piece] {
		if s.how == "" {
			last = s.on
		}
	}
	return last
}

// pricesOfKind notes a price far from those of the other pieces of its kind;
// a client's pieces have no price. It could move the price's distance from
// their median.
func (l *look) pricesOfKind() {
	var all []sized
	for _, s := range l.soldPieces() {
		p := l.pieces[s.piece]
		if p == nil || p.How == ledger.Client {
			continue
		}
		price := l.sized(saleCell(s.sale, "price"), s.piece+" sold for", s.price, usual{
			templates.KindKey(p.Kind), farTimes, kindLeast, "pieces sold of its kind, " + p.Kind})
		price.found = l.typed(s.sale.Price)
		all = append(all, price)
	}
	for _, d := range l.doubts(all, true) {
		l.note(fault.CodePriceFarFromKind, d.at, d.found, d.why,
			"Correct the price if a digit is wrong or the decimal point has slipped; otherwise leave it.", d.moves)
	}
}

// soldWithoutHours notes a sold piece that no Hours line names. It could move
// the hourly target times the mean hours of the pieces that have some, or
// times one hour.
func (l *look) soldWithoutHours() {
	worked := map[string]bool{}
	total := new(big.Rat)
	for h := range ledger.Each(l.past.Hours) {
		for _, id := range h.Pieces {
			worked[id] = true
		}
		if len(h.Pieces) > 0 && h.Hours != nil {
			total.Add(total, h.Hours)
		}
	}
	mean := big.NewRat(1, 1)
	if len(worked) > 0 {
		mean = total.Quo(total, new(big.Rat).SetInt64(int64(len(worked))))
	}
	for _, s := range l.soldPieces() {
		p := l.pieces[s.piece]
		if p == nil || worked[s.piece] {
			continue
		}
		l.noteNaming(fault.CodeSoldWithoutHours, p.At.At("piece"), p.ID,
			"Enter its hours in Hours; of work not written down, the best guess.", times(l.books.Settings.TargetHourly, mean),
			"%s was sold on %s (%s) and no hours are entered for it, so its profit an hour is blank.", p.ID,
			l.day(s.sale.On), s.sale.At)
	}
}

// soldForNothing notes a sale at 0.00 that no part payment came before. It
// could move the asking price, or else what was paid for the pieces.
func (l *look) soldForNothing() {
	ahead := map[string]bool{}
	for i := range l.past.Sales {
		if s := &l.past.Sales[i]; s.Type == ledger.PartPayment {
			for _, id := range s.Pieces {
				ahead[id] = true
			}
		}
	}
	for s := range ledger.Each(l.past.Sales) {
		if s.Type != ledger.SaleLine || s.Price != 0 ||
			slices.ContainsFunc(s.Pieces, func(id string) bool { return ahead[id] }) {
			continue
		}
		var moves money.Cents
		for _, id := range ledger.Distinct(s.Pieces) {
			switch p := l.pieces[id]; {
			case p == nil:
			case p.Asking != nil:
				moves += *p.Asking
			default:
				moves += p.Price + p.TaxPaid + p.Pickup
			}
		}
		l.note(fault.CodeSoldForNothing, saleCell(s, "price"), l.typed(s.Price),
			fmt.Sprintf("%s was sold for nothing, so all its cost is a loss.", list(ledger.Distinct(s.Pieces))),
			"Type the price. If it was given away or thrown out, take the sale out and enter it in Removals as kept, "+
				"donated or scrapped.", moves)
	}
}

// lotWorths notes a lot where only some pieces have a worth, so that none
// counts. It could move the lot's whole total.
func (l *look) lotWorths() {
	pieces := map[string][]*ledger.Piece{}
	for _, p := range l.pieces {
		pieces[p.Lot] = append(pieces[p.Lot], p)
	}
	for lot := range ledger.Each(l.past.Lots) {
		if lot.ShareBy == "equal" || (l.through != 0 && lot.GotOn.InMonth() > l.through) {
			continue
		}
		var without []*ledger.Piece
		var ids []string
		all := len(pieces[lot.ID])
		for _, p := range pieces[lot.ID] {
			if p.Worth == nil {
				without = append(without, p)
				ids = append(ids, p.ID)
			}
		}
		if len(without) == 0 || len(without) == all {
			continue
		}
		slices.SortFunc(without, func(a, b *ledger.Piece) int { return cmp.Compare(a.ID, b.ID) })
		slices.Sort(ids)
		l.note(fault.CodeLotWorthMissing, without[0].At.At("worth"), "",
			fmt.Sprintf("Lot %s has %d pieces, %d of them without a worth, so its %s is shared equally.", lot.ID, all,
				len(without), l.amount(lot.Total())),
			fmt.Sprintf("Type a worth for %s in Pieces, or equal in Share by of %s in Lots.", list(ids), lot.ID), lot.Total())
	}
}

// setsShared notes a line of several pieces that is shared equally for want of
// asking prices and worths. It could move its price and delivery charge.
func (l *look) setsShared() {
	for s := range ledger.Each(l.past.Sales) {
		pieces := ledger.Distinct(s.Pieces)
		if len(pieces) < 2 {
			continue
		}
		if _, by := ledger.SaleWeights(l.pieces, pieces); by != ledger.Equally {
			continue
		}
		missing := slices.DeleteFunc(slices.Clone(pieces), func(id string) bool {
			return l.pieces[id] != nil && l.pieces[id].Asking != nil
		})
		l.note(fault.CodeSetSharedEqually, saleCell(s, "pieces"), list(s.Pieces),
			fmt.Sprintf("Not all of these pieces have an asking price, nor all a worth, so the %s is shared equally over %d.",
				s.Type, len(pieces)),
			fmt.Sprintf("Type an asking price (Asking) for %s in Pieces; otherwise leave it.", list(missing)), s.Price+
				s.DeliveryCharged)
	}
}
