// Package missing finds what a costed ledger shows to be missing from the
// records: pieces without the supplies that their like had, cans that went
// without a use, losses that nothing explains; and which supplies are most worth
// counting. It reads the ledger up to its last month and changes nothing:
//
//	ledger.Books -> costing.Run -> missing.Look -> notes of the last month, or months
//	                            -> missing.CountThese -> supplies to count
//
// What is at stake in each note is an estimate in cents; none is ever posted.
package missing

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// noteFrom is the least money that a note of a supply is worth telling for.
const noteFrom money.Cents = 100

// look is one run over the months from one to the last of a costed ledger.
type look struct {
	l         *costing.Ledger
	b         *ledger.Books
	from, end calendar.Month
	closing   costing.State // of end
	supply    map[string]*ledger.Supply
	worked    map[string]bool // pieces with hours, up to end
	had       map[string]map[string]bool
	named     map[string]map[string]bool // by piece: the schedules its uses name
	found     map[cause]fault.Problem
}

// month is a month within a look: what its counts and purchases show.
type month struct {
	*look
	costing.MonthResult
	m      calendar.Month
	before costing.State
}

// cause is what a note is one of: several months may show it.
type cause struct {
	code fault.Code
	at   fault.Place
}

// Look returns the notes of the ledger's months from one to its last, in no
// order; what several of them show is one note, as the last of them has it, and
// what a later count has settled is none. The books are free of errors.
func Look(l *costing.Ledger, from calendar.Month) fault.List {
	if len(l.Months) == 0 {
		return fault.List{}
	}
	k := newLook(l, from)
	k.pieces()
	before := l.At(from - 1)
	for _, result := range l.Months {
		if result.Month < from {
			continue
		}
		m := month{look: k, MonthResult: result, m: result.Month, before: before}
		m.counted()
		m.boughtEarly()
		m.usesBeforeCounts()
		if m.m == k.end {
			m.heldLong()
		}
		before = result.Closing
	}
	var out fault.List
	for _, n := range k.found {
		out.Add(n)
	}
	return out
}

func newLook(l *costing.Ledger, from calendar.Month) *look {
	k := &look{l: l, b: l.Books, from: from, end: l.Months[len(l.Months)-1].Month, supply: map[string]*ledger.Supply{},
		worked: map[string]bool{}, had: map[string]map[string]bool{}, named: map[string]map[string]bool{},
		found: map[cause]fault.Problem{}}
	k.closing = l.At(k.end)
	for s := range ledger.Each(k.b.Supplies) {
		k.supply[s.Name] = s
	}
	k.gather()
	return k
}

// gather indexes what was done on pieces up to the last month's end.
func (k *look) gather() {
	for i := range k.b.Hours {
		if h := &k.b.Hours[i]; h.On.InMonth() <= k.end {
			for _, id := range h.Pieces {
				k.worked[id] = true
			}
		}
	}
	for u := range ledger.Each(k.b.Uses) {
		if u.On.InMonth() > k.end {
			continue
		}
		for _, id := range u.Pieces {
			mark(k.had, id, u.Supply)
			if u.Schedule != "" {
				mark(k.named, id, u.Schedule)
			}
		}
	}
}

func mark(sets map[string]map[string]bool, key, member string) {
	if sets[key] == nil {
		sets[key] = map[string]bool{}
	}
	sets[key][member] = true
}

// note adds a note of a month, in place of an earlier month's of the same cause.
func (k *look) note(m calendar.Month, code fault.Code, at fault.Place, found, why, fix string, moves money.Cents) {
	k.found[cause{code, at}] = fault.Problem{Code: code, Note: true, Place: at, Found: found, Why: why, Fix: fix,
		MoneyCents: int64(moves.Abs()), Month: m}
}

// amount is money within a sentence.
func (k *look) amount(c money.Cents) string { return k.b.Settings.Amount(c) }

// containers is an amount of a supply: 0.35 × 1 qt.
func (k *look) containers(x *big.Rat, s *ledger.Supply) string {
	return k.b.Settings.Decimal(money.AtMost(x, 2)) + " × " + s.Container
}

// worth is what so many containers of a supply cost at its last price by a
// month's end, rounded
// half to even; 0 where it was never bought.
func (k *look) worth(m calendar.Month, x *big.Rat, supply string) money.Cents {
	price := kinds.Newest(k.b, supply, m)
	if price == nil {
		return 0
	}
	return money.Round(new(big.Rat).Mul(price.Rat(), x))
}

// byUses says that a supply is shared over its own uses: one shared by bench,
// hours or pieces needs no use lines, so none can be missing.
func byUses(s *ledger.Supply) bool { return s.ShareBy == ledger.ByArea || s.ShareBy == "" }
