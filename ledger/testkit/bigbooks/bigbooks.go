// Package bigbooks makes books of any size for benchmarks and for tests of
// growth: so many pieces a year over so many years, in the proportions of the
// sample shop (about 15 lines a piece), in every table. The same seed gives
// the same books. They have no errors; notes they have some.
//
// bookgen makes small books full of odd turns; these are large and ordinary.
package bigbooks

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// LastMonth is the last month of all books made here; they begin in January,
// so many years before.
var LastMonth = calendar.MonthOf(2025, time.December)

// Size is how large books are.
type Size struct {
	Pieces int // bought a year
	Years  int
}

// The sizes that are measured: a year of the sample shop, ten and a hundred
// times as much in one year, and ten years.
var (
	Year        = Size{Pieces: 150, Years: 1}
	TenTimes    = Size{Pieces: 1_500, Years: 1}
	HundredFold = Size{Pieces: 15_000, Years: 1}
	TenYears    = Size{Pieces: 150, Years: 10}
)

// Table is one table's name and lines, the column names first.
type Table struct {
	Name  string
	Lines [][]string
}

// Books are all tables of a shop.
type Books struct {
	Tables []Table
}

// columns of each table, in the order the tables are written.
var columns = []struct {
	table string
	names string
}{
	{"Pieces", "piece kind description set how got_on from price tax_paid pickup lot worth area " +
		"started_on finished_on listed_on asking made old_finish condition receipt"},
	{"Lots", "lot got_on from price fees tax_paid pickup share_by receipt"},
	{"Surfaces", "piece part shape count width height top bottom sides faces relief"},
	{"Supplies", "supply group container share_by coverage"},
	{"Purchases", "bought_on supply containers cost tax_paid from receipt"},
	{"Openings", "on supply amount cost deducted"},
	{"Schedules", "schedule supply coats"},
	{"Uses", "used_on pieces supply schedule area coats amount"},
	{"Parts", "bought_on pieces what cost tax_paid type from receipt"},
	{"Hours", "worked_on pieces hours task"},
	{"Trips", "on miles purpose to tolls pieces"},
	{"Expenses", "paid_on what group amount channel pieces receipt"},
	{"Equipment", "bought_on what cost tax_paid life receipt"},
	{"Channels", "channel from_date fee_percent fee_least card_percent card_fixed"},
	{"Sales", "sold_on pieces channel type price delivery_charged sales_tax marketplace_tax delivery_cost receipt"},
	{"Counts", "counted_on supply left discarded"},
	{"Moves", "moved_on from_piece to_piece what value"},
	{"Removals", "removed_on piece why received value"},
	{"Other income", "got_on what group amount"},
	{"Tax paid", "paid_on period amount kept"},
	{"Payouts", "paid_on channel amount through rent"},
	{"Statements", "year channel gross"},
}

// maker is a shop's books in the making.
type maker struct {
	*rand.Rand
	size     Size
	first    calendar.Month
	lines    map[string][][]string
	names    map[string][]string // the columns of each table
	jobs     []*job
	shelf    []*supply
	byName   map[string]*supply
	receipts int
	tax      map[calendar.Month]money.Cents // sales tax collected by the shop
	gross    map[channelMonth]money.Cents
}

// channelMonth is a channel's month.
type channelMonth struct {
	channel string
	month   calendar.Month
}

// Make makes books of a size.
func Make(seed uint64, size Size) *Books {
	m := &maker{
		Rand: rand.New(rand.NewPCG(seed, 0x94d049bb133111eb)), size: size,
		first: LastMonth + 1 - calendar.Month(12*size.Years),
		lines: map[string][][]string{}, names: map[string][]string{},
		tax: map[calendar.Month]money.Cents{}, gross: map[channelMonth]money.Cents{},
	}
	for _, c := range columns {
		m.names[c.table] = strings.Fields(c.names)
		m.lines[c.table] = [][]string{m.names[c.table]}
	}
	m.stockShelf()
	m.channels()
	m.acquire()
	for _, j := range m.jobs {
		m.work(j)
		m.sell(j)
		m.write(j)
	}
	m.moves()
	m.supply()
	m.shop()
	b := &Books{}
	for _, c := range columns {
		b.Tables = append(b.Tables, Table{c.table, m.lines[c.table]})
	}
	return b
}

// Lines is how many records there are in all tables.
func (b *Books) Lines() int {
	n := 0
	for _, t := range b.Tables {
		n += len(t.Lines) - 1
	}
	return n
}

// settings is the shop's settings.toml.
const settings = "shop = \"The Long Bench\"\ntarget_hourly = 22.00\n"

// Folder is a books folder with the records as plain files, by file name.
func (b *Books) Folder() map[string][]byte {
	out := map[string][]byte{"settings.toml": []byte(settings)}
	for name, data := range b.CSV() {
		out["records/"+name] = data
	}
	return out
}

// WorkbookFolder is a books folder with the records as one XLSX file.
func (b *Books) WorkbookFolder() map[string][]byte {
	return map[string][]byte{"settings.toml": []byte(settings), "records/Shop book.xlsx": b.Workbook()}
}

// CSV is the books as plain files, by file name.
func (b *Books) CSV() map[string][]byte {
	out := map[string][]byte{}
	for _, t := range b.Tables {
		var buffer bytes.Buffer
		w := csv.NewWriter(&buffer)
		must(w.WriteAll(t.Lines))
		out[t.Name+".csv"] = buffer.Bytes()
	}
	return out
}

// must is for what cannot fail on books of our own making.
func must(err error) {
	if err != nil {
		panic("bigbooks: " + err.Error())
	}
}

// row is one line of a table by column; what is not in it is blank.
type row map[string]string

// add writes a line; one that is dated after the books' end is left out.
func (m *maker) add(table string, on calendar.Date, r row) bool {
	if on.InMonth() > LastMonth {
		return false
	}
	line := make([]string, len(m.names[table]))
	for i, name := range m.names[table] {
		line[i] = r[name]
	}
	m.lines[table] = append(m.lines[table], line)
	return true
}

// chance is true in so many of a thousand cases.
func (m *maker) chance(perMille int) bool { return m.IntN(1000) < perMille }

// between is a whole number from low to high, both in it.
func (m *maker) between(low, high int) int { return low + m.IntN(high-low+1) }

func (m *maker) pick(from ...string) string { return from[m.IntN(len(from))] }

// day is a day of the month.
func (m *maker) day(in calendar.Month) calendar.Date {
	return in.First().AddDays(m.IntN(in.Last().Day))
}

// receipt is the next receipt's number, in six of ten cases.
func (m *maker) receipt() string {
	if m.chance(400) {
		return ""
	}
	m.receipts++
	return fmt.Sprintf("R%06d", m.receipts)
}

// hundredths is n/100 as a decimal number.
func hundredths(n int) string { return money.Cents(n).String() }

// money of a whole amount and a few cents.
func (m *maker) amount(low, high int) money.Cents {
	return money.Cents(m.between(low*100, high*100))
}

// taxOf is sales tax of 6 per cent, to the cent below.
func taxOf(c money.Cents) money.Cents { return c * 6 / 100 }
