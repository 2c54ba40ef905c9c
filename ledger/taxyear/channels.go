package taxyear

import (
	"cmp"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// channels is the year's sales money by channel, in the order of their names.
// Fees are those of the postings, so that worked-out ones are in it.
func (s *source) channels() []Channel {
	at := map[string]int{}
	var out []Channel
	find := func(name string) *Channel {
		key := strings.ToLower(strings.TrimSpace(name))
		i, there := at[key]
		if !there {
			i = len(out)
			at[key] = i
			out = append(out, Channel{Name: name})
		}
		return &out[i]
	}
	for _, x := range s.yearSales() {
		c := find(x.Channel)
		if x.Type == ledger.Refund || x.Type == ledger.Return {
			c.Refunds += x.Price + x.DeliveryCharged
			continue
		}
		c.Sales++
		c.Price += x.Price
		c.DeliveryCharged += x.DeliveryCharged
		c.SalesTax += x.SalesTax
		c.MarketplaceTax += x.MarketplaceTax
	}
	for _, p := range s.life {
		if p.Month < s.from {
			continue
		}
		switch line, sign := figures.LineOf(figures.OfChannel, &p); {
		case line == nil:
		case line.ID == figures.LineFees:
			c := find(p.Group)
			c.Fees += money.Cents(sign) * p.Cents
			c.CardFees = c.CardFees || p.Reason == ledger.ReasonCardFee
		case line.ID == figures.LineDelivery:
			find(p.Group).DeliveryCost += money.Cents(sign) * p.Cents
		}
	}
	slices.SortFunc(out, func(a, b Channel) int { return cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) })
	return out
}

// yearSales is the year's Sales lines, by date and place.
func (s *source) yearSales() []ledger.Sale {
	var out []ledger.Sale
	for _, x := range s.b.Sales {
		if s.inYear(x.On) {
			out = append(out, x)
		}
	}
	slices.SortStableFunc(out, func(a, b ledger.Sale) int { return cmp.Or(a.On.Compare(b.On), a.At.Compare(b.At)) })
	return out
}

// statements compares each channel's reported gross with the recorded sales.
func (s *source) statements(channels []Channel) []StatementCheck {
	var out []StatementCheck
	for x := range ledger.Each(s.b.Statements) {
		if x.Year != s.year {
			continue
		}
		check := StatementCheck{Record: x, Channel: Channel{Name: x.Channel}}
		for _, c := range channels {
			if strings.EqualFold(c.Name, x.Channel) {
				check.Channel = c
			}
		}
		s.explain(&check)
		out = append(out, check)
	}
	slices.SortStableFunc(out, func(a, b StatementCheck) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Record.Channel), strings.ToLower(b.Record.Channel)),
			a.Record.At.Compare(b.Record.At))
	})
	return out
}

// explain goes from what was reported down to 0.00 by the recorded sales, and
// by the fewest of the usual reasons that explain the rest exactly. Where none
// do, the remainder stands, with its likely causes.
func (s *source) explain(x *StatementCheck) {
	c := x.Channel
	x.Terms = []figures.Term{term(TermReported, x.Record.Gross), term(TermPrices, -c.Price),
		term(TermDelivery, -c.DeliveryCharged)}
	rest := x.Record.Gross - c.Gross()
	if rest == 0 {
		x.Explained.Says = JustTheSales
		return
	}
	ways := []figures.Term{term(TermTaxReported, -c.SalesTax), term(TermMarketplaceTax, -c.MarketplaceTax),
		term(TermDeliveryLeftOut, c.DeliveryCharged), term(TermRefundsOff, c.Refunds), term(TermFeesOff, c.Fees)}
	best := fewest(ways, rest)
	for _, w := range best {
		x.Terms = append(x.Terms, w)
		rest += w.Cents
	}
	x.Remainder = rest
	if rest == 0 {
		x.Explained.Says = ExplainedByThese
		return
	}
	x.Causes = s.causes(x)
}

// fewest is the smallest set of ways that brings a rest to zero; none where
// there is none. Of two as small, the earlier.
func fewest(ways []figures.Term, rest money.Cents) []figures.Term {
	var best []figures.Term
	for bits := 1; bits < 1<<len(ways); bits++ {
		var chosen []figures.Term
		sum := rest
		for i, w := range ways {
			if bits>>i&1 == 1 && w.Cents != 0 {
				chosen = append(chosen, w)
				sum += w.Cents
			}
		}
		if sum == 0 && (best == nil || len(chosen) < len(best)) {
			best = chosen
		}
	}
	return best
}

// causes looks for what usually leaves a remainder: a sale that is missing or
// stands on another channel or in another year, two lines of one sale.
func (s *source) causes(x *StatementCheck) []Note {
	rest := x.Remainder
	var out []Note
	for _, y := range s.b.Sales {
		if y.Type == ledger.Refund || y.Type == ledger.Return {
			continue
		}
		gross := y.Price + y.DeliveryCharged
		mine := strings.EqualFold(y.Channel, x.Record.Channel)
		near := y.On.Year == s.year-1 && y.On.Month == 12 || y.On.Year == s.year+1 && y.On.Month == 1
		sale := Note{SaleAt, []any{strings.Join(y.Pieces, ", "), y.On.Written(s.b.Settings.DayFirst), y.At.Short()}}
		switch {
		case mine && s.inYear(y.On) && gross == -rest:
			out = append(out, Note{SaleTooMuch, []any{sale}})
		case mine && near && gross == rest:
			out = append(out, Note{SaleOfOtherYear, []any{sale}})
		case !mine && s.inYear(y.On) && gross == rest:
			out = append(out, Note{SaleElsewhere, []any{sale, Channel{Name: y.Channel}}})
		}
	}
	if rest > 0 {
		out = append(out, Note{SaleNotWritten, []any{rest}})
	} else {
		out = append(out, Note{SalesPaidOtherwise, []any{rest.Abs()}})
	}
	return out
}

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
	var over []Note
	var sum money.Cents
	for _, p := range y.Payees {
		if p.Over {
			over = append(over, Note{PayeePaid, []any{p.Name, p.Cents, p.Kind.What, p.Kind.Form}})
			sum += p.Cents
		}
	}
	if len(over) > 0 {
		l.add(SecPayees, sum, PayeesOverLimit, money.Round(cents(limit)), source, over, s.tax.Payees.Words)
	}
}
