package trace

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Open adds to a document what its figures are made of: the details of every
// cell that says so, and of the figures in those details, down to postings with
// their records. A total that is the sum of the rows above it opens to them.
//
// A posting stands once for a piece's line and once for a line of a month's
// statement; larger sums open to smaller ones, so that a file stays small. A
// balance opens to the one before and what came and went since, back to the
// books' first month. Of a month before the period a statement's postings are
// a row for each reason, and so are a shelf's but of the last months before. Totals that
// were shared in earlier months stand together with all their parts, a month's in
// one detail; of what pieces took from the shelf before, each is one row, which opens
// where another figure has its parts in the file too.
func Open(in report.Input, d *page.Document) {
	o := newOpener(in)
	for _, s := range d.Sections {
		page.EachTable(s.Blocks, func(t page.Table) { openTotals(s.Title, t) })
		o.look(s.Blocks)
	}
	for len(o.queue) > 0 {
		next := o.queue[0]
		o.queue = o.queue[1:]
		if !o.rows[next] && !o.inBook(next) {
			o.add(o.detail(next))
		}
	}
	for _, m := range slices.Sorted(maps.Keys(o.earlier)) {
		o.details = append(o.details, o.sharedBook(m))
	}
	d.Details = o.details
	for _, x := range d.Details {
		page.EachCell(x.Blocks, func(c *page.Cell) {
			if x, later := c.Of.(ifThere); later {
				if c.Of = nil; o.known[x.Ref] {
					c.Of = x.Ref
				}
			}
		})
		for i, b := range x.Blocks {
			if t, ok := b.(page.Table); ok {
				t.Rows = slices.DeleteFunc(t.Rows, func(r page.Row) bool { return o.sums[r.Of] && !o.known[r.Of] })
				recordsOnce(&t)
				x.Blocks[i] = t
			}
		}
		leadOnce(x.Blocks)
		leadOnce(x.Short)
	}
}

// newOpener has the postings up to the period's end at hand.
func newOpener(in report.Input) *opener {
	o := &opener{in: &in, stock: stockOf(&in), pieces: map[string][]*ledger.Posting{},
		supplies: map[string][]*ledger.Posting{}, months: map[calendar.Month][]*ledger.Posting{}, known: map[page.Ref]bool{},
		lines:  map[report.Sum][]counted{},
		firsts: map[alike]page.Ref{}, rows: map[page.Ref]bool{}, sums: map[page.Ref]bool{}, own: map[string][]page.Ref{},
		here: map[string]bool{}, earlier: map[calendar.Month][]*ledger.Shared{}}
	for _, p := range in.Month.Pieces {
		o.here[p.Record.ID] = true
	}
	for i := range in.Postings {
		p := &in.Postings[i]
		if p.Month > in.Month.To {
			continue
		}
		o.months[p.Month] = append(o.months[p.Month], p)
		if p.Piece != "" {
			o.pieces[p.Piece] = append(o.pieces[p.Piece], p)
		}
		if p.Supply != "" {
			o.supplies[p.Supply] = append(o.supplies[p.Supply], p)
		}
	}
	return o
}

// leadOnce leaves a link to the first of a detail's cells that lead there.
func leadOnce(blocks []page.Block) {
	led := map[string]bool{}
	page.EachTable(blocks, func(t page.Table) {
		for _, r := range t.Rows {
			for i := range r.Cells {
				if c := &r.Cells[i]; c.Link != "" {
					if led[c.Link] {
						c.Link = ""
					} else {
						led[c.Link] = true
					}
				}
			}
		}
	})
}

// longRecord is the letters of records above which a table has them once.
const longRecord = 30

// recordsOnce gives long records that several of a table's rows have a letter
// in each, which a line under the table explains.
func recordsOnce(t *page.Table) {
	at := slices.IndexFunc(t.Columns, func(c page.Column) bool { return c.Head == recordColumn.Head })
	if at < 0 {
		return
	}
	times := map[string]int{}
	for _, r := range t.Rows {
		if at < len(r.Cells) && len(r.Cells[at].Text) > longRecord {
			times[r.Cells[at].Text]++
		}
	}
	letters := map[string]string{}
	var note []string
	for _, r := range t.Rows {
		if at >= len(r.Cells) || times[r.Cells[at].Text] < 2 {
			continue
		}
		text := &r.Cells[at].Text
		if letters[*text] == "" {
			letters[*text] = words.Letter(len(letters))
			note = append(note, letters[*text]+": "+*text)
		}
		*text = letters[*text]
	}
	if len(note) > 0 {
		t.Note = "Records " + strings.Join(note, ". ") + "."
	}
}

// add adds a detail, and asks for what it opens to in turn.
func (o *opener) add(d page.Detail) {
	o.details = append(o.details, d)
	o.look(d.Blocks)
}

// opener makes details of what cells ask for, each once.
type opener struct {
	in               *report.Input
	stock            *stock
	pieces, supplies map[string][]*ledger.Posting
	months           map[calendar.Month][]*ledger.Posting
	lines            map[report.Sum][]counted // what inAnyMonth found
	known            map[page.Ref]bool
	firsts           map[alike]page.Ref
	rows             map[page.Ref]bool                   // figures that are rows of a detail
	sums             map[page.Ref]bool                   // of them, those that other rows are added up to
	own              map[string][]page.Ref               // of a piece, its figures that no line names
	here             map[string]bool                     // the pieces that have their own place in the file
	earlier          map[calendar.Month][]*ledger.Shared // totals of earlier months that are asked for
	queue            []page.Ref
	details          []page.Detail
}

// look asks for what the cells of blocks open to.
func (o *opener) look(blocks []page.Block) {
	page.EachCell(blocks, func(c *page.Cell) {
		if _, later := c.Of.(ifThere); c.Of != nil && !later {
			c.Of = o.ask(c.Of)
		}
	})
}

// ask asks for what a figure opens to, once, and gives its name. What a piece's
// own figures are worked out of is asked for at once: they are rows.
func (o *opener) ask(of page.Ref) page.Ref {
	of = o.settled(of)
	if o.known[of] {
		return of
	}
	o.known[of] = true
	o.queue = append(o.queue, of)
	if _, rate := of.(report.Rate); !rate && owner(of) != "" {
		o.own[owner(of)] = append(o.own[owner(of)], of)
	}
	if x, ok := of.(*report.Worked); ok {
		for _, t := range x.Terms {
			if _, brief := t.Of.(report.Brief); t.Of != nil && !brief && t.Cents != 0 {
				o.ask(t.Of)
			}
		}
	}
	return of
}

// alike is what two figures of one name share.
type alike struct {
	title, piece, words string
	parts               int
	cents               money.Cents
}

// settled gives figures that are the same one name: a piece's line is as it
// stood when a posting last counted in it, a piece's sum of one term is that, and of
// lists and sums the first is meant.
func (o *opener) settled(of page.Ref) page.Ref {
	switch x := of.(type) {
	case report.Sum:
		return o.settledSum(x)
	case *report.Listed:
		return o.first(alike{title: x.Title, parts: len(x.Postings), cents: x.Total()}, of)
	case *report.Worked:
		if x.Piece != "" && len(x.Terms) == 1 && x.Words == "" && x.Terms[0].Of != nil {
			return o.settled(x.Terms[0].Of)
		}
		return o.first(alike{x.Title, x.Piece, x.Words, len(x.Terms), x.Total()}, of)
	}
	return of
}

// first is the first figure that is alike.
func (o *opener) first(key alike, of page.Ref) page.Ref {
	if o.firsts[key] == nil {
		o.firsts[key] = of
	}
	return o.firsts[key]
}

// settledSum gives a piece's line over its life one name, and what it had in
// some months the same where it had nothing in others.
func (o *opener) settledSum(s report.Sum) page.Ref {
	if s.Of != figures.OfPiece {
		return s
	}
	life := s
	life.From, life.To = 0, o.in.Month.To
	if o.count(s) != o.count(life) {
		return s
	}
	return life
}

// detail is what a figure is made of.
func (o *opener) detail(of page.Ref) page.Detail {
	var d page.Detail
	switch of := of.(type) {
	case report.Sum:
		d = o.sum(of)
	case *report.Listed:
		d = o.list(of.Title, of.Postings)
	case *report.Worked:
		d = o.worked(of)
	case report.Typed:
		d = page.Detail{Title: of.What, Blocks: []page.Block{page.Paragraph{Text: "As it is written down: " +
			words.Place(of.At) + "."}}}
		if of.Cents != 0 {
			d.Figure = cells.Full(of.Cents)
		}
	case report.Whole:
		d = o.whole(of.Shared)
	default:
		panic(fmt.Sprintf("no detail is known of %T", of))
	}
	d.Of = of
	return d
}

// openTotals makes a table's totals that say nothing of themselves, and are the
// sum of the rows above them, open to these.
func openTotals(title string, t page.Table) {
	for c := range t.Columns {
		var part, whole []report.Term
		for _, r := range t.Rows {
			if r.Style == page.Group {
				part = nil
			}
			if c >= len(r.Cells) || r.Cells[c].Kind != page.KindMoney {
				continue
			}
			cell := &r.Cells[c]
			switch {
			case r.Style == page.Normal && cell.Cents != 0:
				x := report.Term{Label: page.RowName(r), Cents: money.Cents(cell.Cents), Of: cell.Of, Link: r.Cells[0].Link}
				part, whole = append(part, x), append(whole, x)
			case r.Style == page.Subtotal:
				openTotal(title, t, c, r, cell, part)
				part = nil
			case r.Style.Summing():
				openTotal(title, t, c, r, cell, whole)
			}
		}
	}
}

func openTotal(title string, t page.Table, c int, r page.Row, cell *page.Cell, terms []report.Term) {
	var sum money.Cents
	for _, x := range terms {
		sum += x.Cents
	}
	if cell.Of != nil || len(terms) == 0 || sum != money.Cents(cell.Cents) {
		return
	}
	name := t.Caption
	if name == "" {
		name = title
	}
	name += ": " + page.RowName(r)
	if head := t.Columns[c].Head; head != "" {
		name += ", " + head
	}
	cell.Of = &report.Worked{Title: name, Terms: terms}
}
