package accountant

import (
	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

const profitTotal = "Together: net profit"

// fillProfit goes from the profits of the pieces sold to the net profit, each
// difference by its name, as the pages' tie-out does.
func (b *book) fillProfit() {
	s := b.profit
	s.Note("A piece's profit is over its whole life; the statement is of one period. These are the differences, by the " +
		"postings' 'Sold now': the pieces sold in the period (yes), other pieces (no), no piece (shop).")
	var reached money.Cents
	first := s.NextRow()
	terms := tieOf(b.in.Month, figures.TieProfit).Terms
	for i, t := range terms {
		s.Row(wb.Normal, wb.Text(words.Term(figures.TieProfit, t)), amount(t.Cents).By(b.profitTerm(figures.ProfitTerms[i])))
		reached += t.Cents
	}
	if len(terms) == 0 {
		s.Row(wb.Quiet, wb.Text("None"))
	}
	s.Row(wb.GrandTotal, wb.Text(profitTotal), amount(reached).By("SUM("+s.HereRange("Amount", first, s.LastRow())+")"))
}

// profitTerm is the formula of a term: its parts, each with its sign.
func (b *book) profitTerm(t figures.ProfitTerm) string {
	out := ""
	for _, part := range t.Parts {
		sign := "+"
		if part.Less {
			sign = "-"
		}
		out += sign + b.profitPart(part)
	}
	return withoutPlus(out)
}

// profitPart is one line of the pieces that a term is of.
func (b *book) profitPart(part figures.ProfitPart) string {
	label := words.Label(part.Of, part.ID)
	sold := map[figures.Whose]string{figures.SoldNow: "yes", figures.Others: "no", figures.Shop: "shop"}[part.Whose]
	when := b.soldAs(sold)
	named := func(column, line string) string {
		return b.sumIfs(column, append([]string{line, `"` + label + `"`}, when...)...)
	}
	switch {
	case part.Whose == figures.SoldLife:
		return sumIfs(b.pieces, label, "Sold now", `"yes"`)
	case part.Whose == figures.Everyone:
		return b.withoutCorrections(b.statement.Cell(b.periods[0].head, find(b.statement, label)),
			figures.Find(part.Of, part.ID))
	case part.Whose == figures.Corrected:
		return b.correctedBy(part)
	case part.Of == figures.OfStatement:
		return named("In the statement", "Statement line")
	case part.Of == figures.OfPiece:
		return named("On the piece", "Piece's line")
	}
	return b.byRules(figures.Find(part.Of, part.ID), when...)
}

// soldAs is the conditions that a posting of the period has a word in 'Sold now'.
func (b *book) soldAs(word string) []string {
	return append([]string{"Sold now", `"` + word + `"`}, b.ofPeriod()...)
}

// withoutCorrections takes the period's corrections to closed months off a line.
func (b *book) withoutCorrections(formula string, l *figures.Line) string {
	words := b.correctionWords()
	if len(words) == 0 {
		return formula
	}
	for _, word := range words {
		formula += "-(" + b.byRules(l, b.soldAs(word)...) + ")"
	}
	return "(" + formula + ")"
}

// correctedBy is what the period's corrections to closed months come to in a line.
func (b *book) correctedBy(part figures.ProfitPart) string {
	out := "0"
	for _, leaf := range figures.Leaves(part.Of, part.ID) {
		for _, word := range b.correctionWords() {
			sign := "+"
			if leaf.Sign < 0 {
				sign = "-"
			}
			out += sign + "(" + b.byRules(leaf.Line, b.soldAs(word)...) + ")"
		}
	}
	return out
}

// What 'Sold now' says of corrections to closed months: those of the tax year,
// and those of years before it.
const (
	correctedNow    = "corrected"
	correctedBefore = "corrected, earlier year"
)

// correctionWords are those of the two that postings of the workbook have.
func (b *book) correctionWords() []string {
	found := map[string]bool{}
	for _, p := range b.year {
		if closing.IsCorrection(p.Posting) {
			found[b.soldNow(*p.Posting)] = true
		}
	}
	return sortedKeys(found)
}

// earlier is what corrections to closed months of earlier years add, by a sign,
// to what the tax year's records say: those whose column From, To or Why has a
// value. The formula is empty where there are none.
func (b *book) earlier(sign, column, value string) (string, money.Cents) {
	var sum money.Cents
	there := false
	for _, p := range b.year {
		if b.soldNow(*p.Posting) != correctedBefore {
			continue
		}
		there = true
		if map[string]string{"From": words.Account(p.From), "To": words.Account(p.To),
			"Why": words.Reason(p.Reason)}[column] == value {
			sum += p.Cents
		}
	}
	if !there {
		return "", 0
	}
	if sign == "-" {
		sum = -sum
	}
	return sign + b.sumIfs("Amount", "Sold now", `"`+correctedBefore+`"`, column, `"`+value+`"`), sum
}

// soldNow says of a posting whether its piece was sold in the period;
// corrections to closed months stand apart.
func (b *book) soldNow(p ledger.Posting) string {
	switch {
	case closing.IsCorrection(&p) && closing.YearOf(&p) < b.from.Year():
		return correctedBefore
	case closing.IsCorrection(&p):
		return correctedNow
	case p.Piece == "":
		return "shop"
	}
	return yesNo(b.nowSold[p.Piece])
}
