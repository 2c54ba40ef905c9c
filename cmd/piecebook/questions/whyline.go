package questions

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/report/trace"
	"piecebook/report/words"
	"piecebook/templates"
)

// line prints the postings under a line of the tax year's form.
func (k WhyCmd) line(c *cli.Call, w terminal.Console) error {
	if len(k.Of) < 2 {
		return sayWhichLine()
	}
	name, year := k.Of[1:], ""
	if len(name) > 1 {
		name, year = name[:len(name)-1], name[len(name)-1]
	}
	t, err := made.OfYear(c, w, year)
	if err != nil {
		return err
	}
	asked := strings.Join(name, " ")
	line := t.In.Tax.Line(strings.ToLower(asked))
	var known []string
	for i, l := range t.In.Tax.Lines {
		known = append(known, l.Line)
		if line == nil && words.LabelBegins(l.Label, asked) {
			line = &t.In.Tax.Lines[i]
		}
	}
	if line == nil {
		return cli.Usagef("The form has no line %q that takes anything from these records. There are: %s.", asked,
			strings.Join(known, ", "))
	}
	a := answer{title: fmt.Sprintf("Line %s of the tax year %d: %s", line.Line, t.In.Tax.Year, line.Label),
		detail: figures.Detail{Postings: line.Postings, Total: line.Cents}}
	if c.JSON {
		return cli.WriteJSON(w, detailJSON(a.title, a.detail))
	}
	for _, g := range groupsOf(t.In.Tax, line, false) {
		if k.Full && g.Netted {
			a.groups = append(a.groups, trace.ByName(g)...)
		} else {
			a.groups = append(a.groups, g)
		}
	}
	return a.print(c, w, t.In.Input, nil)
}

// sayWhichLine asks for a line and a year, with the form's own as the example.
func sayWhichLine() error {
	tax, err := templates.TaxFor("")
	if err != nil {
		return err
	}
	year := tax.LastYear()
	return cli.Usagef("Say which line, and of which year: piecebook why line %s %d", tax.Lines(year).Holds.Cost,
		year)
}

// groupsOf are a line's postings by what they are, those of the lines it adds up
// by what they are there. less: they count against the line asked for, which
// the cents of the line's own parts then have the wrong sign for.
func groupsOf(y *taxyear.Year, line *taxyear.Line, less bool) []trace.Group {
	var out []trace.Group
	for _, part := range line.Parts {
		against := less != part.Less
		if sub := y.Line(part.Name); part.Line && sub != nil {
			out = append(out, groupsOf(y, sub, against)...)
			continue
		}
		group := trace.Group{Title: words.Capital(partName(part)), Postings: slices.Clone(part.Postings),
			Netted: part.Amount == figures.LineOpeningStock || part.Amount == figures.LineClosingStock}
		if less {
			for i := range group.Postings {
				group.Postings[i].Cents = -group.Postings[i].Cents
			}
		}
		if against {
			group.Title = "less: " + partName(part)
		}
		out = append(out, group)
	}
	return out
}

// partName is what a line takes, as the owner would call it.
func partName(p taxyear.Part) string {
	switch p.Amount {
	case figures.LineOpeningStock:
		return "in stock when the year began"
	case figures.LineClosingStock:
		return "in stock when it ended"
	case figures.LineAcquired:
		return "pieces bought"
	}
	return p.Name
}
