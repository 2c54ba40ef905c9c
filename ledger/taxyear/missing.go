package taxyear

import (
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
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
	SecWorkers   = "workers"
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
	if y.Last < s.to {
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
	return l
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
		if c.Name != "" && c.Sales > 0 && c.Fees != 0 && !have[strings.ToLower(c.Name)] {
			l.add(SecChannels, c.Gross(), "No yearly statement of %s is in Statements. If it sent one, enter it.", c.Name)
		}
	}
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
	for _, w := range y.Workers {
		if w.Name == "" {
			l.add(SecWorkers, w.Cents, "Outside work of %s does not say who did it. Fill in from on its rows of Parts.",
				w.Cents.Grouped())
		}
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
	case y.Mileage.Total == nil:
		l.add(SecMileage, 0, "The vehicle's total %s of %d are not given: \"%d\" under [vehicle] in settings.toml.", unit,
			s.year, s.year)
	case y.Mileage.Total.Cmp(y.Mileage.Miles) < 0:
		l.add(SecMileage, 0, "The vehicle's total %s of %d in settings.toml are fewer than the log's.", unit, s.year)
	}
	for _, d := range y.Mileage.Trips {
		if d.Record.To == "" {
			l.add(SecMileage, 0, "Some trips do not say where they went (to in Trips), the first on %s.", d.Record.On)
			break
		}
	}
}

// remarks is what only a preparer can decide.
func (s *source) remarks(y *Year) []Missing {
	var l list
	if y.Table.Check != "" {
		l.add("", 0, "%s", y.Table.Check)
	}
	if c := y.Figures.Currency; c != y.Table.Money.Code {
		l.add("", 0, "The lines, limits and built-in rates are those of %s, in %s; the books are in %s.", y.Table.Form,
			y.Table.Money.Name, c)
	}
	if held := y.Figures.Statement.PartPaymentsUnfinished; held != 0 {
		l.add(SecIncome, held, "Line %s has %s of part payments on pieces that had not left at the year's end: "+
			"they count on "+
			"the day the money came.", y.Number(figures.LineGrossReceipts), held.Grouped())
	}
	for _, line := range y.Lines {
		if line.Check != "" && line.Cents != 0 {
			l.add(SecCost, 0, "Line %s: %s", line.Line, line.Check)
		}
	}
	if x := y.LateBuying; x != nil {
		l.add(SecEquipment, x.Last, "Of the %s of equipment bought in %d to be written off over years, %s came in the last "+
			"quarter: above %s %%, where another table (mid-quarter) takes the place of the one used here (%s). It is not worked out here.",
			x.All.Grouped(), s.year, x.Last.Grouped(), s.tax.Depreciation.LastQuarterPercent.FloatString(0), x.Source)
	}
	s.remarksOnAssets(y, &l)
	s.remarksOnPieces(&l)
	if s.whenUsed {
		for _, g := range y.Gone {
			if left := s.outUpTo(g.Piece.Record.ID, s.to); left != 0 && (g.Removal.Why == ledger.Kept ||
				g.Removal.Why == ledger.Donated) {
				l.add(SecGone, left, "%s was %s; %s of supplies that do not stay on it were counted when used and are "+
					"not taken back.", g.Removal.Piece, g.Removal.Why, left.Grouped())
			}
		}
	}
	s.remarksOnOpenings(&l)
	return l
}

func (s *source) remarksOnAssets(y *Year, l *list) {
	for _, a := range y.Assets {
		if a.Above && a.Record.On.Year == s.year {
			l.add(SecEquipment, a.Cost, "%s cost %s, above the limit per item, and is written off at once as its row says: a "+
				"preparer's decision%s.", a.Record.What, a.Cost.Grouped(), after(", ", s.tax.Rule(templates.RuleAbove).Words))
		}
	}
	for _, o := range s.b.OtherIncome {
		if s.inYear(o.On) && o.Group == "tool sold" {
			l.add(SecEquipment, o.Amount, "%s: a tool was sold for %s. If it is in the equipment register, its write-off ends "+
				"with the sale, which is not worked out here.", o.What, o.Amount.Grouped())
		}
	}
}

func (s *source) remarksOnPieces(l *list) {
	rule := s.tax.Rule(templates.RuleOwnGoods).Words
	if rule == "" {
		return
	}
	for _, p := range s.b.Pieces {
		cost := p.Price + p.TaxPaid + p.Pickup
		if s.inYear(p.GotOn) && p.How == ledger.Own && cost != 0 {
			l.add(SecStock, cost, "%s was the household's own and came in at %s; %s.", p.ID, cost.Grouped(), rule)
		}
	}
}

// remarksOnOpenings tells openings that come after the books began: they are
// on the shelf from the beginning all the same, so that the year's opening is
// not last year's closing as it was handed out.
func (s *source) remarksOnOpenings(l *list) {
	first := s.l.Months[0].Month
	for _, o := range s.b.Openings {
		if o.On.InMonth() > first && s.inYear(o.On) && first.Year() < s.year {
			l.add(SecShelf, o.Cost, "The opening of %s is dated %s, after the books began (%s): it is in the stock of the "+
				"beginning, so this year's opening differs from the closing handed out before it was entered.", o.Supply, o.On,
				first.Name())
		}
	}
}

// OpeningWords compares a year's opening line with the closing line that was
// handed out for the year before; blank where they agree.
func (y *Year) OpeningWords(closing money.Cents, from string) string {
	_, opening := y.Taking(figures.LineOpeningStock)
	if opening == closing {
		return ""
	}
	return fmt.Sprintf("The year opens with %s; %s closed %d with %s, %s apart. Records of %d or before were changed "+
		"since: explain it on the return, or make that year's pages again.",
		opening.Grouped(), from, y.Year-1, closing.Grouped(), (opening - closing).Grouped(), y.Year-1)
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
