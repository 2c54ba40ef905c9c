package taxyear

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Payee is who was paid in the year for something that is reported from a limit
// on (templates.Payees), with what was paid for one kind of it.
type Payee struct {
	Name     string // as first written; blank: not named
	Kind     *templates.PayeeKind
	Payments int
	Cents    money.Cents // money back taken off
	Over     bool        // at the year's limit or above
	Rows     []fault.Place
}

// payees is the year's payees by kind, then by name; those not named last of
// their kind. The channel an expense was paid to stands for a payee not named.
func (s *source) payees() []Payee {
	type key struct {
		kind int
		name string
	}
	at := map[key]int{}
	var out []Payee
	add := func(kind int, name string, c money.Cents, row fault.Place) {
		name = strings.TrimSpace(name)
		k := key{kind, strings.ToLower(name)}
		i, there := at[k]
		if !there {
			i = len(out)
			at[k] = i
			out = append(out, Payee{Name: name, Kind: &s.tax.Payees.Kinds[kind]})
		}
		out[i].Payments++
		out[i].Cents += c
		out[i].Rows = append(out[i].Rows, row)
	}
	for i, kind := range s.tax.Payees.Kinds {
		for _, e := range s.b.Expenses {
			if s.inYear(e.On) && slices.Contains(kind.Groups, e.Group) {
				add(i, cmp.Or(strings.TrimSpace(e.To), e.Channel), e.Amount, e.At)
			}
		}
		for _, p := range s.b.Parts {
			if kind.OutsideWork && p.Outside && s.inYear(p.On) {
				add(i, p.From, p.Cost+p.TaxPaid, p.At)
			}
		}
	}
	limit, _ := s.tax.Payees.Limit(s.year)
	for i := range out {
		slices.SortFunc(out[i].Rows, fault.Place.Compare)
		out[i].Over = limit != nil && out[i].Name != "" && out[i].Cents.Rat().Cmp(cents(limit)) >= 0
	}
	order := func(p Payee) int {
		return slices.IndexFunc(s.tax.Payees.Kinds, func(k templates.PayeeKind) bool { return k.What == p.Kind.What })
	}
	slices.SortStableFunc(out, func(a, b Payee) int {
		if a.Kind == b.Kind && (a.Name == "") != (b.Name == "") {
			return cmp.Compare(b.Name, a.Name)
		}
		return cmp.Or(cmp.Compare(order(a), order(b)), cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)))
	})
	return out
}

// remarksOnPayees names who was paid so much that it may have to be reported.
func (s *source) remarksOnPayees(y *Year, l *list) {
	limit, source := s.tax.Payees.Limit(s.year)
	if limit == nil {
		return
	}
	var over []string
	var sum money.Cents
	for _, p := range y.Payees {
		if p.Over {
			over = append(over, fmt.Sprintf("%s, %s for %s (%s)", p.Name, p.Cents.Grouped(), p.Kind.What, p.Kind.Form))
			sum += p.Cents
		}
	}
	if len(over) > 0 {
		l.add(SecPayees, sum, "At or above the year's limit of %s for one payee and form (%s): %s. %s",
			grouped(limit), source,
			strings.Join(over, "; "), s.tax.Payees.Words)
	}
}

// grouped is an amount in units as printed.
func grouped(units *big.Rat) string { return money.Round(cents(units)).Grouped() }
