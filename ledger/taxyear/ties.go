package taxyear

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// The names of the year's own reconciliations, as figures.json has them.
const (
	TieCost      = "cost of goods sold by roll-forward"
	TieMonths    = "twelve months to the year"
	TieLines     = "profit in the books to the form's lines"
	TieStock     = "closing line to the lists of pieces and shelf"
	TieOpening   = "opening line to the balances at the start"
	TieChannels  = "income by channel to receipts"
	TieMileage   = "mileage log and tolls to the trips line"
	TieGone      = "pieces gone unsold to their accounts"
	TieEquipment = "equipment register to its lines"
	TieGross     = "gross profit in the books to the form's line"
)

// Lists of terms that are no reconciliation: what a channel reported, down to
// nothing; sales tax from what was owed to what is.
const (
	RollReported = "reported by a channel"
	RollSalesTax = "sales tax of the year"
)

// Terms that are no line of their own.
const (
	TermNotStaying      figures.ID = "supplies_that_do_not_stay"
	TermPieces          figures.ID = "pieces_in_stock"
	TermClients         figures.ID = "clients_pieces"
	TermShelf           figures.ID = "the_shelf"
	TermReceived        figures.ID = "received_by_channel"
	TermGivenBack       figures.ID = "given_back_by_channel"
	TermDistance        figures.ID = "distance_at_the_rates"
	TermTolls           figures.ID = "tolls"
	TermGone            figures.ID = "gone_unsold"
	TermReported        figures.ID = "reported"
	TermPrices          figures.ID = "prices_of_sales"
	TermDelivery        figures.ID = "delivery_charged"
	TermTaxReported     figures.ID = "sales_tax_in_the_total"
	TermMarketplaceTax  figures.ID = "marketplace_tax_in_the_total"
	TermDeliveryLeftOut figures.ID = "delivery_not_in_the_total"
	TermRefundsOff      figures.ID = "refunds_off_the_total"
	TermFeesOff         figures.ID = "fees_off_the_total"
)

// ties works the year's reconciliations out two ways each. One that meets an
// amount that no line of the country's form takes is left out.
func (s *source) ties(y *Year, of amounts) []figures.Tie {
	out := []figures.Tie{s.tieCost(of), s.tieMonths(y), s.tieLines(y, of), s.tieStock(y), s.tieOpening(y),
		s.tieChannels(y),
		s.tieMileage(y), s.tieGone(y), s.tieEquipment(y, of)}
	for name, id := range map[string]figures.ID{TieStock: figures.LineClosingStock, TieOpening: figures.LineOpeningStock,
		TieMileage: figures.LineTrips} {
		if y.Number(id) == "" {
			out = slices.DeleteFunc(out, func(t figures.Tie) bool { return t.Name == name })
		}
	}
	return out
}

// tie is a reconciliation with a line of the form; blank: with something else.
func tie(name, line string, against money.Cents, terms ...figures.Term) figures.Tie {
	t := figures.NewTie(name, against, terms...)
	t.Line = line
	return t
}

// tieCost compares the roll-forward with what was sold and lost.
func (s *source) tieCost(of amounts) figures.Tie {
	sold, shelf, lost := s.net(ledger.CostOfSales), s.net(ledger.ShelfLosses), s.net(ledger.Lost)
	t := tie(TieCost, "", sold+shelf+lost,
		term(figures.LineOpeningStock, of.of(figures.LineOpeningStock)),
		term(figures.LineAcquired, of.of(figures.LineAcquired)),
		term(figures.LineKept, -of.of(figures.LineKept)),
		term(figures.LineSuppliesBought, of.of(figures.LineSuppliesBought)),
		term(figures.LineParts, of.of(figures.LineParts)),
		term(figures.LineOutsideWork, of.of(figures.LineOutsideWork)),
		term(figures.LineClosingStock, -of.of(figures.LineClosingStock)))
	t.Parts = []figures.Term{{ID: figures.LineSold, Cents: sold}, {ID: figures.LineShelfLosses, Cents: shelf},
		{ID: figures.LinePiecesLost, Cents: lost}}
	return t
}

// tieMonths adds the months' net profits up, each by its name, and takes off
// depreciation, the one thing that only a year has.
func (s *source) tieMonths(y *Year) figures.Tie {
	var terms []figures.Term
	for _, m := range y.Months {
		terms = append(terms, figures.Term{ID: figures.LineNetProfit, Of: m.To.Name(), Cents: m.Statement.NetProfit})
	}
	terms = append(terms, term(figures.LineDepreciation, -y.Depreciation))
	return tie(TieMonths, "", y.Figures.Statement.NetProfit-y.Depreciation,
		terms...)
}

// tieLines goes from the books' net profit to the form's.
func (s *source) tieLines(y *Year, of amounts) figures.Tie {
	st := y.Figures.Statement
	return tie(TieLines, y.Table.Holds.Profit, y.Net(),
		term(figures.LineNetProfit, st.NetProfit),
		term(figures.LineDepreciation, -y.Depreciation),
		term(TermNotStaying, st.CostOfPiecesSold+st.ShelfLosses+st.PiecesLost-s.net(ledger.CostOfSales)-s.net(
			ledger.ShelfLosses)-s.net(
			ledger.Lost)),
		term(figures.LineSuppliesUsed, -of.of(figures.LineSuppliesUsed)))
}

func (s *source) tieStock(y *Year) figures.Tie {
	var own, clients, shelf money.Cents
	for _, p := range y.Stock {
		if p.Piece.Record.How == ledger.Client {
			clients += p.Kept
		} else {
			own += p.Kept
		}
	}
	for _, x := range y.Shelf {
		shelf += x.Kept
	}
	number, taken := y.Taking(figures.LineClosingStock)
	return tie(TieStock, number, taken,
		term(TermPieces, own), term(TermClients, clients), term(TermShelf, shelf))
}

// tieOpening compares the opening line with the state that last year's
// December, or the Openings table, handed over.
func (s *source) tieOpening(y *Year) figures.Tie {
	before := s.l.At(s.from - 1)
	var pieces, shelf money.Cents
	for id, st := range before.Pieces.All() {
		if st.Where == "in stock" {
			pieces += st.Book - s.outUpTo(id, s.from-1)
		}
	}
	for name, x := range before.Shelf {
		if s.counts(name) {
			shelf += x.Cents()
		}
	}
	number, taken := y.Taking(figures.LineOpeningStock)
	return tie(TieOpening, number, taken, term(TermPieces, pieces), term(TermShelf, shelf))
}

func (s *source) tieChannels(y *Year) figures.Tie {
	var terms []figures.Term
	for _, c := range y.Channels {
		terms = append(terms, figures.Term{ID: TermReceived, Of: c.Name, Cents: c.Gross()},
			figures.Term{ID: TermGivenBack, Of: c.Name, Cents: -c.Refunds})
	}
	return tie(TieChannels, "", y.Figures.Statement.NetReceipts,
		s.withEarlier(terms, figures.OfStatement, figures.LineNetReceipts)...)
}

func (s *source) tieMileage(y *Year) figures.Tie {
	number, taken := y.Taking(figures.LineTrips)
	var distance, tolls []figures.Entry
	for _, d := range y.Mileage.Trips {
		distance = append(distance, figures.Entry{On: d.Record.On, Cents: d.Amount, At: d.Record.At})
		tolls = append(tolls, figures.Entry{On: d.Record.On, Cents: d.Record.Tolls, At: d.Record.At})
	}
	terms := []figures.Term{listTerm(TermDistance, distance), listTerm(TermTolls, tolls)}
	return tie(TieMileage, number, taken, s.withEarlier(terms, figures.OfStatement, figures.LineTrips)...)
}

func (s *source) tieGone(y *Year) figures.Tie {
	var terms []figures.Term
	for _, why := range []string{ledger.Kept, ledger.Donated, ledger.Scrapped, ledger.Stolen, ledger.ReturnedToSeller,
		ledger.GivenBack} {
		var list []figures.Entry
		for _, g := range y.Gone {
			if g.Removal.Why == why {
				list = append(list, figures.Entry{On: g.Removal.On, What: g.Removal.Piece, Cents: g.Cost, At: g.Removal.At})
			}
		}
		gone := listTerm(TermGone, list)
		gone.Of = why
		terms = append(terms, gone)
	}
	var others []ledger.Posting
	for _, p := range s.life {
		listed := func(g GonePiece) bool { return g.Removal.Piece == p.Piece }
		if p.Month >= s.from && closing.IsCorrection(&p) && !slices.ContainsFunc(y.Gone, listed) {
			others = append(others, p)
		}
	}
	terms = withTerm(terms, figures.Effect(figures.OfStatement, figures.LineKept, others)+
		figures.Effect(figures.OfStatement, figures.LinePiecesLost, others))
	return tie(TieGone, "", y.Figures.Statement.KeptOrDonated+
		y.Figures.Statement.PiecesLost, terms...)
}

func (s *source) tieEquipment(y *Year, of amounts) figures.Tie {
	var within, above, over []figures.Entry
	for _, a := range y.Assets {
		e := figures.Entry{On: a.Record.On, What: a.Record.What, Cents: a.Cost, At: a.Record.At}
		switch {
		case a.Table != nil:
			e.Cents = a.Now
			over = append(over, e)
		case a.Record.On.Year != s.year:
		case a.Above:
			above = append(above, e)
		default:
			within = append(within, e)
		}
	}
	return tie(TieEquipment, "", of.of(figures.LineAtOnce)+of.of(figures.LineAboveLimit)+
		of.of(figures.LineDepreciation),
		s.withEarlier([]figures.Term{listTerm(figures.LineAtOnce, within), listTerm(figures.LineAboveLimit, above),
			listTerm(figures.LineDepreciation, over)}, figures.OfStatement, figures.LineEquipment)...)
}

// earlier is the corrections to closed months of earlier years that the year carries.
func (s *source) earlier() []ledger.Posting {
	var out []ledger.Posting
	for _, p := range s.life {
		if p.Month >= s.from && closing.IsCorrection(&p) && closing.YearOf(&p) < s.year {
			out = append(out, p)
		}
	}
	return out
}

// withEarlier adds what corrections to earlier years' closed months come to in
// a line: the year's postings have them, its records do not.
func (s *source) withEarlier(terms []figures.Term, of figures.Scope, id figures.ID) []figures.Term {
	return withTerm(terms, figures.Effect(of, id, s.earlier()))
}

func withTerm(terms []figures.Term, c money.Cents) []figures.Term {
	if c == 0 {
		return terms
	}
	return append(terms, term(figures.TermCorrections, c))
}
