package figures

import (
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// The names of the reconciliations, as figures.json has them.
const (
	TiePieces   = "pieces roll forward"
	TieShelf    = "shelf rolls forward"
	TieProfit   = "profit of pieces sold to net profit"
	TieBought   = "every cent of supplies bought is somewhere"
	TieSalesTax = "sales tax owed rolls forward"
)

// ties works every reconciliation out of postings on one side and records,
// layers or the other figures on the other.
func (s *source) ties(f Figures) []Tie {
	return []Tie{s.tiePieces(f), s.tieShelf(f), s.tieProfit(f), s.tieBought(), s.tieSalesTax(f)}
}

// tie adds the terms up and holds them against the other way of reaching it.
func tie(name, againstIs string, against money.Cents, terms ...Term) Tie {
	t := Tie{Name: name, Terms: terms, Against: against, AgainstIs: againstIs}
	for _, x := range terms {
		t.Reached += x.Cents
	}
	t.Difference = t.Reached - t.Against
	return t
}

func (s *source) tiePieces(f Figures) Tie {
	var inStock money.Cents
	for _, p := range f.Pieces {
		if p.Status == costing.InStock || p.Status == "client" {
			// From what went into each piece, not from the running balance.
			inStock += p.Acquisition + p.Parts + p.OutsideWork + p.Supplies
		}
	}
	k := f.Stock
	return tie(TiePieces, "the book costs of the pieces in stock", inStock,
		Term{"Opening", k.Opening}, Term{"Acquired", k.Acquired}, Term{"Parts", k.Parts},
		Term{"Outside work", k.OutsideWork}, Term{"Supplies", k.Supplies}, Term{"Returned", k.Returned},
		Term{"Sold", -k.Sold}, Term{"Removed", -k.Removed})
}

func (s *source) tieShelf(f Figures) Tie {
	var opening, bought, used, lost, closing money.Cents
	for _, l := range f.Shelf {
		opening, bought, used, lost = opening+l.Opening, bought+l.Bought, used+l.Used, lost+l.Lost
	}
	for _, shelf := range s.closing.Shelf {
		closing += shelf.Cents()
	}
	return tie(TieShelf, "what is left on the shelf, purchase by purchase", closing,
		Term{"Opening", opening}, Term{"Bought", bought}, Term{"Put into pieces", -used}, Term{"Lost", -lost})
}

// tieBought holds what was paid for supplies, from the records, against where
// the postings put it.
func (s *source) tieBought() Tie {
	var paid, onShelf money.Cents
	for _, p := range s.l.Books.Purchases {
		if p.On.InMonth() <= s.to {
			paid += p.Total()
		}
	}
	for _, o := range s.l.Books.Openings {
		if !o.Deducted {
			paid += o.Cost
		}
	}
	for _, shelf := range s.closing.Shelf {
		onShelf += shelf.Cents()
	}
	inStock, left := s.suppliesByStanding()
	return tie(TieBought, "paid for supplies over all time, by the records", paid,
		Term{"In pieces in stock", inStock}, Term{"In pieces that have left", left},
		Term{"On the shelf", onShelf}, Term{"Shelf losses", net(s.life, ledger.ShelfLosses)})
}

func (s *source) suppliesByStanding() (inStock, left money.Cents) {
	for id, mine := range s.byPiece {
		sum := total(mine, func(x ledger.Posting) bool { return x.From == ledger.Shelf && x.To == ledger.Pieces })
		if s.closing.Pieces[id].Gone() {
			left += sum
		} else {
			inStock += sum
		}
	}
	return inStock, left
}

// tieSalesTax holds the tax account against the records themselves.
func (s *source) tieSalesTax(f Figures) Tie {
	var collected, refunded, paid, kept money.Cents
	for _, x := range s.l.Books.Sales {
		switch {
		case x.On.InMonth() > s.to:
		case x.Type == ledger.Refund || x.Type == ledger.Return:
			refunded += x.SalesTax
		default:
			collected += x.SalesTax
		}
	}
	for _, x := range s.l.Books.TaxPaid {
		if x.On.InMonth() <= s.to {
			paid, kept = paid+x.Amount, kept+x.Kept
		}
	}
	return tie(TieSalesTax, "sales tax owed at the end", f.Statement.SalesTaxOwed,
		Term{"Collected, over all time", collected}, Term{"Refunded", -refunded}, Term{"Paid over", -paid}, Term{"Kept as allowance", -kept})
}

// tieProfit goes from the profits of the pieces sold in the period to the net
// profit, each difference by its name.
func (s *source) tieProfit(f Figures) Tie {
	sold := map[string]bool{}
	var profits, receipts, book, selling, trips money.Cents
	for _, p := range f.Pieces {
		if p.Status == costing.Sold && p.SoldOn.InMonth() >= s.from && p.SoldOn.InMonth() <= s.to {
			sold[p.Record.ID] = true
			profits += *p.Profit
			receipts, book, selling, trips = receipts+p.Receipts, book+p.BookCost, selling+p.SellingCosts, trips+p.Trips
		}
	}
	mine, others, shop := s.partition(sold)
	receiptsOf := func(ps []ledger.Posting) money.Cents {
		return why(ps, ledger.ReasonSale, ledger.ReasonPartPayment) - why(ps, ledger.ReasonRefund, ledger.ReasonReturn)
	}
	sellingOf := func(ps []ledger.Posting) money.Cents { return net(ps, ledger.SellingCosts) + net(ps, ledger.Expenses) }
	unfinished := f.Statement.PartPaymentsUnfinished
	refundsElsewhere := why(others, ledger.ReasonRefund, ledger.ReasonReturn)
	return tie(TieProfit, "net profit by the statement", f.Statement.NetProfit,
		Term{"Profits of the pieces sold", profits},
		Term{"Their receipts of other months", receiptsOf(mine) - receipts},
		Term{"Part payments on unfinished work", unfinished},
		Term{"Refunds and returns on other pieces", -refundsElsewhere},
		Term{"Other receipts on other pieces", receiptsOf(others) + refundsElsewhere - unfinished},
		Term{"Cost of theirs charged in other months (sold before, returned, sold again)", book - net(mine, ledger.CostOfSales)},
		Term{"Cost of pieces that came back", why(others, ledger.ReasonReturned) - returnedFromElsewhere(others)},
		Term{"Late costs of pieces sold before", -lateTo(others, ledger.CostOfSales)},
		Term{"Cost of other pieces sold and returned again", -soldElsewhere(others)},
		Term{"Their selling costs of other months", selling - sellingOf(mine)},
		Term{"Selling costs of other pieces", -sellingOf(others)},
		Term{"Their trips of other months", trips - net(mine, ledger.Trips)},
		Term{"Trips for other pieces", -net(others, ledger.Trips)},
		Term{"Expenses without a piece", -net(shop, ledger.Expenses)},
		Term{"Trips without a piece", -net(shop, ledger.Trips)},
		Term{"Equipment written off at once", -f.Statement.Equipment},
		Term{"Shelf losses", -f.Statement.ShelfLosses},
		Term{"Pieces lost", -f.Statement.PiecesLost},
		Term{"Other income", f.Statement.OtherIncome})
}

// partition parts the period's postings: of the named pieces, of other
// pieces, of none.
func (s *source) partition(named map[string]bool) (mine, others, shop []ledger.Posting) {
	for _, p := range s.period {
		switch {
		case p.Piece == "":
			shop = append(shop, p)
		case named[p.Piece]:
			mine = append(mine, p)
		default:
			others = append(others, p)
		}
	}
	return mine, others, shop
}

// returnedFromElsewhere is what came back from other accounts than cost of sales.
func returnedFromElsewhere(ps []ledger.Posting) money.Cents {
	return total(ps, func(p ledger.Posting) bool {
		return p.Reason == ledger.ReasonReturned && p.From != ledger.CostOfSales
	})
}

func lateTo(ps []ledger.Posting, a ledger.Account) money.Cents {
	return total(ps, func(p ledger.Posting) bool { return p.Reason == ledger.ReasonLate && p.To == a })
}

func soldElsewhere(ps []ledger.Posting) money.Cents {
	return total(ps, func(p ledger.Posting) bool { return p.Reason == ledger.ReasonSold && p.To == ledger.CostOfSales })
}

// Groups is a statement's expense groups in order.
func (st Statement) Groups() []string { return slices.Sorted(maps.Keys(st.Expenses)) }
