package taxyear

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// GroupToolSold is the group of other income for tools sold.
const GroupToolSold = "tool sold"

// What a line's question may be about beside the amounts that lines take
// (templates.Ask).
const (
	askIncome  = "other income: " // and a group of other income
	askStolen  = "received for stolen pieces"
	askDonated = "donated pieces, got in the year"
	askOlder   = "donated pieces, got before"
	askLate    = "costs of pieces donated before"
)

// asked is the amount that a line's question is about; 0.00: do not ask.
func (s *source) asked(of string, amount amounts, gone []GonePiece) money.Cents {
	var sum money.Cents
	group, ofIncome := strings.CutPrefix(of, askIncome)
	switch {
	case ofIncome:
		for _, p := range amount[amountName(figures.LineOtherIncome)] {
			if p.Group == group {
				sum += p.Cents
			}
		}
	case of == askStolen || of == askDonated || of == askOlder || of == askLate:
		for _, g := range gone {
			switch {
			case of == askStolen && g.Removal.Why == ledger.Stolen:
				sum += g.Received
			case g.Removal.Why == ledger.Donated && of == s.donatedAs(&g):
				sum += g.Cost
			}
		}
	default:
		return total(amount[of])
	}
	return sum
}

// donatedAs is which question a donated piece's cost falls under.
func (s *source) donatedAs(g *GonePiece) string {
	switch {
	case !s.inYear(g.Removal.On):
		return askLate
	case g.Piece.Record != nil && s.inYear(g.Piece.Record.GotOn):
		return askDonated
	}
	return askOlder
}

// sectionOf is the pages that have the records of what is asked about.
func sectionOf(of string) string {
	switch {
	case strings.HasPrefix(of, askIncome), of == askStolen:
		return SecIncome
	case of == askDonated, of == askOlder, of == askLate:
		return SecGone
	case of == amountName(figures.LineOutsideWork):
		return SecPayees
	case of == amountName(figures.LineAtOnce), of == amountName(figures.LineAboveLimit):
		return SecEquipment
	case strings.HasPrefix(of, expenseOf):
		return SecExpenses
	}
	return SecCost
}

// remarks is what only a preparer can decide. Each stands only where there is
// an amount that it is about.
func (s *source) remarks(y *Year, of amounts) []Missing {
	var l list
	if y.Table.Check != "" {
		l.add("", 0, InWords, y.Table.Check)
	}
	if c := y.Figures.Currency; c != y.Table.Money.Code {
		l.add("", 0, OtherCurrency, y.Table.Form, y.Table.Money.Name, c)
	}
	s.remarksOnLines(y, of, &l)
	if held := y.Figures.Statement.PartPaymentsUnfinished; held != 0 {
		l.add(SecIncome, held, PartPayments, y.Number(figures.LineGrossReceipts), held, y.End())
	}
	s.remarksOnEquipment(y, &l)
	s.remarksOnPayees(y, &l)
	s.remarksOnHome(y, of, &l)
	s.remarksOnPieces(&l)
	if s.whenUsed {
		for _, g := range y.Gone {
			if left := s.outUpTo(g.Piece.Record.ID, s.to); left != 0 && (g.Removal.Why == ledger.Kept ||
				g.Removal.Why == ledger.Donated) {
				l.add(SecGone, left, SuppliesStayCounted, g.Removal.Piece, g.Removal.Why, left)
			}
		}
	}
	s.remarksOnOpenings(&l)
	return l
}

// remarksOnLines is the questions of the lines, and lines below zero.
func (s *source) remarksOnLines(y *Year, of amounts, l *list) {
	var below []string
	for line := range ledger.Each(y.Lines) {
		for _, ask := range line.Asks {
			var c money.Cents
			for _, name := range ask.Of {
				c += s.asked(name, of, y.Gone)
			}
			if c != 0 {
				words := strings.ReplaceAll(ask.Words, "{amount}", c.Grouped())
				words = strings.ReplaceAll(words, "{limit}", s.limitOn(s.to.Last()).Grouped())
				l.add(sectionOf(ask.Of[0]), c, QuestionOfLine, line.Line, words)
				line.Asked = append(line.Asked, words)
			}
		}
		switch {
		case line.Cents >= 0:
		case len(line.Takes) > 0:
			l.add(SecExpenses, line.Cents, LineBelowZero, line.Line, line.Cents)
		default:
			below = append(below, line.Line)
		}
	}
	if n := len(below); n > 0 {
		l.add("", y.Net(), YearBelowZero, n, below)
	}
}

// remarksOnEquipment is what was chosen for each item bought in the year, what
// the law takes by default, and each item sold.
func (s *source) remarksOnEquipment(y *Year, l *list) {
	d := &s.tax.Depreciation
	if y.FormForEquipment {
		number, taken := y.Taking(figures.LineDepreciation)
		if rule := s.tax.Rule(templates.RuleForm).Words; rule != "" {
			l.add(SecEquipment, taken+y.amountOn(number, figures.LineAboveLimit), InWords, rule)
		}
	}
	if x := y.LateBuying; x != nil && x.Applies {
		l.add(SecEquipment, x.ByQuarter, LateBuyingApplies, x.All, s.year, x.Last, money.Fixed(x.Percent, 2),
			x.Limit, x.Source, x.ByQuarter, x.Usual)
	}
	s.remarkOnMoney(y, l)
	for i := range d.Allowances {
		s.remarkOnAllowance(y, &d.Allowances[i], l)
	}
	s.remarkOnDefault(y, l)
	for a := range ledger.Each(y.Assets) {
		if a.Record.On.Year == s.year {
			s.remarkOnBought(a, d, l)
		}
		if n := s.year - a.Record.On.Year + 1; a.Percent != nil && a.Table.NotSeenFrom > 0 && n >= a.Table.NotSeenFrom {
			l.add(SecEquipment, a.Now, PercentNotSeen, a.Record.What, n, a.Table.Name, money.Fixed(a.Percent, 2))
		}
		if a.Sale != nil && a.Record.SoldOn.Year == s.year {
			s.remarkOnSale(a, l)
		}
	}
}

// remarkOnMoney says where the money for a tool sold is in none of the lines.
func (s *source) remarkOnMoney(y *Year, l *list) {
	if register, income := s.toolsSold(y); register > income {
		l.add(SecEquipment, register-income, ToolMoneyNowhere, register, income)
	}
}

func (s *source) remarkOnBought(a *Asset, d *templates.Depreciation, l *list) {
	allowance := d.Allowance(a.Record.On.String())
	whole := allowance != nil && allowance.Percent.Cmp(hundred) == 0
	switch {
	case a.SameYear():
	case a.Above:
		l.add(SecEquipment, a.Cost, AboveLimit, a.Record.What, a.Cost, s.limitOn(a.Record.On),
			after("; ", s.tax.Rule(templates.RuleAbove).Words))
	case a.Table == nil:
	case len(a.Yearly) == 1 && !whole && d.Allowances != nil:
		law := Note{Says: NoAllowance}
		if allowance != nil {
			law = Note{AllowanceByLaw, []any{allowance.Percent, allowance.Source}}
		}
		l.add(SecEquipment, a.Cost, WholeAtOnce, a.Record.What, a.Record.On, law)
	}
}

// defaultAllowance is what the law takes by default of an item over years in
// the year it was bought; nil: nothing.
func (s *source) defaultAllowance(a *Asset) *templates.Allowance {
	if a.Record.On.Year != s.year || len(a.Yearly) < 2 || a.SameYear() {
		return nil
	}
	return s.tax.Depreciation.Allowance(a.Record.On.String())
}

// remarkOnDefault gives the lines of equipment and of the year's profit both
// ways: as worked out, and with each allowance taken by default. What an
// allowance leaves of a cost goes by the item's table.
func (s *source) remarkOnDefault(y *Year, l *list) {
	var more money.Cents
	for a := range ledger.Each(y.Assets) {
		if allowance := s.defaultAllowance(a); allowance != nil {
			taken := PercentOf(a.Cost, allowance.Percent)
			more += taken + PercentOf(a.Cost-taken, a.Table.Percent[0]) - a.Now
		}
	}
	number := y.Number(figures.LineDepreciation)
	if more == 0 || number == "" {
		return
	}
	profit, equipment := y.Table.Holds.Profit, y.Amount(number)
	l.add(SecEquipment, more, WithoutAllowance, number, equipment, profit, y.Net(), equipment+more, y.Net()-more)
}

// remarkOnAllowance names the year's items over years for which the law takes
// an allowance by default.
func (s *source) remarkOnAllowance(y *Year, allowance *templates.Allowance, l *list) {
	var items []Note
	var cost, taken money.Cents
	for a := range ledger.Each(y.Assets) {
		if s.defaultAllowance(a) != allowance {
			continue
		}
		items = append(items, Note{OverYears, []any{a.Record.What, a.Cost, a.Record.Life, a.Now}})
		cost += a.Cost
		taken += PercentOf(a.Cost, allowance.Percent)
	}
	if len(items) > 0 {
		from, _ := calendar.Parse(allowance.From) // a day of the tables; the zero day prints as nothing
		l.add(SecEquipment, cost, AllowanceByDefault, from.Written(s.b.Settings.DayFirst), items, allowance.Percent,
			taken, allowance.Source)
	}
}

func (s *source) remarkOnSale(a *Asset, l *list) {
	result := Note{Gain, []any{a.Sale.Gain}}
	if a.Sale.Gain < 0 {
		result = Note{Loss, []any{-a.Sale.Gain}}
	}
	how := Note{WrittenOffOf, []any{a.Cost, a.Sale.WrittenOff, a.Sale.Left}}
	switch {
	case a.Table == nil:
		how = Note{WrittenOffAtOnce, []any{a.Cost}}
	case a.SameYear():
		how = Note{NotWrittenOff, []any{a.Cost}}
	}
	l.add(SecEquipment, a.Sale.Gain, ToolSold, a.Record.What, a.Record.On, a.Record.SoldOn, a.Record.SoldFor, how, result,
		after("; ", s.tax.Rule(templates.RuleToolSold).Words))
}

func (s *source) remarksOnPieces(l *list) {
	rule := s.tax.Rule(templates.RuleOwnGoods).Words
	if rule == "" {
		return
	}
	for _, p := range s.b.Pieces {
		cost := p.Price + p.TaxPaid + p.Pickup
		if s.inYear(p.GotOn) && p.How == ledger.Own && cost != 0 {
			l.add(SecStock, cost, OwnGoods, p.ID, cost, rule)
		}
	}
}

// remarksOnOpenings tells openings that come after the books began: they are
// on the shelf from the beginning all the same, so that the year's opening is
// not last year's closing as it was handed out.
func (s *source) remarksOnOpenings(l *list) {
	first := s.l.Months[0].Month
	for _, o := range s.b.Openings {
		if o.Cost != 0 && o.On.InMonth() > first && s.inYear(o.On) && first.Year() < s.year {
			l.add(SecShelf, o.Cost, LateOpening, o.Supply, o.On, first)
		}
	}
}

// amountOn is what a line takes of an amount; 0.00 where it does not.
func (y *Year) amountOn(number string, id figures.ID) money.Cents {
	line := y.Line(number)
	if line == nil {
		return 0
	}
	i := slices.IndexFunc(line.Parts, func(p Part) bool { return p.Amount == id })
	if i < 0 {
		return 0
	}
	return line.Parts[i].Cents
}

// formForEquipment says that equipment over years, or above the limit at once,
// was put to use in the year.
func (s *source) formForEquipment() bool {
	return slices.ContainsFunc(s.assets, func(a Asset) bool {
		return a.Record.On.Year == s.year && !a.SameYear() && (a.Table != nil || a.Above)
	})
}

// cents is an amount in units as cents, exact.
func cents(units *big.Rat) *big.Rat { return new(big.Rat).Mul(units, hundred) }
