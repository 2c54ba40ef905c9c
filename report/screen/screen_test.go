package screen_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/figuresjson"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/screen"
	"piecebook/report/testkit"
	"piecebook/report/trace"
)

// amountOf is the last amount of a row.
func amountOf(r page.Row) (int64, bool) {
	for i := len(r.Cells) - 1; i >= 0; i-- {
		if r.Cells[i].Kind == page.KindMoney {
			return r.Cells[i].Cents, true
		}
	}
	return 0, false
}

// opened is what each figure of a document opens to, in cents.
func opened(d page.Document) map[page.Ref]int64 {
	out := map[page.Ref]int64{}
	for _, x := range d.Details {
		if x.Figure.Kind == page.KindMoney {
			out[x.Of] = x.Figure.Cents
		}
		page.EachTable(x.Blocks, func(t page.Table) {
			for i, c := range t.Columns {
				if c.Of != nil {
					out[c.Of] = t.Rows[len(t.Rows)-1].Cells[i].Cents
				}
			}
			for _, r := range t.Rows {
				if c, ok := amountOf(r); ok && r.Of != nil {
					out[r.Of] = c
				}
			}
		})
	}
	return out
}

// TestEveryFigureOpens: of every month of the sample, each amount on the pages
// opens, and to what comes to the same; what it opens to adds up to it, row by
// row; and each line is that of figures.json.
func TestEveryFigureOpens(t *testing.T) {
	ins := testkit.SampleInputs(t)
	for i, in := range ins {
		if i > 1 {
			in.Earlier = []closing.Since{moved(t, ins[i-2], ins[i-1])}
		}
		d := screen.Month(in)
		name := in.Month.To.String()
		to := opened(d)
		cells := 0
		for _, s := range d.Sections {
			cells += sectionOpens(t, name, s, to)
		}
		assert.Greater(t, cells, 60, name)
		detailsOpen(t, name, d, to)
		if i%4 == 1 {
			data, err := figuresjson.Month(in.Month)
			require.NoError(t, err)
			asInJSON(t, in, data, to, 80)
		}
	}
}

// moved is a month whose pack had every figure of the month before it.
func moved(t *testing.T, was, is report.Input) closing.Since {
	t.Helper()
	a, err := figuresjson.Month(was.Month)
	require.NoError(t, err)
	b, err := figuresjson.Month(is.Month)
	require.NoError(t, err)
	out := closing.Since{Month: is.Month.To}
	out.Amounts, out.Pieces = closing.Differing(a, b)
	assert.Greater(t, len(out.Amounts), 10)
	return out
}

// detailsOpen checks that what each detail has opens in turn or has its records,
// and adds up.
func detailsOpen(t *testing.T, name string, d page.Document, to map[page.Ref]int64) {
	t.Helper()
	for _, x := range d.Details {
		page.EachCell(x.Blocks, func(c *page.Cell) { sameAmount(t, name+", "+x.Title, *c, to) })
		page.EachTable(x.Blocks, func(table page.Table) {
			for _, r := range table.Rows {
				if c, ok := amountOf(r); ok && c != 0 && r.Of == nil && !r.Style.Summing() && !ends(table, r) {
					t.Errorf("%s, %s: %s ends without a record", name, x.Title, r.Cells[0].Text)
				}
			}
		})
		addsUp(t, name, x)
	}
}

// ends says that a row leads on, has its records, or is one part of a total
// that has them: of a share, or of a span of months.
func ends(table page.Table, r page.Row) bool {
	for i, c := range r.Cells {
		head := table.Columns[i].Head
		if c.Of != nil || c.Said != nil || head == "Record" && c.Text != "" || table.Columns[i].Of != nil ||
			head == "Shared" {
			return true
		}
	}
	return false
}

// sectionOpens checks a section's amounts and says how many open.
func sectionOpens(t *testing.T, name string, s page.Section, to map[page.Ref]int64) int {
	t.Helper()
	where, n := name+", "+s.Title, 0
	page.EachCell(s.Blocks, func(c *page.Cell) {
		sameAmount(t, where, *c, to)
		if c.Of != nil {
			n++
		}
	})
	page.EachTable(s.Blocks, func(table page.Table) {
		for _, r := range table.Rows {
			for i, c := range r.Cells {
				if c.Kind == page.KindMoney && c.Cents != 0 && c.Of == nil {
					t.Errorf("%s, %s: %s, %s: %s opens to nothing", where, table.Caption, r.Cells[0].Text, table.Columns[i].Head,
						c.String(""))
				}
			}
		}
	})
	return n
}

// sameAmount checks that what an amount opens to comes to it, or where it counts
// against what it stands in to as much.
func sameAmount(t *testing.T, where string, c page.Cell, to map[page.Ref]int64) {
	t.Helper()
	spoken := c.Kind == page.KindText && c.Cents != 0 // in a sentence
	if c.Of == nil || c.Kind != page.KindMoney && !spoken {
		return
	}
	got, ok := to[c.Of]
	if assert.True(t, ok, "%s: %s opens to nothing: %+v", where, c.String(""), c.Of) && got != c.Cents {
		assert.Equal(t, -c.Cents, got, "%s: %s opens to another amount: %+v", where, c.String(""), c.Of)
	}
}

// addsUp checks a detail's own arithmetic: rows to the total under them, and
// postings to the line over them.
func addsUp(t *testing.T, name string, x page.Detail) {
	t.Helper()
	page.EachTable(x.Blocks, func(table page.Table) {
		if slices.ContainsFunc(table.Columns, func(c page.Column) bool { return c.Of != nil }) {
			columnsAddUp(t, name+", "+x.Title, table)
			return
		}
		var sum, head int64
		var of string
		some := false
		check := func() {
			if of != "" && some {
				assert.Equal(t, head, sum, "%s, %s, %s", name, x.Title, of)
			}
		}
		for _, r := range table.Rows {
			c, ok := amountOf(r)
			switch {
			case !ok:
			case r.Of != nil:
				check()
				of, head, sum, some = r.Cells[0].Text, c, 0, false
			case r.Style.Summing():
				assert.Equal(t, c, sum, "%s, %s", name, x.Title)
			default:
				sum, some = sum+c, true
			}
		}
		check()
	})
}

// columnsAddUp checks each column's parts against the total under them.
func columnsAddUp(t *testing.T, where string, table page.Table) {
	t.Helper()
	last := len(table.Rows) - 1
	for i, c := range table.Columns {
		var sum int64
		for _, r := range table.Rows[:last] {
			sum += r.Cells[i].Cents
		}
		if c.Of != nil {
			assert.Equal(t, table.Rows[last].Cells[i].Cents, sum, "%s, %s", where, c.Head)
		}
	}
}

// asInJSON compares what lines open to with the figures for other programs.
func asInJSON(t *testing.T, in report.Input, data []byte, to map[page.Ref]int64, least int) {
	t.Helper()
	var f struct {
		Pieces, Shelf    []map[string]any
		Statement, Stock map[string]any
		TaxLines         []map[string]any `json:"tax_lines"` // of a year
	}
	require.NoError(t, json.Unmarshal(data, &f))
	n, lines := 0, map[string]string{}
	for of, cents := range to {
		if w, ok := of.(*report.Worked); ok {
			lines[w.Title] = plain(cents)
		}
		s, ok := of.(report.Sum)
		if !ok || s.Supply != "" || s.To != in.Month.To || s.From != 0 && s.From != in.Month.From {
			continue
		}
		var at map[string]any
		switch s.Of {
		case figures.OfStatement:
			at = f.Statement
			if s.ID == figures.LineExpenses && s.Subject != "" {
				at = map[string]any{"expenses": f.Statement["expenses"].(map[string]any)[s.Subject]}
			}
		case figures.OfStock:
			at = f.Stock
		case figures.OfShelf:
			at = named(f.Shelf, "supply", s.Subject)
		case figures.OfPiece:
			at = named(f.Pieces, "piece", s.Subject)
		}
		if want, ok := at[string(s.ID)].(string); ok {
			assert.Equal(t, want, plain(cents), "%+v", s)
			n++
		}
	}
	for _, l := range f.TaxLines {
		title := fmt.Sprintf("Line %s, %s", l["line"], l["label"])
		if l["amount"] != "0.00" || lines[title] != "" {
			assert.Equal(t, l["amount"], lines[title], title)
			n++
		}
	}
	assert.Greater(t, n, least, in.Month.To)
}

// plain is an amount as figures.json writes it.
func plain(cents int64) string {
	return fmt.Sprintf("%s%d.%02d", minus(cents), abs(cents)/100, abs(cents)%100)
}

func named(list []map[string]any, key, name string) map[string]any {
	for _, x := range list {
		if x[key] == name {
			return x
		}
	}
	return nil
}

func minus(c int64) string { return strings.Repeat("-", int(min(1, max(0, -c)))) }

func abs(c int64) int64 { return max(c, -c) }

// TestEveryYearFigureOpens: of the sample's tax years, what opens comes to the
// amount it opens from, and adds up; each line is that of the year's figures.json.
func TestEveryYearFigureOpens(t *testing.T) {
	ins, l := testkit.SampleBooks(t)
	for _, in := range []report.Input{ins[11], ins[13]} {
		year := testkit.YearOf(t, in, l)
		d := screen.Year(year)
		to, n := opened(d), 0
		for _, s := range d.Sections {
			n += sectionOpens(t, d.Period, s, to)
		}
		detailsOpen(t, d.Period, d, to)
		assert.Greater(t, n, 300)
		data, err := figuresjson.Year(year.Tax)
		require.NoError(t, err)
		asInJSON(t, year.Input, data, to, 90)
	}
}

// TestLongAgo: of a shelf's opening, years before the last are a row for each
// reason, and all details still lead to records.
func TestLongAgo(t *testing.T) {
	ins, _ := testkit.Months(t, os.DirFS("../../sample"), 24)
	in := ins[len(ins)-1] // February 2028
	d := screen.Month(in)
	detailsOpen(t, d.Period, d, opened(d))
	years := map[string]int{}
	for _, x := range d.Details {
		page.EachTable(x.Blocks, func(table page.Table) {
			for _, r := range table.Rows {
				years[r.Cells[0].Text]++
			}
		})
	}
	assert.Greater(t, years["2025"], 50)
	assert.Greater(t, years["2026"], 20)
}

// Goal: whatever a page prints can be asked by the words beside it. Method: every
// label of the sample's last month and its sheets is found, as it is printed, with
// what it is made of or, of a rate, its name.
func TestEveryLabelIsAsked(t *testing.T) {
	inputs := testkit.SampleInputs(t)
	in := inputs[len(inputs)-1]
	for _, d := range []page.Document{month.Doc(in), piece.PeriodSheets(in)} {
		asked := map[string]bool{}
		for _, s := range d.Sections {
			page.EachLabel(s.Blocks, func(label string, c page.Cell) {
				if c.Of == nil || asked[label] || len(asked) > 150 {
					return
				}
				asked[label] = true
				found, ok := trace.Labelled(d, label)
				require.True(t, ok, label)
				if _, rate := found.Of.(report.Rate); !rate {
					assert.NotEmpty(t, trace.Figure(in, found).Sections[0].Blocks, label)
				}
			})
		}
		assert.Greater(t, len(asked), 60)
		_, ok := trace.Labelled(d, "no such label")
		assert.False(t, ok)
	}
}
