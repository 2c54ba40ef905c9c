package main

import (
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/text"
)

type whyCmd struct {
	Of []string `arg:"" help:"PIECE [FIGURE] [2026-03]; or: supply NAME [FIGURE]; statement LINE; stock LINE; line NUMBER 2026, of the tax year."`
}

// Run prints the postings under a figure.
func (k whyCmd) Run(c *cli, w world) error {
	if strings.EqualFold(k.Of[0], "line") {
		return k.line(c, w)
	}
	args, month := splitMonth(k.Of)
	b, err := c.ready(w, month)
	if err != nil {
		return err
	}
	title, behind, err := b.behind(args)
	if err != nil {
		return err
	}
	if c.JSON {
		return writeJSON(w, behindJSON(title, behind))
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(w.out, text.Render(report.WhyDoc(in, title, behind.Postings, behind.Total)))
	return err
}

// line prints the postings under a line of the tax year's form.
func (k whyCmd) line(c *cli, w world) error {
	if len(k.Of) < 2 {
		return usage("Say which line, and of which year: piecebook why line 42 2026")
	}
	year := ""
	if len(k.Of) > 2 {
		year = k.Of[2]
	}
	t, err := c.taxYear(w, year)
	if err != nil {
		return err
	}
	line := t.in.Tax.Line(strings.ToLower(k.Of[1]))
	if line == nil {
		var known []string
		for _, l := range t.in.Tax.Lines {
			known = append(known, l.Line)
		}
		return noFigure("The form has no line that takes anything from these records named", k.Of[1], known)
	}
	title := fmt.Sprintf("Line %s of %d: %s", line.Line, t.in.Tax.Year, line.Label)
	behind := figures.Behind{Postings: line.Postings, Total: line.Cents}
	if c.JSON {
		return writeJSON(w, behindJSON(title, behind))
	}
	_, err = fmt.Fprint(w.out, text.Render(report.WhyDoc(t.in.Input, title, behind.Postings, behind.Total)))
	return err
}

// behind finds the figure asked for.
func (b *books) behind(args []string) (string, figures.Behind, error) {
	rest := strings.Join(args[1:], " ")
	switch strings.ToLower(args[0]) {
	case "supply":
		return b.behindSupply(args[1:])
	case "statement":
		if got, ok := figures.BehindStatement(b.ledger, rest, b.month); ok {
			return fmt.Sprintf("Statement of %s: %s", b.month.Name(), rest), got, nil
		}
		return "", figures.Behind{}, noFigure("The statement has no line", rest, figures.StatementFigureNames())
	case "stock":
		if got, ok := figures.BehindStock(b.ledger, rest, b.month); ok {
			return fmt.Sprintf("Pieces at book cost in %s: %s", b.month.Name(), rest), got, nil
		}
		return "", figures.Behind{}, noFigure("The roll-forward of pieces has no line", rest, figures.StockFigureNames())
	}
	ids, err := b.named(args[:1])
	if err != nil {
		// `why net profit` can only mean the statement's line.
		whole := strings.Join(args, " ")
		if got, ok := figures.BehindStatement(b.ledger, whole, b.month); ok {
			return fmt.Sprintf("Statement of %s: %s", b.month.Name(), whole), got, nil
		}
		return "", figures.Behind{}, err
	}
	if len(ids) > 1 {
		return "", figures.Behind{}, usage(fmt.Sprintf("%s stands for %d pieces; ask for one of them: %s.", args[0], len(ids), strings.Join(ids, ", ")))
	}
	if rest == "" {
		rest = "book_cost"
		for _, p := range figures.All(b.ledger) {
			if p.Record.ID == ids[0] && p.Profit != nil {
				rest = "profit"
			}
		}
	}
	got, ok := figures.BehindPiece(b.ledger, ids[0], rest, b.month)
	if !ok {
		return "", figures.Behind{}, noFigure("A piece has no figure", rest, figures.PieceFigureNames())
	}
	return fmt.Sprintf("%s: %s up to the end of %s", ids[0], strings.ReplaceAll(rest, "_", " "), b.month.Name()), got, nil
}

// behindSupply takes a supply's name, which may have blanks, and a figure.
func (b *books) behindSupply(args []string) (string, figures.Behind, error) {
	var known []string
	for _, s := range b.read.Books.Supplies {
		known = append(known, s.Name)
	}
	for n := len(args); n > 0; n-- {
		name, figure := strings.Join(args[:n], " "), strings.Join(args[n:], " ")
		for _, s := range known {
			if !strings.EqualFold(s, name) {
				continue
			}
			if figure == "" {
				figure = "closing"
			}
			got, ok := figures.BehindSupply(b.ledger, s, figure, b.month)
			if !ok {
				return "", figures.Behind{}, noFigure("A supply has no figure", figure, figures.SupplyFigureNames())
			}
			return fmt.Sprintf("%s: %s, over all time up to the end of %s", s, figure, b.month.Name()), got, nil
		}
	}
	name := strings.Join(args, " ")
	return "", figures.Behind{}, usage(fmt.Sprintf("There is no supply %q.%s", name, suggest(name, known)))
}

func noFigure(what, name string, known []string) error {
	return usage(fmt.Sprintf("%s %q. There are: %s.", what, name, strings.Join(known, ", ")))
}

// postingJSON is a posting as why --json gives it.
type postingJSON struct {
	Date       calendar.Date  `json:"date"`
	Month      calendar.Month `json:"month"`
	Cents      money.Cents    `json:"amount"`
	From       ledger.Account `json:"from"`
	To         ledger.Account `json:"to"`
	Piece      string         `json:"piece,omitempty"`
	Supply     string         `json:"supply,omitempty"`
	Why        ledger.Why     `json:"why"`
	Basis      ledger.Basis   `json:"basis,omitempty"`
	Source     []string       `json:"source"`
	Arithmetic string         `json:"arithmetic"`
}

type behindAnswer struct {
	Schema   string        `json:"schema"`
	Title    string        `json:"title"`
	Total    money.Cents   `json:"total"`
	Postings []postingJSON `json:"postings"`
}

func behindJSON(title string, b figures.Behind) behindAnswer {
	out := behindAnswer{Schema: "piecebook/why/1", Title: title, Total: b.Total, Postings: []postingJSON{}}
	for _, p := range b.Postings {
		j := postingJSON{Date: p.Date, Month: p.Month, Cents: p.Cents, From: p.From, To: p.To, Piece: p.Piece, Supply: p.Supply,
			Why: p.Why, Basis: p.Basis, Source: []string{}, Arithmetic: p.Arithmetic}
		for _, at := range p.Source {
			j.Source = append(j.Source, at.String())
		}
		out.Postings = append(out.Postings, j)
	}
	return out
}
