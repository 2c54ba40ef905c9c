package setup

import (
	"cmp"
	"fmt"
	"path/filepath"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/guide"
	"piecebook/report/month"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/sample"
)

type GuideCmd struct {
	Paper string `enum:"letter,a4" default:"letter" placeholder:"letter|a4" help:"letter or a4 (default: letter)."`
	Text  bool   `help:"Print the guide in the terminal instead of making a PDF."`
}

// Run makes guide.pdf.
func (k GuideCmd) Run(c *cli.Call, w terminal.Console) error {
	stamp, err := cli.StampOf(w)
	if err != nil {
		return err
	}
	pictures, err := guidePictures()
	if err != nil {
		return err
	}
	doc, err := guide.Doc(page.Paper(k.Paper), pictures)
	if err != nil {
		return err
	}
	doc.Stamp, doc.Currency = cmp.Or(stamp, undated), "USD" // the sample's
	if k.Text {
		_, err := fmt.Fprint(w.Out, c.Text(doc))
		return err
	}
	dir := cmp.Or(c.Out, ".")
	const name = "guide.pdf"
	if err := c.Write(dir, []outfile.File{cli.PdfFile(name, func() page.Document { return doc })}); err != nil {
		return err
	}
	w.TellFile(filepath.Join(dir, name))
	return nil
}

// guidePiece is the piece of the sample whose sheet the guide shows.
const guidePiece = "153"

// guidePictures are the pages that the guide shows, made from the sample.
func guidePictures() (map[string]page.Section, error) {
	c := &cli.Call{Books: "."}
	r, err := c.Reader()
	if err != nil {
		return nil, err
	}
	b, err := c.Opened(r.Open(sample.Files, 0, nil))
	if err != nil {
		return nil, err
	}
	in, err := b.Input()
	if err != nil {
		return nil, err
	}
	sheets := piece.Sheets(in, []string{guidePiece})
	return map[string]page.Section{"month": month.Doc(in).Sections[0], "sheet": sheets.Sections[0]}, nil
}
