package testkit

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/kinds"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/templates"
)

// SampleInputs is every month of the sample shop, as its reports are made.
func SampleInputs(t *testing.T) []report.Input {
	ins, _ := SampleBooks(t)
	return ins
}

// SampleBooks is SampleInputs with the ledger they are from.
func SampleBooks(t *testing.T) ([]report.Input, *costing.Ledger) {
	t.Helper()
	ins, l := Months(t, os.DirFS(filepath.Join(top(t), "sample")), 0)
	require.Len(t, ins, 14)
	return ins, l
}

// Months is every month of a books folder, and so many more after its last, as
// its reports are made, with the ledger they are from. Its notes are in its
// last month's only.
func Months(t *testing.T, folder fs.FS, more int) ([]report.Input, *costing.Ledger) {
	t.Helper()
	return months(t, folder, more, func(*ledger.Books) {})
}

// MonthsWith is every month of the sample with its records changed, with the
// ledger they are from.
func MonthsWith(t *testing.T, change func(*ledger.Books)) ([]report.Input, *costing.Ledger) {
	t.Helper()
	return months(t, os.DirFS(filepath.Join(top(t), "sample")), 0, change)
}

func months(t *testing.T, folder fs.FS, more int, change func(*ledger.Books)) ([]report.Input, *costing.Ledger) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	cautions, err := templates.Cautions()
	require.NoError(t, err)
	read := intake.Read(folder, set)
	b := &read.Books
	change(b)
	end := checks.LastMonth(b) + calendar.Month(more)
	l := costing.Run(b, end)
	problems := read.Problems
	problems.Join(read.Named(checks.Look(b, end)))
	problems.Join(read.Named(l.Problems))
	require.Empty(t, problems.Errors())
	index := figures.NewIndex(l)
	all, hours, postings := index.All(), costing.HoursByPiece(b), l.Postings()
	var out []report.Input
	var last []figures.Figures
	for _, r := range l.Months {
		f := index.For(r.Month, r.Month)
		in := report.Input{Books: b, Postings: postings, Month: f,
			Year: index.For(max(l.Months[0].Month, calendar.MonthOf(r.Month.Year(), 1)), r.Month),
			All:  all, HoursByPiece: hours, Cautions: cautions, Photos: folder}
		if r.Month == end {
			in.Notes = figures.OfPeriod(problems.Notes(), end, end)
		}
		if len(last) > 0 {
			in.Before = &last[len(last)-1]
		}
		channels := kinds.Channels(l, kinds.Lives(l), r.Month, kinds.MonthScope(r.Month), kinds.Scope{Year: r.Month.Year()})
		in.Channels, in.ChannelsYear = channels[0], channels[1]
		if len(last) >= 12 {
			in.YearAgo = &last[len(last)-12]
		}
		last = append(last, f)
		in.Last = last[max(0, len(last)-12):]
		out = append(out, in)
	}
	return out, l
}

// YearOf is the tax year of a month as its documents are composed from, by the
// tables of the United States.
func YearOf(t *testing.T, in report.Input, l *costing.Ledger) report.YearInput {
	t.Helper()
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	set, err := templates.Load()
	require.NoError(t, err)
	y, err := taxyear.For(l, in.Month.To.Year(), tax, set.RatesFor(l.Books.Settings.Currency).AtOnceCents)
	require.NoError(t, err)
	in.Month = y.Figures
	return report.YearInput{Input: in, Tax: y, Law: tax}
}

// top is the folder of go.mod, from whichever room a test runs in.
func top(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		require.NotEqual(t, dir, filepath.Dir(dir), "no go.mod above the test's folder")
		dir = filepath.Dir(dir)
	}
}

// EveryBlock visits all blocks of a document, what stands instead of charts too.
func EveryBlock(d page.Document, visit func(section string, b page.Block)) {
	var walk func(string, []page.Block)
	walk = func(s string, blocks []page.Block) {
		for _, b := range blocks {
			visit(s, b)
			switch b := b.(type) {
			case page.Columns:
				walk(s, b.Left)
				walk(s, b.Right)
			case page.KeepTogether:
				walk(s, b.Blocks)
			default:
				walk(s, b.Fallback())
			}
		}
	}
	for _, s := range d.Sections {
		walk(s.Title, s.Blocks)
	}
}
