package figures

import (
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

// Terms of reconciliations that are no line of their own. 'Other' is of other
// months, 'Others' of other pieces than those sold in the period.
const (
	TermInStock        ID = "in_pieces_in_stock"
	TermInLeft         ID = "in_pieces_that_have_left"
	TermOnShelf        ID = "on_the_shelf"
	TermCollected      ID = "tax_collected"
	TermRefunded       ID = "tax_refunded"
	TermPaidOver       ID = "tax_paid_over"
	TermKeptTax        ID = "tax_kept"
	TermProfits        ID = "profits_of_pieces_sold"
	TermReceiptsOther  ID = "receipts_other_months"
	TermRefundsOthers  ID = "refunds_other_pieces"
	TermReceiptsOthers ID = "receipts_other_pieces"
	TermCostOther      ID = "cost_other_months"
	TermSellingOther   ID = "selling_costs_other_months"
	TermSellingOthers  ID = "selling_costs_other_pieces"
	TermTripsOther     ID = "trips_other_months"
	TermTripsOthers    ID = "trips_other_pieces"
	TermCorrections    ID = "corrections"
)

// ties works every reconciliation out of postings on one side and records,
// layers or the other figures on the other.
func (s *source) ties(f Figures) []Tie {
	return []Tie{s.tiePieces(f), s.tieShelf(f), s.tieProfit(f), s.tieBought(), s.tieSalesTax(f)}
}

// NewTie adds the terms up and compares them with the other way of reaching it.
func NewTie(name string, against money.Cents, terms ...Term) Tie {
	t := Tie{Name: name, Terms: terms, Against: against}
	for _, x := range terms {
		t.Reached += x.Cents
	}
	t.Difference = t.Reached - t.Against
	return t
}

func term(id ID, c money.Cents) Term { return Term{ID: id, Cents: c} }

func (s *source) tiePieces(f Figures) Tie {
	var inStock money.Cents
	for _, p := range f.Pieces {
		if p.Status == costing.InStock || p.Status == "client" {
			// From what went into each piece, not from the running balance.
			inStock += p.Acquisition + p.Parts + p.OutsideWork + p.Supplies
		}
	}
	k := f.Stock
	return NewTie(TiePieces, inStock,
		term(LineOpening, k.Opening), term(LineAcquired, k.Acquired), term(LineParts, k.Parts),
		term(LineOutsideWork, k.OutsideWork), term(LineSupplies, k.Supplies), term(LineReturned, k.Returned),
		term(LineSold, -k.Sold), term(LineRemoved, -k.Removed))
}

func (s *source) tieShelf(f Figures) Tie {
	var opening, bought, used, lost, closing money.Cents
	for _, l := range f.Shelf {
		opening, bought, used, lost = opening+l.Opening, bought+l.Bought, used+l.Used, lost+l.Lost
	}
	for _, shelf := range s.closing.Shelf {
		closing += shelf.Cents()
	}
	return NewTie(TieShelf, closing,
		term(LineOpening, opening), term(LineBought, bought), term(LineUsed, -used), term(LineLost, -lost))
}

// tieBought compares what was paid for supplies, from the records, with where
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
	return NewTie(TieBought, paid,
		term(TermInStock, inStock), term(TermInLeft, left),
		term(TermOnShelf, onShelf), term(LineShelfLosses, s.all.between(0, s.to).get(OfStatement, LineShelfLosses)))
}

func (s *source) suppliesByStanding() (inStock, left money.Cents) {
	for id, x := range s.pieces {
		var cents money.Cents
		for _, p := range x.supplies {
			if p.Month <= s.to && p.From == ledger.Shelf {
				cents += p.Cents
			}
		}
		if s.closing.Pieces.Of(id).Gone() {
			left += cents
		} else {
			inStock += cents
		}
	}
	return inStock, left
}

// tieSalesTax compares the tax account with the records themselves.
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
	return NewTie(TieSalesTax, f.Statement.SalesTaxOwed,
		term(TermCollected, collected), term(TermRefunded, -refunded), term(TermPaidOver, -paid),
		term(TermKeptTax, -kept))
}

// Whose says which pieces' postings a term of the reconciliation of profit is
// summed from.
type Whose int

// Whose postings.
const (
	SoldLife  Whose = iota // those of the pieces sold in the period, over their lives
	SoldNow                // those of the pieces sold in the period, of the period
	Others                 // those of other pieces, of the period
	Shop                   // those of no piece, of the period
	Everyone               // the statement's
	Corrected              // the corrections to closed months, which all but the first are without
)

// ProfitPart is one line in a term of the reconciliation of profit.
type ProfitPart struct {
	Less  bool
	Whose Whose
	Of    Scope
	ID    ID
}

// ProfitTerm is one difference between the profits of the pieces sold and the
// net profit, and the lines that it is summed from.
type ProfitTerm struct {
	ID    ID
	Parts []ProfitPart
}

// ProfitTerms are the terms of the reconciliation of profit, in order.
var ProfitTerms = []ProfitTerm{
	{TermProfits, of(SoldLife, LineProfit)},
	{TermReceiptsOther, slices.Concat(of(SoldNow, LineGrossReceipts), minus(SoldNow, LineRefunds), minus(SoldLife, LineReceipts))},
	{LineUnfinished, of(Everyone, LineUnfinished)},
	{TermRefundsOthers, minus(Others, LineRefunds)},
	{TermReceiptsOthers, slices.Concat(of(Others, LineGrossReceipts), minus(Everyone, LineUnfinished))},
	{TermCostOther, slices.Concat(of(SoldLife, LineBookCost), minus(SoldNow, LineCostOfSales))},
	{LineCameBack, of(Others, LineCameBack)},
	{LineLateCost, minus(Others, LineLateCost)},
	{LineSoldCost, minus(Others, LineSoldCost)},
	{TermSellingOther, slices.Concat(of(SoldLife, LineSellingCosts), minus(SoldNow, LineSellingCosts))},
	{TermSellingOthers, minus(Others, LineSellingCosts)},
	{TermTripsOther, slices.Concat(of(SoldLife, LineTrips), minus(SoldNow, LineTrips))},
	{TermTripsOthers, minus(Others, LineTrips)},
	{LineShopExpenses, minus(Shop, LineShopExpenses)},
	{LineShopTrips, minus(Shop, LineShopTrips)},
	{LineEquipment, minus(Everyone, LineEquipment)},
	{LineShelfLosses, minus(Everyone, LineShelfLosses)},
	{LinePiecesLost, minus(Everyone, LinePiecesLost)},
	{LineOtherIncome, of(Everyone, LineOtherIncome)},
	{TermCorrections, of(Corrected, LineNetProfit)},
}

// of is a term's part. Pieces' lines stand before the statement's: a piece's
// selling costs have its expenses in them.
func of(whose Whose, id ID) []ProfitPart {
	for _, scope := range []Scope{OfReconciliation, OfPiece, OfStatement} {
		if index(scope, id) >= 0 && (whose < Everyone || scope == OfStatement) {
			return []ProfitPart{{Whose: whose, Of: scope, ID: id}}
		}
	}
	panic("no line " + string(id))
}

func minus(whose Whose, id ID) []ProfitPart {
	out := of(whose, id)
	out[0].Less = true
	return out
}

// tieProfit goes from the profits of the pieces sold in the period to the net
// profit, each difference by its name. Corrections to closed months are one
// difference, whatever pieces and lines they are of.
func (s *source) tieProfit(f Figures) Tie {
	life, now, corrected := make(sums, len(Lines)), make(sums, len(Lines)), make(sums, len(Lines))
	for _, t := range s.corrected {
		corrected = corrected.plus(t.between(s.from, s.to), 1)
	}
	for _, p := range f.Pieces {
		if p.Status == costing.Sold && p.SoldOn.InMonth() >= s.from && p.SoldOn.InMonth() <= s.to {
			mine := s.life(p.Record.ID).tally
			life = life.plus(mine.between(0, s.to), 1)
			now = now.plus(s.withoutCorrections(p.Record.ID, mine), 1)
		}
	}
	shop := s.withoutCorrections("", s.shop)
	everyone := s.all.between(s.from, s.to).plus(corrected, -1)
	others := everyone.plus(now, -1).plus(shop, -1)
	everyone[index(OfStatement, LineUnfinished)] = s.unfinished(false)
	of := map[Whose]sums{SoldLife: life, SoldNow: now, Others: others, Shop: shop, Everyone: everyone,
		Corrected: corrected}
	var all []Term
	for _, t := range ProfitTerms {
		if len(s.corrected) == 0 && t.Parts[0].Whose == Corrected {
			continue
		}
		term := Term{ID: t.ID}
		for _, part := range t.Parts {
			term.Cents += money.Cents(signOf(part.Less)) * of[part.Whose].get(part.Of, part.ID)
		}
		all = append(all, term)
	}
	return NewTie(TieProfit, f.Statement.NetProfit, all...)
}

// withoutCorrections is a subject's sums of the period without corrections to
// closed months.
func (s *source) withoutCorrections(piece string, t tally) sums {
	out := t.between(s.from, s.to)
	if c := s.corrected[piece]; c != nil {
		out = out.plus(c.between(s.from, s.to), -1)
	}
	return out
}
