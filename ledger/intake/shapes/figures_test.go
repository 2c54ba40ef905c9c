package shapes

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/figuresjson"
	"piecebook/templates"
)

var writeCells = flag.String("cells", "", "write the sample's cells to this file, for the programs in testdata")

// ofShape are the notes that a way of writing has, whatever is written.
var ofShape = []fault.Code{fault.CodeLettersGuessed, fault.CodeTitleRows, fault.CodeHiddenRead, fault.CodeHeaderBlank,
	fault.CodeHeaderUnknown, fault.CodeSheetSkipped}

// outcome is what a books folder comes to: figures.json of fourteen months, one
// after the other, and the codes of its problems but for those of its shape.
type outcome struct {
	figures  string
	problems []fault.Code
}

// figuresOf reads, checks and costs a books folder.
func figuresOf(t testing.TB, books fs.FS) outcome {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(books, set)
	if errs := read.Problems.Errors(); len(errs) > 0 {
		t.Fatalf("%d errors, the first: %s", len(errs), errs[0])
	}
	for _, row := range read.Tally {
		require.Equal(t, row.Rows, row.Used+row.Refused+row.Examples+row.NotTable, row)
	}
	last := checks.LastMonth(&read.Books)
	ledger := costing.Run(&read.Books, last)
	problems := read.Problems
	problems.Join(checks.Look(&read.Books, last))
	problems.Join(ledger.Problems)
	var out outcome
	for _, p := range problems.All() {
		if !slices.Contains(ofShape, p.Code) {
			out.problems = append(out.problems, p.Code)
		}
	}
	slices.Sort(out.problems)
	var all bytes.Buffer
	for _, m := range ledger.Months {
		b, err := figuresjson.Month(figures.For(ledger, m.Month, m.Month))
		require.NoError(t, err)
		all.Write(b)
	}
	require.Len(t, ledger.Months, 14)
	require.Equal(t, calendar.MonthOf(2026, 2), last)
	out.figures = all.String()
	return out
}

// sameFigures compares two shapes without printing fourteen months of both.
func sameFigures(t testing.TB, want, got outcome, shape string) {
	t.Helper()
	require.Equal(t, want.problems, got.problems, shape)
	if want.figures == got.figures {
		return
	}
	a, b := strings.Split(want.figures, "\n"), strings.Split(got.figures, "\n")
	for i := range min(len(a), len(b)) {
		require.Equal(t, a[i], b[i], "%s: line %d of the figures", shape, i+1)
	}
	require.Len(t, b, len(a), shape)
}

// writeSampleCells writes the sample's cells for other programs to read.
func writeSampleCells(t testing.TB, file string) {
	t.Helper()
	b, err := json.Marshal(sampleTables(t))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, append(b, '\n'), 0o644))
}

// Goal: what a spreadsheet's bytes are never changes a figure. Method: the
// sample shop's fourteen months in every shape we know of, all of whose
// figures.json are the same bytes and whose problems are the same.
func TestTheSameMonthsInManyShapes(t *testing.T) {
	tables := sampleTables(t)
	settings, err := os.ReadFile(filepath.Join("..", "..", "..", "sample", "settings.toml"))
	require.NoError(t, err)
	if *writeCells != "" {
		writeSampleCells(t, *writeCells)
	}
	want := figuresOf(t, os.DirFS(filepath.Join("..", "..", "..", "sample")))
	shapes := 0
	for _, name := range slices.Sorted(maps.Keys(shapesOfText)) {
		t.Run(name, func(t *testing.T) {
			sameFigures(t, want, figuresOf(t, shapesOfText[name].books(t, tables, string(settings))), name)
		})
		shapes++
	}
	for _, name := range slices.Sorted(maps.Keys(shapesOfBooks)) {
		t.Run(name, func(t *testing.T) {
			books := fstest.MapFS{"settings.toml": {Data: settings}, "records/Shop book.xlsx": {Data: shapesOfBooks[name](
				t, tables)}}
			sameFigures(t, want, figuresOf(t, books), name)
		})
		shapes++
	}
	require.GreaterOrEqual(t, shapes, 12)
}

// The same, written at random: tables in several files and sheets, rows, columns
// and names in other orders and spellings.
func TestTheSameMonthsReshaped(t *testing.T) {
	tables := sampleTables(t)
	settings, err := os.ReadFile(filepath.Join("..", "..", "..", "sample", "settings.toml"))
	require.NoError(t, err)
	files := map[string][]byte{}
	for _, s := range tables {
		if s.Table != "purchases" { // in two files, which the reshaper does not know
			files["records/"+s.Table+".csv"] = s.csv(',', "\n")
			continue
		}
		files["records/"+s.Name+".csv"] = s.csv(',', "\n")
	}
	want := figuresOf(t, os.DirFS(filepath.Join("..", "..", "..", "sample")))
	for seed := range uint64(3) {
		books := fstest.MapFS{"settings.toml": {Data: settings}}
		for name, b := range bookgen.Reshape(files, seed) {
			books[name] = &fstest.MapFile{Data: b}
		}
		sameFigures(t, want, figuresOf(t, books), fmt.Sprint("seed ", seed))
	}
}

// Goal: other programs' workbooks are read as ours are. Method: files made
// once by them (testdata/README.md says how and by which version) from
// the cells in cells.json, against those cells as plain text.
func TestTheSameMonthsByOtherPrograms(t *testing.T) {
	dir := filepath.Join("testdata")
	b, err := os.ReadFile(filepath.Join(dir, "cells.json"))
	require.NoError(t, err)
	var tables []cells
	require.NoError(t, json.Unmarshal(b, &tables))
	settings, err := os.ReadFile(filepath.Join(dir, "settings.toml"))
	require.NoError(t, err)
	want := figuresOf(t, shapesOfText["plain"].books(t, tables, string(settings)))
	made, err := filepath.Glob(filepath.Join(dir, "*.xlsx"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(made), 4)
	for _, file := range made {
		t.Run(filepath.Base(file), func(t *testing.T) {
			b, err := os.ReadFile(file)
			require.NoError(t, err)
			books := fstest.MapFS{"settings.toml": {Data: settings}, "records/Shop book.xlsx": {Data: b}}
			sameFigures(t, want, figuresOf(t, books), file)
		})
	}
}
