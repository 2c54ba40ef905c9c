package commands

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/text"
	"piecebook/report/words"
	"piecebook/report/workbook"
	"piecebook/report/year"
	"piecebook/templates"
)

type yearCmd struct {
	Year string `arg:"" optional:"" help:"The year, as 2026. Blank: that of the last month that has records of two tables."`
}

// Run makes the year's cost records.
func (k yearCmd) Run(c *cli, w terminal.Console) error {
	t, err := c.taxYear(w, k.Year)
	if err != nil {
		return err
	}
	figures, err := figuresjson.Year(t.in.Tax)
	if err != nil {
		return err
	}
	if c.JSON {
		_, err := w.Out.Write(figures)
		return err
	}
	dir := filepath.Join(c.outDir(), fmt.Sprint(t.in.Tax.Year))
	files := t.files(figures)
	if err := c.write(dir, files); err != nil {
		return err
	}
	tellYear(w, t)
	t.tellGivenOut(w)
	fmt.Fprintf(w.Err, "The cost records of %d are in:\n", t.in.Tax.Year)
	listFiles(w, dir, files)
	return nil
}

// files are the year's reports.
func (t *taxYear) files(figures []byte) []outfile.File {
	return []outfile.File{
		htmlFile("year.html", func() page.Document { return screen.Year(t.in) }),
		pdfFile("year.pdf", func() page.Document { return year.Doc(t.in) }),
		bookFile("year.xlsx", func() *workbook.Book { return accountant.YearBook(t.in) }),
		plainFile(figuresFile, figures),
	}
}

// tellYear says the net figure and what is missing.
func tellYear(w terminal.Console, t *taxYear) {
	y := t.in.Tax
	answer := fmt.Sprintf("%d: %s %s, line %s.", y.Year, words.NetName(y.Net()), t.in.Spoken(y.Net().Abs()),
		y.Table.Holds.Profit)
	fmt.Fprintln(w.Err, w.Bold(w.ErrWide, answer))
	fmt.Fprintln(w.Err, "These are records for a licensed preparer, no tax advice.")
	missing := t.in.Missing()
	if n := len(missing); n > 0 {
		fmt.Fprintf(w.Err, "%d %s missing:\n", n, fault.Plural(n, "thing is", "things are"))
	}
	for _, m := range missing {
		fmt.Fprintf(w.Err, "  %s\n", strings.Join(text.Fold(m.Words, 76), "\n    "))
	}
	for _, tie := range y.Ties {
		if tie.Difference != 0 {
			fmt.Fprintf(w.Err, "LOOK: %s differs by %s. That is a defect of piecebook.\n", tie.Name, tie.Difference)
		}
	}
}

// taxYear is a year worked out, with what its documents need.
type taxYear struct {
	books *books
	in    report.YearInput
	since []closing.Since // what the packs of its months were made from
	given []string        // what was given out of the year and does not hold any more
}

// taxYear reads the books and works out the year asked for.
func (c *cli) taxYear(w terminal.Console, text string) (*taxYear, error) {
	december, err := readYear(text)
	if err != nil {
		return nil, err
	}
	b, err := c.ready(w, december)
	if err != nil {
		return nil, err
	}
	if december == 0 {
		if b, err = c.ready(w, calendar.MonthOf(b.Month.Year(), time.December)); err != nil {
			return nil, err
		}
	}
	t, err := c.yearOf(b)
	if err != nil {
		return nil, err
	}
	return t, c.heldAgainst(t)
}

// yearOf works out the tax year of the books' last month, its December, by the
// tables of the country whose money the books are in.
func (c *cli) yearOf(b *books) (*taxYear, error) {
	tax, err := templates.TaxFor(b.Read.Books.Settings.Currency)
	if err == nil {
		tax, err = tax.Of(b.Month.Year())
	}
	if err != nil {
		return nil, err
	}
	in, err := report.YearOf(b.Books, tax)
	if errors.Is(err, taxyear.ErrBeforeBooks) {
		return nil, usage(fmt.Sprintf("The books begin after %d; there are no records of it.", b.Month.Year()))
	}
	if err != nil {
		return nil, err
	}
	in.Photos, in.Stamp = booksdir.Photos(b.Photos), b.stamp
	method, changed := c.opened(in.Tax)
	in.Opening = changed
	in.Tax.Remarks = slices.Concat(method, in.Tax.Remarks)
	t := &taxYear{books: b, in: in}
	t.remark(overYears(in.Corrections))
	return t, nil
}

// opened compares the year's opening with the closing that was handed out for
// the year before, where its figures.json is still there.
func (c *cli) opened(y *taxyear.Year) (method, changed []taxyear.Missing) {
	name := filepath.Join(c.outDir(), fmt.Sprint(y.Year-1), figuresFile)
	text, err := readBounded(name, figuresBytesMax)
	if err != nil {
		return nil, nil
	}
	var file struct {
		Schema    string `json:"schema"`
		Statement struct {
			Cost  money.Cents `json:"cost_of_pieces_sold"`
			Shelf money.Cents `json:"shelf_losses"`
			Lost  money.Cents `json:"pieces_lost"`

			Expenses map[string]money.Cents `json:"expenses"`
		} `json:"statement"`
		TaxLines []struct {
			Line   string      `json:"line"`
			Amount money.Cents `json:"amount"`
		} `json:"tax_lines"`
	}
	if json.Unmarshal(text, &file) != nil || file.Schema != figuresjson.Schema {
		return nil, nil
	}
	lines := map[string]money.Cents{}
	for _, l := range file.TaxLines {
		lines[l.Line] = l.Amount
	}
	closing, there := lines[y.Number(figures.LineClosingStock)]
	if !there {
		return nil, nil
	}
	return y.Opened(taxyear.HandedOut{From: name, Closing: closing, Cost: lines[y.Table.Holds.Cost],
		Statement: file.Statement.Cost + file.Statement.Shelf + file.Statement.Lost,
		Used:      y.UsedOf(lines, file.Statement.Expenses)})
}

// readYear reads a year as typed and gives its December; blank is none.
func readYear(text string) (calendar.Month, error) {
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || len(text) != 4 || n < 1900 {
		return 0, usage(fmt.Sprintf("%q is no year. Type it with four digits, as in 2026.", text))
	}
	return calendar.MonthOf(n, time.December), nil
}
