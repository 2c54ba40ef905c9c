package setup

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/cards"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/templates"
)

// undated is the date in files that are of no month.
var undated = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

type CardsCmd struct {
	Kind  string `arg:"" optional:"" enum:"bench,shelf,sale,all" default:"all" help:"bench, shelf or sale; blank: all three."`
	One   bool   `help:"One to a page in place of four."`
	Paper string `enum:"letter,a4,settings" default:"settings" placeholder:"letter|a4" help:"letter or a4 (default: what settings.toml says)."`
}

// Run makes cards.pdf. Where there are books, the shelf card names their
// supplies.
func (k CardsCmd) Run(c *cli.Call, w terminal.Console) error {
	set, err := templates.Load()
	if err != nil {
		return err
	}
	stamp, err := cli.StampOf(w)
	if err != nil {
		return err
	}
	o := cards.Order{One: k.One, Paper: page.Letter}
	if k.Kind != "all" {
		o.Kinds = []cards.Kind{cards.Kind(k.Kind)}
	}
	dir := besideBooks(c)
	if cli.HasRecords(c.Books) {
		b, err := c.Open(0)
		if err != nil {
			return err
		}
		o.Shop, o.Paper = b.Read.Books.Settings.Shop, page.Paper(b.Read.Books.Settings.Paper)
		o.Supplies = suppliesToCount(b)
	}
	if k.Paper != "settings" {
		o.Paper = page.Paper(k.Paper)
	}
	if c.JSON {
		return cli.Usage("cards are a PDF only; leave out --json.")
	}
	doc := cards.Doc(set, o)
	doc.Stamp = cmp.Or(stamp, undated)
	const name = "cards.pdf"
	if err := c.Write(dir, []outfile.File{cli.PdfFile(name, func() page.Document { return doc })}); err != nil {
		return err
	}
	fmt.Fprintln(w.Err, "Print it, and fill it in at the bench, at the shelf and at the sale:")
	w.TellFile(filepath.Join(dir, name))
	return nil
}

// besideBooks is where a file goes that is of no month: with the reports of
// books, else where one is.
func besideBooks(c *cli.Call) string {
	if c.Out == "" && !cli.HasRecords(c.Books) {
		return "."
	}
	return c.OutDir()
}

// suppliesToCount is the names of all supplies, those whose count moves the
// most money in front.
func suppliesToCount(b *cli.Books) []string {
	var out []string
	for _, s := range b.CountThese() {
		out = append(out, s.Supply.Name)
	}
	for _, s := range b.Read.Books.Supplies {
		if !slices.Contains(out, s.Name) {
			out = append(out, s.Name)
		}
	}
	return out
}
