package checks

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// channelKey is a channel's name without regard to case and outer blanks.
func channelKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// channelsOnce refuses two lines of one channel from one date.
func (l *look) channelsOnce() {
	type terms struct {
		name string
		from calendar.Date
	}
	first := map[terms]*ledger.Channel{}
	lines := byDate(l.books.Channels, func(c *ledger.Channel) (calendar.Date, fault.Place) { return c.FromDate, c.At })
	for _, c := range lines {
		k := terms{channelKey(c.Name), c.FromDate}
		other := first[k]
		if other == nil {
			first[k] = c
			continue
		}
		from := "without a day from which it holds"
		if !c.FromDate.IsZero() {
			from = "from " + l.day(c.FromDate)
		}
		l.fail(fault.CodeChannelTwice, c.At.At("from_date"), l.day(c.FromDate),
			fmt.Sprintf("%s has two lines %s, this one and %s.", c.Name, from, other.At.Short()),
			"Delete one of the two, or type the day these terms began in From date.")
	}
}

// feesWorkedOut notes a sale or part payment whose fee is blank on a channel
// without terms for that day, where some channels have terms. It could move
// the highest fee_percent of any channel on its price and delivery charge.
func (l *look) feesWorkedOut() {
	if len(l.books.Channels) == 0 {
		return
	}
	since := map[string]calendar.Date{}
	var names []string
	highest := new(big.Rat)
	for c := range ledger.Each(l.books.Channels) {
		key := channelKey(c.Name)
		if from, listed := since[key]; !listed || c.FromDate.Before(from) {
			since[key] = c.FromDate
		}
		names = append(names, c.Name)
		if c.FeePercent != nil && c.FeePercent.Cmp(highest) > 0 {
			highest = c.FeePercent
		}
	}
	for s := range ledger.Each(l.past.Sales) {
		key := channelKey(s.Channel)
		if s.Fee != nil || key == "" || (s.Type != ledger.SaleLine && s.Type != ledger.PartPayment) {
			continue
		}
		from, listed := since[key]
		if listed && !s.On.Before(from) {
			continue
		}
		why := fmt.Sprintf("%s is not in Channels, so no fee was worked out.", s.Channel)
		fix := fmt.Sprintf("Type the fee in Fee (0 if there was none), or add %s to Channels.", s.Channel)
		if near := fault.Nearest(s.Channel, names); listed {
			why = fmt.Sprintf("%s has no terms before %s in Channels, so no fee was worked out.", s.Channel,
				l.day(from))
			fix = fmt.Sprintf("Type the fee in Fee (0 if there was none), or add a line for %s with an earlier From "+
				"date to Channels.", s.Channel)
		} else if near != "" {
			fix = fmt.Sprintf("If it is %s, type that here. If not, type the fee in Fee (0 if there was none), or add "+
				"%s to Channels.", near, s.Channel)
		}
		moves := money.Round(new(big.Rat).Mul((s.Price + s.DeliveryCharged).Rat(), new(big.Rat).Quo(highest,
			big.NewRat(100, 1))))
		l.note(fault.CodeNoFeeWorkedOut, saleCell(s, "channel"), s.Channel, why, fix, moves)
	}
}

// fuelWords name what a mile's rate pays for already.
var fuelWords = []string{"fuel", "gas", "petrol", "diesel"}

// fuelAndMiles notes fuel among the expenses of a year in which miles are
// claimed. It could move the line's amount. A gas bill among the utilities
// heats the shop.
func (l *look) fuelAndMiles() {
	trips := map[int]int{}
	for i := range l.past.Trips {
		trips[l.past.Trips[i].On.Year]++
	}
	for e := range ledger.Each(l.past.Expenses) {
		words := strings.FieldsFunc(strings.ToLower(e.What), func(r rune) bool { return !unicode.IsLetter(r) })
		fuel := slices.ContainsFunc(words, func(w string) bool { return slices.Contains(fuelWords, w) })
		n := trips[e.On.Year]
		if !fuel || n == 0 || e.Group == "utilities" {
			continue
		}
		l.note(fault.CodeFuelAndMiles, e.At.At("what"), e.What,
			fmt.Sprintf("Trips in %d claim %s by a rate that pays for fuel already.", e.On.Year,
				l.books.Settings.DistanceUnit()),
			"Delete this line if the fuel was for the vehicle; otherwise leave it.", e.Amount)
	}
}

// foreignMileage notes, at the first of them, the trips whose distance is cost by
// the built-in rate of a country with other money. It could move all of it.
func (l *look) foreignMileage() {
	var first, last *ledger.Trip
	var rate *ledger.MileageRate
	var cents money.Cents
	n := 0
	for _, t := range byDate(l.past.Trips, func(t *ledger.Trip) (calendar.Date, fault.Place) { return t.On, t.At }) {
		r := ledger.RateOn(l.books.Settings.Mileage, t.On)
		if r == nil || r.Foreign == "" || t.Miles == nil {
			continue
		}
		if first == nil {
			first, rate = t, r
		}
		last, cents, n = t, cents+t.Driven(r), n+1
	}
	if cents == 0 {
		return
	}
	s := l.books.Settings
	unit := strings.TrimSuffix(s.DistanceUnit(), "s")
	l.noteIn(last.On.InMonth(), fault.CodeForeignMileage, first.At.At("miles"), "",
		fmt.Sprintf("No rate of your own is set for this trip%s. The built-in rate of another country (%s) is counted, "+
			"here %s %s a %s, and that comes to %s.", andMore(n-1), rate.Foreign, money.AtMost(rate.PerMile, 4), s.Currency,
			unit, l.amount(cents)),
		fmt.Sprintf("Put \"%d-01-01\" = and what you pay yourself for a %s under [mileage] in settings.toml, such as "+
			"\"%d-01-01\" = 0.40. From that day on it is counted.", first.On.Year, unit, first.On.Year), cents)
}

// rentDays is how far apart a payout and the Expenses line of the rent kept
// back from it may be dated.
const rentDays = 45

// rentInExpenses notes rent kept back from a payout that no Expenses line of
// booth rent has: same amount, the same channel or none, within 45 days, each
// line for one payout. It could move the rent.
func (l *look) rentInExpenses() {
	payouts := byDate(l.past.Payouts, func(p *ledger.Payout) (calendar.Date, fault.Place) { return p.On, p.At })
	lines := slices.SortedStableFunc(ledger.Each(l.books.Expenses), func(a, b *ledger.Expense) int {
		// Lines that name the channel are matched before those that could be any's.
		return cmp.Or(cmp.Compare(channelKey(b.Channel), channelKey(a.Channel)), a.On.Compare(b.On), a.At.Compare(b.At))
	})
	for _, p := range payouts {
		if p.Rent <= 0 {
			continue
		}
		found := slices.IndexFunc(lines, func(e *ledger.Expense) bool {
			apart := e.On.DaysSince(p.On)
			return e.Group == "booth rent" && e.Amount == p.Rent && max(apart, -apart) <= rentDays &&
				(e.Channel == "" || channelKey(e.Channel) == channelKey(p.Channel))
		})
		if found >= 0 {
			lines = slices.Delete(lines, found, found+1)
			continue
		}
		l.note(fault.CodeRentNotInExpenses, p.At.At("rent"), l.typed(p.Rent),
			fmt.Sprintf("No Expenses line of booth rent of %s stands within %d days of this payout, so the rent kept back "+
				"is not counted.", l.amount(p.Rent), rentDays),
			fmt.Sprintf("Enter the rent in Expenses with the group booth rent, the channel %s and the amount %s.", p.Channel,
				l.typed(p.Rent)), p.Rent)
	}
}

// rentInNoChannel notes, at the first of them, the rents of a booth that name no
// channel: each channel leaves more of its receipts without them. It could move
// all of them.
func (l *look) rentInNoChannel() {
	var first *ledger.Expense
	var last calendar.Month
	var cents money.Cents
	lines := 0
	rents := byDate(l.past.Expenses, func(e *ledger.Expense) (calendar.Date, fault.Place) { return e.On, e.At })
	for _, e := range rents {
		if e.Group != "booth rent" || e.Channel != "" {
			continue
		}
		if first == nil {
			first = e
		}
		last, cents, lines = e.On.InMonth(), cents+e.Amount, lines+1
	}
	if first == nil || cents == 0 {
		return
	}
	l.noteIn(last, fault.CodeRentInNoChannel, first.At.At("channel"), "",
		fmt.Sprintf("The rent of a booth here%s names no channel, so each channel seems to leave more of its receipts "+
			"than it does.", andMore(lines-1)),
		"Type in Channel where the booth is, as Sales and Pieces name it.", cents)
}
