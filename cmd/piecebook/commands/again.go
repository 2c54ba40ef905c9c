package commands

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

type againCmd struct {
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
func (k againCmd) Run(c *cli, w terminal.Console) error {
	month, err := readMonth(k.Month)
	if err != nil {
		return err
	}
	b, err := c.openAgain(month)
	if err != nil {
		return err
	}
	if b.stamp, err = stampOf(w); err != nil {
		return err
	}
	if b.Problems.HasErrors() {
		tellProblems(w, b, false)
		fmt.Fprintln(w.Err, "This version of piecebook refuses lines of the copy that an earlier one read; nothing was made.")
		return problems{b.Problems}
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	text, err := figuresjson.Month(in.Month)
	if err != nil {
		return err
	}
	amounts, pieces := closing.Differing(b.AsOf.Figures, text)
	same := sameJSON(b.AsOf.Figures, text)
	if c.JSON {
		return writeJSON(w, againJSON(b, amounts, pieces, same))
	}
	dir := filepath.Join(c.outDir(), month.String(), againFolder)
	files := append(packFiles(b, in), plainFile(figuresFile, text))
	if err := c.write(dir, files); err != nil {
		return err
	}
	fmt.Fprintf(w.Err, "%s, worked out again from the copy of its records, is in:\n", month.Name())
	listFiles(w, dir, files)
	if same {
		fmt.Fprintln(w.Err, "Every figure is as it was closed.")
		return nil
	}
	fmt.Fprintf(w.Err, "It differs from what was closed. %s closed it, this is %s.\n", b.AsOf.Program, version())
	for _, a := range amounts {
		fmt.Fprintf(w.Err, "  %s\n", words.WasIs(a))
	}
	if pieces > 0 {
		fmt.Fprintf(w.Err, "  %d %s.\n", pieces, fault.Plural(pieces, "piece differs", "pieces differ"))
	}
	return nil
}

func againJSON(b *books, amounts []closing.Amount, pieces int, same bool) againAnswer {
	out := againAnswer{"piecebook/again/1", b.Month, same, []againAmount{}, pieces, b.AsOf.Program, version()}
	for _, a := range amounts {
		out.Amounts = append(out.Amounts, againAmount{words.Amount(a), a.Was.String(), a.Is.String()})
	}
	return out
}

// openAgain is a closed month's copy of the records as open books, after the
// closed months before it.
func (c *cli) openAgain(month calendar.Month) (*books, error) {
	folder, closed, err := c.folderAndClosed()
	if err != nil {
		return nil, err
	}
	upto := closing.Upto(closed, month)
	if len(upto) == 0 || upto[len(upto)-1].Month != month {
		return nil, usage(fmt.Sprintf("%s is not closed, so there is no copy of its records.", month.Name()))
	}
	return c.openCopy(folder, upto[len(upto)-1], upto[:len(upto)-1])
}

// sameJSON says that two JSON texts differ in blanks alone.
func sameJSON(a, b []byte) bool {
	var x, y bytes.Buffer
	return json.Compact(&x, a) == nil && json.Compact(&y, b) == nil && bytes.Equal(x.Bytes(), y.Bytes())
}

// fileList is a set of files.
func fileList(files ...outfile.File) []outfile.File { return files }

// indented is a value as JSON for people and programs.
func indented(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}
