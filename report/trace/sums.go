package trace

import (
	"iter"
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// sum is what a line is made of: the lines it adds up, the months it spans,
// what pieces and supplies hold, or its postings.
func (o *opener) sum(s report.Sum) page.Detail {
	line := figures.Find(s.Of, s.ID)
	var d page.Detail
	switch {
	case line.Over != figures.Within && s.Of == figures.OfStock:
		d = o.held(s)
	case line.Over != figures.Within:
		d = o.balance(s)
	case s.From != 0 && s.From < s.To && s.ID != figures.LineUnfinished:
		d = o.byMonth(s)
	case len(line.Sum) > 0:
		d = o.added(s, line)
	case s.Of == figures.OfStock && s.ID == figures.LineSupplies:
		d = o.bySupply(s)
	case line.ByGroup && s.Subject == "":
		d = o.byGroup(s)
	default:
		d = o.list("", o.listed(s))
	}
	d.Title = sumTitle(s, line)
	return d
}

// sumTitle names a line, what it is of, and when.
func sumTitle(s report.Sum, line *figures.Line) string {
	name := words.Capital(words.Figure(s.ID))
	switch {
	case s.Of == figures.OfPiece && s.Supply != "":
		name = s.Subject + ": " + s.Supply
	case s.Of == figures.OfPiece:
		name = s.Subject + ": " + words.Label(s.Of, s.ID)
	case s.Of == figures.OfShelf:
		name = s.Subject + ": " + words.Label(s.Of, s.ID)
	case s.Of == figures.OfStock:
		name = "Pieces at book cost: " + name
	case line.ByGroup && s.Subject != "":
		name = words.GroupLabel(s.Subject)
	}
	switch {
	case line.Over == figures.Before:
		return name + ", at the end of " + (s.From - 1).Name()
	case line.Over == figures.UpTo:
		return name + ", at the end of " + s.To.Name()
	case s.From == 0:
		return name
	}
	return name + ", " + words.Months(s.From, s.To)
}

// counted is a posting with the cents it adds to a line.
type counted struct {
	*ledger.Posting
	cents money.Cents
}

// under are the postings under a line, each with the cents it adds.
func (o *opener) under(s report.Sum) iter.Seq2[*ledger.Posting, money.Cents] {
	line := figures.Find(s.Of, s.ID)
	return func(yield func(*ledger.Posting, money.Cents) bool) {
		for _, x := range o.inAnyMonth(s, line) {
			if line.Covers(x.Month, s.From, s.To) && !yield(x.Posting, x.cents) {
				return
			}
		}
	}
}

// inAnyMonth are the postings under a line whatever its months, which are asked for again and
// again: each line's are found once.
func (o *opener) inAnyMonth(s report.Sum, line *figures.Line) []counted {
	leaves := figures.Leaves(s.Of, s.ID)
	key := s
	key.From, key.To = 0, 0
	if slices.ContainsFunc(leaves, func(l figures.Leaf) bool { return l.ID == figures.LineUnfinished }) {
		key.To = s.To // which pieces are unfinished depends on the day
	}
	out, known := o.lines[key]
	if known {
		return out
	}
	for p := range o.of(s) {
		if s.Supply != "" && p.Supply != s.Supply || line.ByGroup && s.Subject != "" && p.Group != s.Subject {
			continue
		}
		if cents := o.in.Adds(leaves, p, s.To); cents != 0 {
			out = append(out, counted{p, cents})
		}
	}
	o.lines[key] = out
	return out
}

// listed are the postings under a line, with the cents they add as theirs.
func (o *opener) listed(s report.Sum) []ledger.Posting {
	var out []ledger.Posting
	for p, cents := range o.under(s) {
		out = append(out, with(p, cents))
	}
	return out
}

// with is a posting with the cents it adds as its own.
func with(p *ledger.Posting, cents money.Cents) ledger.Posting {
	out := *p
	out.Cents = cents
	return out
}

// total is what a line comes to.
func (o *opener) total(s report.Sum) money.Cents {
	var sum money.Cents
	for _, cents := range o.under(s) {
		sum += cents
	}
	return sum
}

// count is how many postings are under a line.
func (o *opener) count(s report.Sum) int {
	n := 0
	for range o.under(s) {
		n++
	}
	return n
}

// of are the postings that a line's subject may have under it.
func (o *opener) of(s report.Sum) iter.Seq[*ledger.Posting] {
	switch {
	case s.Of == figures.OfPiece:
		return slices.Values(o.pieces[s.Subject])
	case s.Of == figures.OfShelf:
		return slices.Values(o.supplies[s.Subject])
	}
	return func(yield func(*ledger.Posting) bool) {
		for _, m := range slices.Sorted(maps.Keys(o.months)) {
			for _, p := range o.months[m] {
				if !yield(p) {
					return
				}
			}
		}
	}
}

// total is what postings come to.
func total(postings []ledger.Posting) money.Cents {
	return (&report.Listed{Postings: postings}).Total()
}

// added is a sum of other lines.
func (o *opener) added(s report.Sum, line *figures.Line) page.Detail {
	w := report.SumOf("")
	for _, a := range line.Sum {
		s.ID = a.ID
		c := o.total(s)
		if a.Less {
			c = -c
		}
		w.Plus(words.Label(s.Of, a.ID), c, s)
	}
	return o.termsOf(w.Terms)
}

// byMonth is a line's months.
func (o *opener) byMonth(s report.Sum) page.Detail {
	w := report.SumOf("")
	for m := s.From; m <= s.To; m++ {
		part := s
		part.From, part.To = m, m
		w.Plus(m.Name(), o.total(part), part)
	}
	return o.termsOf(w.Terms)
}

// byGroup is the groups of expenses.
func (o *opener) byGroup(s report.Sum) page.Detail {
	groups := map[string][]ledger.Posting{}
	for _, p := range o.listed(s) {
		groups[p.Group] = append(groups[p.Group], p)
	}
	w := report.SumOf("")
	for _, g := range slices.Sorted(maps.Keys(groups)) {
		s.Subject = g
		var of page.Ref = s
		if g == "" {
			of = &report.Listed{Title: sumTitle(s, figures.Find(s.Of, s.ID)), Postings: groups[g]}
		}
		w.Plus(words.GroupLabel(g), total(groups[g]), of)
	}
	return o.termsOf(w.Terms)
}

// held is the pieces at book cost, each with what it stands at.
func (o *opener) held(s report.Sum) page.Detail {
	end := s.To
	if figures.Find(s.Of, s.ID).Over == figures.Before {
		end = s.From - 1
	}
	held := map[string]money.Cents{}
	for p, cents := range o.under(s) {
		held[p.Piece] += cents
	}
	var terms []report.Term
	for _, id := range slices.Sorted(maps.Keys(held)) {
		if held[id] == 0 {
			continue
		}
		of := report.Sum{Of: figures.OfPiece, ID: figures.LineBookCost, Subject: id, To: end}
		x := report.Term{Label: id, Cents: held[id], Link: report.SheetAnchor(id), Of: report.Brief{Sum: of}}
		now := o.in.LineOfPiece(id, figures.LineBookCost)
		if (end >= o.in.Month.From-1 || o.here[id] && o.settledSum(of) == now) && o.total(of) == held[id] {
			x.Of = of
		}
		terms = append(terms, x)
	}
	return o.termsOf(terms)
}

// balance is what it was at the end of the last month before that changed it,
// and what came and went in the period since.
func (o *opener) balance(s report.Sum) page.Detail {
	end, from := s.To, o.in.Month.From
	if figures.Find(s.Of, s.ID).Over == figures.Before {
		end = s.From - 1
		s.ID, s.From, s.To = figures.LineClosing, 0, end
	}
	var last calendar.Month
	for p := range o.under(s) {
		last = p.Month
	}
	if last == 0 {
		return o.termsOf(nil)
	}
	if end != o.in.Month.To {
		end, from = last, last
	}
	var now []ledger.Posting
	earlier := s
	earlier.From, earlier.To = 0, 0
	var before money.Cents
	for p, cents := range o.under(s) {
		if p.Month >= from {
			now = append(now, with(p, cents))
			continue
		}
		earlier.To = p.Month
		before += cents
	}
	name := words.Capital(words.Figure(s.ID)) + " in " + words.Months(from, end)
	came := &report.Listed{Title: name, Postings: now}
	if earlier.To == 0 {
		return o.list("", now)
	}
	return o.termsOf(report.SumOf("").Plus("At the end of "+earlier.To.Name(), before, earlier).
		Plus("In "+words.Months(from, end), total(now), came).Terms)
}

// bySupply is what supplies put into pieces, supply by supply.
func (o *opener) bySupply(s report.Sum) page.Detail {
	sums := map[string]money.Cents{}
	for p, cents := range o.under(s) {
		sums[p.Supply] += cents
	}
	var terms []report.Term
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		terms = append(terms, report.Term{Label: name, Cents: sums[name], Link: report.SupplyAnchor(name),
			Of: report.Sum{Of: figures.OfShelf, ID: figures.LineUsed, Subject: name, From: s.From, To: s.To}})
	}
	return o.termsOf(terms)
}
