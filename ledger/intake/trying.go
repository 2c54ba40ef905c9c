package intake

import (
	"io/fs"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// trial is how proposals are tried: with lines pasted, or with lines that are not
// to be proposed.
type trial struct{ pasted, rejected []settings.Proposal }

// triedRowsMax is up to how many rows proposals are tried: it takes reading all
// of them again.
const triedRowsMax = 20_000

// absurdLines are the proposed lines without which the books would not be absurd,
// where they are with all of them, the lines reported as one of several meanings
// that would make them absurd alone, and of lines of which one is proposed those before
// the best.
func absurdLines(fsys fs.FS, t *templates.Set, without []fault.Place, first *Result) (bad []settings.Proposal) {
	rows := 0
	for _, tally := range first.Tally {
		rows += tally.Rows
	}
	lines := first.Proposals
	if len(lines)+len(first.reported) == 0 || rows > triedRowsMax {
		return nil
	}
	with := func(pasted []settings.Proposal) *Result { return read(fsys, t, without, trial{pasted: pasted}) }
	for _, choice := range first.choices {
		bad = append(bad, worse(with, choice, first)...)
	}
	if len(bad) > 0 || isAbsurd(&first.Books, nil) {
		return bad
	}
	absurd := func(pasted []settings.Proposal) bool {
		res := with(pasted)
		return isAbsurd(&res.Books, &first.Books) || hasNoHeader(res) && !hasNoHeader(first) ||
			mostRead(with, res, pasted) < first.Money.Read
	}
	for len(lines) > 0 && absurd(lines) {
		worst := slices.IndexFunc(lines, func(p settings.Proposal) bool {
			return !absurd(slices.DeleteFunc(slices.Clone(lines), func(q settings.Proposal) bool { return q == p }))
		})
		if worst < 0 {
			worst = len(lines) - 1 // no single one: the last goes, and the rest is tried again
		}
		bad = append(bad, lines[worst])
		lines = slices.Delete(slices.Clone(lines), worst, worst+1)
	}
	for i, p := range first.reported {
		if rows*(i+1) > triedRowsMax {
			break // each takes a reading of its own
		}
		if absurd([]settings.Proposal{p}) {
			bad = append(bad, p)
		}
	}
	return bad
}

// stepsMost is how many times what is proposed is followed, one proposal leading to the
// next: a sheet's table, then its columns.
const stepsMost = 3

// mostRead is the most money that is read with lines pasted, or with those that are then
// proposed too. res is the reading with them.
func mostRead(with func([]settings.Proposal) *Result, res *Result, pasted []settings.Proposal) money.Cents {
	most := res.Money.Read
	for range stepsMost {
		if len(res.Proposals) == 0 {
			break
		}
		pasted = slices.Concat(pasted, res.Proposals)
		res = with(pasted)
		most = max(most, res.Money.Read)
	}
	return most
}

// worse are the lines of a choice before the one with which the most money is read, all
// where none reads more than is read without.
func worse(with func([]settings.Proposal) *Result, choice []settings.Proposal, first *Result) []settings.Proposal {
	best, most := len(choice), first.Money.Read
	for i, p := range choice {
		pasted := []settings.Proposal{p}
		if n := mostRead(with, with(pasted), pasted); n > most {
			best, most = i, n
		}
	}
	return choice[:best]
}

// hasNoHeader says that a sheet named for a table has none of its columns.
func hasNoHeader(r *Result) bool {
	return slices.ContainsFunc(r.Problems.All(), func(p fault.Problem) bool { return p.Code == fault.CodeNoHeader })
}

// How many records it takes to call what most of them say absurd.
const (
	absurdSales = 2
	absurdTrips = 2
	absurdDays  = 8
)

// absurdMiles is further than a shop drives in a day: what an odometer shows.
var absurdMiles = big.NewRat(2_000, 1)

// isAbsurd says that books are such as no shop has: in most sales that have one
// the fee is half the price or more, or what the piece cost, most prices are 1.00 or less, most sales are
// before the piece came, most trips are longer than a day's drive, or all days fall
// into one month that did not before (nil: that is not looked at).
func isAbsurd(b, before *ledger.Books) bool {
	sales, small, withFee, feeHigh, feeIsCost, early := 0, 0, 0, 0, 0, 0
	pieces := map[string]ledger.Piece{}
	for _, p := range b.Pieces {
		pieces[p.ID] = p
	}
	for _, s := range b.Sales {
		if s.Type != ledger.SaleLine {
			continue
		}
		if slices.ContainsFunc(s.Pieces, func(p string) bool { return s.On.Before(pieces[p].GotOn) }) {
			early++
		}
		if sales++; s.Price <= money.Cents(100) {
			small++
		}
		if s.Fee != nil && *s.Fee > 0 {
			if withFee++; 2**s.Fee >= s.Price {
				feeHigh++
			}
			if p := pieces[s.Pieces[0]]; len(s.Pieces) == 1 && p.Price > 0 && p.Price == *s.Fee {
				feeIsCost++ // the profit, taken for what was left
			}
		}
	}
	long := 0
	for _, trip := range b.Trips {
		if trip.Miles.Cmp(absurdMiles) > 0 {
			long++
		}
	}
	switch {
	case long >= absurdTrips && 2*long > len(b.Trips), sales >= absurdSales && 2*max(small, early) > sales,
		withFee >= absurdSales && 2*max(feeHigh, feeIsCost) > withFee:
		return true
	case before == nil:
		return false
	}
	days, months := daysOf(b)
	_, earlier := daysOf(before)
	return days >= absurdDays && months == 1 && earlier > 1
}

// daysOf counts the days of all records, and their months.
func daysOf(b *ledger.Books) (days, months int) {
	of := map[calendar.Month]bool{}
	for rec := range b.Records() {
		if !rec.On.IsZero() {
			days++
			of[calendar.MonthOf(rec.On.Year, rec.On.Month)] = true
		}
	}
	return days, len(of)
}
