package taxyear

import (
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// The sections of the year's pages, for what points at them.
const (
	SecIncome    = "income"
	SecCost      = "cost"
	SecStock     = "stock"
	SecShelf     = "shelf"
	SecGone      = "gone"
	SecMileage   = "mileage"
	SecEquipment = "equipment"
	SecSalesTax  = "sales-tax"
	SecPayees    = "payees"
	SecHome      = "home"
	SecExpenses  = "expenses"
	SecPapers    = "papers"
	SecChannels  = "channels"
)

// list gathers what is missing.
type list []Missing

func (l *list) add(section string, cents money.Cents, says Sentence, of ...any) {
	*l = append(*l, Missing{Note: Note{says, of}, Cents: cents, Section: section})
}

// missing is what the owner can still find, in the order of the pages.
func (s *source) missing(y *Year) []Missing {
	var l list
	if !y.Whole() {
		after := Note{Says: NoRecord}
		if y.Last != 0 {
			after = Note{LastRecord, []any{y.Last}}
		}
		l.add("", 0, NotWhole, after)
	}
	s.missingStatements(y, &l)
	s.missingPapers(y, &l)
	s.missingGone(y, &l)
	s.missingMileage(y, &l)
	s.missingSales(y, &l)
	s.missingHome(y, &l)
	s.missingCounts(y, &l)
	return l
}

// missingCounts asks for the counts of the year's end, once it is there.
func (s *source) missingCounts(y *Year, l *list) {
	if !y.Whole() {
		return
	}
	var uncounted []string
	var cents money.Cents
	for _, x := range y.Shelf {
		if x.Line.Closing != 0 && !x.Counted {
			uncounted = append(uncounted, x.Line.Supply.Name)
			cents += x.Line.Closing
		}
	}
	if len(uncounted) > 0 {
		l.add(SecShelf, cents, NotCounted, len(uncounted), uncounted)
	}
}

func (s *source) missingStatements(y *Year, l *list) {
	have := map[string]bool{}
	for _, x := range y.Statements {
		have[strings.ToLower(x.Record.Channel)] = true
		if x.Remainder != 0 {
			l.add(SecChannels, x.Remainder, NotExplained, x.Record.Channel, x.Record.Gross, x.Remainder, x.Causes[0])
		}
	}
	for _, c := range y.Channels {
		if c.Name != "" && c.Sales > 0 && c.Fees != 0 && !have[strings.ToLower(c.Name)] && s.mustReport(c) {
			l.add(SecChannels, c.Gross(), NoStatement, c.Name)
		}
	}
}

// missingSales asks for the sale of a tool that other income has the money of
// and Equipment does not know: it ends the write-off.
func (s *source) missingSales(y *Year, l *list) {
	if register, income := s.toolsSold(y); income > register {
		l.add(SecEquipment, income-register, NoSale, income, register)
	}
}

// toolsSold is what the year's tools were sold for by Equipment, and by other
// income.
func (s *source) toolsSold(y *Year) (register, income money.Cents) {
	for _, a := range y.Assets {
		if a.Sale != nil && a.Record.SoldOn.Year == s.year {
			register += a.Record.SoldFor
		}
	}
	for _, o := range s.b.OtherIncome {
		if s.inYear(o.On) && o.Group == GroupToolSold {
			income += o.Amount
		}
	}
	return register, income
}

// mustReport says that a channel's gross, with the taxes collected, is above
// both limits of what must be reported; true where no limits are known.
func (s *source) mustReport(c Channel) bool {
	limit := s.tax.Reports
	return limit.Gross == nil || c.Sales > limit.Sales &&
		(c.Gross()+c.SalesTax+c.MarketplaceTax).Rat().Cmp(cents(limit.Gross)) > 0
}

func (s *source) missingPapers(y *Year, l *list) {
	if n := len(y.NoReceipt); n > 0 {
		var sum money.Cents
		for _, p := range y.NoReceipt {
			sum += p.Cents
		}
		l.add(SecPapers, sum, NoReceipts, n, s.b.Settings.ReceiptsOver, sum)
	}
	var unnamed money.Cents
	var of []Note
	for _, p := range y.Payees {
		if p.Name == "" {
			unnamed += p.Cents
			of = append(of, Note{PaidFor, []any{p.Cents, p.Kind.What}})
		}
	}
	if len(of) > 0 {
		l.add(SecPayees, unnamed, NoPayee, of)
	}
}

func (s *source) missingGone(y *Year, l *list) {
	for _, g := range y.Gone {
		x := g.Removal
		if !s.inYear(x.On) {
			continue
		}
		switch {
		case x.Why == ledger.Donated && x.Value == nil:
			l.add(SecGone, g.Cost, DonatedNoValue, x.Piece)
		case x.Why == ledger.Donated && x.Receipt == "":
			l.add(SecGone, g.Cost, DonatedNoReceipt, x.Piece)
		case x.Why == ledger.Kept && x.Value == nil:
			l.add(SecGone, g.Cost, KeptNoValue, x.Piece)
		case x.Why == ledger.Stolen && x.Receipt == "":
			l.add(SecGone, g.Cost, StolenNoPaper, x.Piece)
		}
	}
}

func (s *source) missingMileage(y *Year, l *list) {
	if len(y.Mileage.Trips) == 0 {
		return
	}
	asked := y.Table.Words.Vehicle // a form that asks neither misses neither
	if asked.Service.Plain != "" && s.b.Settings.InService.IsZero() {
		l.add(SecMileage, 0, NoFirstUse)
	}
	unit := s.b.Settings.DistanceUnit()
	switch {
	case asked.Other.Plain == "":
	case y.Mileage.Total == nil && !y.Whole(): // not known before the year's end
	case y.Mileage.Total == nil:
		l.add(SecMileage, 0, NoDistance, unit, s.year)
	case y.Mileage.Total.Cmp(y.Mileage.Miles) < 0:
		l.add(SecMileage, 0, DistanceBelowLog, unit, s.year)
	}
	for _, d := range y.Mileage.Trips {
		if d.Record.To == "" {
			l.add(SecMileage, 0, NoDestination, d.Record.On.Written(s.b.Settings.DayFirst))
			break
		}
	}
}

// after is words with what stands between them and what is before; blank where
// there are none.
func after(between, words string) string {
	if words == "" {
		return ""
	}
	return between + words
}
