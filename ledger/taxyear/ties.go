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

func tie(name, line string, against money.Cents, terms ...figures.Term) figures.Tie {
	t := figures.Tie{Name: name, Terms: terms, Line: line, Against: against}
	for _, x := range terms {
		t.Reached += x.Cents
	}
	t.Difference = t.Reached - t.Against
	return t
}

// tieCost compares the roll-forward with what was sold and lost.
func (s *source) tieCost(of amounts) figures.Tie {
	sold, shelf, lost := s.net(ledger.CostOfSales), s.net(ledger.ShelfLosses), s.net(ledger.Lost)
	t := tie(TieCost, "", sold+shelf+lost,
		lineTerm(figures.LineOpeningStock, "pieces in stock and the shelf at the start", of.of(figures.LineOpeningStock)),
		lineTerm(figures.LineAcquired, "pieces acquired", of.of(figures.LineAcquired)),
		lineTerm(figures.LineKept, "pieces kept or donated, at their whole book cost", -of.of(figures.LineKept)),
		lineTerm(figures.LineSuppliesBought, "supplies bought", of.of(figures.LineSuppliesBought)),
		lineTerm(figures.LineParts, "parts", of.of(figures.LineParts)),
		lineTerm(figures.LineOutsideWork, "outside work", of.of(figures.LineOutsideWork)),
		lineTerm(figures.LineClosingStock, "pieces in stock and the shelf at the end", -of.of(figures.LineClosingStock)))
	t.Parts = []figures.Term{{ID: figures.LineSold, Cents: sold}, {ID: figures.LineShelfLosses, Cents: shelf},
		{ID: figures.LinePiecesLost, Cents: lost}}
	return t
}

// tieMonths adds the months' net profits up, each by its name, and takes off
// depreciation, the one thing that only a year has.
func (s *source) tieMonths(y *Year) figures.Tie {
	var terms []figures.Term
	for _, m := range y.Months {
		terms = append(terms, lineTerm(figures.LineNetProfit, "net profit of "+m.To.Name(), m.Statement.NetProfit))
	}
	terms = append(terms, lineTerm(figures.LineDepreciation, "depreciation", -y.Depreciation))
	return tie(TieMonths, "", y.Figures.Statement.NetProfit-y.Depreciation,
		terms...)
}

// tieLines goes from the books' net profit to the form's.
func (s *source) tieLines(y *Year, of amounts) figures.Tie {
	st := y.Figures.Statement
	return tie(TieLines, y.Table.Holds.Profit, y.Net(),
		lineTerm(figures.LineNetProfit, "net profit of the months together", st.NetProfit),
		lineTerm(figures.LineDepreciation, "depreciation", -y.Depreciation),
		term("supplies that do not stay, as they stand in the cost of pieces sold and lost and in shelf losses",
			st.CostOfPiecesSold+st.ShelfLosses+st.PiecesLost-s.net(ledger.CostOfSales)-s.net(ledger.ShelfLosses)-s.net(
				ledger.Lost)),
		lineTerm(figures.LineSuppliesUsed, "supplies that do not stay, when they left the shelf",
			-of.of(figures.LineSuppliesUsed)))
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
		term("pieces in stock", own), term("work on clients' pieces", clients), term("the shelf", shelf))
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
	return tie(TieOpening, number, taken, term("pieces in stock when the year began", pieces),
		term("the shelf when the year began", shelf))
}

func (s *source) tieChannels(y *Year) figures.Tie {
	var terms []figures.Term
	for _, c := range y.Channels {
		terms = append(terms, term(ChannelName(c.Name)+", received", c.Gross()), term(ChannelName(c.Name)+", given back",
			-c.Refunds))
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
	terms := []figures.Term{listTerm("distance at the rates, trip by trip", distance), listTerm("tolls", tolls)}
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
		terms = append(terms, listTerm(why, list))
	}
	var others []ledger.Posting
	for _, p := range s.life {
		listed := func(g GonePiece) bool { return g.Removal.Piece == p.Piece }
		if p.Month >= s.from && closing.IsCorrection(&p) && !slices.ContainsFunc(y.Gone, listed) {
			others = append(others, p)
		}
	}
	terms = withTerm(terms, correctionsTerm, figures.Effect(figures.OfStatement, figures.LineKept, others)+
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
		s.withEarlier([]figures.Term{listTerm("written off at once within the limit", within),
			listTerm("written off at once above it", above),
			listTerm("this year's part of what is written off over years", over)}, figures.OfStatement,
			figures.LineEquipment)...)
}

// correctionsTerm is what corrections are called among the terms.
const correctionsTerm = "corrections to closed months of earlier years"

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
	return withTerm(terms, correctionsTerm, figures.Effect(of, id, s.earlier()))
}

func withTerm(terms []figures.Term, label string, c money.Cents) []figures.Term {
	if c == 0 {
		return terms
	}
	return append(terms, term(label, c))
}
