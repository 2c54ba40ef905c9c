package year

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// What the year's figures are made of, for a page on which they open.

// lineOf is what a line of the form takes and adds.
func lineOf(in *report.YearInput, l *taxyear.Line) page.Ref {
	if l == nil {
		return nil
	}
	out := &report.Worked{Title: "Line " + l.Line + ", " + l.Label}
	for _, p := range l.Parts {
		x := report.Term{Label: words.Capital(p.Plain()), Cents: p.Cents, Of: partOf(in, l, p)}
		if sub := in.Tax.Line(p.Name); p.Line && sub != nil {
			x.Label, x.Of = "Line "+sub.Line+", "+sub.Label, lineOf(in, sub)
		}
		out.Terms = append(out.Terms, x)
	}
	return out
}

// partOf is the postings of a line's part; of stock, in which most of what came
// in has gone out again, what each piece and supply holds.
func partOf(in *report.YearInput, l *taxyear.Line, p taxyear.Part) page.Ref {
	title := "Line " + l.Line + ", " + words.Uncapital(p.Plain())
	if p.Amount != figures.LineOpeningStock && p.Amount != figures.LineClosingStock {
		return listed(title, p.Postings)
	}
	held, records := map[[2]string]money.Cents{}, map[[2]string][]fault.Place{}
	var order [][2]string
	for _, x := range p.Postings {
		key := [2]string{x.Piece, ""}
		if x.Piece == "" {
			key = [2]string{"", x.Supply}
		}
		if !slices.Contains(order, key) {
			order = append(order, key)
		}
		held[key] += x.Cents
		records[key] = append(records[key], x.Source...)
	}
	out := &report.Worked{Title: title}
	for _, key := range order {
		if held[key] == 0 {
			continue
		}
		x := report.Term{Label: key[0] + key[1], Cents: held[key]}
		if p.Amount == figures.LineClosingStock {
			x.Of = holds(in, key[0], key[1], held[key])
		}
		if x.Of == nil {
			x.Source = records[key]
		}
		out.Terms = append(out.Terms, x)
	}
	return out
}

// holds is what a piece's book cost, or a supply's worth, at the year's end is
// made of; nil where the form takes only a part of it.
func holds(in *report.YearInput, piece, supply string, cents money.Cents) page.Ref {
	if p := in.Find(piece); p != nil && p.BookCost == cents {
		return in.LineOfPiece(piece, figures.LineBookCost)
	}
	for _, x := range in.Tax.Shelf {
		if supply != "" && x.Line.Supply.Name == supply && x.Line.Closing == cents {
			return in.LineOfSupply(supply, figures.LineClosing)
		}
	}
	return nil
}

// listed is postings that add up to a figure, without a sign of their own.
func listed(title string, postings []ledger.Posting) page.Ref {
	if len(postings) == 0 {
		return nil
	}
	return &report.Listed{Title: title, Postings: postings}
}
