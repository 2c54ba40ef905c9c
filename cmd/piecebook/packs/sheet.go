package packs

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/piece"
)

type SheetCmd struct {
	Pieces []string `arg:"" help:"Pieces, lots or sets, by number or name; a month (2026-03) among them: as they stood at its end."`
	Text   bool     `help:"Print it in the terminal instead of making a PDF."`
}

// Run makes profit sheets of the pieces named.
func (k SheetCmd) Run(c *cli.Call, w terminal.Console) error {
	names, month := cli.SplitMonth(k.Pieces)
	b, err := c.Ready(w, month)
	if err != nil {
		return err
	}
	ids, err := b.Named(names)
	if err != nil {
		return err
	}
	in, err := b.Input()
	if err != nil {
		return err
	}
	if c.JSON {
		return sheetJSON(w, in, ids)
	}
	for _, id := range ids {
		if !slices.ContainsFunc(in.All, func(p figures.Piece) bool { return p.Record.ID == id }) {
			return cli.Usagef("%s has not come by the end of %s, so there is nothing on its sheet. Name a later month.",
				id, b.Month.Name())
		}
	}
	if k.Text {
		_, err := fmt.Fprint(w.Out, w.BoldFirst(c.Text(piece.Terminal(in, ids)), 2))
		return err
	}
	doc := piece.Sheets(in, ids)
	name := sheetName(ids)
	dir := filepath.Join(c.OutDir(), b.Month.String())
	if err := c.Write(dir, []outfile.File{cli.PdfFile(name, func() page.Document { return doc })}); err != nil {
		return err
	}
	w.TellFile(filepath.Join(dir, name))
	return nil
}

// sheetNameMax is the most letters of a sheet's file name but for its ending and
// what tells it from others, far below what any file system allows in bytes.
const sheetNameMax = 60

// sheetName is the file's name: the pieces joined, with only what every system
// takes in a name, so that no name of a piece can lead out of the folder. Where
// that does not say just which pieces they are, some digits made of their names
// follow, so that no two sets of pieces meet in one file.
func sheetName(ids []string) string {
	shown := ids
	if len(ids) > 3 {
		shown = append(slices.Clone(ids[:3]), fmt.Sprintf("and %d more", len(ids)-3))
	}
	joined := strings.Join(shown, ", ")
	clean := strings.Map(func(r rune) rune {
		if !unicode.IsGraphic(r) || strings.ContainsRune(`/\:*?"<>|~`, r) {
			return '-'
		}
		return r
	}, joined)
	if letters := []rune(clean); len(letters) > sheetNameMax {
		clean = string(letters[:sheetNameMax])
	}
	clean = strings.TrimRight(clean, ". ")
	if clean != joined || len(ids) > 3 ||
		slices.ContainsFunc(ids, func(id string) bool { return strings.Contains(id, ",") }) {
		sum := sha256.Sum256([]byte(fmt.Sprintf("%q", ids)))
		clean += " ~" + hex.EncodeToString(sum[:])[:8]
	}
	return "sheet " + clean + ".pdf"
}

// sheetJSON is the pieces' entries as figures.json has them.
func sheetJSON(w terminal.Console, in report.Input, ids []string) error {
	f := in.Month
	f.Pieces = slices.DeleteFunc(slices.Clone(in.All), func(p figures.Piece) bool {
		return !slices.Contains(ids,
			p.Record.ID)
	})
	all, err := figuresjson.Month(f)
	if err != nil {
		return err
	}
	var parts struct {
		Schema string          `json:"schema"`
		Period string          `json:"period"`
		Pieces json.RawMessage `json:"pieces"`
	}
	if err := json.Unmarshal(all, &parts); err != nil {
		return err
	}
	return cli.WriteJSON(w, parts)
}
