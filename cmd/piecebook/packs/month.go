// Package packs makes the files of a month, a year and a piece: packs, drafts,
// profit sheets, and the folder to hand over.
package packs

import (
	"fmt"
	"path/filepath"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/month"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/screen"
	"piecebook/report/workbook"
)

type MonthCmd struct {
	Words []string `arg:"" optional:"" name:"dir-or-month" help:"Year and month, as 2026-03; blank: the last month that has records of two tables. Books folders before it: the pack of each."`
	Draft bool     `help:"Leave out the lines that have problems, list them on page 1, and say DRAFT on every page; write no figures.json."`
}

// Run makes the month-end pack, of one books folder or of several.
func (k MonthCmd) Run(c *cli.Call, w terminal.Console) error {
	folders, month, err := foldersAndMonth(k.Words)
	if err != nil {
		return err
	}
	if len(folders) > 0 {
		return manyPacks(c, w, folders, month, k.Draft)
	}
	_, err = packOrDraft(c, w, month, k.Draft)
	return err
}

// pack makes the month-end pack of the books folder.
func pack(c *cli.Call, w terminal.Console, month calendar.Month) (Made, error) {
	b, err := c.Ready(w, month)
	if err != nil {
		return Made{}, err
	}
	in, err := b.Input()
	if err != nil {
		return Made{}, err
	}
	since, err := made.SinceMade(c, b)
	if err != nil {
		return Made{}, err
	}
	in.Earlier = made.Earlier(since, b.Month)
	worked, err := figuresjson.Month(in.Month)
	if err != nil {
		return Made{}, err
	}
	figures, err := made.MonthFigures(w, b, worked)
	if err != nil {
		return Made{}, err
	}
	if c.JSON {
		_, err := w.Out.Write(figures)
		return Made{}, err
	}
	dir := filepath.Join(c.OutDir(), b.Month.String())
	files := append(PackFiles(b, in),
		cli.PlainFile(cli.FiguresFile, figures))
	if err := c.Write(dir, append(files, made.MadeFrom(b, worked)...)); err != nil {
		return Made{}, err
	}
	tellAnswer(w, in)
	made.TellLastMade(w, b, since)
	if b.Month <= b.LastClosed() {
		fmt.Fprintf(w.Err, "%s is closed: its pack stays as it was then. What the records now say otherwise stands in the "+
			"first open month.\n", b.Month.Name())
	}
	fmt.Fprintf(w.Err, "The pack of %s is in:\n", b.Month.Name())
	cli.ListFiles(w, dir, files)
	fmt.Fprintf(w.Err, "%s.\n", in.Tally)
	made.TellGivenOut(w, b, in.Earlier)
	tellLeftOut(w, b)
	if asking, _ := b.Notes(); len(asking) > 0 {
		n := len(asking)
		fmt.Fprintf(w.Err, "%d %s worth a look: %s tells them, the largest first.\n", n, fault.Plural(n, "note is",
			"notes are"), b.ToType("check"))
	}
	return Made{month: b.Month, dir: dir, files: len(files)}, nil
}

// tellAnswer says first what the month came to.
func tellAnswer(w terminal.Console, in report.Input) {
	text := month.Answer(in)
	if in.Draft {
		text = "DRAFT, " + text
	}
	fmt.Fprintln(w.Err, w.Bold(w.ErrWide, text+"."))
}

// tellLeftOut says what makes a pack poorer than its owner may think: a
// sheet that was skipped though it looks like a table, and a month beyond the
// records.
func tellLeftOut(w terminal.Console, b *cli.Books) {
	for _, p := range b.Read.Proposals {
		if p.Section == "sheets" {
			fmt.Fprintf(w.Err, "%s was skipped, though its column names fit a table. %s tells how to have it read.\n",
				p.Place, b.ToType("check"))
		}
	}
	if last := checks.LastMonth(&b.Read.Books); last > 0 && b.Month > last {
		fmt.Fprintf(w.Err, "The records end with %s.\n", last.Name())
	}
}

// PackFiles are the month's reports for people, also as a draft. Each is
// composed when it is written, so that they are made side by side.
func PackFiles(b *cli.Books, in report.Input) []outfile.File {
	return []outfile.File{
		cli.HtmlFile("month.html", func() page.Document { return screen.Month(in) }),
		cli.PdfFile("month.pdf", func() page.Document { return month.Doc(in) }),
		cli.PdfFile("pieces.pdf", func() page.Document { return piece.PeriodSheets(in) }),
		cli.BookFile("month.xlsx", func(book *workbook.Book) {
			accountant.FillMonth(book, in, accountant.KindsSheets(in, kinds.OfLives(b.Ledger, in.Lives, kinds.Scope{}))...)
		}),
	}
}
