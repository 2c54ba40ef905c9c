package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/kinds"
	"piecebook/report/cards"
	"piecebook/report/guide"
	kindpages "piecebook/report/kinds"
	"piecebook/report/month"
	"piecebook/report/piece"
	"piecebook/report/starter"
	"piecebook/report/testkit"
	"piecebook/report/text"
	"piecebook/report/year"
	"piecebook/templates"
)

// makersWords stand on no screen and no page: words of the program's own
// workings, names of accounts that only its postings have, and words of code.
// The accountant's workbooks are apart: they are about the postings. Lines of the
// statement that an account is named after (shelf losses, pieces lost) are theirs
// first.
var makersWords = []string{
	"posting", "postings", "fold", "folds", "residual", "residuals", "rounding residual", "memo", "memoranda",
	"overhead", "overheads", "overheads allotted", "gain on taking back", "loss on taking back", "count above the records", "ledger", "derivation",
	"fingerprint", "intake", "costing",
	"nil", "null", "struct", "bool", "boolean", "enum", "regexp", "parse", "parsed", "parser", "token", "tokens", "slice",
	"goroutine", "panic", "stack trace", "int64", "float64", "invalid syntax", "errno", "stdout", "stderr",
	"argument", "arguments", "runtime", "unmarshal", "schema", "hash", "exit code",
}

// ofCode are signs that only code and its messages have.
var ofCode = regexp.MustCompile(`<nil>|%!\w|map\[|\b0x[0-9a-f]+|\.go:\d`)

// allScreens is what people read, by where it stands: every page of the sample
// in words, what commands print, the help, the guide, the cards, the workbook
// to fill in, and every message of the golden files.
func allScreens(t *testing.T) map[string]string {
	t.Helper()
	sample := filepath.Join("..", "..", "..", "sample")
	out := map[string]string{"guide": string(guide.Text)}
	in := testkit.Input(t, sample, 0)
	var all []string
	for _, p := range in.Books.Pieces {
		all = append(all, p.ID)
	}
	for _, m := range []calendar.Month{in.Month.To, calendar.MonthOf(2025, 12)} {
		at := testkit.Input(t, sample, m)
		out["month.pdf "+m.String()] = text.Render(month.Doc(at), text.Width)
	}
	out["sheets"] = text.Render(piece.Sheets(in, all), text.Width)
	out["kinds.pdf"] = text.Render(kindpages.Doc(in, kinds.Of(testkit.Opened(t, sample, 0).Ledger, kinds.Scope{})),
		text.Width)
	out["year.pdf"] = text.Render(year.Doc(testkit.YearInput(t, sample, 2025)), text.Width)
	for _, args := range [][]string{{"check", "--all"}, {"why", "153"}, {"why", "net_profit"},
		{"why", "statement", "trips"},
		{"why", "line", "42", "2025"}, {"sheet", "--text", "153", "120"}, {"offer", "--kind", "dresser"}, {"area"}} {
		out[strings.Join(args, " ")] = said(t, sample, args...)
	}
	var c program
	for _, name := range append(commandNames(newParser(&c, terminal.Console{}, func(int) {}).Model), "") {
		var help bytes.Buffer
		Run(strings.Fields(name+" --help"), terminal.Console{Out: &help, Err: &help})
		out["help of "+name] = help.String()
	}
	set, err := templates.Load()
	require.NoError(t, err)
	out["cards"] = text.Render(cards.Doc(set, cards.Order{}), text.Width)
	out["starter workbook"] = workbookWords(t, set)
	for _, pattern := range []string{"../../../ledger/*/testdata/*.golden", "../testdata/menu/*.txt",
		"../testdata/walk/*.txt"} {
		files, err := filepath.Glob(filepath.FromSlash(pattern))
		require.NoError(t, err)
		for _, name := range files {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			out[name] = string(data)
		}
	}
	return out
}

// workbookWords is all cells and notes of the workbook to fill in.
func workbookWords(t *testing.T, set *templates.Set) string {
	t.Helper()
	data, err := starter.Workbook(set)
	require.NoError(t, err)
	book, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	var b strings.Builder
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		require.NoError(t, err)
		for _, row := range rows {
			b.WriteString(strings.Join(row, "\n") + "\n")
		}
		notes, err := book.GetComments(sheet)
		require.NoError(t, err)
		for _, n := range notes {
			for _, p := range n.Paragraph {
				b.WriteString(p.Text + "\n")
			}
		}
	}
	return b.String()
}

// On no screen and no page stands a word of the makers alone.
func TestNoMakersWords(t *testing.T) {
	word := regexp.MustCompile(`(?i)(?:^|[^\w-])(` + strings.Join(makersWords, "|") + `)(?:[^\w-]|$)`)
	for where, words := range allScreens(t) {
		require.NotEmpty(t, words, where)
		for line := range strings.SplitSeq(words, "\n") {
			for _, m := range word.FindAllStringSubmatch(line, -1) {
				assert.Fail(t, "a word of the makers", "%s: %q in %q", where, m[1], strings.TrimSpace(line))
			}
			assert.NotRegexp(t, ofCode, line, where)
		}
	}
}
