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
	l.add(SecHome, 0, "Whether the shop is in the owner's home is not written down: [home] in settings.toml asks its "+
		"square feet, for line %s.", s.tax.Home.Line)
	if c := y.Figures.Statement.Expenses["utilities"]; c != 0 && s.tax.Home.Use != "" && !s.b.Settings.Home.Separate {
		l.add(SecExpenses, c, "Line %s has %s of utilities. If part of it is the home's: %s", y.lineTaking(utilities),
			c.Grouped(), s.tax.Home.Use)
	}
}

// remarksOnHome says what use of the home comes to as far as the records go,
// and what among the expenses may be the home's.
func (s *source) remarksOnHome(y *Year, of amounts, l *list) {
	if h := y.Home; h != nil {
		within := ""
		if h.Simplified < h.Before {
			within = ", no more than the profit before it: " + h.Simplified.Grouped()
		}
		l.add(SecHome, h.Simplified, "Line %s, use of the home, is not in these lines. Of %s square feet %s count by the "+
			"simplified method: %s%s. The other method needs what is asked on its page.", h.Line, money.AtMost(h.Shop, 2),
			money.AtMost(h.Counted, 2), h.Before.Grouped(), within)
	}
	if c := total(of[utilities]); c != 0 && s.tax.Home.Utilities != "" && !s.b.Settings.Home.Separate {
		l.add(SecHome, c, "Line %s has %s of utilities. %s", y.lineTaking(utilities), c.Grouped(), s.tax.Home.Utilities)
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
	t := tie(TieGross, number, y.Amount(number), lineTerm(figures.LineGrossProfit, "gross profit by the statement",
		st.GrossProfit),
		lineTerm(figures.LineShelfLosses, "less: shelf losses, which the statement has below it", -st.ShelfLosses),
		lineTerm(figures.LinePiecesLost, "less: pieces lost, which it has below it", -st.PiecesLost),
		term("supplies that do not stay, which the form has among expenses", st.CostOfPiecesSold+st.ShelfLosses+
			st.PiecesLost-s.net(ledger.CostOfSales)-shelf-lost))
	return &t
}
