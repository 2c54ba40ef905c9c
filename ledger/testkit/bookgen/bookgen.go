// Package bookgen makes random books folders for tests: every table, and every
// odd turn a small shop's year can take, over a few months. The same seed gives
// the same bytes. What it makes is without error by the contract of the records
// (notes it raises plenty), so that laws which must hold of all books can be
// tried on as many as there are seeds.
//
// It knows the rules of refusal, and the few rules of sharing that those rest
// on; it costs nothing and reads nothing back.
package bookgen

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"maps"
	"math/rand/v2"
	"strings"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// tables describes every table; its columns are written in the descriptor's order.
var tables = func() *templates.Set {
	set, err := templates.Load()
	must(err)
	return set
}()

// columns are a table's columns.
func columns(table *templates.Table) []string {
	var out []string
	for _, f := range table.StarterFields() {
		out = append(out, f.Name)
	}
	return out
}

// row is one line of a table, by column; what is not in it is blank.
type row map[string]string

// maker is one books folder in the making.
type maker struct {
	*rand.Rand
	start    calendar.Month // the first month; the shelf's openings are of its first day
	months   int
	pieces   []*piece
	supplies []*supply
	shopping bool // supplies are bought again often and seldom counted
	rows     map[string][]row
}

// Files is a random books folder: settings.toml and one CSV file of each table
// under records/, 6 to 10 months, 15 to 25 pieces and 12 to 18 supplies.
func Files(seed uint64) map[string][]byte {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)), rows: map[string][]row{}}
	m.start = calendar.MonthOf(2025, time.January) + calendar.Month(m.IntN(15))
	m.months = 6 + m.IntN(5)
	return m.make()
}

// Shopping is as Files over 9 to 14 months of a shop that seldom counts: small
// purchases in most months, of other sizes too, and take-backs of anything
// there may be, so that some are of more than the records leave (which costing
// refuses; the records' reading does not).
func Shopping(seed uint64) map[string][]byte {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 0x94d049bb133111eb)), rows: map[string][]row{}, shopping: true}
	m.start = calendar.MonthOf(2025, time.January) + calendar.Month(m.IntN(12))
	m.months = 9 + m.IntN(6)
	return m.make()
}

// Years is as Files over 20 to 30 months from 2022 or 2023 on, so that a
// year's rate of mileage changes, pieces and supplies stand over New Year,
// and every channel has a yearly statement. Both treatments of tax_supplies
// come; WithTreatment changes it.
func Years(seed uint64) map[string][]byte {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 0xbf58476d1ce4e5b9)), rows: map[string][]row{}}
	m.start = calendar.MonthOf(2022, time.January) + calendar.Month(m.IntN(15))
	m.months = 20 + m.IntN(11)
	files := m.make()
	for year := m.start.Year(); year <= m.end().Year; year++ {
		for _, channel := range []string{"market", "booth", "online"} {
			m.add("statements", row{"year": fmt.Sprint(year), "channel": channel, "gross": m.cents(100, 4000).String()})
		}
	}
	files["records/statements.csv"] = encode(columns(tables.Table("statements")), m.rows["statements"])
	return files
}

// WithTreatment is books with tax_supplies set to a value.
func WithTreatment(files map[string][]byte, value string) map[string][]byte {
	out := maps.Clone(files)
	lines := strings.Split(string(files["settings.toml"]), "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, "tax_supplies") {
			lines[i] = fmt.Sprintf("tax_supplies = %q", value)
		}
	}
	out["settings.toml"] = []byte(strings.Join(lines, "\n"))
	return out
}

// make makes the books of the maker's months.
func (m *maker) make() map[string][]byte {
	m.makePieces()
	m.makeSupplies()
	m.makeChannels()
	m.liveLives()
	m.sellSets()
	m.writePieces()
	m.stockShelf()
	m.makeSchedules()
	m.work()
	m.lateCosts()
	m.moves()
	m.shop()
	m.details()

	out := map[string][]byte{"settings.toml": m.settings()}
	for i := range tables.Tables {
		t := &tables.Tables[i]
		out["records/"+t.Name+".csv"] = encode(columns(t), m.rows[t.Name])
	}
	return out
}

// encode writes rows under a header.
func encode(header []string, rows []row) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	lines := [][]string{header}
	for _, r := range rows {
		line := make([]string, len(header))
		for i, column := range header {
			line[i] = r[column]
		}
		lines = append(lines, line)
	}
	if err := w.WriteAll(lines); err != nil {
		panic("bookgen: a buffer cannot fail: " + err.Error())
	}
	return b.Bytes()
}

// add appends a line; a column the table does not have is a defect of ours.
func (m *maker) add(table string, r row) {
	for column := range r {
		if tables.Table(table).Field(column) == nil {
			panic("bookgen: no column " + column + " in " + table)
		}
	}
	m.rows[table] = append(m.rows[table], r)
}

// settings is a settings.toml with the choices that change figures.
func (m *maker) settings() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "shop = \"Shop %d\"\n", m.IntN(100))
	fmt.Fprintf(&b, "overhead_by = %q\n", m.pick("hours", "area", "pieces"))
	fmt.Fprintf(&b, "coverage = %q\n", m.pick("own", "own", "stated"))
	fmt.Fprintf(&b, "tax_supplies = %q\n", m.pick("with the piece", "when used"))
	if m.IntN(3) == 0 {
		fmt.Fprintf(&b, "\n[mileage]\n\"%s\" = 0.70\n", (m.start + 2).First().AddDays(9))
	}
	return []byte(b.String())
}

// chance is true in percent of cases.
func (m *maker) chance(percent int) bool { return m.IntN(100) < percent }

// between is a whole number from low to high, both in it.
func (m *maker) between(low, high int) int { return low + m.IntN(high-low+1) }

func (m *maker) pick(from ...string) string { return from[m.IntN(len(from))] }

// cents is an amount between two whole amounts of the currency.
func (m *maker) cents(low, high int) money.Cents {
	return money.Cents(m.between(low*100, high*100))
}

// maybe is an amount in so many percent of cases, else blank.
func (m *maker) maybe(percent, low, high int) string {
	if m.chance(percent) {
		return m.cents(low, high).String()
	}
	return ""
}

// receipt is a receipt's number or nothing.
func (m *maker) receipt() string {
	if m.chance(30) {
		return fmt.Sprintf("R%03d", m.IntN(1000))
	}
	return ""
}

// end is the last day of the books.
func (m *maker) end() calendar.Date { return (m.start + calendar.Month(m.months-1)).Last() }

// month is the month numbered from 0.
func (m *maker) month(i int) calendar.Month { return m.start + calendar.Month(i) }

// day is a random day of a month from day low to day high or the month's end.
func (m *maker) day(in calendar.Month, low, high int) calendar.Date {
	return in.First().AddDays(m.between(low, min(high, in.Last().Day)) - 1)
}

// within is a random day from a to b.
func (m *maker) within(a, b calendar.Date) calendar.Date {
	if !b.After(a) {
		return a
	}
	return a.AddDays(m.IntN(b.DaysSince(a) + 1))
}

// decimal is n/d as a decimal number; d must divide a thousand.
func decimal(n, d int) string {
	thousandths := n * 1000 / d
	s := fmt.Sprintf("%d.%03d", thousandths/1000, thousandths%1000)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
