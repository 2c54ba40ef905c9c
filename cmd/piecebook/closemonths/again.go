package closemonths

import (
	"fmt"
	"path/filepath"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/packs"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/figuresjson"
	"piecebook/report/words"
)

type AgainCmd struct {
	Month string `arg:"" help:"A closed month, as 2026-03."`
}

// againAnswer is the command's answer as JSON.
type againAnswer struct {
	Schema  string         `json:"schema"`
	Month   calendar.Month `json:"month"`
	Same    bool           `json:"same"`
	Amounts []againAmount  `json:"amounts"` // that differ
	Pieces  int            `json:"pieces"`  // that differ
	Closed  string         `json:"closed_by"`
	Now     string         `json:"program"`
}

type againAmount struct {
	Name   string `json:"name"`
	Closed string `json:"closed"`
	Again  string `json:"again"`
}

// againFolder is where a closed month's pack worked out again stands, within
// the month's folder.
const againFolder = "again"

// Run works a closed month out again from the copy of its records, and holds
// it against what was closed.
func (k AgainCmd) Run(c *cli.Call, w terminal.Console) error {
	month, err := cli.ReadMonth(k.Month)
	if err != nil {
		return err
	}
	b, err := openAgain(c, month)
	if err != nil {
		return err
	}
	if b.Stamp, err = cli.StampOf(w); err != nil {
		return err
	}
	if b.Problems.HasErrors() {
		cli.TellProblems(w, b, false)
		fmt.Fprintln(w.Err, "This version of piecebook refuses lines of the copy that an earlier one read; nothing was made.")
		return cli.Problems{List: b.Problems}
	}
	in, err := b.Input()
	if err != nil {
		return err
	}
	text, err := figuresjson.Month(in.Month)
	if err != nil {
		return err
	}
	amounts, pieces := closing.Differing(b.AsOf.Figures, text)
	same := made.SameJSON(b.AsOf.Figures, text)
	if c.JSON {
		return cli.WriteJSON(w, againJSON(b, amounts, pieces, same))
	}
	dir := filepath.Join(c.OutDir(), month.String(), againFolder)
	files := append(packs.PackFiles(b, in), cli.PlainFile(cli.FiguresFile, text))
	if err := c.Write(dir, files); err != nil {
		return err
	}
	fmt.Fprintf(w.Err, "%s, worked out again from the copy of its records, is in:\n", month.Name())
	cli.ListFiles(w, dir, files)
	if same {
		fmt.Fprintln(w.Err, "Every figure is as it was closed.")
		return nil
	}
	fmt.Fprintf(w.Err, "It differs from what was closed. %s closed it, this is %s.\n", b.AsOf.Program, cli.Version())
	for _, a := range amounts {
		fmt.Fprintf(w.Err, "  %s\n", words.WasIs(a))
	}
	if pieces > 0 {
		fmt.Fprintf(w.Err, "  %d %s.\n", pieces, fault.Plural(pieces, "piece differs", "pieces differ"))
	}
	return nil
}

func againJSON(b *cli.Books, amounts []closing.Amount, pieces int, same bool) againAnswer {
	out := againAnswer{"piecebook/again/1", b.Month, same, []againAmount{}, pieces, b.AsOf.Program, cli.Version()}
	for _, a := range amounts {
		out.Amounts = append(out.Amounts, againAmount{words.Amount(a), a.Was.String(), a.Is.String()})
	}
	return out
}

// openAgain is a closed month's copy of the records as open books, after the
// closed months before it.
func openAgain(c *cli.Call, month calendar.Month) (*cli.Books, error) {
	folder, closed, err := c.FolderAndClosed()
	if err != nil {
		return nil, err
	}
	upto := closing.Upto(closed, month)
	if len(upto) == 0 || upto[len(upto)-1].Month != month {
		return nil, cli.Usagef("%s is not closed, so there is no copy of its records.", month.Name())
	}
	return c.OpenCopy(folder, upto[len(upto)-1], upto[:len(upto)-1])
}
