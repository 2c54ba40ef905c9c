package sheets

import (
	"archive/zip"
	"bytes"
	"flag"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
)

// opened reads a file and holds the work to its bounds, as counted: the rows and
// cells that are kept, the elements of a workbook that are looked at. It returns
// the sheets and the codes of the problems.
func opened(t *testing.T, name string, b []byte) ([]*Sheet, []fault.Code) {
	t.Helper()
	var problems fault.List
	var sheets []*Sheet
	if f := (File{name, b}); newWorkbook(f) != nil {
		w := newWorkbook(f)
		if err := w.walk(); err != nil {
			problems.Add(workbookProblem(name, err))
		}
		require.LessOrEqual(t, w.elements.Load(), int64(elementsMax+elementsStep*runtime.GOMAXPROCS(0)))
		require.LessOrEqual(t, w.cells.Load(), int64(sheetCellsMax+sheetColsMax*runtime.GOMAXPROCS(0)))
		require.LessOrEqual(t, len(w.texts), sheetCellsMax+1)
		for _, p := range w.sheets {
			problems.Join(p.long)
			sheets = append(sheets, p.sheet)
		}
	} else {
		known := func(text string) bool { return text == "worked_on" || text == "hours" || text == "task" }
		sheets = slices.Collect(Open([]File{f}, known, &problems))
	}
	for _, s := range sheets {
		cells := 0
		for _, l := range s.Lines {
			cells += len(l.Cells)
			require.LessOrEqual(t, len(l.Cells), sheetColsMax)
		}
		require.LessOrEqual(t, len(s.Lines), sheetRowsMax+1)
		require.LessOrEqual(t, cells, sheetCellsMax)
	}
	var codes []fault.Code
	for _, p := range problems.All() {
		require.Less(t, len(p.String()), 2_000)
		codes = append(codes, p.Code)
	}
	return sheets, codes
}

// parts is a one-sheet workbook of the given parts; what is not given is usual.
func parts(t *testing.T, given map[string]io.Reader) []byte {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`
	const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	usual := map[string]string{
		"[Content_Types].xml":        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":                `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="` + kind + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="s" Type="` + kind + `worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="t" Type="` + kind + `sharedStrings" Target="sharedStrings.xml"/><Relationship Id="u" Type="` + kind + `styles" Target="styles.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="` + strings.TrimSuffix(kind, "/") + `"><sheets><sheet name="Hours" sheetId="1" r:id="s"/></sheets></workbook>`,
		"xl/styles.xml":              `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`,
		"xl/sharedStrings.xml":       `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`,
		"xl/worksheets/sheet1.xml":   sheetOf("") + sheetEnd,
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range usual {
		w, err := z.Create(name)
		require.NoError(t, err)
		if from, given := given[name]; given {
			_, err = io.Copy(w, from)
		} else {
			_, err = io.WriteString(w, head+text)
		}
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// sheetOf begins a sheet of Hours with one row, and more after it.
func sheetOf(more string) string {
	cell := func(at, text string) string {
		return `<c r="` + at + `" t="inlineStr"><is><t>` + text + `</t></is></c>`
	}
	return `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` +
		`<row r="1">` + cell("A1", "worked_on") + cell("B1", "hours") + cell("C1", "task") + `</row>` +
		`<row r="2">` + cell("A2", "2026-01-09") + `<c r="B2"><v>1</v></c></row>` + more
}

const sheetEnd = `</sheetData></worksheet>`

// repeated is a text again and again, without holding it.
func repeated(before, text string, times int, after string) io.Reader {
	readers := []io.Reader{strings.NewReader(before)}
	some := min(times, max(1, 1<<20/len(text)))
	block := strings.Repeat(text, some)
	for ; times >= some; times -= some {
		readers = append(readers, strings.NewReader(block))
	}
	return io.MultiReader(append(readers, strings.NewReader(strings.Repeat(text, times)+after))...)
}

// sheet1 is a workbook whose sheet has more after its two rows.
func sheet1(t *testing.T, text string, times int) []byte {
	return parts(t, map[string]io.Reader{"xl/worksheets/sheet1.xml": repeated(sheetOf(""), text, times, sheetEnd)})
}

var large = flag.Bool("large", false, "the largest files too: blank sheets as large as a sheet can be")

// largest are the cases that take longest, left out of the usual run.
var largest = []string{"16,384 columns", "too many cells", "a sheet of 600 MB in 1 MB", "elements within each other",
	"a remark of 100 MB"}

// Goal: a huge sheet that is blank but for its rows is read.
func TestBlankSheetsOfAnySizeAreRead(t *testing.T) {
	tenth := 1
	if !*large {
		tenth = 10
	}
	var styled strings.Builder
	styled.WriteString(sheetOf(""))
	for i := 3; i <= 1_000_000/tenth; i++ {
		fmt.Fprintf(&styled, `<row r="%d"/>`, i)
	}
	styled.WriteString(`<row r="1048576"><c r="XFD1048576" s="1"/></row>` + sheetEnd)
	for name, b := range map[string][]byte{
		"rows alone": parts(t, map[string]io.Reader{"xl/worksheets/sheet1.xml": strings.NewReader(
			styled.String())}),
		"styled cells": sheet1(t,
			`<row><c s="1"/><c s="1"/><c s="1"/><c s="1"/><c s="1"/><c s="1"/><c s="1"/><c s="1"/></row>`, 60_000/tenth),
		"16,384 columns of them": sheet1(t, `<row>`+strings.Repeat(`<c s="1"/>`, 16_384)+`</row>`, 30/tenth),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sheets, codes := opened(t, "hours.xlsx", b)
			require.Empty(t, codes)
			require.Len(t, sheets[0].Lines, 2)
		})
	}
	t.Run("plain", func(t *testing.T) {
		sheets, codes := opened(t, "hours.csv", []byte("worked_on,hours\n2026-01-09,1\n"+
			strings.Repeat(",\n", 1_000_000/tenth)+
			strings.Repeat(",", 16_384)))
		require.Empty(t, codes)
		require.Len(t, sheets[0].Lines, 2)
	})
}

// Goal: what is beyond the limits is reported in a sentence, with bounded work.
// Method: the worst we could think of, each near what is let in.
func TestBeyondTheLimits(t *testing.T) {
	const head = "worked_on,hours,task\n2026-01-09,1,x\n"
	long := strings.Repeat("sand ", 2<<20)
	inline := func(text string) string {
		return `<row r="3"><c r="C3" t="inlineStr"><is><t>` + text + `</t></is></c></row>`
	}
	for _, c := range []struct {
		name, file string
		bytes      func(t *testing.T) []byte
		code       fault.Code
	}{
		{"a plain cell of 10 MB", "hours.csv", func(*testing.T) []byte { return []byte(head + "2026-01-09,1," + long + "\n") }, fault.CodeCellTooLong},
		{"a cell of 10 MB", "hours.xlsx", func(t *testing.T) []byte { return sheet1(t, inline(long), 1) }, fault.CodeCellTooLong},
		{"a cell somewhat too long", "hours.xlsx", func(t *testing.T) []byte { return sheet1(t, inline(strings.Repeat("x", 40_000)), 1) }, fault.CodeCellTooLong},
		{"16,384 plain columns", "hours.csv", func(*testing.T) []byte { return []byte("worked_on,hours" + strings.Repeat(",x", 16_384) + "\n") }, fault.CodeFileTooBig},
		{"16,384 columns", "hours.xlsx", func(t *testing.T) []byte {
			return sheet1(t, "<row>"+strings.Repeat("<c><v>1</v></c>", 16_384)+"</row>", 1000)
		}, fault.CodeFileTooBig},
		{"27 MB of commas", "hours.csv", func(*testing.T) []byte { return bytes.Repeat([]byte(strings.Repeat(",", 900)+"x\n"), 30_000) }, fault.CodeFileTooBig},
		{"quotation marks and nothing else", "hours.csv", func(*testing.T) []byte { return bytes.Repeat([]byte("\"\n"), 10<<20) }, fault.CodeFileTooBig},
		{"each quotation mark open", "hours.csv", func(*testing.T) []byte { return bytes.Repeat([]byte("\"x\n"), 150_001) }, fault.CodeQuoteNotClosed},
		{"too many rows", "hours.xlsx", func(t *testing.T) []byte { return sheet1(t, `<row><c t="str"><v>x</v></c></row>`, 300_000) }, fault.CodeFileTooBig},
		{"too many cells", "hours.xlsx", func(t *testing.T) []byte {
			return sheet1(t, "<row>"+strings.Repeat("<c><v>1</v></c>", 900)+"</row>", 10_000)
		}, fault.CodeFileTooBig},
		{"a gap before each cell", "hours.xlsx", func(t *testing.T) []byte {
			var b strings.Builder
			for i := 3; i < 150_000; i++ {
				fmt.Fprintf(&b, `<row r="%d"><c r="ALA%d"><v>1</v></c></row>`, i, i)
			}
			return parts(t, map[string]io.Reader{"xl/worksheets/sheet1.xml": strings.NewReader(sheetOf(b.String()) + sheetEnd)})
		}, fault.CodeFileTooBig},
		{"a sheet of 600 MB in 1 MB", "hours.xlsx", func(t *testing.T) []byte { return sheet1(t, strings.Repeat(" ", 100_000), 6_000) }, fault.CodeFileTooBig},
		{"texts without end", "hours.xlsx", func(t *testing.T) []byte {
			return parts(t, map[string]io.Reader{"xl/sharedStrings.xml": repeated("<sst>", "<si/>", 5_000_000, "</sst>")})
		}, fault.CodeFileTooBig},
		{"elements within each other", "hours.xlsx", func(t *testing.T) []byte {
			return parts(t, map[string]io.Reader{"xl/sharedStrings.xml": repeated("<sst>", "<a>", 5_000_000, "</sst>")})
		}, fault.CodeFileNotRead},
		{"a remark of 100 MB", "hours.xlsx", func(t *testing.T) []byte {
			return parts(t, map[string]io.Reader{"xl/styles.xml": repeated("<styleSheet><!--", "x<>", 30_000_000,
				"--></styleSheet>")})
		}, fault.CodeCellTooLong},
		{"a row beyond the grid", "hours.xlsx", func(t *testing.T) []byte { return sheet1(t, `<row r="2000000000"/>`, 1) }, fault.CodeFileNotRead},
		{"a list of sheets without end", "hours.xlsx", func(t *testing.T) []byte {
			return parts(t, map[string]io.Reader{"xl/workbook.xml": repeated("<workbook><sheets>", `<sheet name="x" id="s"/>`,
				1_000_000, "</sheets></workbook>")})
		}, fault.CodeFileTooBig},
		{"one part as two sheets", "hours.xlsx", func(t *testing.T) []byte {
			return parts(t, map[string]io.Reader{"xl/workbook.xml": repeated("<workbook><sheets>", `<sheet name="x" id="s"/>`, 2,
				"</sheets></workbook>")})
		}, fault.CodeFileNotRead},
		{"a claim of 2 GB", "hours.xlsx", func(t *testing.T) []byte { return claiming(t, 2<<30) }, fault.CodeFileTooBig},
		{"a claim of nothing", "hours.xlsx", func(t *testing.T) []byte { return claiming(t, 0) }, fault.CodeFileNotRead},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !*large && slices.Contains(largest, c.name) {
				t.Skip("takes long: -large")
			}
			t.Parallel()
			_, codes := opened(t, c.file, c.bytes(t))
			require.Contains(t, codes, c.code)
		})
	}
}

// claiming is a workbook whose sheet claims to unpack to another size than it does.
func claiming(t *testing.T, size uint64) []byte {
	good := parts(t, nil)
	in, err := zip.NewReader(bytes.NewReader(good), int64(len(good)))
	require.NoError(t, err)
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range in.File {
		from, err := f.OpenRaw()
		require.NoError(t, err)
		head := f.FileHeader
		if strings.HasSuffix(f.Name, "sheet1.xml") {
			head.UncompressedSize64 = size
		}
		to, err := z.CreateRaw(&head)
		require.NoError(t, err)
		_, err = io.Copy(to, from)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}
