package year

import (
	"cmp"
	"piecebook/ledger"
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
	out := report.SumOf("Line " + l.Line + ", " + l.Label)
	for _, p := range l.Parts {
		if sub := in.Tax.Line(p.Name); p.Line && sub != nil {
			out.Plus("Line "+sub.Line+", "+sub.Label, p.Cents, lineOf(in, sub))
		} else {
			out.Plus(words.Capital(p.Plain()), p.Cents, partOf(in, l, p))
		}
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
	out := report.SumOf(title)
	for _, of := range report.GroupsOf(p.Postings, func(x ledger.Posting) [2]string {
		if x.Piece == "" {
			return [2]string{"", x.Supply}
		}
		return [2]string{x.Piece, ""}
	}) {
		x := report.Term{Label: cmp.Or(of[0].Piece, of[0].Supply)}
		for _, q := range of {
			x.Cents += q.Cents
			x.Source = append(x.Source, q.Source...)
		}
		if p.Amount == figures.LineClosingStock {
			x.Of = holds(in, of[0], x.Cents)
		}
		if x.Of != nil {
			x.Source = nil
		}
		if x.Cents != 0 {
			out.Terms = append(out.Terms, x)
		}
	}
	return out
}

// holds is what the book cost of a posting's piece, or the worth of its supply, at
// the year's end is made of; nil where the form takes only a part of it.
func holds(in *report.YearInput, of ledger.Posting, cents money.Cents) page.Ref {
	if p := in.Find(of.Piece); p != nil && p.BookCost == cents {
		return in.LineOfPiece(of.Piece, figures.LineBookCost)
	}
	for _, x := range in.Tax.Shelf {
		if of.Piece == "" && x.Line.Supply.Name == of.Supply && x.Line.Closing == cents {
			return in.LineOfSupply(of.Supply, figures.LineClosing)
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
