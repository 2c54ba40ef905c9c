package closing_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// closeThrough closes the open months of a ledger up to one, each written and
// read again.
func closeThrough(t *testing.T, l *costing.Ledger, closed []*closing.Month, through calendar.Month) []*closing.Month {
	lines := closing.LinesOf(l.Books)
	for {
		view, c := closing.View(l, closed, "test")
		if len(closed) >= len(view.Months) || view.Months[len(closed)].Month > through {
			return closed
		}
		tied(t, view, view.Months[len(closed)].Month, view.Months[len(closed)].Month)
		m := closing.Seal(view, c, closed, "test", json.RawMessage(`{}`), lines, nil)
		data, err := closing.Encode(m)
		require.NoError(t, err)
		again, err := closing.Decode(data)
		require.NoError(t, err)
		twice, err := closing.Encode(again)
		require.NoError(t, err)
		require.Equal(t, string(data), string(twice), "a closed month read and written again")
		closed = append(closed, again)
	}
}

// kind is what postings are held equal by.
type kind struct {
	from, to      ledger.Account
	piece, supply string
	group         string
	reason        ledger.Reason
}

// sums adds postings up to a month.
func sums(l *costing.Ledger, through calendar.Month) map[kind]money.Cents {
	out := map[kind]money.Cents{}
	for _, p := range l.Postings() {
		if p.Month <= through && p.Cents != 0 {
			k := kind{p.From, p.To, p.Piece, p.Supply, p.Group, p.Reason}
			if out[k] += p.Cents; out[k] == 0 {
				delete(out, k)
			}
		}
	}
	return out
}

// holds asserts the law: what was closed and the corrections are what the
// records give, in the first open month and all later ones, and all ties out.
func holds(t *testing.T, l *costing.Ledger, closed []*closing.Month) *closing.Corrections {
	view, c := closing.View(l, closed, "test")
	last := closed[len(closed)-1].Month
	for _, m := range view.Months {
		if m.Month > last {
			require.Equal(t, sums(l, m.Month), sums(view, m.Month), "%s", m.Month)
			require.Equal(t, l.At(m.Month).Pieces, view.At(m.Month).Pieces)
		}
	}
	tied(t, view, last+1, view.Months[len(view.Months)-1].Month)
	for i, m := range closed {
		require.Equal(t, m.Postings, view.Months[i].Postings, "a closed month is as it was closed")
	}
	whole := figures.For(view, view.Months[0].Month, view.Months[len(view.Months)-1].Month)
	for _, tie := range whole.TieOut {
		require.Zerof(t, tie.Difference, "%s over all months", tie.Name)
	}
	return c
}

// tied asserts that every reconciliation of the months is 0.00.
func tied(t *testing.T, l *costing.Ledger, from, to calendar.Month) {
	t.Helper()
	for m := from; m <= to; m++ {
		for _, tie := range figures.For(l, m, m).TieOut {
			require.Zerof(t, tie.Difference, "%s in %s: %s against %s: %v", tie.Name, m, tie.Reached, tie.Against, tie.Terms)
		}
	}
}

// read reads books that an edit may have made wrong; false where it has.
func read(t *testing.T, files map[string][]byte) (*ledger.Books, bool) {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, data := range files {
		fsys[name] = &fstest.MapFile{Data: data}
	}
	set, err := templates.Load()
	require.NoError(t, err)
	r := intake.Read(fsys, set)
	return &r.Books, !r.Problems.HasErrors() && !checks.Look(&r.Books, 0).HasErrors()
}

// edit is one change of a random script.
type edit struct {
	table  string
	what   closing.What
	column string
}

func (e edit) String() string { return fmt.Sprintf("%s in %s %s", e.what, e.table, e.column) }

// editable are the columns of each table that an edit changes, by how.
var editable = map[string][]string{
	"purchases": {"cost", "bought_on"}, "uses": {"coats", "used_on"}, "hours": {"hours"}, "trips": {"miles", "tolls"},
	"expenses": {"amount", "paid_on"}, "sales": {"price", "delivery_charged"}, "parts": {"cost"}, "pieces": {"price"}, "counts": {"left"},
	"equipment": {"cost"}, "other income": {"amount"}, "lots": {"price"},
}

// scramble makes one random edit of one row; what it was, and the files.
func scramble(r *rand.Rand, files map[string][]byte) (edit, map[string][]byte) {
	out := map[string][]byte{}
	for name, data := range files {
		out[name] = data
	}
	names := make([]string, 0, len(editable))
	for table := range editable {
		names = append(names, table)
	}
	slices.Sort(names)
	for range 50 {
		table := names[r.IntN(len(names))]
		path := "records/" + table + ".csv"
		lines, err := csv.NewReader(bytes.NewReader(out[path])).ReadAll()
		if err != nil || len(lines) < 2 {
			continue
		}
		at := 1 + r.IntN(len(lines)-1)
		e := edit{table: table}
		switch r.IntN(4) {
		case 0:
			e.what, lines = closing.Removed, slices.Delete(lines, at, at+1)
		case 1:
			e.what = closing.Added
			lines = append(lines, slices.Clone(lines[at]))
			if slices.Contains([]string{"pieces", "lots"}, table) {
				continue
			}
		default:
			e.what, e.column = closing.Changed, editable[table][r.IntN(len(editable[table]))]
			column := slices.Index(lines[0], e.column)
			cell := otherCell(r, lines[at][column])
			if column < 0 || cell == "" {
				continue
			}
			lines[at][column] = cell
		}
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		if w.WriteAll(lines) != nil {
			continue
		}
		out[path] = b.Bytes()
		return e, out
	}
	return edit{}, out
}

// otherCell is another value of a cell: another day, another number.
func otherCell(r *rand.Rand, cell string) string {
	if d, err := calendar.Parse(cell); err == nil {
		return d.AddDays(r.IntN(80) - 40).String()
	}
	if cell == "" || strings.Trim(cell, "0123456789.") != "" {
		return ""
	}
	return fmt.Sprintf("%d.%02d", 1+r.IntN(60), r.IntN(100))
}

// Goal: closed + corrections = the records as they stand, to the cent and
// always; every tie-out is 0.00; closed months stay as they were closed.
// Method: generated books, some months closed; then rounds of random edits
// (changed, added, deleted rows; other days), each round held to the law, then
// another month closed with its corrections.
func TestClosedAndCorrectionsAreTheRecords(t *testing.T) {
	var corrected atomic.Int64
	t.Cleanup(func() { require.Positive(t, corrected.Load(), "some edit was of a closed month") })
	testkit.EveryBook(t, max(1, testkit.Seeds()/8), func(t *testing.T, seed uint64, files map[string][]byte,
		l *costing.Ledger) {
		r := rand.New(rand.NewPCG(seed, 7))
		end := l.Months[len(l.Months)-1].Month
		through := l.Months[0].Month + calendar.Month(1+r.IntN(3))
		closed := closeThrough(t, l, nil, through)
		require.Nil(t, holds(t, l, closed), "nothing has changed")
		pending := false
		for round := range 6 {
			e, changed := scramble(r, files)
			// The same in another form: rows moved, files split, cells written otherwise.
			form := changed
			if r.IntN(3) == 0 {
				form = bookgen.Reshape(changed, seed*31+uint64(round))
			}
			b, fine := read(t, form)
			if !fine {
				continue
			}
			now := costing.Run(b, end)
			if now.Problems.HasErrors() {
				continue
			}
			files = changed
			c := holds(t, now, closed)
			allNamed(t, closed[len(closed)-1], now)
			if c != nil {
				corrected.Add(1)
				require.False(t, c.RulesChanged(), "a correction has a record that changed")
			}
			if c != nil && !pending {
				named := func(x closing.Change) bool { return x.Line().Table == e.table }
				require.True(t, slices.ContainsFunc(c.Changes, named), "%s is named", e)
			}
			pending = c != nil
			if last := closed[len(closed)-1].Month; last+2 < end && r.IntN(3) == 0 {
				closed = closeThrough(t, now, closed, last+1)
				require.Nil(t, holds(t, now, closed), "the corrections are closed")
				pending = false
			}
		}
	})
}

// allNamed asserts that each record that is not as it was closed is named as
// changed, and no other.
func allNamed(t *testing.T, last *closing.Month, now *costing.Ledger) {
	t.Helper()
	count := func(lines []closing.Line, through calendar.Month) map[string]int {
		out := map[string]int{}
		for _, l := range lines {
			if through == 0 || l.Month <= through {
				out[l.Fingerprint]++
			}
		}
		return out
	}
	lines := closing.LinesOf(now.Books)
	was, is, upto := count(last.Records, 0), count(lines, 0), count(lines, last.Month)
	for _, c := range closing.Compare(last.Records, lines, last.Month).Changes {
		if c.Was != nil {
			was[c.Was.Fingerprint]--
		}
		if c.Was != nil && c.Is != nil {
			require.NotEqual(t, c.Was.Fingerprint, c.Is.Fingerprint, "a record that is as it was is named")
		}
		if c.Is != nil {
			is[c.Is.Fingerprint]--
			upto[c.Is.Fingerprint]--
		}
	}
	// What is left on both sides is as it was.
	for print, n := range was {
		require.LessOrEqual(t, n, is[print], "a record that is not as it was is not named")
	}
	for print, n := range upto {
		require.LessOrEqual(t, n, was[print], "a new record is not named")
	}
}

// Goal: another form of the same records is no correction and no change.
func TestAnotherFormIsNoChange(t *testing.T) {
	testkit.EveryBook(t, max(1, testkit.Seeds()/20), func(t *testing.T, seed uint64, files map[string][]byte,
		l *costing.Ledger) {
		end := l.Months[len(l.Months)-1].Month
		closed := closeThrough(t, l, nil, end-3)
		b := testkit.Read(t, bookgen.Reshape(files, seed*13))
		require.Nil(t, holds(t, costing.Run(b, end), closed))
		d := closing.Compare(closing.LinesOf(l.Books), closing.LinesOf(b), end)
		require.Empty(t, d.Changes)
		require.Positive(t, d.Rows, "rows stand elsewhere")
	})
}
