package main

import (
	"fmt"
	"io"
	"path/filepath"

	"piecebook/ledger/checks"
	"piecebook/ledger/kinds"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/month"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/pdf"
	"piecebook/report/piece"
	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

type monthCmd struct {
	Month string `arg:"" optional:"" help:"Year and month, as 2026-03. Blank: the last month that has records of two tables."`
	Draft bool   `help:"Leave out the lines that have problems, list them on page 1, and say DRAFT on every page; write no figures.json."`
}

// Run makes the month-end pack.
func (k monthCmd) Run(c *cli, w world) error {
	month, err := readMonth(k.Month)
	if err != nil {
		return err
	}
	if k.Draft {
		return c.draft(w, month)
	}
	b, err := c.ready(w, month)
	if err != nil {
		return err
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	figures, err := figuresjson.Month(in.Month)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.out.Write(figures)
		return err
	}
	dir := filepath.Join(c.outDir(), b.month.String())
	files := append(packFiles(b, in),
		plainFile(figuresFile, figures))
	if err := c.write(dir, files); err != nil {
		return err
	}
	fmt.Fprintf(w.err, "%s.\n", in.Tally)
	tellLeftOut(w, b)
	if n := len(in.Notes); n > 0 {
		fmt.Fprintf(w.err, "%d %s worth a look: %s check tells them, the largest first.\n", n, plural(n, "note is", "notes are"), b.self)
	}
	fmt.Fprintf(w.err, "The pack of %s is in:\n", b.month.Name())
	listFiles(w, dir, files)
	return nil
}

// tellLeftOut says aloud what makes a pack poorer than its owner may think: a
// sheet that was skipped though it looks like a table, and a month beyond the
// records.
func tellLeftOut(w world, b *books) {
	for _, p := range b.read.Proposals {
		if p.Section == "sheets" {
			fmt.Fprintf(w.err, "%s was skipped, though its column names fit a table. %s check tells how to have it read.\n", p.Place, b.self)
		}
	}
	if last := checks.LastMonth(&b.read.Books); b.month > last {
		fmt.Fprintf(w.err, "The records end with %s.\n", last.Name())
	}
}

// figuresFile is the pack's figures for other programs.
const figuresFile = "figures.json"

// packFiles are the month's reports for people, also as a draft.
func packFiles(b *books, in report.Input) []outfile.File {
	ranked := accountant.KindsSheets(in, kinds.Of(b.ledger, kinds.Scope{}))
	return []outfile.File{
		pdfFile("month.pdf", month.Doc(in)),
		pdfFile("pieces.pdf", piece.PeriodSheets(in)),
		bookFile("month.xlsx", accountant.MonthBook(in, ranked...)),
	}
}

// listFiles prints where the files are.
func listFiles(w world, dir string, files []outfile.File) {
	for _, f := range files {
		fmt.Fprintln(w.out, filepath.Join(dir, f.Name))
	}
}

// pdfFile renders a document when the file is written.
func pdfFile(name string, d page.Document) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return pdf.Write(w, d) }}
}

// bookFile renders a workbook when the file is written.
func bookFile(name string, b *workbook.Book) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return xlsx.Write(w, b) }}
}

// plainFile is a file of bytes there are.
func plainFile(name string, data []byte) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { _, err := w.Write(data); return err }}
}
