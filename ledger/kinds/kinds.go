package kinds

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
	"piecebook/ledger/statistics"
)

// FewestSales is how many sales with hours (or losses) a kind must have to be
// ranked; under it, it stands below the ranking with its interval.
const FewestSales = 3

// Windows are the days from listing after which the share sold is shown.
var Windows = [3]int{30, 60, 90}

// Report is the kinds beside each other, as they stand at the end of a month.
type Report struct {
	Scope    Scope
	End      calendar.Month
	Target   money.Cents // an hour
	Costs    ShopCosts   // usual, of an hour
	Trend    Trend
	Kinds    []Kind    // ranked ones first, best first; then the others by name
	Shop     Kind      // all kinds together
	Channels []Channel // by what is left, most first
	Clients  Commissions
	Coverage []Coverage // by supply
	Unlisted int        // sold in the scope without a day of listing
}

// Kind is one kind's pieces. Money is exact. What has no value is nil.
type Kind struct {
	Name     string
	Got      int    // that came in the scope
	Finished int    // in it
	Sold     int    // in it, and not come back
	Lost     int    // scrapped or stolen in it
	InStock  int    // at the end
	Judged   []Life // the sold and lost, by the day they left

	Result         money.Cents // Σ profit, with what was received for lost ones
	Hours          *big.Rat    // Σ, of those that have any
	Timed          int         // how many count by the hour: with hours, or lost before any work
	TimedResult    money.Cents // Σ profit of those
	PerHour        *money.Cents
	Median         *money.Cents // of the pieces' profits
	Least, Most    *money.Cents
	Coated         *big.Rat // Σ, of those that have any
	PerCoated      *money.Cents
	Receipts       money.Cents
	SoldLessBought money.Cents // Σ receipts - acquisition
	Margin         *big.Rat    // Σ profit ÷ Σ receipts
	AtALoss        int         // sold for less than everything cost

	BenchToListed Days
	ListedToSold  Days
	Held          Days // from getting it to selling it

	TiedUp    money.Cents // book cost of those in stock at the end
	TiedHours *big.Rat    // and the hours in them

	Listed   int // in the scope
	Estimate Estimate
}

// Days is the spread of a number of days over N pieces.
type Days struct {
	N                   int
	Least, Median, Most int // the median rounded half to even
}

// Commissions is the work on clients' pieces.
type Commissions struct {
	Done     int // sold (handed over) in the scope
	InHand   int // at the end
	Receipts money.Cents
	Result   money.Cents
	Hours    *big.Rat
	PerHour  *money.Cents
}

// Of puts the kinds beside each other. The ledger is costed up to the month
// whose end it is; the scope says which pieces count.
func Of(l *costing.Ledger, scope Scope) Report { return OfLives(l, Lives(l), scope) }

// OfLives is Of for who has every piece's life already.
func OfLives(l *costing.Ledger, lives []Life, scope Scope) Report {
	r := Report{Scope: scope, Target: l.Books.Settings.TargetHourly}
	if len(l.Months) > 0 {
		r.End = l.Months[len(l.Months)-1].Month
	}
	byKind := map[string][]Life{}
	var all []Life
	for _, x := range lives {
		if x.Client() {
			continue
		}
		byKind[x.Kind] = append(byKind[x.Kind], x)
		all = append(all, x)
		if x.Sold() && scope.Has(x.Left) && x.Record.ListedOn.IsZero() {
			r.Unlisted++
		}
	}
	r.Costs = CostsOf(l)
	r.Shop = kindOf("All kinds", all, scope, r.End)
	for name, pieces := range byKind {
		r.Kinds = append(r.Kinds, kindOf(name, pieces, scope, r.End))
	}
	// Before anything is drawn from them the kinds stand by name, so that sums
	// of floats come out the same each time.
	slices.SortFunc(r.Kinds, func(a, b Kind) int { return cmp.Compare(a.Name, b.Name) })
	r.estimate()
	r.Channels = channelsOf(l, lives, scope, r.End)
	r.Clients = commissionsOf(lives, scope)
	r.Coverage = CoverageOf(l)
	return r
}

// kindOf sums up one kind.
func kindOf(name string, pieces []Life, scope Scope, end calendar.Month) Kind {
	k := Kind{Name: name, Hours: new(big.Rat), Coated: new(big.Rat), TiedHours: new(big.Rat)}
	for _, x := range pieces {
		if scope.Has(x.Record.GotOn) {
			k.Got++
		}
		if scope.Has(x.Record.FinishedOn) && x.Record.FinishedOn.InMonth() <= end {
			k.Finished++
		}
		if x.Status == costing.InStock {
			k.InStock++
			k.TiedUp += x.BookCost
			k.TiedHours.Add(k.TiedHours, x.Hours)
		}
		if x.Judged && scope.Has(x.Left) {
			k.Judged = append(k.Judged, x)
		}
	}
	slices.SortFunc(k.Judged, ByLeaving)
	k.sum()
	k.days()
	var waits []statistics.Wait
	waits, k.Listed = waitsOf(pieces, scope, end)
	k.Estimate.Within = within(waits)
	return k
}

// sum adds up what the judged pieces brought.
func (k *Kind) sum() {
	var results []money.Cents
	var coatedResult money.Cents
	for _, x := range k.Judged {
		results = append(results, x.Result)
		k.Result += x.Result
		k.Receipts += x.Receipts
		k.SoldLessBought += x.Receipts - x.Acquisition
		if x.Sold() {
			k.Sold++
			if x.Result < 0 {
				k.AtALoss++
			}
		} else {
			k.Lost++
		}
		if x.ByHour() {
			k.Timed++
			k.TimedResult += x.Result
			k.Hours.Add(k.Hours, x.Hours)
		}
		if x.Coated.Sign() > 0 {
			k.Coated.Add(k.Coated, x.Coated)
			coatedResult += x.Result
		}
	}
	k.PerHour = per(k.TimedResult, k.Hours)
	k.PerCoated = per(coatedResult, k.Coated)
	if k.Receipts > 0 {
		k.Margin = new(big.Rat).Quo(k.Result.Rat(), k.Receipts.Rat())
	}
	if len(results) > 0 {
		least, most := slices.Min(results), slices.Max(results)
		middle, _ := money.Median(results)
		k.Least, k.Most, k.Median = &least, &most, &middle
	}
}

// days gathers how long the sold ones took.
func (k *Kind) days() {
	var bench, listed, held []int
	for _, x := range k.Judged {
		if !x.Sold() {
			continue
		}
		r := x.Record
		if !r.StartedOn.IsZero() && !r.ListedOn.IsZero() {
			bench = append(bench, r.ListedOn.DaysSince(r.StartedOn))
		}
		if !r.ListedOn.IsZero() {
			listed = append(listed, x.Left.DaysSince(r.ListedOn))
		}
		if x.DaysHeld != nil {
			held = append(held, *x.DaysHeld)
		}
	}
	k.BenchToListed, k.ListedToSold, k.Held = daysOf(bench), daysOf(listed), daysOf(held)
}

func daysOf(days []int) Days {
	if len(days) == 0 {
		return Days{}
	}
	cents := make([]money.Cents, len(days))
	for i, d := range days {
		cents[i] = money.Cents(d)
	}
	middle, _ := money.Median(cents)
	return Days{len(days), slices.Min(days), int(middle), slices.Max(days)}
}

// per is an amount for one of what there is so much of; nil of none.
func per(amount money.Cents, of *big.Rat) *money.Cents {
	if of.Sign() <= 0 {
		return nil
	}
	rate := money.Round(new(big.Rat).Quo(amount.Rat(), of))
	return &rate
}

// commissionsOf sums up clients' pieces.
func commissionsOf(lives []Life, scope Scope) Commissions {
	c := Commissions{Hours: new(big.Rat)}
	var timed money.Cents
	for _, x := range lives {
		switch {
		case !x.Client():
		case x.Status == "client":
			c.InHand++
		case x.Sold() && scope.Has(x.Left):
			c.Done++
			c.Receipts += x.Receipts
			c.Result += x.Result
			if x.Timed() {
				timed += x.Result
				c.Hours.Add(c.Hours, x.Hours)
			}
		}
	}
	c.PerHour = per(timed, c.Hours)
	return c
}
