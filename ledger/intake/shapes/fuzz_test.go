package shapes

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// seeds adds every file of a kind below the sample and example books.
func seeds(f *testing.F, ending string, add func(name string, b []byte)) {
	for _, root := range []string{"../../../sample", "../../testdata/example"} {
		_ = filepath.WalkDir(root, func(name string, d os.DirEntry, err error) error {
			if err == nil && !d.IsDir() && strings.HasSuffix(name, ending) {
				if b, err := os.ReadFile(name); err == nil && len(b) < 1<<20 {
					add(filepath.Base(name), b)
				}
			}
			return nil
		})
	}
}

// holds checks what is true of every reading whatever the bytes: each row is
// accounted for, each problem has its sentences, and without an error no row
// is refused.
func holds(t *testing.T, folder fstest.MapFS) {
	set, err := templates.Load()
	require.NoError(t, err)
	res := intake.Read(folder, set)
	for _, row := range res.Tally {
		if row.Rows != row.Used+row.Refused+row.Examples+row.NotRecord+row.NotTable {
			t.Fatalf("rows do not add up: %+v", row)
		}
		if row.Refused > 0 && !res.Problems.HasErrors() {
			t.Fatalf("rows refused without a word: %+v", row)
		}
	}
	for _, p := range res.Problems.All() {
		if p.Why == "" || p.Fix == "" || p.Place.File == "" || fault.IntakeCodes[p.Code] == "" {
			t.Fatalf("bare problem: %+v", p)
		}
	}
}

func FuzzPlainFile(f *testing.F) {
	f.Add("uses.csv", []byte(usesHead+"2026-01-09,P1;P2,Primer,,31.5,2,8 fl oz\n"))
	f.Add("hours.csv", []byte("\xff\xfew\x00"))
	f.Add("sales-2026.csv", []byte("sold_on;pieces;channel;price\r1/2/2026;\"P1\r+P2\";x;(12,00)\r"))
	f.Add("surfaces.csv",
		[]byte("piece,part,shape,width,height,sides,top,bottom\nP1,a,polygon,9½,,7,,\nP1,b,cone,,3' 6\",,4,0\n"))
	f.Add("hours.csv", []byte("sep=;\r\nMy hours;;\r\nworked_on;Work;\r\n;hours;task\r\n46031;2-Jan; \"a\" "+
		"\r\n########;1E+05;#REF!\r\n"))
	f.Add("Shop - hours.txt", []byte("w\x00o\x00r\x00k\x00e\x00d\x00_\x00o\x00n\x00,\x00h\x00o\x00u\x00r\x00s\x00\n\x00"))
	f.Add("hours.tsv", []byte("\"worked_on\thours\"\n\"2026-01-09\t1\"\n\"x\n"))
	f.Add("pieces.csv", []byte("piece,kind,set,lot,how,price\nP1,chair,S,L,,\nP1,S,P1,P1,free,1\n\"x"))
	f.Add("settings.toml", []byte("units = \"metric\"\n[mileage]\n\"2026-01-01\" = "+
		"0.725\n[columns.sales]\n\"a\" = \"price\"\n"))
	for _, ending := range []string{".csv", ".toml"} {
		seeds(f, ending, func(name string, b []byte) { f.Add(name, b) })
	}
	f.Fuzz(func(t *testing.T, name string, b []byte) {
		folder := fstest.MapFS{}
		for file, text := range base {
			folder[file] = &fstest.MapFile{Data: []byte(text)}
		}
		switch {
		case name == "settings.toml":
			folder[name] = &fstest.MapFile{Data: b}
		case strings.ContainsAny(name, "/\\\x00") || name == "" || name == "." || name == "..":
			folder["records/x.csv"] = &fstest.MapFile{Data: b}
		default:
			folder["records/"+name] = &fstest.MapFile{Data: b}
		}
		holds(t, folder)
	})
}

func FuzzWorkbook(f *testing.F) {
	f.Add([]byte(workbook("Hours", func(b *excelize.File) {
		row(b, 1, "worked_on", "pieces", "hours")
		row(b, 2, 46024, "P1", 2.5)
		_ = b.SetCellFormula("Hours", "C3", "1+1")
	})))
	f.Add([]byte("PK\x03\x04"))
	f.Add([]byte{0xD0, 0xCF, 0x11, 0xE0})
	seeds(f, ".xlsx", func(_ string, b []byte) { f.Add(b) })
	f.Fuzz(func(t *testing.T, b []byte) {
		folder := fstest.MapFS{"records/book.xlsx": &fstest.MapFile{Data: b}}
		for file, text := range base {
			folder[file] = &fstest.MapFile{Data: []byte(text)}
		}
		holds(t, folder)
	})
}

// Goal: whatever the parts of a workbook hold, reading ends. Method: the
// parts of a good workbook with text cut or changed in them, which a fuzzer
// hardly reaches through the packing.
func FuzzWorkbookParts(f *testing.F) {
	f.Add("xl/worksheets/sheet1.xml",
		[]byte(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>worked_on</t></is></c><c r="B1" t="str"><v>hours</v></c></row><row r="2"><c r="A2" s="9"><v>46024</v></c><c r="B2" s="99"><f>1+1</f></c></row></sheetData></worksheet>`))
	f.Add("xl/worksheets/sheet1.xml",
		[]byte(`<worksheet><cols><col min="1" max="2" hidden="1"/></cols><sheetData><row><c t="inlineStr"><is><t>worked_on</t></is></c><c t="str"><v>hours</v></c></row><row hidden="1"><c s="1"><v>46024</v></c><c t="d"><v>2026-01-05</v></c></row></sheetData><mergeCells><mergeCell ref="A2:B9"/></mergeCells></worksheet>`))
	f.Add("xl/styles.xml",
		[]byte(`<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="1"><xf numFmtId="999"/></cellXfs></styleSheet>`))
	f.Add("xl/workbook.xml", []byte(`<workbook><sheets><sheet name="Hours" sheetId="1"/></sheets></workbook>`))
	f.Add("xl/sharedStrings.xml", []byte(`<sst><si><t>x</t></si></sst>`))
	f.Fuzz(func(t *testing.T, part string, text []byte) {
		b := workbook("Hours", func(b *excelize.File) {
			row(b, 1, "worked_on", "pieces", "hours")
			row(b, 2, 46024, "P1", 2.5)
		})
		folder := fstest.MapFS{"records/book.xlsx": &fstest.MapFile{Data: repack(b, part, text)},
			"records/pieces.csv": &fstest.MapFile{Data: []byte(base["records/pieces.csv"])}}
		holds(t, folder)
	})
}
