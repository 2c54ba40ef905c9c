package ledger_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/templates"
)

// kindOf is what each kind of a descriptor's columns is among a record's cells.
var kindOf = map[templates.Cell]ledger.CellKind{
	templates.Date: ledger.DayCell, templates.Money: ledger.MoneyCell, templates.SignedMoney: ledger.MoneyCell,
	templates.Number: ledger.NumberCell, templates.SignedNumber: ledger.NumberCell, templates.Whole: ledger.NumberCell,
	templates.Percent: ledger.NumberCell, templates.Length: ledger.NumberCell, templates.Year: ledger.NumberCell,
	templates.Amount: ledger.NumberCell, templates.Coverage: ledger.NumberCell, templates.HoursOfDay: ledger.HoursCell,
}

// onOtherRecords are the columns of a table that are no cells of its own
// records: what becomes a record of Sales or Hours, the size of a
// container, which is in the number of containers, and what reached the owner,
// which is in the fee.
var onOtherRecords = map[string][]string{
	"pieces": {"sold_on", "channel", "sold_price", "fee", "card_fee", "delivery_charged", "delivery_cost", "sales_tax",
		"net", "sold_ticked", "hours"},
	"sales":     {"net"},
	"purchases": {"container"},
}

// addedColumns are cells that no descriptor has: what reading found out.
var addedColumns = map[string][]string{"pieces": {"area from"}}

// Every column of a descriptor is one cell of its records, or one of
// onOtherRecords, in the descriptor's order; and no cell is without one.
func TestCellsAreTheDescriptorsColumns(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	columns := ledger.Columns()
	require.Len(t, columns, len(set.Tables))
	for _, table := range set.Tables {
		var want, got []string
		for _, f := range table.Fields {
			if !slices.Contains(onOtherRecords[table.Name], f.Name) {
				want = append(want, f.Name)
			}
		}
		for _, c := range columns[table.Name] {
			f := table.Field(c.Column)
			if f == nil {
				assert.Contains(t, addedColumns[table.Name], c.Column)
				continue
			}
			got = append(got, c.Column)
			kind := kindOf[f.Cell]
			if table.Name == "pieces" && c.Column == "area" {
				kind = ledger.AreaCell
			}
			assert.Equal(t, kind, c.Kind, "%s %s", table.Name, c.Column)
		}
		assert.Equal(t, want, got, table.Name)
	}
}

// The day's column is one of the table's, tables come in the order of their
// descriptors, and a table's title is its descriptor's.
func TestRecordsAnswerByTheirDescriptor(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	books := &ledger.Books{Pieces: make([]ledger.Piece, 1), Lots: make([]ledger.Lot, 1),
		Surfaces: make([]ledger.Surface, 1),
		Supplies: make([]ledger.Supply, 1), Purchases: make([]ledger.Purchase, 1), Openings: make([]ledger.Opening, 1),
		Schedules: make([]ledger.ScheduleLine, 1), Uses: make([]ledger.Use, 1), Parts: make([]ledger.Part, 1),
		Hours: make([]ledger.Hours, 1), Trips: make([]ledger.Trip, 1), Expenses: make([]ledger.Expense, 1),
		Equipment: make([]ledger.Equipment, 1), Channels: make([]ledger.Channel, 1), Sales: make([]ledger.Sale, 1),
		Counts: make([]ledger.Count, 1), Moves: make([]ledger.Move, 1), Removals: make([]ledger.Removal, 1),
		OtherIncome: make([]ledger.OtherIncome, 1), TaxPaid: make([]ledger.TaxPaid, 1), Payouts: make([]ledger.Payout, 1),
		Statements: make([]ledger.Statement, 1)}
	at := 0
	for r := range books.Records() {
		table := set.Tables[at]
		at++
		assert.Equal(t, []string{table.Name, table.Title}, []string{r.Table, r.Title()})
		if r.DayIn != "" {
			require.NotNil(t, table.Field(r.DayIn), table.Name)
			assert.Equal(t, templates.Date, table.Field(r.DayIn).Cell, table.Name)
		}
		assert.Equal(t, r.DayIn != "", len(table.Fields) > 0 && table.Fields[0].Cell == templates.Date ||
			table.Name == "pieces" || table.Name == "lots",
			"a table whose first column is a day is dated by it, and so are pieces and lots: %s", table.Name)
	}
	require.Equal(t, len(set.Tables), at)
}

// What a record answers, of one of each sort that answers in its own way.
func TestRecordsAnswer(t *testing.T) {
	day, err := calendar.Parse("2026-03-04")
	require.NoError(t, err)
	march, february := day.InMonth(), day.InMonth()-1
	for _, c := range []struct {
		row  ledger.Row
		want ledger.Record // without its row
		what string
	}{
		{&ledger.Piece{ID: "P1", Kind: "desk", GotOn: day, Price: 4000, TaxPaid: 330, Receipt: "17"},
			ledger.Record{Table: "pieces", DayIn: "got_on", Month: march, CountsAs: "pieces", Cents: 4330, Paid: true,
				Receipt: "17"}, "P1, desk"},
		{&ledger.Piece{ID: "P1", Kind: "desk", GotOn: day, Lot: "L1"},
			ledger.Record{Table: "pieces", Month: march, CountsAs: "lots", Paid: true}, "P1, desk"},
		{&ledger.Count{On: day, Supply: "Primer"},
			ledger.Record{Table: "counts", DayIn: "counted_on", Month: february, CountsAs: "counts"}, ""},
		{&ledger.Sale{On: day, Type: ledger.SaleLine, Pieces: []string{"P1", "P2"}, Price: 9000, DeliveryCharged: 500, OwnRow: true},
			ledger.Record{Table: "sales", DayIn: "sold_on", Month: march, CountsAs: "pieces' own rows", Cents: 9500,
				Pieces: []string{"P1", "P2"}}, "sale, P1, P2"},
		{&ledger.Hours{On: day, Pieces: []string{"P1"}, OwnRow: true},
			ledger.Record{Table: "hours", Month: march, CountsAs: "pieces' own rows", Pieces: []string{"P1"}}, ""},
	} {
		got := ledger.RecordOf(c.row)
		assert.Equal(t, c.row, got.Row)
		assert.Equal(t, day, got.On)
		assert.Equal(t, c.what, got.About())
		w := c.want
		assert.Equal(t, []any{w.Table, w.DayIn, w.Month, w.CountsAs, w.Cents, w.Paid, w.Pieces, w.Receipt},
			[]any{got.Table, got.DayIn, got.Month, got.CountsAs, got.Cents, got.Paid, got.Pieces, got.Receipt})
	}
}

// Where leaves what it was given as it is.
func TestWhere(t *testing.T) {
	b := &ledger.Books{Trips: []ledger.Trip{{Purpose: "a"}, {Purpose: "b"}, {Purpose: "c"}},
		Hours: make([]ledger.Hours, 2)}
	got := b.Where(func(r ledger.Record) bool { return r.About() != "b" })
	assert.Equal(t, []ledger.Trip{{Purpose: "a"}, {Purpose: "c"}}, got.Trips)
	assert.Len(t, got.Hours, 2)
	assert.Equal(t, "b", b.Trips[1].Purpose)
	assert.Len(t, b.Trips, 3)
}
