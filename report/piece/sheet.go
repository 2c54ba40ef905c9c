// Package piece composes the profit sheets of pieces (pieces.pdf): what each
// brought, what it cost, and the records behind every line.
package piece

import (
	"fmt"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/photo"
	"piecebook/report/words"
)

// PeriodSheets is the profit sheets of the pieces sold or finished in the period
// (pieces.pdf), one piece a page.
func PeriodSheets(in report.Input) page.Document {
	d := in.Document("Profit sheets")
	d.Subject = "Profit sheets of the pieces sold or finished in " + d.Period
	var pieces []figures.Piece
	for _, p := range in.Month.Pieces {
		if in.SoldIn(p) || in.Within(p.Record.FinishedOn) {
			pieces = append(pieces, p)
		}
	}
	if len(pieces) > 2 {
		d.Sections = append(d.Sections, contents(&in, d, pieces))
	}
	for _, p := range pieces {
		d.Sections = append(d.Sections, sheet(&in, p))
	}
	if len(d.Sections) == 0 {
		d.Sections = []page.Section{{Title: d.Title, Blocks: []page.Block{
			page.Paragraph{Text: "No piece was sold or finished in " + d.Period + "."}}}}
	}
	return d
}

// contents lists the sheets that follow, each line leading to its sheet.
func contents(in *report.Input, d page.Document, pieces []figures.Piece) page.Section {
	t := page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "What", Weight: 1}, {Head: "Where it stands"},
		{Head: "Sold less bought", Kind: page.KindMoney}, {Head: "After everything", Kind: page.KindMoney}, {Head: "Per hour", Kind: page.KindMoney}, {Head: "Page", Kind: page.KindNumber, Paper: true}}}
	for _, p := range pieces {
		t.Rows = append(t.Rows, page.Line(page.TextTo(p.Record.ID, sheetAnchor(p.Record.ID)), page.TextTo(words.Piece(p.Record), sheetAnchor(p.Record.ID)),
			page.Text(statusWords(in, p)), cells.Optional(p.SoldLessBought), cells.Optional(p.Profit), cells.Optional(p.ProfitPerHour),
			page.Cell{Kind: page.KindNumber, Text: page.PageHere, Link: sheetAnchor(p.Record.ID)}))
	}
	right := d.Title
	if d.Banner != "" {
		right = d.Banner + " · " + right
	}
	return page.Section{Title: "The sheets", Untitled: true, Blocks: []page.Block{
		page.Title{Text: d.Period, Under: d.Shop, Right: right},
		page.Paragraph{Text: "The pieces sold or finished in " + d.Period + ", by number, as they stand at its end."}, t}}
}

// sheetAnchor names a piece's sheet.
func sheetAnchor(piece string) string { return "piece-" + piece }

// Sheets is the profit sheets of the named pieces, sold or not, in the order
// given. A name that is no piece is left out: the caller has checked them.
func Sheets(in report.Input, pieces []string) page.Document {
	d := in.Document("Profit sheet")
	d.Subject = "Profit sheet as it stands at the end of " + d.Period
	for _, id := range pieces {
		if p := in.Find(id); p != nil {
			d.Sections = append(d.Sections, sheet(&in, *p))
		}
	}
	return d
}

// sheet is one piece's profit sheet.
func sheet(in *report.Input, p figures.Piece) page.Section {
	rec := p.Record
	mine := postingsOf(in, rec.ID)
	s := page.Section{Title: rec.ID + ", " + rec.Kind, Head: "Piece " + rec.ID + ", " + rec.Kind,
		Anchor: sheetAnchor(rec.ID), NewPage: true, Untitled: true}
	s.Blocks = append(s.Blocks,
		page.Title{Text: rec.ID + " · " + rec.Kind, Under: rec.Description, Right: statusWords(in, p)},
		dates(p))
	s.Blocks = append(s.Blocks, identity(in, p)...)
	s.Blocks = append(s.Blocks, answer(in, p)...)
	s.Blocks = append(s.Blocks, page.Columns{LeftSpan: 4,
		Left:  []page.Block{moneyTable(in, p, mine)},
		Right: []page.Block{timeTable(in, p)}})
	s.Blocks = append(s.Blocks, standing(in, p)...)
	if len(p.Shares) > 0 {
		s.Blocks = append(s.Blocks, page.Paragraph{Text: surety(p)})
	}
	s.Blocks = append(s.Blocks, photos(in, rec)...)
	s.Blocks = append(s.Blocks, takeCare(in, p)...)
	s.Blocks = append(s.Blocks, supplyTable(in, p, mine)...)
	s.Blocks = append(s.Blocks, recordsTable(in, mine)...)
	return s
}

// postingsOf is a piece's postings.
func postingsOf(in *report.Input, id string) []ledger.Posting {
	var out []ledger.Posting
	for _, p := range in.Postings {
		if p.Piece == id && p.Month <= in.Month.To {
			out = append(out, p)
		}
	}
	return out
}

// statusWords says where the piece stands.
func statusWords(in *report.Input, p figures.Piece) string {
	switch p.Status {
	case "sold":
		return "sold " + words.Day(p.SoldOn)
	case "in stock", "client":
		if p.Status == "client" {
			return "a client's, on the bench " + words.Day(in.Month.To.Last())
		}
		return "in stock " + words.Day(in.Month.To.Last())
	}
	for _, r := range in.Books.Removals {
		if r.Piece == p.Record.ID && r.Why == p.Status && r.On.InMonth() <= in.Month.To {
			return p.Status + " " + words.Day(r.On)
		}
	}
	return p.Status
}

// dates are the piece's days with the time between them, to scale.
func dates(p figures.Piece) page.Block {
	rec := p.Record
	var out page.Days
	var first, before calendar.Date
	for _, d := range []struct {
		label string
		on    calendar.Date
	}{{"Got", rec.GotOn}, {"Started", rec.StartedOn}, {"Finished", rec.FinishedOn}, {"Listed", rec.ListedOn}, {"Sold", p.SoldOn}} {
		day := page.Day{Label: d.label, Value: page.Dash, Unknown: true}
		if d.on.IsZero() {
			out.Items = append(out.Items, day)
			continue
		}
		if first.IsZero() {
			first = d.on
		}
		day.Value, day.Unknown, day.At = d.on.String(), false, float64(d.on.DaysSince(first))
		if !before.IsZero() {
			day.Under = daysApart(d.on.DaysSince(before))
		}
		before = d.on
		out.Items = append(out.Items, day)
	}
	return out
}

func daysApart(n int) string {
	switch {
	case n == 0:
		return "the same day"
	case n < 0:
		return words.Plural(-n, "day before", "days before")
	}
	return words.Plural(n, "day later", "days later")
}

// identity is what else is known of the piece in a line; only what was
// written down.
func identity(in *report.Input, p figures.Piece) []page.Block {
	rec := p.Record
	var text []string
	came := words.Capital(string(rec.How))
	if rec.From != "" {
		came += " from " + rec.From
	}
	if came != "" {
		text = append(text, came)
	}
	for _, x := range []struct{ label, value string }{{"lot", rec.Lot}, {"set", rec.Set}} {
		if x.value != "" {
			text = append(text, x.label+" "+x.value)
		}
	}
	if rec.Area != nil {
		text = append(text, strings.TrimSpace(money.Fixed(rec.Area, 2)+" "+in.Settings().AreaUnit()+" to be finished, "+areaFrom[rec.AreaFrom]))
	}
	if rec.Made > 0 {
		text = append(text, fmt.Sprintf("made %d", rec.Made))
	}
	if rec.OldFinish != "" {
		text = append(text, "old finish "+rec.OldFinish)
	}
	if rec.Asking != nil {
		text = append(text, "asking "+in.Spoken(*rec.Asking))
	}
	if len(text) == 0 {
		return nil
	}
	return []page.Block{page.Paragraph{Text: words.Capital(strings.Join(text, "; ")) + "."}}
}

var areaFrom = map[ledger.AreaFrom]string{ledger.AreaTyped: "as typed", ledger.AreaSurfaces: "from its surfaces", ledger.AreaTypical: "usual for its kind"}

// takeCare are the cautions the piece's records call for.
func takeCare(in *report.Input, p figures.Piece) []page.Block {
	out := []page.Block{page.Heading{Text: "Take care", Level: 1}}
	out = append(out, pieceCautions(in, p)...)
	if text := strings.TrimSpace(in.Cautions.Always + " " + in.Cautions.RecordsOnly); text != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

// photos are the piece's pictures where its record names any; one that cannot
// be shown is told of in its place.
func photos(in *report.Input, rec *ledger.Piece) []page.Block {
	var out page.Photos
	for _, x := range []struct{ caption, name string }{{"Before", rec.PhotoBefore}, {"After", rec.PhotoAfter}} {
		if x.name == "" {
			continue
		}
		shown := page.Photo{Caption: x.caption, Name: x.name}
		if in.Photos == nil {
			shown.Missing = x.name + " was not looked for: the books folder cannot be read."
			out.Items = append(out.Items, shown)
			continue
		}
		picture, err := photo.Ready(in.Photos, x.name)
		if err != nil {
			shown.Missing = err.Error() + "."
		}
		shown.JPEG, shown.Width, shown.Height = picture.JPEG, picture.Width, picture.Height
		out.Items = append(out.Items, shown)
	}
	if len(out.Items) == 0 {
		return nil
	}
	return []page.Block{out}
}
