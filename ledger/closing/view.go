package closing

import (
	"cmp"
	"encoding/json"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// Month is a closed month: all that was given out of it, and what it was made
// from.
type Month struct {
	costing.MonthResult
	// Before is what was there before the books' first month, of the first
	// closed month alone.
	Before      *costing.MonthResult
	Program     string          // the version that closed it
	Figures     json.RawMessage // as figures.json had them
	Records     []Line          // those that counted by its end
	Corrections *Corrections    // that it carried; nil: none
	Files       []File          // the copy of the records, settings.toml among them
	After       string          // the checksum of the closed month before; blank: it is the first
	Sum         string          // its own checksum
}

// File is one file of a copy of the records.
type File struct {
	Name   string `json:"name"` // below the folder
	Size   int64  `json:"size"`
	SHA256 string `json:"sha256"`
}

// Corrections is what the records now give for closed months less what was
// closed for them.
type Corrections struct {
	Last    calendar.Month `json:"last"` // closed month
	Changes []Change       `json:"changes,omitempty"`
	// of the program, before and now, where no record changed and its rules did
	Versions []string         `json:"versions,omitempty"`
	Postings []ledger.Posting `json:"-"` // in the month that carries them
}

// RulesChanged says that no record changed, so the program's rules did.
func (c *Corrections) RulesChanged() bool { return len(c.Versions) > 0 }

// Month is the month that carries them.
func (c *Corrections) Month() calendar.Month { return c.Last + 1 }

// Years is the calendar years of the closed months that are corrected, in order.
func (c *Corrections) Years() []int {
	var out []int
	for i := range c.Postings {
		out = append(out, YearOf(&c.Postings[i]))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// OfYear is the corrections to closed months of a calendar year.
func (c *Corrections) OfYear(year int) []ledger.Posting {
	var out []ledger.Posting
	for i := range c.Postings {
		if YearOf(&c.Postings[i]) == year {
			out = append(out, c.Postings[i])
		}
	}
	return out
}

// IsCorrection says that a posting corrects closed months.
func IsCorrection(p *ledger.Posting) bool { return p.How.Method == ledger.Corrected }

// YearOf is the calendar year that a posting belongs to: of a correction the
// one of the closed months.
func YearOf(p *ledger.Posting) int {
	if IsCorrection(p) && p.How.Quantity != nil {
		return int(p.How.Quantity.Num().Int64())
	}
	return p.Month.Year()
}

// View is a ledger as the closed months have it: closed months as they were
// closed, then the open months of the costed records, the first of them with
// the corrections. What was closed and the corrections come to what the records
// give, always; without closed months the view is the ledger itself. The
// ledger must be of the records as they stand, the closed months in order from
// the first. No corrections where the ledger ends with them, or where there
// are none.
func View(l *costing.Ledger, closed []*Month, program string) (*costing.Ledger, *Corrections) {
	if len(closed) == 0 {
		return l, nil
	}
	last := closed[len(closed)-1]
	books := withGone(l.Books, closed)
	var before costing.MonthResult
	if closed[0].Before != nil {
		before = *closed[0].Before
	}
	var months []costing.MonthResult
	for _, m := range closed {
		months = append(months, m.MonthResult)
	}
	open := l.Months
	for len(open) > 0 && open[0].Month <= last.Month {
		open = open[1:]
	}
	if len(open) == 0 {
		return costing.Of(books, before, months, l.Problems), nil
	}
	// Where the records now begin after the closed months, the months between are empty.
	for m := last.Month + 1; m < open[0].Month; m++ {
		empty := costing.MonthResult{Month: m, Closing: l.Before.Closing}
		empty.Closing.Month = m
		months = append(months, empty)
	}
	months = append(months, open...)
	c := corrections(l, books, closed, program)
	if c != nil {
		month := &months[len(closed)]
		for i := range c.Postings {
			c.Postings[i].Month, c.Postings[i].Date = month.Month, month.Month.First()
		}
		month.Postings = append(slices.Clone(c.Postings), month.Postings...)
	}
	return costing.Of(books, before, months, l.Problems), c
}

// kind is what corrections are summed by. The calendar year is among it, so that
// a preparer sees what reaches back over one: a sale moved from December to
// January is two corrections of one line that come to nothing.
type kind struct {
	year          int
	from, to      ledger.Account
	piece, supply string
	group         string
	reason        ledger.Reason
}

// total is what corrections of a kind come to, and the part of it that is
// supplies that do not stay.
type total struct{ cents, notStaying money.Cents }

// corrections is U − S: what the records give for the closed months less what
// was closed for them, corrections among it.
func corrections(l *costing.Ledger, books *ledger.Books, closed []*Month, program string) *Corrections {
	last := closed[len(closed)-1]
	sums := map[kind]total{}
	basis := map[[2]string]ledger.Basis{}
	given := slices.Clone(l.Before.Postings)
	for _, m := range l.Months {
		if m.Month <= last.Month {
			given = append(given, m.Postings...)
		}
	}
	var posted []ledger.Posting
	if closed[0].Before != nil {
		posted = slices.Clone(closed[0].Before.Postings)
	}
	for _, m := range closed {
		posted = append(posted, m.Postings...)
	}
	for sign, postings := range map[money.Cents][]ledger.Posting{1: given, -1: posted} {
		parts := NewNotStaying(books, postings)
		for p := range ledger.Each(postings) {
			// What was there before the first month belongs to it.
			year := YearOf(p)
			if p.Reason == ledger.ReasonOpening && !IsCorrection(p) {
				year = closed[0].Month.Year()
			}
			k := kind{year, p.From, p.To, p.Piece, p.Supply, p.Group, p.Reason}
			sums[k] = total{sums[k].cents + sign*p.Cents, sums[k].notStaying + sign*parts.Of(p)}
			if p.Supply != "" && p.Basis != "" && sign > 0 {
				basis[[2]string{p.Piece, p.Supply}] = p.Basis
			}
		}
	}
	c := &Corrections{Last: last.Month}
	for k, sum := range sums {
		if sum != (total{}) {
			c.Postings = append(c.Postings, k.posting(sum, basis[[2]string{k.piece, k.supply}]))
		}
	}
	if len(c.Postings) == 0 {
		return nil
	}
	slices.SortFunc(c.Postings, compare)
	c.Changes = Compare(last.Records, LinesOf(l.Books), last.Month).Changes
	if len(c.Changes) == 0 {
		c.Versions = []string{last.Program, program}
	}
	return c
}

// posting is a correction.
func (k kind) posting(sum total, basis ledger.Basis) ledger.Posting {
	p := ledger.Posting{Cents: sum.cents, From: k.from, To: k.to, Piece: k.piece, Supply: k.supply, Group: k.group,
		Reason: k.reason, Basis: basis,
		How: ledger.Derivation{Method: ledger.Corrected, Quantity: big.NewRat(int64(k.year), 1)}}
	if sum.notStaying != 0 {
		p.How.Amounts = []ledger.Amount{{Name: ledger.AmountNotStaying, Cents: sum.notStaying}}
	}
	return p
}

// compare orders corrections by what they say.
func compare(a, b ledger.Posting) int {
	return cmp.Or(cmp.Compare(YearOf(&a), YearOf(&b)), cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Supply, b.Supply),
		cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To), cmp.Compare(a.Group, b.Group), cmp.Compare(a.Reason, b.Reason))
}

// withGone is the books with the supplies that were on the shelf in a closed
// month and stand in no record any more, so that the shelf still rolls forward.
func withGone(b *ledger.Books, closed []*Month) *ledger.Books {
	known := map[string]bool{}
	for i := range b.Supplies {
		known[b.Supplies[i].Name] = true
	}
	out := *b
	for _, m := range slices.Backward(closed) {
		for _, l := range m.Records {
			name := l.Cells["supply"]
			if l.Table != "supplies" || known[name] || len(m.Closing.Shelf[name].Layers) == 0 {
				continue
			}
			known[name] = true
			out.Supplies = append(slices.Clone(out.Supplies), ledger.Supply{At: l.Place, Name: name, Group: l.Cells["group"],
				Container: l.Cells["container"],
				ShareBy:   ledger.ShareBy(l.Cells["share_by"]), Stays: l.Cells["stays"] == "yes", Caution: l.Cells["caution"]})
		}
	}
	return &out
}

// Seal closes the first open month of a view: what it gives out, and the lines
// it was made from. Figures are its figures.json, files the copy of the records.
func Seal(view *costing.Ledger, carried *Corrections, closed []*Month, program string, figures []byte, records []Line,
	files []File) *Month {
	m := view.Months[len(closed)]
	counted := slices.Collect(Until(slices.Values(records), m.Month))
	s := &Month{MonthResult: m, Program: program, Figures: figures, Records: counted, Files: files,
		Corrections: carried}
	if len(closed) == 0 {
		before := view.Before
		s.Before = &before
	} else {
		s.After = closed[len(closed)-1].Sum
	}
	return s
}
