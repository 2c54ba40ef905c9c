package checks

import (
	"fmt"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// countsAgree refuses a second count of a supply on one day that finds another
// amount left. An equal one is a line entered twice, which is only a note.
func (l *look) countsAgree() {
	type day struct {
		supply string
		on     calendar.Date
	}
	first := map[day]*ledger.Count{}
	counts := byDate(l.books.Counts, func(c *ledger.Count) (calendar.Date, fault.Place) { return c.On, c.At })
	for _, c := range counts {
		k := day{c.Supply, c.On}
		other := first[k]
		switch {
		case other == nil:
			first[k] = c
		case c.Left != nil && other.Left != nil && c.Left.Cmp(other.Left) != 0:
			l.fail(fault.CodeCountsDiffer, c.At.At("left"), l.containers(c.Left),
				fmt.Sprintf("Another count of %s on %s (%s) finds %s left.", c.Supply, l.day(c.On), other.At.Short(),
					l.containers(other.Left)),
				"Delete the count that is wrong, or correct its day.")
		}
	}
}

// containers is an amount as a bare number, which counts containers.
func (l *look) containers(n *big.Rat) string { return l.decimal(money.AtMost(n, 4)) }

// neverBought notes a supply that is used but was never there, at its first
// use. It could move a container for each container used, at the dearest
// bought of its group, else of any supply.
func (l *look) neverBought() {
	had := map[string]bool{}
	for _, p := range l.past.Purchases {
		had[p.Supply] = true
	}
	for _, o := range l.past.Openings {
		had[o.Supply] = true
	}
	var uses []ledger.Use // of what was never there
	for _, u := range l.past.Uses {
		if !had[u.Supply] {
			uses = append(uses, u)
		}
	}
	first, last := map[string]*ledger.Use{}, map[string]*ledger.Use{}
	lines := map[string]int{}
	cents := map[string]money.Cents{}
	for _, u := range byDate(uses, func(u *ledger.Use) (calendar.Date, fault.Place) { return u.On, u.At }) {
		if first[u.Supply] == nil {
			first[u.Supply] = u
		}
		last[u.Supply] = u
		lines[u.Supply]++
		cents[u.Supply] += l.useCents(u)
	}
	for supply, u := range first {
		cell, found := u.At.At("supply"), u.Supply
		if u.Schedule != "" {
			cell, found = u.At.At("schedule"), u.Schedule
		}
		l.noteIn(last[supply].On.InMonth(), fault.CodeSupplyNeverBought, cell, found,
			fmt.Sprintf("%s is used here%s but was never bought and was not there at the start, so its uses cost nothing.",
				supply, andMore(lines[supply]-1)),
			"Enter what was bought in Purchases, or what was there when the books began in Openings.", cents[supply])
	}
}

// andMore counts the lines beyond the one that is reported.
func andMore(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return " and in 1 more line"
	}
	return fmt.Sprintf(" and in %d more lines", n)
}

// idleMonths is how long a supply may stand before it is worth a look; after
// that it is each time as long as idleAgain.
const (
	idleMonths = 3
	idleAgain  = 6
)

// idle notes a supply bought and then for three months neither used nor
// counted. It could move what was paid for it since it was last touched.
func (l *look) idle() {
	if l.through == 0 {
		return
	}
	all := byDate(l.past.Purchases, func(p *ledger.Purchase) (calendar.Date, fault.Place) { return p.On, p.At })
	purchases := map[string][]*ledger.Purchase{}
	for _, p := range all {
		purchases[p.Supply] = append(purchases[p.Supply], p)
	}
	lastTouched := l.lastTouched()
	for s := range ledger.Each(l.books.Supplies) {
		last := lastTouched(s)
		var first *ledger.Purchase
		var cents money.Cents
		amount := new(big.Rat)
		for _, p := range purchases[s.Name] {
			if !p.On.After(last) || p.Amount == nil {
				continue
			}
			if first == nil && p.Amount.Sign() > 0 {
				first = p
			}
			cents += p.Total()
			amount.Add(amount, p.Amount)
		}
		// What was taken back again is not standing there.
		if first == nil || amount.Sign() <= 0 || l.through-first.On.InMonth() < idleMonths {
			continue
		}
		since := first.On.InMonth()
		noted := since + max(idleMonths, (l.through-since)/idleAgain*idleAgain)
		l.noteIn(noted, fault.CodeSupplyIdle, first.At.At("supply"), s.Name,
			fmt.Sprintf("%s was bought on %s and has neither been used nor counted since, up to the end of %s.", s.Name,
				l.day(first.On), l.through.Name()),
			"Enter its uses in Uses, or what is left of it in Counts.", cents)
	}
}

// lastTouched tells the last day a supply was counted or used. One shared by
// bench, hours or pieces needs no use lines: any work counts as a use of it.
func (l *look) lastTouched() func(*ledger.Supply) calendar.Date {
	own := map[string]calendar.Date{}
	var anyUse, anyHours calendar.Date
	for c := range ledger.Each(l.past.Counts) {
		own[c.Supply] = later(own[c.Supply], c.On)
	}
	for u := range ledger.Each(l.past.Uses) {
		own[u.Supply], anyUse = later(own[u.Supply], u.On), later(anyUse, u.On)
	}
	for i := range l.past.Hours {
		if h := &l.past.Hours[i]; len(h.Pieces) > 0 {
			anyHours = later(anyHours, h.On)
		}
	}
	return func(s *ledger.Supply) calendar.Date {
		last := own[s.Name]
		if s.ShareBy == ledger.ByBench || s.ShareBy == ledger.ByPieces {
			last = later(last, anyUse)
		}
		if s.ShareBy == ledger.ByHours || s.ShareBy == ledger.ByPieces {
			last = later(last, anyHours)
		}
		return last
	}
}

func later(a, b calendar.Date) calendar.Date {
	if b.After(a) {
		return b
	}
	return a
}
