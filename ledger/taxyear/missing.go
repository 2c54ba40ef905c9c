package taxyear

import (
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
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

func (l *list) add(section string, cents money.Cents, words string, args ...any) {
	*l = append(*l, Missing{Words: fmt.Sprintf(words, args...), Cents: cents, Section: section})
}

// missing is what the owner can still find, in the order of the pages.
func (s *source) missing(y *Year) []Missing {
	var l list
	if !y.Whole() {
		after := "no record is dated in it"
		if y.Last != 0 {
			after = "the last record is of " + y.Last.Name()
		}
		l.add("", 0, "The year is not whole: %s.", after)
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
	for _, x := range y.Shelf {
		if x.Line.Closing != 0 && !x.Counted {
			uncounted = append(uncounted, x.Line.Supply.Name)
		}
	}
	if len(uncounted) > 0 {
		var cents money.Cents
		for _, x := range y.Shelf {
			if !x.Counted {
				cents += x.Line.Closing
			}
		}
		l.add(SecShelf, cents, "The shelf was not counted at the year's end for %d %s: %s. A count of 1 to 5 January still "+
			"closes December.", len(uncounted), fault.Plural(len(uncounted), "supply", "supplies"), names(uncounted))
	}
}

func (s *source) missingStatements(y *Year, l *list) {
	have := map[string]bool{}
	for _, x := range y.Statements {
		have[strings.ToLower(x.Record.Channel)] = true
		if x.Remainder != 0 {
			l.add(SecChannels, x.Remainder, "%s reported %s; the recorded sales explain all but %s. %s", x.Record.Channel,
				x.Record.Gross.Grouped(), x.Remainder.Grouped(), first(x.Causes))
		}
	}
	for _, c := range y.Channels {
		if c.Name != "" && c.Sales > 0 && c.Fees != 0 && !have[strings.ToLower(c.Name)] && s.mustReport(c) {
			l.add(SecChannels, c.Gross(), "No yearly statement of %s is in Statements. If it sent one, enter it.", c.Name)
		}
	}
}

// missingSales asks for the sale of a tool that other income has the money of
// and Equipment does not know: it ends the write-off.
func (s *source) missingSales(y *Year, l *list) {
	if register, income := s.toolsSold(y); income > register {
		l.add(SecEquipment, income-register, "Other income has %s of tools sold, Equipment %s. Fill in sold on and sold for "+
			"of each tool that was in Equipment, so that its write-off ends.", income.Grouped(), register.Grouped())
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
		l.add(SecPapers, sum, "%d %s above %s %s no receipt: %s together.", n, fault.Plural(n, "cost", "costs"),
			s.b.Settings.ReceiptsOver.Grouped(), fault.Plural(n, "names", "name"), sum.Grouped())
	}
	var unnamed money.Cents
	var of []string
	for _, p := range y.Payees {
		if p.Name == "" {
			unnamed += p.Cents
			of = append(of, p.Cents.Grouped()+" for "+p.Kind.What)
		}
	}
	if len(of) > 0 {
		l.add(SecPayees, unnamed, "No payee is named for %s. Fill in to on those rows of Expenses, from on those of Parts.",
			strings.Join(of, ", "))
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
			l.add(SecGone, g.Cost, "%s was donated; its fair value that day is not written down (value in Removals).", x.Piece)
		case x.Why == ledger.Donated && x.Receipt == "":
			l.add(SecGone, g.Cost, "%s was donated; no receipt is named.", x.Piece)
		case x.Why == ledger.Kept && x.Value == nil:
			l.add(SecGone, g.Cost, "%s was kept; its fair value that day is not written down (value in Removals).", x.Piece)
		case x.Why == ledger.Stolen && x.Receipt == "":
			l.add(SecGone, g.Cost, "%s was stolen; no police or insurance paper is named (receipt in Removals).", x.Piece)
		}
	}
}

func (s *source) missingMileage(y *Year, l *list) {
	if len(y.Mileage.Trips) == 0 {
		return
	}
	if s.b.Settings.InService.IsZero() {
		l.add(SecMileage, 0, "The day the vehicle was first used for the business is not given: in_service under [vehicle] "+
			"in settings.toml.")
	}
	unit := s.b.Settings.DistanceUnit()
	switch {
	case y.Mileage.Total == nil && !y.Whole(): // not known before the year's end
	case y.Mileage.Total == nil:
		l.add(SecMileage, 0, "The vehicle's total %s of %d are not given: \"%d\" under [vehicle] in settings.toml.", unit,
			s.year, s.year)
	case y.Mileage.Total.Cmp(y.Mileage.Miles) < 0:
		l.add(SecMileage, 0, "The vehicle's total %s of %d in settings.toml are fewer than the log's.", unit, s.year)
	}
	for _, d := range y.Mileage.Trips {
		if d.Record.To == "" {
			l.add(SecMileage, 0, "Some trips do not say where they went (to in Trips), the first on %s.",
				d.Record.On.Written(s.b.Settings.DayFirst))
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

func first(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// names is up to six names.
func names(of []string) string {
	if len(of) > 6 {
		return strings.Join(of[:6], ", ") + fmt.Sprintf(" and %d more", len(of)-6)
	}
	return strings.Join(of, ", ")
}
