package taxyear

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// expenseOf is what a form's line takes an expense group by.
const expenseOf = "expense: "

// amountName is what a form's line takes a line of the figures by.
func amountName(id figures.ID) string { return strings.ReplaceAll(string(id), "_", " ") }

// amountID is the line of the figures that a form's line takes by a name.
func amountID(name string) figures.ID {
	if strings.HasPrefix(name, expenseOf) {
		return figures.LineExpenses
	}
	return figures.ID(strings.ReplaceAll(name, " ", "_"))
}

// nameOf is the amount that a posting counts in by a line.
func nameOf(l *figures.Line, p *ledger.Posting) string {
	if l.ByGroup {
		return expenseOf + p.Group
	}
	return amountName(l.ID)
}

// amounts splits the postings up to the year's end into the amounts that a
// form's lines take, by their names. Each posting's cents are what it adds.
func (s *source) amounts() amounts {
	out := amounts{}
	lines := figures.LinesOf(figures.OfTaxYear)
	for _, p := range slices.Concat(s.life, s.writeOffs()) {
		for _, l := range lines {
			if l.Covers(p.Month, s.from, s.to) {
				s.count(out, l, p)
			}
		}
	}
	for _, id := range []figures.ID{figures.LineOpeningStock, figures.LineClosingStock} {
		out[amountName(id)] = withoutGone(out[amountName(id)])
	}
	return out
}

// amounts is the postings of each amount, by its name.
type amounts map[string][]ledger.Posting

// of is an amount of the figures' table.
func (a amounts) of(id figures.ID) money.Cents { return total(a[amountName(id)]) }

// count adds a posting to an amount as often as its rules find it.
func (s *source) count(out amounts, l *figures.Line, p ledger.Posting) {
	name := nameOf(l, &p)
	for r := range ledger.Each(l.Rules) {
		if !r.Counts(&p) {
			continue
		}
		mine := p
		mine.Cents = s.judged(r.If, &p)
		if r.Less {
			mine.Cents = -mine.Cents
		}
		if r.If == figures.StockSupply {
			mine.Piece = "" // what leaves the shelf is named by its supply
		}
		if mine.Cents != 0 {
			out[name] = append(out[name], mine)
		}
	}
}

// Counted is where a posting of the year counts in the form, beside opening and
// closing stock.
type Counted struct {
	Line, Part int // in Lines, and in its Parts
	Sign       figures.Sign
	Cents      money.Cents // as the line counts it: Sign × the posting's, but for what the treatment leaves out
}

// Counted says where a posting counts; false where it counts on no line.
func (y *Year) Counted(p *ledger.Posting) (Counted, bool) {
	s := y.source
	if p.Month < s.from || p.Month > s.to {
		return Counted{}, false
	}
	for _, l := range figures.LinesOf(figures.OfTaxYear) {
		if l.Again || l.Over != figures.Within {
			continue
		}
		c := Counted{}
		for i := range l.Rules {
			if r := &l.Rules[i]; r.Counts(p) {
				c.add(s.judged(r.If, p), r.Less)
			}
		}
		if c.Cents != 0 && y.place(nameOf(l, p), &c) {
			return c, true
		}
	}
	return Counted{}, false
}

// add counts cents with their sign.
func (c *Counted) add(cents money.Cents, less bool) {
	if less {
		c.Cents, c.Sign = c.Cents-cents, c.Sign-1
		return
	}
	c.Cents, c.Sign = c.Cents+cents, c.Sign+1
}

// place finds the line that takes an amount, and turns the sign where the line
// takes it away.
func (y *Year) place(name string, c *Counted) bool {
	for i := range y.Lines {
		for j, p := range y.Lines[i].Parts {
			if p.Line || p.Name != name {
				continue
			}
			c.Line, c.Part = i, j
			if p.Less {
				c.Cents, c.Sign = -c.Cents, -c.Sign
			}
			return true
		}
	}
	return false
}

// InStock is what a posting adds to stock as the form counts it, and its sign
// there: pieces and the shelf without what the treatment leaves out.
func (y *Year) InStock(p *ledger.Posting) (money.Cents, figures.Sign) {
	var c Counted
	l := figures.Find(figures.OfTaxYear, figures.LineClosingStock)
	for i := range l.Rules {
		if r := &l.Rules[i]; r.Counts(p) {
			c.add(y.source.judged(r.If, p), r.Less)
		}
	}
	return c.Cents, c.Sign
}

// WriteOffs is the year's write-offs over years, as postings.
func (y *Year) WriteOffs() []ledger.Posting { return y.source.writeOffs() }

// judged is what of a posting meets a condition under the treatment chosen.
func (s *source) judged(c figures.Condition, p *ledger.Posting) money.Cents {
	met := true
	switch c {
	case figures.StockCost:
		return s.kept(*p)
	case figures.StockSupply:
		met = s.counts(p.Supply)
	case figures.ExpenseSupply:
		met = !s.counts(p.Supply)
	case figures.WithinLimit:
		met = p.Group != ledger.GroupAboveLimit
	case figures.AboveLimit:
		met = p.Group == ledger.GroupAboveLimit
	}
	if !met {
		return 0
	}
	return p.Cents
}

// withoutGone drops what nets to nothing: pieces that had left by then, and
// supplies used up.
func withoutGone(postings []ledger.Posting) []ledger.Posting {
	key := func(p ledger.Posting) [2]string {
		if p.Piece != "" {
			return [2]string{"piece", p.Piece}
		}
		return [2]string{"supply", p.Supply}
	}
	left := map[[2]string]money.Cents{}
	for _, p := range postings {
		left[key(p)] += p.Cents
	}
	return slices.DeleteFunc(postings, func(p ledger.Posting) bool { return left[key(p)] == 0 })
}

// counts says that a supply is part of stock under the treatment chosen: all
// of them with the piece; when used, only those that stay on it.
func (s *source) counts(supply string) bool { return !s.whenUsed || s.stays[supply] }

// kept is a posting's cents without the supplies that the treatment leaves
// out of stock. What a piece leaves or comes back at is its whole cost up to
// a month, so what of it is left out is summed the same way.
func (s *source) kept(p ledger.Posting) money.Cents {
	if !s.whenUsed || p.Piece == "" {
		return p.Cents
	}
	if p.From == ledger.Shelf && !s.counts(p.Supply) {
		return 0
	}
	return p.Cents - s.out.Of(&p)
}

// total is Σ cents.
func total(postings []ledger.Posting) money.Cents {
	var sum money.Cents
	for _, p := range postings {
		sum += p.Cents
	}
	return sum
}

// net is what an account of the year gained, of costs without the supplies
// that the treatment leaves out.
func (s *source) net(a ledger.Account) money.Cents {
	var sum money.Cents
	for _, p := range s.life {
		switch {
		case p.Month < s.from:
		case a == ledger.ShelfLosses && !s.counts(p.Supply):
		case p.To == a:
			sum += s.kept(p)
		case p.From == a:
			sum -= s.kept(p)
		}
	}
	return sum
}

// lines lays the amounts on the form's lines. A line that adds up others needs
// them worked out whatever their order in the form, so it is worked out by
// asking for them; a table that goes in a circle is a defect of ours.
func (s *source) lines(of amounts) ([]Line, error) {
	out := make([]Line, len(s.table.Lines))
	at := map[string]int{}
	for i, l := range s.table.Lines {
		at[l.Line] = i
	}
	state := make([]int, len(out)) // 1 under way, 2 done
	var work func(i int) error
	work = func(i int) error {
		if state[i] == 2 {
			return nil
		}
		if state[i] == 1 {
			return fmt.Errorf("line %s adds up itself", s.table.Lines[i].Line)
		}
		state[i] = 1
		line := Line{TaxLine: s.table.Lines[i]}
		line.Label = s.label(line.TaxLine)
		for _, t := range line.Takes {
			line.take(Part{Term: t, Amount: amountID(t.Name)}, of[t.Name])
		}
		for _, t := range line.Adds {
			j, there := at[t.Name]
			if !there {
				continue // another year's line
			}
			if err := work(j); err != nil {
				return err
			}
			line.take(Part{Term: t, Line: true}, out[j].Postings)
		}
		out[i], state[i] = line, 2
		return nil
	}
	for i := range out {
		if err := work(i); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// take adds postings to a line, or takes them away.
func (l *Line) take(part Part, postings []ledger.Posting) {
	part.Postings = slices.Clone(postings)
	for i := range part.Postings {
		if part.Less {
			part.Postings[i].Cents = -part.Postings[i].Cents
		}
		part.Cents += part.Postings[i].Cents
	}
	l.Cents += part.Cents
	l.Postings = append(l.Postings, part.Postings...)
	l.Parts = append(l.Parts, part)
}
