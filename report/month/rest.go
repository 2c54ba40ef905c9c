package month

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// rest is the fifth page: each part where there is any, and named in its title.
func rest(in *report.Input) page.Section {
	s := page.Section{Head: "Trips, payouts, notes and cautions", Untitled: true, Anchor: restAnchor}
	var names []string
	add := func(name, anchor string, blocks []page.Block) {
		if len(blocks) > 0 {
			names = append(names, name)
			s.Blocks = append(s.Blocks, page.Heading{Text: words.Capital(name), Level: 1, Anchor: anchor, Bookmark: true})
			s.Blocks = append(s.Blocks, blocks...)
		}
	}
	add("trips", "", trips(in))
	add("payouts", payoutsAnchor, bank(in))
	add("client work", clientsAnchor, clients(in))
	add("checks", report.TiesAnchor, checks(in))
	add("corrections to earlier months", correctedAnchor, corrected(in))
	add("notes", report.NotesAnchor, notes(in))
	add("cautions", report.CautionsAnchor, in.CautionBlocks(shelfCautions(in)))
	s.Title = words.Capital(words.List(names))
	return s
}

// trips are the period's drives, one line each with its cost for all pieces.
func trips(in *report.Input) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "Purpose", Weight: 2},
		{Head: "For", Weight: 1},
		{Head: words.Capital(in.Settings().DistanceUnit()), Kind: page.KindNumber}, {Head: "Tolls", Kind: page.KindMoney},
		{Head: "Cost", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	cost := map[fault.Place]*report.Listed{}
	for p := range in.InMonth() {
		if p.Reason == ledger.ReasonTrip && len(p.Source) > 0 {
			at := p.Source[0]
			if cost[at] == nil {
				cost[at] = &report.Listed{Title: "Trip of " + in.Day(p.Date)}
			}
			cost[at].Postings = append(cost[at].Postings, p)
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
		if !in.Within(x.On) {
			continue
		}
		t.Rows = append(t.Rows, page.Line(day(in, x.On), page.Text(words.Trip(x)), page.Text(words.TripFor(x)),
			cells.Number(x.Miles, 1), cells.Money(x.Tolls).Opens(report.Typed{What: "Tolls", At: x.At, Cents: x.Tolls}),
			cells.Money(cost[x.At].Total()).Opens(cost[x.At]), page.Text(x.At.Short())))
		sum, tolls = sum+cost[x.At].Total(), tolls+x.Tolls
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if len(t.Rows) > 1 {
		t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All trips"), page.Empty(), page.Empty(), page.Empty(),
			cells.Money(tolls), cells.Money(sum)))
	}
	return []page.Block{cells.WithoutBlank(t, "Tolls")}
}

// clientsHere are the clients' pieces not handed over yet, the longest here first.
func clientsHere(in *report.Input) []figures.Piece {
	return in.Chosen(func(p figures.Piece) bool { return p.Status == "client" }, byAge)
}

// clients are the clients' pieces handed over in the period and those here.
func clients(in *report.Input) []page.Block {
	var out []page.Block
	if done := in.Chosen(func(p figures.Piece) bool { return p.Record.How == ledger.Client && p.Status != "client" },
		report.BySale); len(done) > 0 {
		t := soldTable(in, "", done)
		t.Columns[2].Head = "Handed over"
		out = append(out, t)
	}
	here := clientsHere(in)
	if len(here) == 0 {
		return out
	}
	t := page.Table{Whole: true, Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Stage"},
		{Head: "Came", Kind: page.KindDate},
		{Head: "Days", Kind: page.KindNumber}, {Head: "Hours", Kind: page.KindNumber}, {Head: "Payments held",
			Kind: page.KindMoney}, {Head: "Cost so far", Kind: page.KindMoney}}}
	var held, cost money.Cents
	for _, p := range here {
		t.Rows = append(t.Rows, page.Line(pieceCell(p), page.Text(words.PieceBrief(p.Record)),
			page.Text(in.Stage(p.Record)), day(in, p.Record.GotOn), cells.Count(in.Age(p)), cells.Hours(p.Hours),
			cells.Money(p.Held).Opens(in.LineOfPiece(p.Record.ID, figures.LineHeld)),
			cells.Money(p.BookCost).Opens(in.LineOfPiece(p.Record.ID, figures.LineBookCost))))
		held, cost = held+p.Held, cost+p.BookCost
	}
	if len(here) > 1 {
		t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.Plural(len(here), "piece", "pieces")),
			page.Empty(), page.Empty(), page.Empty(), page.Empty(), page.Empty(), cells.Money(held), cells.Money(cost)))
	}
	return append(out, cells.WithoutBlank(t, "Payments held"))
}

// checks are all reconciliations and the rows read in one line; one that leaves a difference is
// shown in full.
func checks(in *report.Input) []page.Block {
	var wrong []figures.Tie
	for _, t := range in.Month.TieOut {
		if t.Difference != 0 {
			wrong = append(wrong, t)
		}
	}
	n := len(in.Month.TieOut)
	if n == 0 {
		return nil
	}
	text := fmt.Sprintf("%d of %d checks leave a difference of 0.00; the workbook's sheet Checks spells each out.",
		n-len(wrong), n)
	out := []page.Block{page.Paragraph{Text: text}}
	if in.Tally != "" {
		out = append(out, page.Paragraph{Text: in.Tally + "."})
	}
	if len(wrong) > 0 {
		out = append(out, report.TieBlocks(wrong)...)
	}
	return out
}

// notes are all notes, then what the tables that are not there leave out.
func notes(in *report.Input) []page.Block {
	var out []page.Block
	if slices.ContainsFunc(in.Notes, func(n fault.Problem) bool { return !n.AsksNothing }) {
		out = in.NoteBlocks()
	}
	if len(in.Absent) > 0 {
		out = append(out, page.Paragraph{Style: page.Note, Text: strings.Join(in.Absent, " ")})
	}
	return out
}
