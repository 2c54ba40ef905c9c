package intake_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
)

var libreOffice = flag.Bool("libreoffice", false, "hold the owners' sheets as LibreOffice saves them to "+
	"what they mean too")

// ownerCase is a spreadsheet as an owner keeps it, and the books it means. In
// testdata/owners/KIND.txt it is written as
//
//	== what is special about it
//	P1 P2                       (a sheet Pieces with these)
//	set: year = 2025            (a line of settings.toml)
//	@ Sales 2025                (a sheet, or a plain file of that name)
//	Date | Item | Price
//	3/4 | P1 | 100
//	notes: year-taken           (the codes of all notes)
//	asks: date-not-read         (the codes of all errors; none: it is read at once)
//	answer: paste               (all lines that are proposed), or answer: a line,
//	answer: Sales 2025!A2 = x   (a cell typed)
//	books:
//	sale 2025-03-04 P1 direct 100.00
//
// In a cell ~x~ is crossed out, of ~x~y only x, [x] and [ ] are a tick box, =SUM(C2:C4){9} is a
// formula and its value. Cases with one of them are not tried as plain files.
type ownerCase struct {
	name     string
	pieces   []string
	settings []string
	sheets   []ownerSheet
	notes    []string
	asks     []string
	answers  []string
	books    []string
	proposes string // the lines proposed, or none
	money    string // what check says is in the books: 100.00 of 150.00
	bookOnly bool
	formulas bool
}

type ownerSheet struct {
	name string
	rows [][]string
}

// ownerCases reads one file of cases.
func ownerCases(t *testing.T, file string) (cases []*ownerCase) {
	t.Helper()
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	var c *ownerCase
	inBooks := false
	for line := range strings.Lines(string(b)) {
		line = strings.TrimRight(line, "\n")
		key, rest, _ := strings.Cut(line, ":")
		rest = strings.TrimSpace(rest)
		switch {
		case strings.HasPrefix(line, "== "):
			c, inBooks = &ownerCase{name: line[3:]}, false
			cases = append(cases, c)
		case c == nil || strings.HasPrefix(line, "#"):
		case line == "books:":
			inBooks = true
		case inBooks:
			if line != "" {
				c.books = append(c.books, line)
			}
		case key == "set":
			c.settings = append(c.settings, rest)
		case key == "notes":
			c.notes = strings.Fields(rest)
		case key == "proposes":
			c.proposes = rest
		case key == "money":
			c.money = rest
		case key == "asks":
			c.asks = strings.Fields(rest)
		case key == "answer":
			c.answers = append(c.answers, rest)
		case strings.HasPrefix(line, "@ "):
			c.sheets = append(c.sheets, ownerSheet{name: line[2:]})
		case len(c.sheets) == 0:
			c.pieces = append(c.pieces, strings.Split(line, ", ")...)
		default:
			s := &c.sheets[len(c.sheets)-1]
			var row []string
			for _, cell := range strings.Split(line, "|") {
				cell = strings.TrimSpace(cell)
				row = append(row, cell)
				c.bookOnly = c.bookOnly || isMarked(cell)
				c.formulas = c.formulas || strings.HasPrefix(cell, "=")
			}
			s.rows = append(s.rows, row)
		}
	}
	return cases
}

func isMarked(cell string) bool {
	return struckCell(cell) || strings.Count(cell, "~") == 2 || strings.HasPrefix(cell, "=") || cell == "[x]" ||
		cell == "[ ]"
}

// struckCell says that a cell is written as crossed out.
func struckCell(cell string) bool {
	return len(cell) > 2 && strings.HasPrefix(cell, "~") && strings.HasSuffix(cell, "~")
}

// all are a case's sheets with that of the pieces.
func (c *ownerCase) all() []ownerSheet {
	if len(c.pieces) == 0 {
		return c.sheets
	}
	s := ownerSheet{name: "Pieces", rows: [][]string{{"piece", "kind", "got on", "price", "area"}}}
	for _, p := range c.pieces {
		s.rows = append(s.rows, []string{p, "chair", "2025-01-02", "10", "12"})
	}
	return append([]ownerSheet{s}, c.sheets...)
}

// typed is a case's sheets with the cells that an answer types.
func (c *ownerCase) typed(t *testing.T) (sheets []ownerSheet, lines []string, paste bool) {
	for _, s := range c.all() {
		rows := make([][]string, len(s.rows))
		for i := range s.rows {
			rows[i] = slices.Clone(s.rows[i])
		}
		sheets = append(sheets, ownerSheet{s.name, rows})
	}
	for _, a := range c.answers {
		place, text, typed := strings.Cut(a+" ", " = ") // nothing behind it: the cell is cleared
		text = strings.TrimSpace(text)
		sheet, cell, at := strings.Cut(place, "!")
		i := slices.IndexFunc(sheets, func(s ownerSheet) bool { return s.name == sheet })
		switch {
		case a == "paste":
			paste = true
		case typed && at && i >= 0:
			column, row, err := excelize.CellNameToCoordinates(cell)
			require.NoError(t, err, a)
			for len(sheets[i].rows) < row {
				sheets[i].rows = append(sheets[i].rows, nil)
			}
			for len(sheets[i].rows[row-1]) < column {
				sheets[i].rows[row-1] = append(sheets[i].rows[row-1], "")
			}
			sheets[i].rows[row-1][column-1] = text
		default:
			lines = append(lines, a)
		}
	}
	return sheets, lines, paste
}

// plainFiles are sheets as plain files.
func plainFiles(sheets []ownerSheet) map[string]string {
	files := map[string]string{}
	for _, s := range sheets {
		var b strings.Builder
		for _, row := range s.rows {
			for i, cell := range row {
				if i > 0 {
					b.WriteByte(',')
				}
				if strings.ContainsAny(cell, `,"`) {
					cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
				}
				b.WriteString(cell)
			}
			b.WriteByte('\n')
		}
		files["records/"+s.name+".csv"] = b.String()
	}
	return files
}

// inWorkbook is sheets as a workbook.
func inWorkbook(t *testing.T, sheets []ownerSheet) string {
	f := excelize.NewFile()
	struck, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
	require.NoError(t, err)
	for i, s := range sheets {
		if i == 0 {
			require.NoError(t, f.SetSheetName("Sheet1", s.name))
		} else {
			_, err := f.NewSheet(s.name)
			require.NoError(t, err)
		}
		for r, row := range s.rows {
			for c, text := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				if text == "" {
					continue
				}
				value, formula, crossed := ownerCell(text)
				require.NoError(t, f.SetCellValue(s.name, at, value))
				if before, after, is := strings.Cut(strings.TrimPrefix(text, "~"), "~"); is && after != "" {
					require.NoError(t, f.SetCellRichText(s.name, at, []excelize.RichTextRun{
						{Text: before, Font: &excelize.Font{Strike: true}}, {Text: after}}))
				}
				if crossed {
					require.NoError(t, f.SetCellStyle(s.name, at, at, struck))
				}
				if formula != "" {
					require.NoError(t, f.SetCellFormula(s.name, at, formula))
				}
			}
		}
	}
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.String()
}

// ownerCell is a cell as a program saves it.
func ownerCell(text string) (value any, formula string, crossed bool) {
	if struckCell(text) {
		text, crossed = strings.Trim(text, "~"), true
	}
	if strings.HasPrefix(text, "=") {
		formula, text, _ = strings.Cut(strings.TrimSuffix(text[1:], "}"), "{")
	}
	if x, err := strconv.ParseFloat(text, 64); err == nil && !strings.HasPrefix(text, "0") &&
		!strings.HasPrefix(text, "+") {
		return x, formula, crossed
	}
	switch text {
	case "[x]", "[ ]":
		return text == "[x]", formula, crossed
	}
	return text, formula, crossed
}

// booksText is books as lines, sorted.
func booksText(b ledger.Books, pieces bool) (out []string) {
	add := func(parts ...any) {
		out = append(out, strings.TrimSpace(strings.Join(strings.Fields(fmt.Sprintln(parts...)), " ")))
	}
	if !pieces {
		for _, p := range b.Pieces {
			add("piece", p.ID+",", p.Kind, p.How, p.GotOn, p.Price)
		}
	}
	for _, s := range b.Sales {
		line := fmt.Sprintf("sale %s %s, %s %s", s.On, strings.Join(s.Pieces, "+"), s.Channel, s.Price)
		if s.Type != ledger.SaleLine {
			line += " " + string(s.Type)
		}
		for _, x := range []struct {
			name  string
			cents *money.Cents
		}{{"fee", s.Fee}, {"card", s.CardFee}, {"delivery", &s.DeliveryCharged}, {"tax", &s.SalesTax}} {
			if x.cents != nil && (*x.cents != 0 || x.name == "fee") {
				line += " " + x.name + " " + x.cents.String()
			}
		}
		add(line)
	}
	for _, s := range b.Supplies {
		all := ""
		if s.UseAll {
			all = "all"
		}
		add("supply", s.Name+",", s.Group, s.Container, s.ShareBy, all)
	}
	for _, p := range b.Purchases {
		add("bought", p.On, p.Supply+",", money.AtMost(p.Amount, 4), "for", p.Cost)
	}
	for _, u := range b.Uses {
		if u.Amount != nil {
			add("used", u.On, strings.Join(u.Pieces, "+"), u.Supply+",", money.AtMost(u.Amount, 4))
		}
	}
	for _, p := range b.Parts {
		add("part", p.On, strings.Join(p.Pieces, "+")+",", p.What, p.Cost)
	}
	for _, e := range b.Expenses {
		add("expense", e.On, e.What+",", e.Group, e.Amount)
	}
	for _, h := range b.Hours {
		add("hours", h.On, strings.Join(h.Pieces, "+")+",", money.AtMost(h.Hours, 4))
	}
	for _, x := range b.Trips {
		add("trip", x.On, money.AtMost(x.Miles, 4))
	}
	slices.Sort(out)
	return out
}

// codesOf are the codes of problems, each once.
func codesOf(res *intake.Result, notes bool) (out []string) {
	for _, p := range res.Problems.All() {
		if p.Note == notes && !slices.Contains(usualNotes, string(p.Code)) {
			out = append(out, string(p.Code))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// usualNotes are of no sheet's shape.
var usualNotes = []string{"typical-area", "starting-coverage"}

// hold reads files and holds what comes of them to a case.
func (c *ownerCase) hold(t *testing.T, by string, write func([]ownerSheet) map[string]string) {
	t.Helper()
	text := strings.Join(c.settings, "\n") + "\n"
	with := func(files map[string]string, settings string) map[string]string {
		files = maps.Clone(files)
		files["settings.toml"] = settings
		return nothing2(files)
	}
	say := func(res *intake.Result) string {
		var b strings.Builder
		for _, p := range res.Problems.All() {
			fmt.Fprintf(&b, "%s %s\n", p.Code, p)
		}
		return c.name + ", " + by + "\n" + b.String() + strings.Join(res.SettingsLines(), "\n")
	}
	first := read(t, with(write(c.all()), text))
	if !c.bookOnly || by != "plain files" {
		require.Equal(t, strings.Join(c.asks, " "), strings.Join(codesOf(first, false), " "), say(first))
	}
	if c.proposes != "" {
		require.Equal(t, strings.TrimPrefix(c.proposes, "none"), strings.Join(first.SettingsLines(), " "), say(first))
	}
	if c.money != "" {
		require.Equal(t, c.money, fmt.Sprintf("%s of %s", first.Money.Read, first.Money.Of()), say(first))
	}
	if c.asks == nil {
		require.Equal(t, strings.Join(sorted(c.notes), " "), strings.Join(codesOf(first, true), " "), say(first))
		require.Equal(t, sorted(c.books), booksText(first.Books, len(c.pieces) > 0), say(first))
		return
	}
	sheets, lines, paste := c.typed(t)
	if paste {
		require.NotEmpty(t, first.SettingsLines(), say(first))
		lines = append(lines, first.SettingsLines()...)
	}
	second := read(t, with(write(sheets), text+strings.Join(lines, "\n")+"\n"))
	require.Empty(t, codesOf(second, false), say(second))
	require.Equal(t, sorted(c.books), booksText(second.Books, len(c.pieces) > 0), say(second))
}

// nothing2 is files with the base's taken away where they have none of their own.
func nothing2(files map[string]string) map[string]string {
	all := map[string]string{"records/pieces.csv": "", "records/supplies.csv": ""}
	maps.Copy(all, files)
	return all
}

func sorted(lines []string) []string {
	out := slices.Clone(lines)
	slices.Sort(out)
	return out
}

// Goal: spreadsheets as owners keep them are read as meant, or asked about with
// an answer that leads there when it is typed exactly; none is read as something
// else without a word. Method: cases of our own for each kind of trouble, as
// plain files, as a workbook written by excelize and as one written by openpyxl.
func TestOwnersSheets(t *testing.T) {
	files, err := filepath.Glob("testdata/owners/*.txt")
	require.NoError(t, err)
	var all []*ownerCase
	for _, file := range files {
		cases := ownerCases(t, file)
		all = append(all, cases...)
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			require.GreaterOrEqual(t, len(cases), 12)
			for _, c := range cases {
				t.Run(c.name, func(t *testing.T) {
					if !c.bookOnly {
						c.hold(t, "plain files", plainFiles)
					}
					c.hold(t, "excelize", func(s []ownerSheet) map[string]string {
						return map[string]string{"records/Shop.xlsx": inWorkbook(t, s)}
					})
				})
			}
		})
	}
	t.Run("openpyxl", func(t *testing.T) { holdSecondWriter(t, all) })
	t.Run("libreoffice", func(t *testing.T) { holdLibreOffice(t, all) })
}

// holdSecondWriter holds the cases to workbooks as openpyxl writes them, all at
// once. It saves no values of formulas, so cases with one are left out.
func holdSecondWriter(t *testing.T, cases []*ownerCase) {
	if exec.Command("/usr/bin/python3", "-c", "import openpyxl").Run() != nil {
		t.Skip("openpyxl is not there")
	}
	dir := t.TempDir()
	type book struct {
		File   string
		Sheets []map[string]any
	}
	var books []book
	add := func(file string, sheets []ownerSheet) {
		b := book{File: filepath.Join(dir, file)}
		for _, s := range sheets {
			var cells []any
			for r, row := range s.rows {
				for c, text := range row {
					if text != "" {
						value, _, crossed := ownerCell(text)
						cells = append(cells, []any{r + 1, c + 1, value, crossed})
					}
				}
			}
			b.Sheets = append(b.Sheets, map[string]any{"name": s.name, "cells": cells})
		}
		books = append(books, b)
	}
	for i, c := range cases {
		if !c.formulas {
			typed, _, _ := c.typed(t)
			add(fmt.Sprintf("%d-0.xlsx", i), c.all())
			add(fmt.Sprintf("%d-1.xlsx", i), typed)
		}
	}
	text, err := json.Marshal(books)
	require.NoError(t, err)
	cmd := exec.Command("/usr/bin/python3", "testdata/owners/write.py")
	cmd.Stdin = strings.NewReader(string(text))
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	holdFiles(t, "openpyxl", dir, cases, func(c *ownerCase) bool { return !c.formulas })
}

// holdFiles holds the cases to the workbooks in a folder: N-0 as it is kept, N-1
// as it is typed.
func holdFiles(t *testing.T, by, dir string, cases []*ownerCase, has func(*ownerCase) bool) {
	for i, c := range cases {
		if !has(c) {
			continue
		}
		n := 0
		c.hold(t, by, func([]ownerSheet) map[string]string {
			b, err := os.ReadFile(filepath.Join(dir, fmt.Sprintf("%d-%d.xlsx", i, n)))
			require.NoError(t, err)
			n++
			return map[string]string{"records/Shop.xlsx": string(b)}
		})
	}
}

// holdLibreOffice holds the cases to workbooks as LibreOffice saves them again.
func holdLibreOffice(t *testing.T, cases []*ownerCase) {
	if _, err := exec.LookPath("soffice"); err != nil || !*libreOffice {
		t.Skip("LibreOffice is not asked for, or not there")
	}
	from, dir := t.TempDir(), t.TempDir()
	var files []string
	for i, c := range cases {
		typed, _, _ := c.typed(t)
		for n, sheets := range [][]ownerSheet{c.all(), typed} {
			file := filepath.Join(from, fmt.Sprintf("%d-%d.xlsx", i, n))
			require.NoError(t, os.WriteFile(file, []byte(inWorkbook(t, sheets)), 0o600))
			files = append(files, file)
		}
	}
	const together = 60 // it takes no more than some 250 files at once
	args := []string{"-env:UserInstallation=file://" + t.TempDir(), "--headless", "--convert-to", "xlsx", "--outdir", dir}
	for some := range slices.Chunk(files, together) {
		out, err := exec.Command("soffice", slices.Concat(args, some)...).CombinedOutput()
		require.NoError(t, err, string(out))
	}
	holdFiles(t, "LibreOffice", dir, cases, func(*ownerCase) bool { return true })
}
