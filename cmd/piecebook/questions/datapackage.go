package questions

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/plainfile"
	"piecebook/report/datapackage"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

// describe writes reports/datapackage.json, with copies of the records it
// describes below it: the standard lets a package name only files that stand
// beside or below it.
func describe(c *cli.Call, w terminal.Console, b *cli.Books) error {
	folder, err := booksdir.Open(c.Books)
	if err != nil {
		return err
	}
	sheets, records, err := packedSheets(folder, b.Read.Layouts)
	if err != nil {
		return err
	}
	if len(sheets) == 0 {
		return cli.Usage("There is no table to describe yet. Next: piecebook start lays out a workbook to fill in.")
	}
	s := b.Read.Books.Settings
	text, err := datapackage.Render(b.Set, datapackage.Shop{Name: s.Shop, DecimalComma: s.DecimalComma}, sheets)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.Out.Write(text)
		return err
	}
	dir := c.OutDir()
	files := []outfile.File{cli.PlainFile("datapackage.json", text)}
	for _, r := range records {
		if !isRecord(c, dir, r.name) {
			files = append(files, cli.PlainFile(r.name, r.bytes))
		}
	}
	if err := c.Stop.WriteAll(dir, files); err != nil {
		return err
	}
	fmt.Fprintf(w.Err, "%s.\n%d %s of records described for other programs; the copies beside it are "+
		"theirs, change yours "+
		"as before. It is in:\n",
		words.RowsInAll(b.Read.Tally), len(sheets), fault.Plural(len(sheets), "sheet", "sheets"))
	fmt.Fprintln(w.Out, filepath.Join(dir, "datapackage.json"))
	return nil
}

// recordFile is a file of records as it lies in the books folder.
type recordFile struct {
	name  string
	bytes []byte
}

// packedSheets gathers what is said of each sheet, and the files they stand in.
func packedSheets(folder fs.FS, layouts []intake.Layout) ([]datapackage.Sheet, []recordFile, error) {
	var sheets []datapackage.Sheet
	var records []recordFile
	for _, l := range layouts {
		if len(records) == 0 || records[len(records)-1].name != l.File {
			b, err := plainfile.Read(folder, l.File, cli.HandedBytesMax)
			if err != nil {
				return nil, nil, err
			}
			records = append(records, recordFile{l.File, b})
		}
		b := records[len(records)-1].bytes
		sum := sha256.Sum256(b)
		s := datapackage.Sheet{Table: l.Table, Path: l.File, Sheet: l.Sheet, HeaderRow: l.HeaderRow, Examples: l.Examples,
			Bytes: len(b), SHA256: hex.EncodeToString(sum[:]), Separates: l.Separates, Encoding: l.Letters}
		for _, c := range l.Columns {
			s.Columns = append(s.Columns, datapackage.Column(c))
		}
		sheets = append(sheets, s)
	}
	return sheets, records, nil
}

// isRecord says that a copy would take the place of the owner's own file,
// which is what happens where --out is the books folder.
func isRecord(c *cli.Call, dir, name string) bool {
	copied, err := os.Stat(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		return false
	}
	own, err := os.Stat(filepath.Join(c.BooksDir(), filepath.FromSlash(name)))
	return err == nil && os.SameFile(copied, own)
}
