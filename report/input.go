// Package report holds what the documents of a period are composed from, and
// the few things more than one of them needs: which pieces belong to the
// period, notes, reconciliations. The documents themselves are made in the
// rooms below it, one room a document.
package report

import (
	"fmt"
	"io/fs"
	"math/big"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/kinds"
	"piecebook/ledger/missing"
	"piecebook/ledger/money"
	"piecebook/ledger/opened"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// Input is what the documents of a period are composed from.
type Input struct {
	Books *ledger.Books
	// Postings are all up to the period's end, in the costed ledger's order.
	Postings []ledger.Posting
	// Month is the period's figures; of them everything is printed.
	Month figures.Figures
	// Before is the month before's; nil where the books begin with Month.
	Before *figures.Figures
	// YearAgo is the same month's of the year before; nil where the books do
	// not reach back so far.
	YearAgo *figures.Figures
	// Year is from the calendar year's first month to the period's end.
	Year figures.Figures
	// Last are up to twelve months ending with Month, oldest first, each on its
	// own: statement, stock and pieces.
	Last []figures.Figures
	// All is every piece there is up to the period's end, by piece, whether or
	// not it was in stock in the period: for sheets and for the standing among
	// a kind.
	All []figures.Piece
	// Lives are the same pieces, with what their kinds are judged by.
	Lives []kinds.Life
	// HoursByPiece says, for each line of Books.Hours, each piece's exact part.
	HoursByPiece [][]costing.PieceHours
	// Cautions are those of templates; tests pass their own.
	Cautions templates.CautionSet
	// Tables are the tables' descriptors, for the heads of the records' sheets.
	Tables []templates.Table
	// Tally is 'rows read = used + skipped' in one line.
	Tally string
	// Absent says of each table that is not there what that leaves out, one
	// line each.
	Absent []string
	// Corrections are the corrections to closed months that the period carries.
	Corrections []*closing.Corrections
	// Earlier is, of earlier months that were made and not closed, what the
	// records now give otherwise.
	Earlier []closing.Since
	// Notes are those that belong to the period, largest in money first.
	Notes []fault.Problem
	// Count is the supplies whose count would move the most money.
	Count []missing.Count
	// Channels are what each channel took in and kept in the month, ChannelsYear in
	// the calendar year up to its end.
	Channels, ChannelsYear []kinds.Channel
	// Refused are the problems whose rows a draft leaves out; with any, every
	// page says DRAFT.
	Refused []fault.Problem
	// Draft says DRAFT on every page even where nothing was refused.
	Draft bool
	// Period names the period where its months do not: a tax year whose books
	// begin in its December. Blank: the months' name.
	Period string
	// Photos is the books folder, which pieces' photos are opened in and cannot
	// lead out of; nil: photos are named, not shown.
	Photos fs.FS
	// OnScreen is for a page on a screen: photos are small, and what a figure
	// opens to need not stand on a sheet too.
	OnScreen bool
	// Fingerprint of the records, as the running foot prints it.
	Fingerprint string
	// Stamp dates the files; zero: the period's last day.
	Stamp time.Time

	// What is asked for piece by piece is gathered by the first who asks; see OfPiece.
	ofPieces   map[string]*OfPiece
	byID       map[string]*figures.Piece
	ofKinds    map[string]*SoldOfKind
	unfinished map[calendar.Month]map[string]bool
	lettered   []Caution
}

// Document is an empty document with what every report of in has.
func (in *Input) Document(title string) page.Document {
	set := in.Settings()
	stamp := in.Stamp
	if stamp.IsZero() {
		stamp = in.Month.To.Last().Time()
	}
	d := page.Document{Title: title, Shop: set.Shop, Period: periodName(in.Month), Fingerprint: in.Fingerprint,
		Author: set.Shop, Subject: "Cost records", Stamp: stamp, Paper: page.Paper(set.Paper), Currency: in.Month.Currency}
	if in.Period != "" {
		d.Period = in.Period
	}
	if in.Draft || len(in.Refused) > 0 {
		d.Banner = "DRAFT"
	}
	return d
}

// Settings are the shop's, or the zero ones where there are no books.
func (in *Input) Settings() ledger.Settings {
	if in.Books == nil {
		return ledger.Settings{}
	}
	return in.Books.Settings
}

// periodName names a month, the months of a calendar year up to its December
// (books may begin within it), or the months from and to.
func periodName(f figures.Figures) string {
	switch {
	case f.From == f.To:
		return f.To.Name()
	case f.From.Year() == f.To.Year() && f.To.Of() == time.December:
		return fmt.Sprint(f.To.Year())
	}
	return f.From.Name() + " to " + f.To.Name()
}

// Spoken is an amount within a sentence.
func (in *Input) Spoken(c money.Cents) string {
	return page.Amount(int64(c), page.Sign(in.Month.Currency), true)
}

// SaidLine is a line of a piece within a sentence, which opens so too.
func (in *Input) SaidLine(p figures.Piece, id figures.ID) page.Cell {
	return in.Said(p.Amount(id), in.LineOfPiece(p.Record.ID, id))
}

// Said is an amount within a sentence, which opens where it is not nothing.
func (in *Input) Said(c money.Cents, of page.Ref) page.Cell {
	if c == 0 {
		of = nil
	}
	return page.Spoken(in.Spoken(c), int64(c)).Opens(of)
}

// UsualOf is how many months there must be for one to be called usual.
const UsualOf = 3

// MonthsBefore are up to twelve months before Month, oldest first: what is usual is
// the median of these.
func (in *Input) MonthsBefore() []figures.Figures {
	var out []figures.Figures
	if in.YearAgo != nil {
		out = append(out, *in.YearAgo)
	}
	return append(out, in.Last[:max(0, len(in.Last)-1)]...)
}

// Of is what the reports of the books' last month are composed from, but for
// where its photos are and its time.
func Of(b *opened.Books) (Input, error) {
	cautions, err := templates.Cautions()
	if err != nil {
		return Input{}, err
	}
	l := b.Ledger
	first := l.Months[0].Month
	january := max(first, calendar.MonthOf(b.Month.Year(), 1))
	index := figures.NewIndex(l)
	in := Input{HoursByPiece: index.HoursByPiece(), Books: l.Books, Postings: l.Postings(),
		Month: index.For(b.Month, b.Month), Year: index.For(january, b.Month), All: index.All(), Cautions: cautions,
		Tables: b.Set.Tables, Refused: b.Refused.Errors(), Tally: words.RowsInAll(b.Read.Tally),
		Absent: words.Absent(b.Read, b.Set.Tables), Corrections: b.Corrections(b.Month, b.Month),
		Notes: figures.OfPeriod(b.Problems.Notes(), b.Month, b.Month), Count: b.CountThese(), Fingerprint: b.Read.Fingerprint}
	for m := max(first, b.Month-11); m < b.Month; m++ {
		in.Last = append(in.Last, earlierMonth(index, b.Closed, m))
	}
	if n := len(in.Last); n > 0 {
		before := in.Last[n-1]
		in.Before = &before
	}
	in.Last = append(in.Last, in.Month)
	in.Lives = kinds.LivesOf(l, in.All)
	channels := kinds.Channels(l, in.Lives, b.Month, kinds.MonthScope(b.Month), kinds.Scope{Year: b.Month.Year()})
	in.Channels, in.ChannelsYear = channels[0], channels[1]
	if b.Month-12 >= first {
		ago := earlierMonth(index, b.Closed, b.Month-12)
		in.YearAgo = &ago
	}
	return in, nil
}

// earlierMonth are figures of an earlier month without what each supply cost each
// piece by then, which no report asks of it, and, of a closed one, with the hours it
// was closed with, as its profit is.
func earlierMonth(index *figures.Index, closed []*closing.Month, m calendar.Month) figures.Figures {
	f := index.For(m, m)
	for i := range f.Pieces {
		f.Pieces[i].Shares = nil
	}
	for _, c := range closed {
		if c.Month == m {
			hoursAsClosed(f.Pieces, c.Hours())
		}
	}
	return f
}

// hoursAsClosed gives pieces the hours that a closed month has; where these are the
// same to the four places written, the exact hours stay.
func hoursAsClosed(pieces []figures.Piece, then map[string]string) {
	for i := range pieces {
		p := &pieces[i]
		hours, read := new(big.Rat).SetString(then[p.Record.ID])
		if read && (p.Hours == nil || money.AtMost(p.Hours, 4) != then[p.Record.ID]) {
			p.Hours = hours
		}
	}
}
