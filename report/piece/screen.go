package piece

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Screen is the sheets of all pieces of the period and in stock at its end, for
// a page on a screen: a table to find them by, the sheets with small photos,
// and the cautions that they name. The sheet of a piece in stock that was not
// worked on in the period has no table of supplies: their amount opens to each.
func Screen(in report.Input) []page.Section {
	in.OnScreen = true
	once := in.Cautions.RecordsOnly // on paper on each sheet, which may be handed out alone
	in.Cautions.RecordsOnly = ""
	pieces := in.Month.Pieces
	if len(pieces) == 0 {
		return nil
	}
	first := finder(&in, pieces)
	if once != "" {
		first.Blocks = append(first.Blocks, page.Paragraph{Style: page.Note, Text: once})
	}
	out := []page.Section{first}
	for _, p := range pieces {
		s := sheet(&in, p)
		s.Indexed = true
		out = append(out, s)
	}
	return append(out, cautionSection(&in, pieces))
}

// finder lists the sheets, each line leading to its sheet, in columns that a
// reader sorts and filters by.
func finder(in *report.Input, pieces []figures.Piece) page.Section {
	t := page.Table{Finder: true, Columns: page.Heads{}.Text("Piece", "Kind").Wide(1, "What", "Where it stands").
		Text("Channel").Number("Days").Money("Book cost", words.BeforeShopCosts, words.AfterShopCosts, words.HourAfter)}
	for i, c := range t.Columns {
		t.Columns[i].Find = slices.Contains([]string{"Kind", "Channel", "Days", words.AfterShopCosts}, c.Head)
	}
	for _, p := range pieces {
		days := in.Age(p)
		if p.DaysHeld != nil {
			days = *p.DaysHeld
		} else if r := removal(in, p); r != nil {
			days = r.On.DaysSince(p.Record.GotOn)
		}
		t.Add(report.PieceCell(p.Record.ID), page.Text(p.Record.Kind), page.Text(p.Record.Description),
			page.Text(words.Capital(statusWords(in, p))), page.Text(channels(in, p)), cells.Count(days),
			in.LineCell(p, figures.LineBookCost), in.LineCell(p, figures.LineProfit),
			in.LineCell(p, figures.LineAfterOverhead), report.HourAfter(p))
	}
	t.Note = "All pieces of the month and in stock, each with its sheet. Days are to its sale, or so far."
	return page.Section{Title: "All pieces", Anchor: report.PiecesAnchor, Blocks: []page.Block{t}}
}

// channels are where a piece was sold up to the period's end.
func channels(in *report.Input, p figures.Piece) string {
	var out []string
	for _, s := range in.OfPiece(p.Record.ID).Sales {
		taken := s.Type == ledger.SaleLine || s.Type == ledger.PartPayment
		if taken && s.Channel != "" && !slices.Contains(out, s.Channel) {
			out = append(out, s.Channel)
		}
	}
	return strings.Join(out, ", ")
}
