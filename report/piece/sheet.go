// Package piece composes the profit sheets of pieces (pieces.pdf): what each
// brought, what it cost, and the records behind every line.
//
// A sheet is one page up to 25 supplies; with more, or where it has no room,
// the supplies and the single records are on a second. A supply's months are
// merged: one share stands with its arithmetic as a later count left it, several
// as their sum, which why prints one by one. What a piece that is not sold must
// bring is its costs and shop costs so far and its hours so far at the wanted
// rate; what selling it will cost is not in it.
package piece

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/photo"
	"piecebook/report/words"
)

// PeriodSheets is the profit sheets of the pieces sold or finished in the period
// (pieces.pdf), one piece a page, then the cautions and the index.
func PeriodSheets(in report.Input) page.Document {
	d := in.Document("Profit sheets")
	d.Subject = "Profit sheets of the pieces sold or finished in " + d.Period
	var pieces []figures.Piece
	for _, p := range in.Month.Pieces {
		if in.SoldIn(p) || in.Within(p.Record.FinishedOn) {
			pieces = append(pieces, p)
		}
	}
	if len(pieces) == 0 {
		d.Sections = []page.Section{{Title: d.Title, Blocks: []page.Block{
			page.Paragraph{Text: "No piece was sold or finished in " + d.Period + "."}}}}
		return d
	}
	d.Sections = sections(&in, pieces)
	return d
}

// Sheets is the profit sheets of the named pieces, sold or not, in the order
// given. A name that is no piece is left out: the caller has checked them.
func Sheets(in report.Input, pieces []string) page.Document {
	d := in.Document("Profit sheet")
	d.Subject = "Profit sheet as it stands at the end of " + d.Period
	d.Sections = sections(&in, named(&in, pieces))
	return d
}

// named are the pieces of the given names.
func named(in *report.Input, pieces []string) []figures.Piece {
	var out []figures.Piece
	for _, id := range pieces {
		if p := in.Find(id); p != nil {
			out = append(out, *p)
		}
	}
	return out
}

// sections are the sheets, then the cautions' words and, where there are more
// sheets than are found by leafing, the index.
func sections(in *report.Input, pieces []figures.Piece) []page.Section {
	var out []page.Section
	for _, p := range pieces {
		out = append(out, sheet(in, p))
	}
	if len(pieces) == 0 {
		return nil
	}
	last := cautionSection(in, pieces)
	if len(pieces) > 2 {
		last.Blocks = append(last.Blocks, index(in, pieces)...)
	}
	last.Long = last.Blocks // closer where that saves a page
	return append(out, last)
}

// index lists the sheets, each line leading to its sheet.
func index(in *report.Input, pieces []figures.Piece) []page.Block {
	t := page.Table{Columns: page.Heads{}.Text("Piece").Wide(1, "What").Text("Where it stands").
		Money(words.BeforeShopCosts, words.AfterShopCosts, words.HourAfter).
		With(page.Column{Head: "Page", Kind: page.KindNumber, Paper: true})}
	for _, p := range pieces {
		to := report.SheetAnchor(p.Record.ID)
		t.Add(page.TextTo(p.Record.ID, to), page.TextTo(words.PieceBrief(p.Record), to), page.Text(statusWords(in, p)),
			cells.Optional(p.Profit), cells.Optional(p.ProfitAfterOverhead), cells.Optional(p.ProfitPerHourAfterOverhead),
			page.Cell{Kind: page.KindNumber, Text: page.PageHere, Link: to})
	}
	return []page.Block{page.Heading{Text: "Index of the sheets", Level: 1, Bookmark: true}, t}
}

// mostSupplies is how many supplies a sheet of one page has at most.
const mostSupplies = 25

// sheet is one piece's profit sheet: one page, or with more supplies than it
// has room for two, the supplies on the second.
func sheet(in *report.Input, p figures.Piece) page.Section {
	mine := in.OfPiece(p.Record.ID).Postings
	rows := supplyRows(in, p, mine)
	s := page.Section{Title: p.Record.ID + ", " + p.Record.Kind, Head: "Piece " + p.Record.ID + ", " + p.Record.Kind,
		Anchor: report.SheetAnchor(p.Record.ID), NewPage: true, Untitled: true}
	upper := append(top(in, p), timeline(in, p))
	upper = slices.Concat(upper, answer(in, p, shopCosts(in, p)))
	upper = append(upper, page.Columns{LeftSpan: 4, Left: []page.Block{moneyTable(in, p, mine)}, Right: timeTable(in, p)})
	upper = append(upper, standing(in, p)...)
	cautions, supplies := cautionLine(in, p), supplyTable(in, p, rows)
	s.Blocks = slices.Concat(upper, supplies, cautions)
	s.Long = slices.Concat(upper, cautions, []page.Block{page.Break{}}, supplies, recordsTable(in, mine))
	if len(rows) > mostSupplies {
		s.Blocks, s.Long = s.Long, nil
	}
	return s
}

// top is what the piece is, with its photos beside it.
func top(in *report.Input, p figures.Piece) []page.Block {
	rec := p.Record
	left := []page.Block{page.Title{Text: rec.ID + " · " + rec.Kind, Under: rec.Description},
		page.Says(page.Body, identity(in, p))}
	shown := photos(in, p)
	if len(shown.Items) == 0 {
		return left
	}
	return []page.Block{page.Columns{LeftSpan: 4, Left: left, Right: []page.Block{shown}}}
}

// statusWords says where the piece stands.
func statusWords(in *report.Input, p figures.Piece) string {
	switch p.Status {
	case "sold":
		return "sold " + in.Day(p.SoldOn)
	case "client":
		return "a client's, here on " + in.Day(in.Month.To.Last())
	case "in stock":
		return "in stock on " + in.Day(in.Month.To.Last())
	}
	if r := removal(in, p); r != nil {
		return p.Status + " " + in.Day(r.On)
	}
	return p.Status
}

// removal is the record by which a piece left unsold; nil where there is none.
func removal(in *report.Input, p figures.Piece) *ledger.Removal {
	for _, r := range in.OfPiece(p.Record.ID).Removals {
		if r.Why == p.Status {
			return r
		}
	}
	return nil
}

// identity is where the piece stands and what else is known of it; only what
// was written down.
func identity(in *report.Input, p figures.Piece) page.Sentence {
	rec := p.Record
	came := words.CameBy[rec.How] + " " + in.Day(rec.GotOn)
	if rec.From != "" {
		came += " from " + rec.From
	}
	text := []string{words.Capital(statusWords(in, p)), came}
	for _, x := range []struct{ label, value string }{{"lot", rec.Lot}, {"set", rec.Set}} {
		if x.value != "" {
			text = append(text, x.label+" "+x.value)
		}
	}
	if rec.Area != nil {
		text = append(text, strings.TrimSpace(money.Fixed(rec.Area, 2)+" "+in.Settings().AreaUnit()+" to be finished, "+
			areaFrom[rec.AreaFrom]))
	}
	if rec.Made > 0 {
		text = append(text, fmt.Sprintf("made %d", rec.Made))
	}
	if rec.OldFinish != "" {
		text = append(text, "old finish "+rec.OldFinish)
	}
	out := page.Sentence{page.Text(strings.Join(text, "; "))}
	if asking := in.Asking(rec); asking != nil {
		out = append(out, page.Text("; asking "), in.Said(*asking, report.AskingOf(p)))
	}
	return append(out, page.Text("."))
}

var areaFrom = map[ledger.AreaFrom]string{ledger.AreaTyped: "as typed", ledger.AreaSurfaces: "from its surfaces",
	ledger.AreaTypical: "usual for its kind"}

// photos are the piece's pictures where its record names any; one that cannot
// be shown is named in its place. The picture after the work is not shown
// for a month before the piece was finished.
func photos(in *report.Input, p figures.Piece) page.Photos {
	rec := p.Record
	after := rec.PhotoAfter
	if rec.FinishedOn.InMonth() > in.Month.To {
		after = ""
	}
	var out page.Photos
	for _, x := range []struct{ caption, name string }{{"Before", rec.PhotoBefore}, {"After", after}} {
		if x.name == "" {
			continue
		}
		shown := page.Photo{Caption: x.caption, Name: x.name}
		if in.Photos == nil {
			shown.Missing = x.name + " was not looked for: the books folder cannot be read."
			out.Items = append(out.Items, shown)
			continue
		}
		ready := photo.Ready
		if in.OnScreen {
			ready = photo.Small
		}
		picture, err := ready(in.Photos, x.name)
		if err != nil {
			shown.Missing = err.Error() + "."
		}
		shown.JPEG, shown.Width, shown.Height = picture.JPEG, picture.Width, picture.Height
		out.Items = append(out.Items, shown)
	}
	return out
}
