package ledger

import (
	"iter"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"sync"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Record is one line of any table, so that anyone who looks at all tables asks
// each the same questions. What a table answers stands in columns.go, once.
type Record struct {
	Table string // its descriptor's name
	At    fault.Place
	// On is the day it is dated, zero where its table has none; DayIn is the
	// column of that day, blank where the day stands in another record or is
	// one of several.
	On    calendar.Date
	DayIn string
	Month calendar.Month // that it counts in: On's, for a count the one it closes; 0 without a day
	// CountsAs is the table it counts as where tables are compared with each
	// other: a lot's pieces came with the lot, and what stands on pieces' own
	// rows is a table beside Pieces.
	CountsAs string
	Cents    money.Cents // that changed hands by this line; negative: the other way
	Paid     bool        // the shop paid it; else the shop received it
	Pieces   []string    // that it names, resolved
	Receipt  string
	Row      Row    // the line itself
	about    string // the columns that say what it is about
}

// Row is a line of one table: *Piece, *Sale ...
type Row interface {
	record() Record // without what RecordOf adds
}

// PointerTo is a pointer to a type of rows, for functions of any table.
type PointerTo[R any] interface {
	*R
	Row
}

// RecordOf is a row as a record.
func RecordOf(row Row) Record {
	r := row.record()
	r.Row = row
	if r.CountsAs == "" {
		r.CountsAs = r.Table
	}
	if r.Month == 0 && !r.On.IsZero() {
		r.Month = r.On.InMonth()
	}
	return r
}

// Title is the table's name as the owner sees it: Other income.
func (r Record) Title() string { return strings.ToUpper(r.Table[:1]) + r.Table[1:] }

// Cells is what stands in the record's columns, in the order of its
// descriptor. They are appended to a list, so that one list can serve many records.
func (r Record) Cells(to []Cell) []Cell {
	row := reflect.ValueOf(r.Row).Elem()
	columns := columnsOf(row.Type())
	for c := range Each(columns) {
		field := row.Field(c.field)
		if c.word == "" {
			to = append(to, Cell{Column: c.name, Kind: c.kind, Optional: c.optional})
			to[len(to)-1].fill(c, field)
		} else if field.Bool() {
			to[len(to)-1].Text = c.word
		}
	}
	if tool, is := r.Row.(*Equipment); is && tool.SoldOn.IsZero() {
		soldFor := slices.IndexFunc(to, func(c Cell) bool { return c.Column == "sold_for" })
		to[soldFor].Cents = nil
	}
	return to
}

// About is what the line is about, in the owner's words: the piece and its
// kind, what was bought.
func (r Record) About() string { return r.AboutOf(r.Cells(nil)) }

// AboutOf is About for who has the record's cells already.
func (r Record) AboutOf(cells []Cell) string {
	var words []string
	for _, column := range strings.Fields(r.about) {
		at := slices.IndexFunc(cells, func(c Cell) bool { return c.Column == column })
		words = append(words, cells[at].String())
	}
	return strings.Join(words, ", ")
}

// CellKind is what a column holds.
type CellKind int

// The kinds of cells.
const (
	TextCell CellKind = iota
	MoneyCell
	NumberCell
	AreaCell // a number to 0.01
	HoursCell
	DayCell
)

// Cell is one column of a record: the one field that its kind says, blank
// where that is empty or nil. A number that may also be a word has it in Text.
type Cell struct {
	Column string
	Kind   CellKind
	Text   string
	Cents  *money.Cents
	Number *big.Rat
	Day    calendar.Date
	// Optional says of money that nothing written and 0.00 are two things.
	Optional bool
}

// String is the cell in one way whatever the owner's was: 12.50, 1/3,
// 2026-03-09; empty where it is blank.
func (c Cell) String() string {
	switch {
	case c.Cents != nil:
		return c.Cents.String()
	case c.Number != nil:
		return c.Number.RatString()
	case !c.Day.IsZero():
		return c.Day.String()
	}
	return c.Text
}

// column is a field of a record and its column, as its tag says: `col:"got_on"`.
type column struct {
	field int
	name  string
	kind  CellKind
	// no and yes are what a field of two answers says; word is what one that stands
	// in the column before it says where it is so, in place of a number.
	no, yes, word string
	optional      bool
}

// columnsKnown holds the columns of each type of record, once they are asked for.
var columnsKnown sync.Map

// columnsOf are the columns of a type of record, in order.
func columnsOf(row reflect.Type) []column {
	if known, is := columnsKnown.Load(row); is {
		return known.([]column)
	}
	var out []column
	for i := range row.NumField() {
		name, option, _ := strings.Cut(row.Field(i).Tag.Get("col"), ",")
		if name == "" {
			continue
		}
		c := column{field: i, name: name, kind: kindOf[row.Field(i).Type], no: "no", yes: "yes"}
		switch no, yes, two := strings.Cut(option, "|"); {
		case two:
			c.no, c.yes = no, yes
		case option == "area":
			c.kind = AreaCell
		case option == "hours":
			c.kind = HoursCell
		case option == "optional":
			c.optional = true
		default:
			c.word = option
		}
		out = append(out, c)
	}
	columnsKnown.Store(row, out)
	return out
}

// kindOf is what a column holds by its field's type; text where it is none of these.
var kindOf = map[reflect.Type]CellKind{
	reflect.TypeFor[money.Cents](): MoneyCell, reflect.TypeFor[*money.Cents](): MoneyCell,
	reflect.TypeFor[*big.Rat](): NumberCell, reflect.TypeFor[int](): NumberCell,
	reflect.TypeFor[calendar.Date](): DayCell,
}

// fill fills a cell in from its field. A whole number of 0 is blank.
func (cell *Cell) fill(c *column, field reflect.Value) {
	switch field.Kind() {
	case reflect.String:
		cell.Text = field.String()
		return
	case reflect.Bool:
		if cell.Text = c.no; field.Bool() {
			cell.Text = c.yes
		}
		return
	case reflect.Int:
		if n := field.Int(); n != 0 {
			cell.Number = big.NewRat(n, 1)
		}
		return
	}
	switch x := field.Addr().Interface().(type) {
	case *[]string:
		cell.Text = strings.Join(*x, ", ")
	case *calendar.Date:
		cell.Day = *x
	case *money.Cents:
		cell.Cents = x
	case **money.Cents:
		cell.Cents, cell.Optional = *x, true
	case **big.Rat:
		cell.Number = *x
	}
}

// Records are the lines of all tables, table by table in the order of the
// descriptors, each in the order it has in its slice.
func (b *Books) Records() iter.Seq[Record] {
	return func(yield func(Record) bool) {
		for _, t := range b.tables() {
			if !t.each(yield) {
				return
			}
		}
	}
}

// Where is the books without the records that do not pass. Tables all of which
// pass share their records with b.
func (b *Books) Where(pass func(Record) bool) *Books {
	out := *b
	for _, t := range out.tables() {
		t.keep(pass)
	}
	return &out
}

// Columns are the columns of each table, by the table's name, in their order.
func Columns() map[string][]Cell {
	out := map[string][]Cell{}
	for _, t := range new(Books).tables() {
		blank := RecordOf(t.blank())
		out[blank.Table] = blank.Cells(nil)
	}
	return out
}

// Each is the rows of a list one by one, each by its address.
func Each[R any](rows []R) iter.Seq[*R] {
	return func(yield func(*R) bool) {
		for i := range rows {
			if !yield(&rows[i]) {
				return
			}
		}
	}
}

// Distinct is names in code-point order, each once.
func Distinct(names []string) []string {
	if len(names) < 2 {
		return names
	}
	return slices.Compact(slices.Sorted(slices.Values(names)))
}

// table is a table of the books, whatever its records.
type table interface {
	blank() Row
	each(yield func(Record) bool) bool
	keep(pass func(Record) bool)
}

// rows is a slice of the books as a table.
type rows[R any, P PointerTo[R]] struct{ records *[]R }

func tableOf[R any, P PointerTo[R]](records *[]R) table { return rows[R, P]{records} }

func (s rows[R, P]) blank() Row { return P(new(R)) }

func (s rows[R, P]) each(yield func(Record) bool) bool {
	for row := range Each(*s.records) {
		if !yield(RecordOf(P(row))) {
			return false
		}
	}
	return true
}

func (s rows[R, P]) keep(pass func(Record) bool) {
	all := *s.records
	for i := range all {
		if pass(RecordOf(P(&all[i]))) {
			continue
		}
		kept := slices.Clone(all[:i])
		for k := i + 1; k < len(all); k++ {
			if pass(RecordOf(P(&all[k]))) {
				kept = append(kept, all[k])
			}
		}
		*s.records = kept
		return
	}
}
