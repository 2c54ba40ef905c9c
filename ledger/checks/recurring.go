package checks

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

const (
	// monthsRunning is how many months an expense must have come in, one after
	// the other, to be expected in the next.
	monthsRunning = 3
	// daysGrace is how many days past its usual day the month's records must
	// reach before an expense is missed.
	daysGrace = 3
)

// expenseMissing notes an expense that came in each of the three months before
// the last and not in it, once the records have passed its day. Expenses are the
// same where group, channel and payee are, or what was bought where no payee
// is given. It could move what it was the last time.
func (l *look) expenseMissing() {
	if l.through == 0 {
		return
	}
	came := map[string]map[calendar.Month]*ledger.Expense{} // the month's latest
	for _, e := range l.regular() {
		key := regularKey(e)
		if came[key] == nil {
			came[key] = map[calendar.Month]*ledger.Expense{}
		}
		came[key][e.On.InMonth()] = e
	}
	reached := l.lastDay()
	for _, of := range came {
		if of[l.through] != nil {
			continue
		}
		last, day := of[l.through-1], 0
		for m := l.through - monthsRunning; m < l.through; m++ {
			if of[m] == nil {
				last = nil
				break
			}
			day = max(day, of[m].On.Day)
		}
		if last == nil || reached < min(day+daysGrace, l.through.Last().Day) {
			continue
		}
		moves := last.Amount
		l.noteIn(l.through, fault.CodeExpenseMissing, last.At.At("paid_on"), l.day(last.On),
			fmt.Sprintf("%s came in each of the %d months before %s, the last time at %s, and not in it.",
				strings.TrimSpace(last.What), monthsRunning, l.through.Name(), l.amount(moves)),
			fmt.Sprintf("Enter the payment of %s that follows %s in Expenses, or leave it if it has ended.",
				l.through.Name(), strings.TrimSpace(last.What)), moves)
	}
}

// regular is the shop's expenses that could come every month, by day: neither
// money back nor for certain pieces.
func (l *look) regular() []*ledger.Expense {
	out := byDate(l.past.Expenses, func(e *ledger.Expense) (calendar.Date, fault.Place) { return e.On, e.At })
	return slices.DeleteFunc(out, func(e *ledger.Expense) bool { return e.Amount <= 0 || len(e.Pieces) > 0 })
}

// regularKey is what makes two expenses the same one: who was paid, else what
// it was without the names of months and numbers.
func regularKey(e *ledger.Expense) string {
	about := strings.ToLower(strings.TrimSpace(e.To))
	if about == "" {
		about = words(e.What)
	}
	return e.Group + "\x00" + channelKey(e.Channel) + "\x00" + about
}

// words is a text in small letters without the names of months and numbers.
func words(text string) string {
	all := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	return strings.Join(slices.DeleteFunc(all, isMonth), " ")
}

// isMonth says that a word in small letters is a month's name, or its first three.
func isMonth(word string) bool {
	for m := calendar.Month(0); m < 12; m++ {
		name := strings.ToLower(m.Of().String())
		if word == name || word == name[:3] {
			return true
		}
	}
	return false
}

// lastDay is the last day of the month through that the records have reached.
func (l *look) lastDay() int {
	day := 0
	for r := range l.past.Records() {
		if !r.On.IsZero() && r.On.InMonth() == l.through {
			day = max(day, r.On.Day)
		}
	}
	return day
}
