package made

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/figuresjson"
	"piecebook/templates"
)

// TaxYear is a year worked out, with what its documents need.
type TaxYear struct {
	Books *cli.Books
	In    report.YearInput
	since []closing.Since // what the packs of its months were made from
	given []string        // what was given out of the year and does not hold any more
}

// OfYear reads the books and works out the year asked for.
func OfYear(c *cli.Call, w terminal.Console, text string) (*TaxYear, error) {
	december, err := cli.ReadYear(text)
	if err != nil {
		return nil, err
	}
	b, err := c.Ready(w, december)
	if err != nil {
		return nil, err
	}
	if december == 0 {
		if b, err = c.Ready(w, calendar.MonthOf(b.Month.Year(), time.December)); err != nil {
			return nil, err
		}
	}
	t, err := yearOf(c, b)
	if err != nil {
		return nil, err
	}
	return t, compare(c, t)
}

// yearOf works out the tax year of the books' last month, its December, by the
// tables of the country whose money the books are in.
func yearOf(c *cli.Call, b *cli.Books) (*TaxYear, error) {
	tax, err := templates.TaxFor(b.Read.Books.Settings.Currency)
	if err == nil {
		tax, err = tax.Of(b.Month.Year())
	}
	if err != nil {
		return nil, err
	}
	in, err := report.YearOf(b.Books, tax)
	if errors.Is(err, taxyear.ErrBeforeBooks) {
		return nil, cli.Usagef("The books begin after %d; there are no records of it.", b.Month.Year())
	}
	if err != nil {
		return nil, err
	}
	in.Photos, in.Stamp = booksdir.Photos(b.Photos), b.Stamp
	method, changed := opened(c, in.Tax)
	in.Opening = changed
	in.Tax.Remarks = slices.Concat(method, in.Tax.Remarks)
	t := &TaxYear{Books: b, In: in}
	t.remark(overYears(in.Corrections))
	return t, nil
}

// opened compares the year's opening with the closing that was handed out for
// the year before, where its figures.json is still there.
func opened(c *cli.Call, y *taxyear.Year) (method, changed []taxyear.Missing) {
	name := filepath.Join(c.OutDir(), fmt.Sprint(y.Year-1), cli.FiguresFile)
	text, err := cli.ReadBounded(name, cli.FiguresBytesMax)
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
