package commands

import (
	"fmt"
	"io"
	"path/filepath"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/html"
	"piecebook/report/month"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/pdf"
	"piecebook/report/piece"
	"piecebook/report/screen"
	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

type monthCmd struct {
	Words []string `arg:"" optional:"" name:"dir-or-month" help:"Year and month, as 2026-03; blank: the last month that has records of two tables. Books folders before it: the pack of each."`
	Draft bool     `help:"Leave out the lines that have problems, list them on page 1, and say DRAFT on every page; write no figures.json."`
}

// Run makes the month-end pack, of one books folder or of several.
func (k monthCmd) Run(c *cli, w terminal.Console) error {
	folders, month, err := foldersAndMonth(k.Words)
	if err != nil {
		return err
	}
	if len(folders) > 0 {
		return c.manyPacks(w, folders, month, k.Draft)
	}
	return c.packOrDraft(w, month, k.Draft)
}

// pack makes the month-end pack of the books folder.
func (c *cli) pack(w terminal.Console, month calendar.Month) error {
	b, err := c.ready(w, month)
	if err != nil {
		return err
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	since, err := c.sinceMade(b)
	if err != nil {
		return err
	}
	in.Earlier = earlier(since, b.Month)
	worked, err := figuresjson.Month(in.Month)
	if err != nil {
		return err
	}
	figures, err := monthFigures(w, b, worked)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.Out.Write(figures)
		return err
	}
	dir := filepath.Join(c.outDir(), b.Month.String())
	files := append(packFiles(b, in),
		plainFile(figuresFile, figures))
	madeFrom, err := b.madeFrom(worked)
	if err != nil {
		return err
	}
	if err := c.write(dir, append(files, madeFrom...)); err != nil {
		return err
	}
	c.made = made{month: b.Month, dir: dir, files: len(files)}
	tellAnswer(w, in)
	tellLastMade(w, b, since)
	fmt.Fprintf(w.Err, "The pack of %s is in:\n", b.Month.Name())
	listFiles(w, dir, files)
	fmt.Fprintf(w.Err, "%s.\n", in.Tally)
	tellGivenOut(w, b, in.Earlier)
	tellLeftOut(w, b)
	if asking, _ := b.notes(); len(asking) > 0 {
		n := len(asking)
		fmt.Fprintf(w.Err, "%d %s worth a look: %s check tells them, the largest first.\n", n, fault.Plural(n, "note is",
			"notes are"), b.self)
	}
	return nil
}

// tellAnswer says first what the month came to.
func tellAnswer(w terminal.Console, in report.Input) {
	text := month.Answer(in)
	if in.Draft {
		text = "DRAFT, " + text
	}
	fmt.Fprintln(w.Err, w.Bold(w.ErrWide, text+"."))
}

// tellLeftOut says aloud what makes a pack poorer than its owner may think: a
// sheet that was skipped though it looks like a table, and a month beyond the
// records.
func tellLeftOut(w terminal.Console, b *books) {
	for _, p := range b.Read.Proposals {
		if p.Section == "sheets" {
			fmt.Fprintf(w.Err, "%s was skipped, though its column names fit a table. %s check tells how to have it read.\n",
				p.Place, b.self)
		}
	}
	if last := checks.LastMonth(&b.Read.Books); b.Month > last {
		fmt.Fprintf(w.Err, "The records end with %s.\n", last.Name())
	}
}

// figuresFile is the pack's figures for other programs.
const figuresFile = "figures.json"

// packFiles are the month's reports for people, also as a draft. Each is
// composed when it is written, so that they are made side by side.
func packFiles(b *books, in report.Input) []outfile.File {
	return []outfile.File{
		htmlFile("month.html", func() page.Document { return screen.Month(in) }),
		pdfFile("month.pdf", func() page.Document { return month.Doc(in) }),
		pdfFile("pieces.pdf", func() page.Document { return piece.PeriodSheets(in) }),
		bookFile("month.xlsx", func() *workbook.Book {
			return accountant.MonthBook(in, accountant.KindsSheets(in, kinds.Of(b.Ledger, kinds.Scope{}))...)
		}),
	}
}

// listFiles prints where the files are.
func listFiles(w terminal.Console, dir string, files []outfile.File) {
	for _, f := range files {
		w.TellFile(filepath.Join(dir, f.Name))
	}
}

// pdfFile composes and renders a document when the file is written.
func pdfFile(name string, compose func() page.Document) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return pdf.Write(w, compose()) }}
}

// htmlFile composes and renders a document for a browser when the file is written.
func htmlFile(name string, compose func() page.Document) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return html.Write(w, compose()) }}
}

// bookFile composes and renders a workbook when the file is written.
func bookFile(name string, compose func() *workbook.Book) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return xlsx.Write(w, compose()) }}
}

// plainFile is a file of bytes there are.
func plainFile(name string, data []byte) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { _, err := w.Write(data); return err }}
}
