package main

import (
	"fmt"
	"io"
	"path/filepath"

	"piecebook/ledger/kinds"
	"piecebook/report"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/pdf"
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
	figures, err := report.FiguresJSON(in.Month)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.out.Write(figures)
		return err
	}
	dir := filepath.Join(c.outDir(), b.month.String())
	files := append(packFiles(b, in),
		outfile.File{Name: figuresFile, Write: func(out io.Writer) error { _, err := out.Write(figures); return err }})
	if err := c.write(dir, files); err != nil {
		return err
	}
	fmt.Fprintf(w.err, "%s.\n", in.Tally)
	if n := len(in.Notes); n > 0 {
		fmt.Fprintf(w.err, "%d %s worth a look: piecebook check tells them, the largest first.\n", n, plural(n, "note is", "notes are"))
	}
	fmt.Fprintf(w.err, "The pack of %s is in:\n", b.month.Name())
	listFiles(w, dir, files)
	return nil
}

// figuresFile is the pack's figures for other programs.
const figuresFile = "figures.json"

// packFiles are the month's reports for people, also as a draft.
func packFiles(b *books, in report.Input) []outfile.File {
	ranked := report.KindsSheets(in, kinds.Of(b.ledger, kinds.Scope{}))
	return []outfile.File{
		pdfFile("month.pdf", report.MonthDoc(in)),
		pdfFile("pieces.pdf", report.PiecesDoc(in)),
		bookFile("month.xlsx", report.MonthBook(in, ranked...)),
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
