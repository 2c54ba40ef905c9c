package commands

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"

	htmlfile "piecebook/report/html"
	"piecebook/report/page"
	"piecebook/report/screen"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/kinds"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/accountant"
	kindpages "piecebook/report/kinds"
	"piecebook/report/month"
	"piecebook/report/piece"
	"piecebook/report/testkit"
	"piecebook/report/trace"
	"piecebook/report/workbook"
	"piecebook/report/year"
)

// ownWords are the columns that hold the owner's own words. Those of one name
// mean one thing wherever it stands.
var ownWords = map[string][]string{
	"pieces": {"description"}, "lots": {"from"}, "parts": {"what"}, "moves": {"what"}, "hours": {"task"}, "trips": {"purpose"},
	"expenses": {"what"}, "equipment": {"what"}, "other income": {"what"}, "tax paid": {"period"},
	"supplies": {"supply"}, "purchases": {"supply"}, "openings": {"supply"}, "schedules": {"supply"}, "uses": {"supply"}, "counts": {"supply"},
}

// hardWords is a text that holds whatever stands between words on any page. It
// starts with Wn( and ends with )Wn.
func hardWords(n int, lineEnd string) string {
	return fmt.Sprintf("W%d(a: b; c over d = e of f, 5 %% [g] {h} \"i\" 'j' – k × 2 + 3.00; l / m.%sN, worked out: o = "+
		"1.00, equally over 2 pieces)W%d", n, lineEnd, n)
}

// withHardWords is books with hard words for all of the owner's own; wherever
// two cells of a name's column were equal they still are.
func withHardWords(t *testing.T, files map[string][]byte) (map[string][]byte, int) {
	t.Helper()
	out, n := map[string][]byte{}, 0
	names := map[string]string{}
	for _, path := range slices.Sorted(mapKeys(files)) {
		table := strings.TrimSuffix(filepath.Base(path), ".csv")
		out[path] = files[path]
		if ownWords[table] == nil {
			continue
		}
		rows, err := csv.NewReader(bytes.NewReader(files[path])).ReadAll()
		require.NoError(t, err)
		for _, column := range ownWords[table] {
			at := slices.Index(rows[0], column)
			require.GreaterOrEqual(t, at, 0, "%s has no column %s", table, column)
			for _, row := range rows[1:] {
				was := row[at]
				switch {
				case column == "supply" && was == "":
					continue
				case column == "supply" && names[was] != "":
					row[at] = names[was]
					continue
				case column == "supply":
					row[at] = hardWords(n, " ") // a name stands in one line
					names[was] = row[at]
				default:
					row[at] = hardWords(n, "\n")
				}
				n++
			}
		}
		var b bytes.Buffer
		require.NoError(t, csv.NewWriter(&b).WriteAll(rows))
		out[path] = b.Bytes()
	}
	return out, n
}

func mapKeys[V any](m map[string]V) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// textsIn is every string within a value.
func textsIn(v reflect.Value, visit func(string)) {
	switch v.Kind() {
	case reflect.String:
		visit(v.String())
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() && v.Type() != reflect.TypeFor[*workbook.Book]() { // a sheet knows its book
			textsIn(v.Elem(), visit)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			textsIn(v.Field(i), visit)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			textsIn(v.Index(i), visit)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			textsIn(k, visit)
			textsIn(v.MapIndex(k), visit)
		}
	}
}

// ofSheets is what a workbook's sheets hold, their rows as they were added.
func ofSheets(sheets []*workbook.Sheet) []any {
	var out []any
	for _, s := range sheets {
		out = append(out, s)
		for i := range s.Len() {
			out = append(out, s.At(i))
		}
	}
	return out
}

// wholeIn checks that where the start of an owner's text stands in a text, all
// of it does, a line end as a blank; it counts them.
func wholeIn(t *testing.T, where, text string, seen map[int]bool) {
	t.Helper()
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
	for rest := text; ; {
		at := strings.Index(rest, "W")
		if at < 0 {
			break
		}
		rest = rest[at:]
		var n int
		if _, err := fmt.Sscanf(rest, "W%d(", &n); err == nil && strings.HasPrefix(rest, fmt.Sprintf("W%d(", n)) {
			want := hardWords(n, " ")
			if !assert.True(t, strings.HasPrefix(rest, want), "%s: %.200s", where, rest) {
				return
			}
			seen[n] = true
			rest = rest[len(want):]
			continue
		}
		assert.False(t, strings.HasPrefix(text, ")W"), "%s: only an end is left: %.200s", where, text)
		rest = rest[1:]
	}
}

// wholeInHTML checks every text and attribute of a document for a browser.
func wholeInHTML(t *testing.T, where string, d page.Document, seen map[string]map[int]bool) {
	t.Helper()
	if seen[where] == nil {
		seen[where] = map[int]bool{}
	}
	var out bytes.Buffer
	require.NoError(t, htmlfile.Write(&out, d))
	root, err := html.Parse(&out)
	require.NoError(t, err)
	for n := range root.Descendants() {
		if n.Type == html.TextNode {
			wholeIn(t, where, n.Data, seen[where])
		}
		for _, a := range n.Attr {
			wholeIn(t, where, a.Val, seen[where])
		}
	}
}

// endedIn checks that as many owner's texts end in a terminal's answer as
// begin, and counts them. Between, a column beside them may stand.
func endedIn(t *testing.T, text string) int {
	t.Helper()
	begun, ended := map[string]int{}, map[string]int{}
	for _, m := range regexp.MustCompile(`(W\d+)\(|\)(W\d+)`).FindAllStringSubmatch(text, -1) {
		begun[m[1]]++
		ended[m[2]]++
	}
	delete(begun, "")
	delete(ended, "")
	assert.Equal(t, begun, ended)
	return len(begun)
}

// Goal: the owner's words arrive whole on every page, sheet, terminal answer
// and in JSON, whatever signs they hold. Method: generated books whose free
// text holds all signs that stand between words anywhere.
func TestOwnersWordsArriveWhole(t *testing.T) {
	for seed := uint64(1); seed <= 2; seed++ {
		files, n := withHardWords(t, bookgen.Files(seed))
		dir := ledgerkit.Folder(t, files)
		in := testkit.Input(t, dir, 0)
		last := in.Month.To
		seen := map[string]map[int]bool{}
		check := func(where string, v any) {
			if seen[where] == nil {
				seen[where] = map[int]bool{}
			}
			textsIn(reflect.ValueOf(v), func(s string) { wholeIn(t, where, s, seen[where]) })
		}
		var all []string
		for _, p := range in.Books.Pieces {
			all = append(all, p.ID)
		}
		b := testkit.Opened(t, dir, 0).Ledger
		for _, m := range b.Months {
			at := testkit.Input(t, dir, m.Month)
			check("month", month.Doc(at))
			check("pieces", piece.PeriodSheets(at))
			// A month's workbook holds its tax year's records, so the years' last ones hold all.
			if m.Month == last || m.Month.Of() == time.December {
				check("month workbook", ofSheets(accountant.MonthBook(at).Sheets))
				wholeInHTML(t, "month.html", screen.Month(at), seen)
			}
		}
		check("sheets", piece.Sheets(in, all))
		check("why", trace.Doc(in, "all", in.Postings, 0))
		check("kinds", kindpages.Doc(in, kinds.Of(b, kinds.Scope{})))
		for y := b.Months[0].Month.Year(); y <= last.Year(); y++ {
			of := testkit.YearInput(t, dir, y)
			check("year", year.Doc(of))
			check("year workbook", ofSheets(accountant.YearBook(of).Sheets))
			wholeInHTML(t, "year.html", screen.Year(of), seen)
		}
		for _, args := range [][]string{{"why", "net_profit"}, {"check"}, append([]string{"sheet"}, all...), {"kinds"}} {
			var answer any
			out, _ := runs(t, cli.ExitDone, append([]string{"--books", dir, "--json"}, args...)...)
			require.NoError(t, json.Unmarshal([]byte(out), &answer))
			check("JSON", answer)
		}
		supply, year := in.Books.Supplies[0].Name, fmt.Sprint(last.Year())
		for _, args := range [][]string{{"why", "net_profit"}, append([]string{"sheet", "--text"}, all...),
			{"check", "--all"},
			{"why", "supply", supply}, {"why", "statement", "expenses", year}, {"why", "line", "42", year},
			{"why", "tied", "up"}} {
			assert.Positive(t, endedIn(t, said(t, dir, args...)), args)
		}
		for _, args := range [][]string{{"kinds", "--text"}, {"area"}, {"why", "hours"}, {"why", all[0]}, {"month"},
			{"year", year},
			{"handover", year}} {
			endedIn(t, said(t, dir, args...))
		}
		assert.Len(t, seen["month workbook"], n, "a text of the records is not in the workbook")
		for where, found := range seen {
			assert.NotEmpty(t, found, where)
			t.Logf("books %d: %s has %d of %d", seed, where, len(found), n)
		}
	}
}

// Owner's words that once were cut at a sign within them, or run together with
// the words of a share.
func TestWordsOnceCut(t *testing.T) {
	files := map[string][]byte{}
	shop := bookgen.InWords(`
pieces
piece,kind,got_on,price
A,chair,2026-01-05,10
B,chair,2026-01-05,10

expenses
paid_on,what,group,amount,pieces
2026-01-10,Insurance,insurance,30.00,A; B
2026-01-11,Ferry over the bay,other,12.00,A; B
2026-02-01,Booth: May,booth rent,10.00,
2026-02-02,Booth: back room,booth rent,8.00,
2026-02-03,Booth: late fee,booth rent,7.00,
`)
	for name := range shop {
		files[name] = shop[name].Data
	}
	dir := ledgerkit.Folder(t, files)
	var texts []string
	textsIn(reflect.ValueOf(ofSheets(accountant.YearBook(testkit.YearInput(t, dir, 2026)).Sheets)),
		func(s string) { texts = append(texts, s) })
	for _, want := range []string{"Insurance = 30.00, equally over 2 pieces = 15.00",
		"Ferry over the bay = 12.00, equally over 2 pieces = 6.00", "Ferry over the bay", "Insurance"} {
		assert.Contains(t, texts, want)
	}
	got := strings.ReplaceAll(fmt.Sprintf("%v", month.Doc(testkit.Input(t, dir, calendar.MonthOf(2026, 2)))),
		"\u00a0", " ")
	for _, want := range []string{"Booth: May (10.00)", "Booth: back room (8.00)", "Booth: late fee (7.00)"} {
		assert.Contains(t, got, want)
	}
}

// said is what a command answers on the terminal.
func said(t *testing.T, books string, args ...string) string {
	t.Helper()
	var out, err bytes.Buffer
	status := Run(append([]string{"--books", books, "--out", t.TempDir()}, args...), terminal.Console{Out: &out, Err: &err,
		Env: func(string) string { return "" }})
	require.Equal(t, cli.ExitDone, status, err.String())
	return out.String() + err.String()
}
