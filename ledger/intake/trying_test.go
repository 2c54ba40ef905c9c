package intake_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/intake"
	settingsfile "piecebook/ledger/intake/settings"
	"piecebook/ledger/testkit/smallbooks"
)

// untried reads records without trying what is proposed; lines are rejected.
func untried(t *testing.T, files map[string]string, lines ...settingsfile.Proposal) *intake.Result {
	t.Helper()
	set, err := loaded()
	require.NoError(t, err)
	return intake.ReadRejecting(smallbooks.Folder(files), set, lines...)
}

// fixesWith are the problems that tell the owner to put a line.
func fixesWith(res *intake.Result, line string) (out []string) {
	for _, p := range res.Problems.All() {
		if strings.Contains(p.Fix, line) {
			out = append(out, p.String())
		}
	}
	return out
}

// Goal: no message names a line that was rejected, whichever message it is.
// Method: every line that any case of a problem proposes or names is rejected, and
// the problems are read again.
func TestNoMessageNamesRejectedLine(t *testing.T) {
	named := map[string]int{}
	for _, c := range slices.Concat(problemCases, columnCases, ownerCodes) {
		for _, p := range untried(t, c.files).LinesNamed() {
			named[p.Section]++
			again := untried(t, c.files, p)
			require.NotContains(t, again.LinesNamed(), p, c.code)
			require.Empty(t, fixesWith(again, p.Line), "%s: [%s] %s", c.code, p.Section, p.Line)
		}
	}
	for _, section := range []string{"", "sheets", "columns.sales", "columns.pieces", "names"} {
		require.NotZero(t, named[section], "no case names a line of [%s]", section)
	}
}

// Goal: a line that would make the books absurd is neither proposed nor named in a
// message. Method: for each kind of the absurd, records whose messages name the
// line as long as it is not tried.
func TestAbsurdLinesAreNotTold(t *testing.T) {
	sales := func(head string, rows ...string) map[string]string {
		return file("sales.csv", head+"\n"+strings.Join(rows, "\n")+"\n")
	}
	crossed := workbook("Sales", func(f *excelize.File) {
		row(f, 1, "piece", "sold_on", "channel", "price")
		row(f, 2, "P1", "2026-02-01", "direct", 120)
		row(f, 3, "P2", "2026-02-02", "direct", 1)
		row(f, 4, "P1", "2026-02-03", "direct", 1)
		style, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sales", "A3", "D4", style))
	})
	for name, c := range map[string]struct {
		files map[string]string
		line  string
	}{
		"counts as prices": {sales("item,date sold,sold,channel", "P1,2026-02-01,1,x", "P2,2026-02-01,1,x",
			"P1,2026-02-03,1,x"), `"sold" = "price"`},
		"what is left as fees": {sales("piece,sold_on,channel,price,feez", "P1,2026-02-01,direct,100,90",
			"P2,2026-02-02,direct,50,45"), `"feez" = "fee"`},
		"profits as what is left": {file("pieces.csv", "piece,kind,got_on,price,area,sold_on,channel,sold_price,net\n"+
			"P1,dresser,2026-01-05,40,30,2026-02-01,direct,100,30\nP2,chair,2026-01-06,30,12,2026-02-02,direct,90,20\n"),
			`"net" = "net"`},
		"gains as what is left": {file("pieces.csv", "piece,kind,got_on,price,area,sold_on,channel,sold_price,Gain\n"+
			"P1,dresser,2026-01-05,40,30,2026-02-01,direct,100,30\nP2,chair,2026-01-06,30,12,2026-02-02,direct,90,20\n"),
			`"Gain" = "net"`},
		"a comma in small numbers": {file("sales.csv", "piece;sold_on;channel;price\nP1;2026-02-01;direct;1,00\n"+
			"P2;2026-02-02;direct;0,50\n"), "decimal_comma = true"},
		"a sheet of counts": {file("my list.csv", "Item,Date sold,Where sold,Sold for,Buyer\n"+
			"P1,2026-02-01,direct,1,x\nP2,2026-02-02,direct,1,x\n"), `"my list" = "sales"`},
		"a sheet of nearly a table's name": {file("salez.csv", "piece,sold_on,channel,price\nP1,2026-02-01,direct,1\n"+
			"P2,2026-02-02,direct,1\n"), `"salez" = "sales"`},
		"days that either order reads": {file("trips.csv", "on,miles,purpose\n2.1.2026,5,fair\n3.1.2026,5,fair\n"+
			"4.1.2026,5,fair\n5.1.2026,5,fair\n6.1.2026,5,fair\n7.1.2026,5,fair\n8.1.2026,5,fair\n9.1.2026,5,fair\n"),
			`dates = "dmy"`},
		"what is crossed out": {file("book.xlsx", crossed), `crossed_out = "read"`},
	} {
		t.Run(name, func(t *testing.T) {
			require.NotEmpty(t, fixesWith(untried(t, c.files), c.line), "untried, a message names it: %s",
				untried(t, c.files).Problems.All())
			res := read(t, c.files)
			require.Empty(t, fixesWith(res, c.line))
			for _, p := range res.LinesNamed() {
				require.NotEqual(t, c.line, p.Line)
			}
			for _, p := range res.Problems.All() {
				require.NotEmpty(t, p.Fix)
			}
		})
	}
}
