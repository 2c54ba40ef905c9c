package taxyear

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// Home is what the records hold for use of the home. It is in no line here.
type Home struct {
	ledger.Home
	// By the simplified method: the square feet that count, what they come to,
	// and that within the year's profit before it.
	Counted             *big.Rat
	Before, Simplified  money.Cents
	Share               *big.Rat    // percent of the home; nil: the home's square feet are not given
	Utilities           money.Cents // of the shop's expenses
	UtilitiesLine, Line string
}

// home works out the simplified method; nil where the settings do not give the
// shop's square feet, or the country has no such method.
func (s *source) home(y *Year) *Home {
	law, set := s.tax.Home, s.b.Settings.Home
	if law.Rate == nil || set.Shop == nil {
		return nil
	}
	h := &Home{Home: set, Counted: set.Shop, Line: law.Line, UtilitiesLine: y.lineTaking(utilities)}
	if h.Counted.Cmp(law.Most) > 0 {
		h.Counted = law.Most
	}
	h.Before = money.Round(cents(new(big.Rat).Mul(h.Counted, law.Rate)))
	h.Simplified = max(0, min(h.Before, y.Net()))
	if set.Whole != nil && !set.Separate {
		h.Share = new(big.Rat).Quo(new(big.Rat).Mul(set.Shop, hundred), set.Whole)
	}
	h.Utilities = y.Figures.Statement.Expenses["utilities"]
	return h
}

const utilities = expenseOf + "utilities"

// missingHome asks for what use of the home rests on, where the settings do not
// say; how it was used, where the expenses have utilities that may be the home's.
func (s *source) missingHome(y *Year, l *list) {
	if s.tax.Home.Line == "" || s.b.Settings.Home.Shop != nil {
		return
	}
	l.add(SecHome, 0, HomeNotGiven, s.tax.Home.Line)
	if c := y.Figures.Statement.Expenses["utilities"]; c != 0 && s.tax.Home.Use != "" && !s.b.Settings.Home.Separate {
		l.add(SecExpenses, c, UtilitiesOfHome, y.lineTaking(utilities), c, s.tax.Home.Use)
	}
}

// remarksOnHome says what use of the home comes to as far as the records go,
// and what among the expenses may be the home's.
func (s *source) remarksOnHome(y *Year, of amounts, l *list) {
	if h := y.Home; h != nil {
		within := Note{}
		if h.Simplified < h.Before {
			within = Note{WithinProfit, []any{h.Simplified}}
		}
		l.add(SecHome, h.Simplified, HomeBySquareFeet, h.Line, h.Shop, h.Counted, h.Before, within)
	}
	if c := total(of[utilities]); c != 0 && s.tax.Home.Utilities != "" && !s.b.Settings.Home.Separate {
		l.add(SecHome, c, UtilitiesInLine, y.lineTaking(utilities), c, s.tax.Home.Utilities)
	}
}

// lineTaking is the number of the line that takes an amount by its name.
func (y *Year) lineTaking(name string) string {
	for _, l := range y.Lines {
		for _, p := range l.Parts {
			if p.Name == name {
				return l.Line
			}
		}
	}
	return ""
}

// bridge goes from the statement's gross profit to the form's, which has shelf
// losses and pieces lost above it. Nil where the form has no such line.
func (s *source) bridge(y *Year) *figures.Tie {
	number := y.Table.Holds.Gross
	if y.Line(number) == nil {
		return nil
	}
	st := y.Figures.Statement
	shelf, lost := s.net(ledger.ShelfLosses), s.net(ledger.Lost)
	t := tie(TieGross, number, y.Amount(number), term(figures.LineGrossProfit, st.GrossProfit),
		term(figures.LineShelfLosses, -st.ShelfLosses), term(figures.LinePiecesLost, -st.PiecesLost),
		term(TermNotStaying, st.CostOfPiecesSold+st.ShelfLosses+
			st.PiecesLost-s.net(ledger.CostOfSales)-shelf-lost))
	return &t
}
