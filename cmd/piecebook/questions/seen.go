package questions

import (
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/ledger/seen"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

type SeenCmd struct {
	Code  string   `arg:"" help:"The note's code, as check prints it in brackets."`
	Place []string `arg:"" help:"Where it stands, as check prints it, or short: pieces.csv:4."`
}

// Run quiets the notes of a code at a place, until a cell they rest on changes.
func (k SeenCmd) Run(c *cli.Call, w terminal.Console) error {
	if !c.JSON {
		if err := c.FinishInterrupted(); err != nil {
			return err
		}
	}
	b, err := c.Open(0)
	if err != nil {
		return err
	}
	place := strings.Join(k.Place, " ")
	var found []seen.Entry
	var shown fault.List // without what is quiet now
	for _, p := range b.Problems.All() {
		if p.Note && string(p.Code) == k.Code && seen.At(p.Place, place) {
			found = append(found, seen.Of(p, b.Read.RowText(p.Place)))
		} else {
			shown.Add(p)
		}
	}
	if len(found) == 0 {
		return cli.Usage(noSuchNote(b, k.Code, place))
	}
	dir := c.BooksDir()
	// What another run has written since is read again.
	err = c.Stop.Update(dir, func() ([]outfile.File, error) {
		entries, _, err := seen.ReadFile(b.Folder)
		if err != nil {
			return nil, err
		}
		entries = seen.Add(entries, found...)
		write := func(out io.Writer) error { return seen.Write(out, entries) }
		return []outfile.File{{Name: seen.File, Write: write}}, nil
	})
	if err != nil {
		return err
	}
	for _, e := range found {
		fmt.Fprintf(w.Err, "Quiet until a cell it rests on changes: %s [%s]\n", e.Place, e.Code)
	}
	asking, remarks := cli.NotesOf(shown.Notes())
	left := words.Plural(len(asking), "note", "notes")
	if len(remarks) > 0 {
		left += " and " + words.Plural(len(remarks), "remark", "remarks")
	}
	fmt.Fprintf(w.Err, "Left: %s. To hear of it again, delete its line in %s.\n", left, filepath.Join(dir, seen.File))
	return nil
}

// noSuchNote says what was meant, as far as is known: an error, a note that
// is quiet already, another place, or another code.
func noSuchNote(b *cli.Books, code, place string) string {
	places := map[string]bool{}
	codes := map[string]bool{}
	for _, p := range b.Problems.All() {
		if !p.Note {
			if string(p.Code) == code && seen.At(p.Place, place) {
				return fmt.Sprintf("%s at %s is not a note but an error: no report can be made before it is put right.",
					code, place)
			}
			continue
		}
		codes[string(p.Code)] = true
		if string(p.Code) == code {
			places[p.Place.Short()] = true
		}
	}
	for _, p := range b.Quiet.All() {
		if string(p.Code) == code && seen.At(p.Place, place) {
			return fmt.Sprintf("%s at %s is quiet already.", code, place)
		}
	}
	known := slices.Sorted(maps.Keys(places))
	if len(known) > 0 {
		return fmt.Sprintf("No note of the kind %s stands at %s. Its places: %s", code, place, cli.FirstFew(known))
	}
	if len(codes) == 0 {
		return "There is no note to quiet."
	}
	kinds := slices.Sorted(maps.Keys(codes))
	if near := fault.Nearest(code, kinds); near != "" {
		return fmt.Sprintf("There is no note of the kind %s. Did you mean %s?", code, near)
	}
	return fmt.Sprintf("There is no note of the kind %s. The kinds there are: %s", code, strings.Join(kinds, ", "))
}
