package report

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// PiecesDoc is the profit sheets of the pieces sold or finished in the period
// (pieces.pdf), one piece a page.
func PiecesDoc(in Input) page.Document {
	d := in.document("Profit sheets")
	d.Subject = "Profit sheets of the pieces sold or finished in " + d.Period
	for _, p := range in.Month.Pieces {
		if in.soldIn(p) || in.within(p.Record.FinishedOn) {
			d.Sections = append(d.Sections, in.sheet(p))
		}
	}
	if len(d.Sections) == 0 {
		d.Sections = []page.Section{{Title: d.Title, Blocks: []page.Block{
			page.Paragraph{Text: "No piece was sold or finished in " + d.Period + "."}}}}
	}
	return d
}

// SheetDoc is the profit sheets of the named pieces, sold or not, in the order
// given. A name that is no piece is left out: the caller has checked them.
func SheetDoc(in Input, pieces []string) page.Document {
	d := in.document("Profit sheet")
	d.Subject = "Profit sheet as it stands at the end of " + d.Period
	for _, id := range pieces {
		if p := in.find(id); p != nil {
			d.Sections = append(d.Sections, in.sheet(*p))
		}
	}
	return d
}

// find is a piece's figures: the period's where it is among them, else those
// over its whole life.
func (in *Input) find(id string) *figures.Piece {
	for _, list := range [][]figures.Piece{in.Month.Pieces, in.All} {
		for i := range list {
			if list[i].Record.ID == id {
				return &list[i]
			}
		}
	}
	return nil
}

// within says that a day falls in the period.
func (in *Input) within(d calendar.Date) bool {
	return !d.IsZero() && d.InMonth() >= in.Month.From && d.InMonth() <= in.Month.To
}

// soldIn says that a piece was sold in the period and stayed sold.
func (in *Input) soldIn(p figures.Piece) bool { return p.Status == "sold" && in.within(p.SoldOn) }

// sheet is one piece's profit sheet.
func (in *Input) sheet(p figures.Piece) page.Section {
	rec := p.Record
	mine := in.of(rec.ID)
	s := page.Section{Title: rec.ID + ", " + rec.Kind, Head: "Piece " + rec.ID + ", " + rec.Kind,
		Anchor: "piece-" + rec.ID, NewPage: true, Untitled: true}
	s.Blocks = append(s.Blocks,
		page.Title{Text: rec.ID + " · " + rec.Kind, Under: rec.Description, Right: in.statusWords(p)},
		dates(p), in.identity(p))
	s.Blocks = append(s.Blocks, in.answer(p)...)
	s.Blocks = append(s.Blocks, page.Columns{LeftSpan: 4,
		Left:  []page.Block{in.moneyTable(p, mine)},
		Right: append([]page.Block{in.timeTable(p)}, in.standing(p)...)})
	s.Blocks = append(s.Blocks, in.supplyTable(p, mine)...)
	s.Blocks = append(s.Blocks, in.takeCare(p)...)
	s.Blocks = append(s.Blocks, in.recordsTable(mine)...)
	if in.Cautions.RecordsOnly != "" {
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Note, Text: in.Cautions.RecordsOnly})
	}
	return s
}

// of is a piece's postings.
func (in *Input) of(id string) []ledger.Posting {
	var out []ledger.Posting
	for _, p := range in.Postings {
		if p.Piece == id && p.Month <= in.Month.To {
			out = append(out, p)
		}
	}
	return out
}

// statusWords says where the piece stands.
func (in *Input) statusWords(p figures.Piece) string {
	switch p.Status {
	case "sold":
		return "sold " + dayWords(p.SoldOn)
	case "in stock", "client":
		if p.Status == "client" {
			return "a client's, on the bench " + dayWords(in.Month.To.Last())
		}
		return "in stock " + dayWords(in.Month.To.Last())
	}
	for _, r := range in.Books.Removals {
		if r.Piece == p.Record.ID && r.Why == p.Status && r.On.InMonth() <= in.Month.To {
			return p.Status + " " + dayWords(r.On)
		}
	}
	return p.Status
}

// dates are the piece's days with the time between them.
func dates(p figures.Piece) page.Block {
	rec := p.Record
	out := page.Facts{Columns: 5, Stacked: true}
	var before calendar.Date
	for _, d := range []struct {
		label string
		on    calendar.Date
	}{{"Got", rec.GotOn}, {"Started", rec.StartedOn}, {"Finished", rec.FinishedOn}, {"Listed", rec.ListedOn}, {"Sold", p.SoldOn}} {
		f := page.Fact{Label: d.label, Value: d.on.String()}
		switch {
		case d.on.IsZero():
			f.Value = page.Dash
		case !before.IsZero():
			n := d.on.DaysSince(before)
			f.Under = plural(n, "day later", "days later")
			if n == 0 {
				f.Under = "the same day"
			}
			if n < 0 {
				f.Under = plural(-n, "day before", "days before")
			}
		}
		if !d.on.IsZero() {
			before = d.on
		}
		out.Items = append(out.Items, f)
	}
	return out
}

// identity is what else is known of the piece; only what was written down.
func (in *Input) identity(p figures.Piece) page.Block {
	rec := p.Record
	out := page.Facts{Columns: 5, Stacked: true}
	add := func(label, value, under string) {
		if value != "" {
			out.Items = append(out.Items, page.Fact{Label: label, Value: value, Under: under})
		}
	}
	from := ""
	if rec.From != "" {
		from = "from " + rec.From
	}
	add("Came", string(rec.How), from)
	add("Lot", rec.Lot, "")
	add("Set", rec.Set, "")
	if rec.Area != nil {
		add("To be finished", money.Fixed(rec.Area, 2)+" "+in.settings().AreaUnit(), areaFrom[rec.AreaFrom])
	}
	if rec.Made > 0 {
		add("Made", fmt.Sprint(rec.Made), "")
	}
	add("Old finish", rec.OldFinish, "")
	if rec.Asking != nil {
		add("Asking", in.spoken(*rec.Asking), "")
	}
	return out
}

var areaFrom = map[ledger.AreaFrom]string{ledger.AreaTyped: "as typed", ledger.AreaSurfaces: "from its surfaces", ledger.AreaTypical: "usual for its kind"}

// takeCare are the cautions the piece's records call for.
func (in *Input) takeCare(p figures.Piece) []page.Block {
	out := []page.Block{page.Heading{Text: "Take care", Level: 1}}
	out = append(out, in.pieceCautions(p)...)
	if in.Cautions.Always != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: in.Cautions.Always})
	}
	return out
}
