package month

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
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
	t := page.Table{Columns: page.Heads{}.Date("Date").Wide(2, "Purpose").Wide(1, "For").
		Number(words.Capital(in.Settings().DistanceUnit())).Money("Tolls", "Cost").Small("Record")}
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
	for _, x := range slices.SortedStableFunc(slices.Values(in.Books.Trips), func(a, b ledger.Trip) int {
		return cmp.Or(a.On.Compare(b.On), a.At.Compare(b.At))
	}) {
		if in.Within(x.On) {
			t.Add(day(in, x.On), page.Text(words.Trip(x)), page.Text(words.TripFor(x)), cells.Number(x.Miles, 1),
				cells.Money(x.Tolls).Opens(report.Typed{What: "Tolls", At: x.At, Cents: x.Tolls}),
				cells.Money(cost[x.At].Total()).Opens(cost[x.At]), page.Text(x.At.Short()))
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if len(t.Rows) > 1 {
		t.AddSum(page.GrandTotal, "All trips", "Tolls", "Cost")
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
	t := page.Table{Whole: true, Columns: hereColumns("Came").Money("Cost so far")}
	for _, p := range here {
		t.Add(append(hereCells(in, p), in.LineCell(p, figures.LineBookCost))...)
	}
	if len(here) > 1 {
		t.AddSum(page.GrandTotal, words.Plural(len(here), "piece", "pieces"), "Payments held", "Cost so far")
	}
	return append(out, cells.WithoutBlank(t, "Payments held"))
}

// hereColumns are the columns of pieces that are here up to their money, and
// hereCells a piece's cells in them.
func hereColumns(came string) page.Heads {
	return page.Heads{}.Text("Piece").Wide(1, "What").Text("Stage").Date(came).Number("Days", "Hours").
		Money("Payments held")
}

func hereCells(in *report.Input, p figures.Piece) []page.Cell {
	return []page.Cell{report.PieceCell(p.Record.ID), page.Text(words.PieceBrief(p.Record)), page.Text(in.Stage(p.Record)),
		day(in, p.Record.GotOn), cells.Count(in.Age(p)), cells.Hours(p.Hours), in.LineCell(p, figures.LineHeld)}
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
