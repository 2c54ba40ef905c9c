package packs

import (
	"fmt"
	"path/filepath"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/words"
	"piecebook/report/workbook"
	"piecebook/report/year"
)

type YearCmd struct {
	Year string `arg:"" optional:"" help:"The year, as 2026. Blank: that of the last month that has records of two tables."`
}

// Run makes the year's cost records.
func (k YearCmd) Run(c *cli.Call, w terminal.Console) error {
	t, err := made.OfYear(c, w, k.Year)
	if err != nil {
		return err
	}
	figures, err := figuresjson.Year(t.In.Tax)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.Out.Write(figures)
		return err
	}
	dir := filepath.Join(c.OutDir(), fmt.Sprint(t.In.Tax.Year))
	files := files(t, figures)
	if err := c.Write(dir, files); err != nil {
		return err
	}
	tellYear(w, t)
	t.TellGivenOut(w)
	fmt.Fprintf(w.Err, "The cost records of %d are in:\n", t.In.Tax.Year)
	cli.ListFiles(w, dir, files)
	return nil
}

// files are the year's reports.
func files(t *made.TaxYear, figures []byte) []outfile.File {
	return []outfile.File{
		cli.HtmlFile("year.html", func() page.Document { return screen.Year(t.In) }),
		cli.PdfFile("year.pdf", func() page.Document { return year.Doc(t.In) }),
		cli.BookFile("year.xlsx", func(book *workbook.Book) { accountant.FillYear(book, t.In) }),
		cli.PlainFile(cli.FiguresFile, figures),
	}
}

// tellYear says the net figure and what is missing.
func tellYear(w terminal.Console, t *made.TaxYear) {
	y := t.In.Tax
	answer := fmt.Sprintf("%d: %s %s, line %s.", y.Year, words.NetName(y.Net()), t.In.Spoken(y.Net().Abs()),
		y.Table.Holds.Profit)
	fmt.Fprintln(w.Err, w.Bold(w.ErrWide, answer))
	fmt.Fprintln(w.Err, "These are records for a licensed preparer, no tax advice.")
	missing := t.In.Missing()
	if n := len(missing); n > 0 {
		fmt.Fprintf(w.Err, "%d %s missing:\n", n, fault.Plural(n, "thing is", "things are"))
	}
	for _, m := range missing {
		terminal.PrintLines(w.Err, w.ErrWide, []string{"  " + words.YearNote(m.Note)})
	}
	for _, tie := range y.Ties {
		if tie.Difference != 0 {
			fmt.Fprintf(w.Err, "LOOK: %s differs by %s. That is a defect of piecebook.\n", tie.Name, tie.Difference)
		}
	}
}
