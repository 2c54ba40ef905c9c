package main

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/report/trace"
	"piecebook/report/words"
)

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
		return usage(fmt.Sprintf("The form has no line %q that takes anything from these records. There are: %s.", k.Of[1], strings.Join(known, ", ")))
	}
	a := answer{title: fmt.Sprintf("Line %s of the tax year %d: %s", line.Line, t.in.Tax.Year, line.Label),
		detail: figures.Detail{Postings: line.Postings, Total: line.Cents}}
	if c.JSON {
		return writeJSON(w, detailJSON(a.title, a.detail))
	}
	a.groups = groupsOf(t.in.Tax, line, line.Postings, false)
	return a.print(w, t.in.Input, nil)
}

// groupsOf are a line's postings by what they are, those of the lines it adds up
// by what they are there. less: they count against the line asked for.
func groupsOf(y *taxyear.Year, line *taxyear.Line, postings []ledger.Posting, less bool) []trace.Group {
	var out []trace.Group
	at := 0
	for i, t := range line.Terms {
		part := postings[at:line.Ends[i]]
		at = line.Ends[i]
		number, adds := strings.CutPrefix(t.Label, "line ")
		against := less != takenAway(line, t.Label)
		if sub := y.Line(number); adds && sub != nil {
			out = append(out, groupsOf(y, sub, part, against)...)
			continue
		}
		title := words.Capital(termName(t.Label))
		if against {
			title = "less: " + termName(t.Label)
		}
		out = append(out, trace.Group{Title: title, Postings: part, Netted: slices.Contains([]string{"opening stock", "closing stock"}, t.Label)})
	}
	return out
}

// takenAway says that a line takes a term away.
func takenAway(line *taxyear.Line, label string) bool {
	for _, t := range line.Takes {
		if t.Name == label {
			return t.Less
		}
	}
	for _, t := range line.Adds {
		if "line "+t.Name == label {
			return t.Less
		}
	}
	return false
}

// termName is a term as the owner would call it.
func termName(label string) string {
	switch label {
	case "opening stock":
		return "in stock when the year began"
	case "closing stock":
		return "in stock when it ended"
	case "acquired":
		return "pieces bought"
	}
	return label
}
