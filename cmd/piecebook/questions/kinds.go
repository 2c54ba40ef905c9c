package questions

import (
	"fmt"
	"path/filepath"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/checks"
	"piecebook/ledger/kinds"
	kindpages "piecebook/report/kinds"
	"piecebook/report/outfile"
	"piecebook/report/page"
)

type KindsCmd struct {
	Year   int    `help:"Only what was sold, listed or got in that year." placeholder:"2026"`
	Season string `help:"Only that part of each year, or of --year: spring, summer, autumn, winter, or months, as 3-5 or mar-may." placeholder:"spring"`
	Text   bool   `help:"Print all of it in the terminal instead of making a PDF."`
}

// Run ranks the kinds.
func (k KindsCmd) Run(c *cli.Call, w terminal.Console) error {
	scope, err := k.scope()
	if err != nil {
		return err
	}
	b, err := readyThrough(c, w, scope)
	if err != nil {
		return err
	}
	r := kinds.Of(b.Ledger, scope)
	if c.JSON {
		answer, err := kindpages.JSON(r, b.Read.Books.Settings.Currency)
		return cli.PrintAnswer(w, answer, err)
	}
	in, err := b.Input()
	if err != nil {
		return err
	}
	if k.Text {
		_, err := fmt.Fprint(w.Out, w.BoldFirst(c.Text(kindpages.Doc(in, r)), 1))
		return err
	}
	dir := filepath.Join(c.OutDir(), b.Month.String())
	if k.Year != 0 {
		dir = filepath.Join(c.OutDir(), fmt.Sprint(k.Year))
	}
	if err := c.Write(dir,
		[]outfile.File{cli.PdfFile(k.file(), func() page.Document { return kindpages.Doc(in, r) })}); err != nil {
		return err
	}
	if _, err := fmt.Fprint(w.Out, w.BoldFirst(c.Text(kindpages.Glance(in, r)), 1)); err != nil {
		return err
	}
	fmt.Fprintln(w.Err, "\nEvery piece, money, time to sell, channels and coverage by kind are in:")
	w.TellFile(filepath.Join(dir, k.file()))
	return nil
}

// scope is the time asked for.
func (k KindsCmd) scope() (kinds.Scope, error) {
	var scope kinds.Scope
	if k.Season != "" {
		s, ok := kinds.ParseSeason(k.Season)
		if !ok {
			return scope, cli.Usagef("%q is not a season. Type spring, summer, autumn or winter, or months, as in --season "+
				"3-5 or --season mar-may.", k.Season)
		}
		scope = s
	}
	if k.Year != 0 && (k.Year < 1900 || k.Year > 9999) {
		return scope, cli.Usagef("%d is not a year. Type four figures, as in --year 2026.", k.Year)
	}
	scope.Year = k.Year
	return scope, nil
}

// file is the PDF's name; a season's stands beside the whole year's.
func (k KindsCmd) file() string {
	if k.Season == "" {
		return "kinds.pdf"
	}
	// Letters, digits and dashes only: ParseSeason has seen to it.
	return "kinds " + strings.ReplaceAll(strings.ToLower(strings.TrimSpace(k.Season)), " ", "") + ".pdf"
}

// readyThrough is ready for the last month of a scope.
func readyThrough(c *cli.Call, w terminal.Console, scope kinds.Scope) (*cli.Books, error) {
	b, err := c.Ready(w, 0)
	if err != nil {
		return nil, err
	}
	end := scope.End(kinds.Through(&b.Read.Books, checks.LastMonth(&b.Read.Books)))
	switch {
	case end == b.Month:
		return b, nil
	case len(b.Ledger.Months) > 0 && end < b.Ledger.Months[0].Month:
		return nil, cli.Usagef("The books begin in %s, after %s.", b.Ledger.Months[0].Month.Name(), scope)
	}
	return c.Ready(w, end)
}
