package report

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// trips are the period's drives, one line each with its cost for all pieces.
func (in *Input) trips() []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "Purpose", Weight: 2}, {Head: "For", Weight: 1},
		{Head: capital(in.settings().DistanceUnit()), Kind: page.KindNumber}, {Head: "Tolls", Kind: page.KindMoney},
		{Head: "Cost", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	cost := map[fault.Place]money.Cents{}
	for _, p := range in.inMonth() {
		if p.Reason == ledger.ReasonTrip && len(p.Source) > 0 {
			cost[p.Source[0]] += p.Cents
		}
	}
	trips := slices.Clone(in.Books.Trips)
	slices.SortStableFunc(trips, func(a, b ledger.Trip) int {
		if c := a.On.Compare(b.On); c != 0 {
			return c
		}
		return a.At.Compare(b.At)
	})
	var sum, tolls money.Cents
	for _, x := range trips {
		if !in.within(x.On) {
			continue
		}
		t.Rows = append(t.Rows, page.Line(page.Date(x.On.String()), page.Text(tripWords(x)), page.Text(tripFor(x)), number(x.Miles, 1), cash(x.Tolls), cash(cost[x.At]), page.Text(x.At.Short())))
		sum, tolls = sum+cost[x.At], tolls+x.Tolls
	}
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "No trip is written down for " + in.Month.To.Name() + "."}}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All trips"), page.Empty(), page.Empty(), page.Empty(), cash(tolls), cash(sum)))
	return []page.Block{withoutBlank(t, "Tolls")}
}

// tripWords is what a trip was for and where it went, tripFor whose it was.
func tripWords(x ledger.Trip) string {
	if strings.Contains(strings.ToLower(x.Purpose), strings.ToLower(x.To)) {
		return x.Purpose // where it says the place itself, or there is none
	}
	return x.Purpose + ", to " + x.To
}

func tripFor(x ledger.Trip) string {
	if len(x.Pieces) == 0 {
		return "the shop"
	}
	return strings.Join(x.Pieces, ", ")
}

// ties are the reconciliations: the terms on the way, the two totals, and the
// difference, which must be 0.00.
func (in *Input) ties() []page.Block { return tieBlocks(in.Month.TieOut) }

// tieBlocks are reconciliations under what they are; the first stands on the
// page where that is said.
func tieBlocks(ties []figures.Tie) []page.Block {
	words := page.Paragraph{Text: "Each is one total reached by two ways. The difference is 0.00, or something is wrong with the program and its makers want to know. Terms of nothing are left out."}
	if len(ties) == 0 {
		return []page.Block{words}
	}
	out := []page.Block{page.Together{Blocks: []page.Block{words, tieTable(ties[0])}}}
	for _, tie := range ties[1:] {
		out = append(out, tieTable(tie))
	}
	return out
}

func tieTable(tie figures.Tie) page.Block {
	t := page.Table{Caption: capital(tie.Name), Span: 5, Whole: true, NoHead: true,
		Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
	for _, term := range tie.Terms {
		if term.Cents != 0 {
			t.Rows = append(t.Rows, page.Line(page.Text(capital(term.Label)), cash(term.Cents)))
		}
	}
	label := "Difference"
	if tie.Difference != 0 {
		label = "Difference: LOOK"
	}
	t.Rows = append(t.Rows,
		page.Styled(page.Subtotal, page.Text("Together"), page.FullMoney(int64(tie.Reached))),
		page.Line(page.Text(capital(tie.AgainstIs)), page.FullMoney(int64(tie.Against))),
		page.Styled(page.GrandTotal, page.Text(label), page.FullMoney(int64(tie.Difference))))
	return t
}

// notes are all notes, the largest in money first, numbered as page 1 names them.
func (in *Input) notes() []page.Block {
	if len(in.Notes) == 0 {
		return []page.Block{page.Paragraph{Text: "There are no notes."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "No.", Kind: page.KindNumber}, {Head: "Note", Weight: 3}, {Head: "At stake", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	for i, n := range in.Notes {
		row := page.Line(count(i+1), page.Text(strings.TrimSpace(noteWords(n)+" "+n.Fix)), cash(money.Cents(n.MoneyCents)), page.Text(placeWords(n.Place)))
		row.Anchor = noteAnchor(i)
		t.Rows = append(t.Rows, row)
	}
	return []page.Block{t}
}

// noteWords is a note with what stands there before it.
func noteWords(n fault.Problem) string {
	if n.Found == "" {
		return n.Why
	}
	return fault.Quoted(n.Found) + ": " + n.Why
}

// absentTables says what the tables that are not there leave out.
func (in *Input) absentTables() []page.Block {
	if len(in.Absent) == 0 {
		return nil
	}
	out := []page.Block{page.Heading{Text: "Tables that are not there", Level: 1}}
	for _, words := range in.Absent {
		out = append(out, page.Paragraph{Style: page.Note, Text: words})
	}
	return out
}

// placeWords is a place beside a note, its column too.
func placeWords(p fault.Place) string {
	if p == (fault.Place{}) {
		return ""
	}
	if p.Column != "" {
		return p.Short() + ", " + p.Column
	}
	return p.Short()
}

// monthCautions are the cautions of every supply on the shelf in the period.
func (in *Input) monthCautions() []page.Block {
	var out []page.Block
	for _, c := range in.Cautions.List {
		var supplies []string
		for _, l := range in.Month.Shelf {
			if c.When.MadeBefore == 0 && supplyCalls(c, l.Supply) {
				supplies = append(supplies, l.Supply.Name)
			}
		}
		if len(supplies) == 0 {
			continue
		}
		if len(supplies) > 8 {
			supplies = append(supplies[:8], fmt.Sprintf("%d more", len(supplies)-8))
		}
		out = append(out, page.Paragraph{Style: page.Caution, Text: c.Words, Tail: c.Authority + ". On the shelf: " + listed(supplies) + "."})
	}
	if in.Cautions.Always != "" {
		out = append(out, page.Paragraph{Text: in.Cautions.Always})
	}
	if in.Cautions.RecordsOnly != "" {
		out = append(out, page.Paragraph{Text: in.Cautions.RecordsOnly})
	}
	return out
}
