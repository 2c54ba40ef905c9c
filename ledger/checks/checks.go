// Package checks looks across the tables of Books for what no single row can
// show: a piece sold twice, a refund above what was paid, a cost after the
// piece left. It reads nothing and changes nothing; what it finds is a
// fault.List, reported together with what intake and costing find.
//
// The path: Look indexes the pieces, walks each one's sales and removals by
// date (stock.go), then its money (paid.go), the shelf (shelf.go),
// and last what is only worth a look. Where one slip could be reported in several
// ways it is reported once, at the later line.
//
// Where the contract leaves room: sales and hours on pieces' own rows count as a
// table beside Pieces when the last month is looked for; receipts are asked for
// on costs, not on sales; a row that has an error raises no notes across tables.
//
// Nearly a third of the room are its tests: books that raise each code, beside the
// checks that they are for.
package checks

import (
	"cmp"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// look is one run over one Books.
type look struct {
	books   *ledger.Books  // every record: an error stops us wherever it is dated
	sold    []soldFor      // what soldPieces gives, once asked
	past    *ledger.Books  // those up to through: a month's notes do not change as the next month is entered
	through calendar.Month // 0: no limit
	pieces  map[string]*ledger.Piece
	lots    map[string]*ledger.Lot
	supply  map[string]*ledger.Supply
	units   map[string]money.Cents // the dearest container of each supply, for valuing notes
	stands  map[string][]stand     // by piece: where it stood from a day on
	refused map[pieceLine]bool
	early   map[pieceLine]bool // sales and removals dated before the piece came
	found   fault.List
}

// pieceLine is a line as far as one of its pieces goes; of a schedule's line, all
// its records.
type pieceLine struct {
	at    fault.Place
	piece string
}

// Look returns the errors and notes that show only across tables. Errors are
// looked for in all records, notes in those dated up to the month through
// (0: all). Books is not changed.
func Look(b *ledger.Books, through calendar.Month) fault.List {
	l := &look{
		books:   b,
		past:    upTo(b, through),
		through: through,
		pieces:  map[string]*ledger.Piece{},
		lots:    map[string]*ledger.Lot{},
		supply:  map[string]*ledger.Supply{},
		stands:  map[string][]stand{},
		refused: map[pieceLine]bool{},
		early:   map[pieceLine]bool{},
	}
	for x := range ledger.Each(b.Pieces) {
		l.pieces[x.ID] = x
	}
	for x := range ledger.Each(b.Lots) {
		l.lots[x.ID] = x
	}
	for x := range ledger.Each(b.Supplies) {
		l.supply[x.Name] = x
	}
	l.units = dearest(b)

	l.beforeItCame()
	l.walkStock()
	l.removalsFit()
	l.refundsWithinPaid()
	l.countsAgree()
	l.channelsOnce()

	l.afterItLeft()
	l.longBefore()
	l.neverBought()
	l.idle()
	l.sameLineTwice()
	l.priceTwice()
	l.datesAhead()
	l.datesInOrder()
	l.pricesOfKind()
	l.amountsDoubtful()
	l.lotWorths()
	l.setsShared()
	l.fuelAndMiles()
	l.foreignMileage()
	l.soldWithoutHours()
	l.soldForNothing()
	l.feesWorkedOut()
	l.rentInExpenses()
	l.rentInNoChannel()
	l.balanceOrWhole()
	l.expenseMissing()
	l.yearsEarlier()
	return l.withoutRefusedLines()
}

// withoutRefusedLines is what was found but for the notes on lines that have an
// error: those lines will change.
func (l *look) withoutRefusedLines() fault.List {
	wrong := map[fault.Place]bool{}
	for _, p := range l.found.Errors() {
		wrong[p.Place.At("")] = true
	}
	var out fault.List
	for _, p := range l.found.All() {
		if !p.Note || !wrong[p.Place.At("")] {
			out.Add(p)
		}
	}
	return out
}

// fail adds an error.
func (l *look) fail(code fault.Code, at fault.Place, found, why, fix string) {
	l.found.Add(fault.Problem{Code: code, Place: at, Found: found, Why: why, Fix: fix})
}

// note adds a note that could move the given money; it belongs to the month of
// the record it stands at.
func (l *look) note(code fault.Code, at fault.Place, found, why, fix string, moves money.Cents) {
	l.noteIn(0, code, at, found, why, fix, moves)
}

// noteIn is note for one that belongs to another month than its record's.
func (l *look) noteIn(m calendar.Month, code fault.Code, at fault.Place, found, why, fix string, moves money.Cents) {
	l.found.Add(fault.Problem{Code: code, Note: true, Place: at, Found: found, Why: why, Fix: fix,
		MoneyCents: int64(moves.Abs()), Month: m})
}

// noteNaming is note for one whose words, a format and its arguments, name
// places: see fault.Problem.Naming.
func (l *look) noteNaming(code fault.Code, at fault.Place, found, fix string, moves money.Cents, why string,
	args ...any) {
	l.found.Add(fault.Problem{Code: code, Note: true, Place: at, Found: found, Fix: fix,
		MoneyCents: int64(moves.Abs())}.Naming(why, args...))
}

// typed is money as the owner would have typed it.
func (l *look) typed(c money.Cents) string { return l.decimal(c.String()) }

// decimal is a number with the shop's decimal sign.
func (l *look) decimal(s string) string { return l.books.Settings.Decimal(s) }

// amount is money within a sentence.
func (l *look) amount(c money.Cents) string { return l.books.Settings.Amount(c) }

// day is a day as reports print it.
func (l *look) day(d calendar.Date) string { return d.Written(l.books.Settings.DayFirst) }

// list is pieces as the owner would have typed them.
func list(pieces []string) string { return strings.Join(pieces, "; ") }

// saleCell is the cell of a Sales line, by the name it has where it stands.
func saleCell(s *ledger.Sale, column string) fault.Place {
	if s.OwnRow {
		switch column {
		case "pieces":
			column = "piece"
		case "price":
			column = "sold_price"
		}
	}
	return s.At.At(column)
}

// byDate is the addresses of records by date, then place, so that of two lines at
// odds the later one is reported, and file order within a slice changes nothing.
func byDate[R any](rows []R, of func(*R) (calendar.Date, fault.Place)) []*R {
	return slices.SortedStableFunc(ledger.Each(rows), func(a, b *R) int {
		onA, atA := of(a)
		onB, atB := of(b)
		return cmp.Or(onA.Compare(onB), atA.Compare(atB))
	})
}
