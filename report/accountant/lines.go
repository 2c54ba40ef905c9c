package accountant

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func statementLabel(id figures.ID) string { return words.Label(figures.OfStatement, id) }

// statementLine is what the statement calls the line that a posting counts in,
// and its sign there; blank where it counts in none.
func statementLine(p *ledger.Posting) (string, figures.Sign) {
	l, sign := figures.LineOf(figures.OfStatement, p)
	switch {
	case l == nil:
		return "", 0
	case l.ByGroup:
		return words.GroupLabel(p.Group), sign
	}
	return statementLabel(l.ID), sign
}

// pieceLine is what a piece's sheet calls the line that a posting counts in,
// and its sign there.
func pieceLine(p *ledger.Posting) (string, figures.Sign) {
	l, sign := figures.LineOf(figures.OfPiece, p)
	if l == nil || p.Piece == "" {
		return "", 0
	}
	return words.Label(figures.OfPiece, l.ID), sign
}

// stockLine is what the roll-forward calls the line that a posting counts in,
// and its sign there: what goes into pieces adds, what goes out takes away.
func stockLine(p *ledger.Posting) (string, figures.Sign) {
	l, _ := figures.LineOf(figures.OfStock, p)
	if l == nil {
		return "", 0
	}
	return words.Label(figures.OfStock, l.ID), figures.Find(figures.OfStock, figures.LineClosing).Sign(p)
}

// amounts is a row of one amount a period: get says the figure, by says the
// formula for the column with the head.
func (b *book) amounts(s *wb.Sheet, style wb.Style, label string, get func(figures.Figures) money.Cents,
	by func(head string) string) {
	cells := []wb.Cell{wb.Text(label)}
	for _, p := range b.periods {
		cells = append(cells, amount(get(p.f)).By(by(p.head)))
	}
	s.Row(style, cells...)
}

// byRules is a line's own rules as sums over the postings' accounts and reasons.
func (b *book) byRules(l *figures.Line, conditions ...string) string {
	out := ""
	for _, r := range l.Rules {
		sign := "+"
		if r.Less {
			sign = "-"
		}
		var when []string
		add := func(column, value string) {
			if value != "" {
				when = append(when, column, `"`+value+`"`)
			}
		}
		add("From", string(r.From))
		add("To", string(r.To))
		if r.If == figures.Unfinished {
			add("Unfinished", unfinished)
		}
		reasons := r.Reasons
		if reasons == nil {
			reasons = []ledger.Reason{""}
		}
		for _, reason := range reasons {
			of := when
			if reason != "" {
				of = append([]string{"Why", `"` + string(reason) + `"`}, when...)
			}
			out += sign + b.sumIfs("Amount", append(of, conditions...)...)
		}
	}
	return withoutPlus(out)
}

// spanned is the condition that a line's postings are of the months it is
// summed over, for a column that holds a period.
func spanned(s *wb.Sheet, l *figures.Line, head string) []string {
	switch l.Over {
	case figures.Before:
		return []string{"Month", fmt.Sprintf(`"<"&%s`, fixedRow(s, head, fromRow))}
	case figures.UpTo:
		return []string{"Month", fmt.Sprintf(`"<="&%s`, fixedRow(s, head, toRow))}
	}
	return within(s, head)
}

// rowRun is rows of a sheet that a total adds or takes away; none where the
// last is before the first.
type rowRun struct {
	first, last int
	less        bool
}

// total adds up rows of a column, those that follow each other as one range.
func total(s *wb.Sheet, head string, runs []rowRun) string {
	var joined []rowRun
	for _, r := range runs {
		if n := len(joined); n > 0 && joined[n-1].less == r.less && joined[n-1].last+1 == r.first {
			joined[n-1].last = r.last
		} else if r.first <= r.last {
			joined = append(joined, r)
		}
	}
	out := ""
	for _, r := range joined {
		sum := s.Here(head, r.first)
		if r.first < r.last {
			sum = "SUM(" + s.HereRange(head, r.first, r.last) + ")"
		}
		if r.less {
			out += "-" + sum
		} else {
			out += "+" + sum
		}
	}
	return withoutPlus(out)
}

// added is a line that adds up others, each at a cell.
func added(l *figures.Line, at func(figures.ID) string) string {
	out := ""
	for _, a := range l.Sum {
		if a.Less {
			out += "-" + at(a.ID)
		} else {
			out += "+" + at(a.ID)
		}
	}
	return withoutPlus(out)
}

// withoutPlus is a formula without the plus it begins with.
func withoutPlus(formula string) string {
	if formula != "" && formula[0] == '+' {
		return formula[1:]
	}
	return formula
}
