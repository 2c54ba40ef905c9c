package packs

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/plainfile"
	"piecebook/report/accountant"
	"piecebook/report/csvfile"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/year"
)

type HandoverCmd struct {
	Year string `arg:"" optional:"" help:"The year, as 2026. Blank: that of the last month that has records of two tables."`
}

// handoverAnswer is the command's answer as JSON.
type handoverAnswer struct {
	Schema string            `json:"schema"`
	Year   int               `json:"year"`
	Files  []year.HandedFile `json:"files"`
}

// Run makes one folder of the year's reports and records.
func (k HandoverCmd) Run(c *cli.Call, w terminal.Console) error {
	t, err := made.OfYear(c, w, k.Year)
	if err != nil {
		return err
	}
	h, err := handover(c, t)
	if err != nil {
		return err
	}
	if c.JSON {
		return cli.WriteJSON(w, handoverAnswer{"piecebook/handover/1", t.In.Tax.Year, h.list})
	}
	dir := filepath.Join(c.OutDir(), fmt.Sprintf("handover-%d", t.In.Tax.Year))
	if err := c.FinishInterrupted(); err != nil {
		return err
	}
	kept, err := keepOld(dir, h)
	if err != nil {
		return err
	}
	if err := c.Write(dir, h.files); err != nil {
		return err
	}
	tellYear(w, t)
	t.TellGivenOut(w)
	if kept != "" {
		fmt.Fprintf(w.Err, "What was handed over before is kept in %s.\n", kept)
	}
	fmt.Fprintf(w.Err, "The folder to hand over for %d, %d files:\n", t.In.Tax.Year, h.count)
	fmt.Fprintln(w.Out, dir)
	return nil
}

// keepOld makes a copy, under another name with its day, of a folder that was
// made before and does not hold just what is handed over now, so that nothing
// handed over is lost; and has what does not belong to it any more taken away.
// The copy's name is returned; blank: there was none to keep.
func keepOld(dir string, h *handed) (string, error) {
	info, err := os.Stat(filepath.Join(dir, hashList))
	if err != nil {
		info, err = os.Stat(dir)
	}
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	there, err := sumsBelow(dir)
	if err != nil || len(there) == 0 {
		return "", err
	}
	now := map[string]string{}
	for _, f := range h.list {
		now[f.Name] = f.SHA256
	}
	only := maps.Clone(there)
	delete(only, readFirst)
	delete(only, hashList)
	if maps.Equal(only, now) {
		return "", nil
	}
	for name := range only {
		if _, is := now[name]; !is {
			h.files = append(h.files, outfile.File{Name: name})
		}
	}
	return copyOf(dir, there, calendar.FromTime(info.ModTime()))
}

// copyOf makes the copy; one that a run before made and could not follow up
// serves again.
func copyOf(dir string, there map[string]string, day calendar.Date) (string, error) {
	for n := 1; ; n++ {
		to := fmt.Sprintf("%s of %s", dir, day)
		if n > 1 {
			to = fmt.Sprintf("%s (%d)", to, n)
		}
		if _, err := os.Lstat(to); errors.Is(err, fs.ErrNotExist) {
			return to, outfile.CopyFolder(dir, to)
		}
		if same, err := sumsBelow(to); err == nil && maps.Equal(same, there) {
			return to, nil
		}
	}
}

// sumsBelow is the SHA-256 of each file in a folder, by its name below it.
func sumsBelow(dir string) (map[string]string, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer func() { _ = root.Close() }()
	out := map[string]string{}
	return out, fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := plainfile.Read(root.FS(), name, cli.HandedBytesMax)
		if err != nil {
			return err
		}
		out[name] = closing.FileOf("", data).SHA256
		return nil
	})
}

// The files that list all others.
const (
	readFirst = "READ FIRST.txt"
	hashList  = "files.sha256"
)

// handed is the folder in the making: each file rendered, since its hash is
// shown in others.
type handed struct {
	files []outfile.File
	list  []year.HandedFile
	count int // of the files, those that list the others too
}

// add renders a file and takes it up.
func (h *handed) add(about string, f outfile.File) error {
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		return fmt.Errorf("%s: %w", f.Name, err)
	}
	h.bytes(about, f.Name, b.Bytes())
	return nil
}

func (h *handed) bytes(about, name string, data []byte) {
	h.files = append(h.files, cli.PlainFile(name, data))
	h.list = append(h.list, year.HandedFile{Name: name, Size: len(data), SHA256: closing.FileOf(name, data).SHA256,
		About: about})
}

// handover renders everything that goes into the folder.
func handover(c *cli.Call, t *made.TaxYear) (*handed, error) {
	h := &handed{}
	figures, err := figuresjson.Year(t.In.Tax)
	if err != nil {
		return nil, err
	}
	about := map[string]string{"year.html": "the year's cost records for a browser: every figure opens to its records",
		"year.pdf": "the year's cost records, to print", "year.xlsx": "the same as a workbook " +
			"with its formulas", "figures.json": "the same for other programs"}
	for _, f := range files(t, figures) {
		if err := h.add(about[f.Name], f); err != nil {
			return nil, err
		}
	}
	sheets := func() page.Document { return piece.PeriodSheets(t.In.Input) }
	if err := h.add("the profit sheet of each piece sold or finished in the year",
		cli.PdfFile("pieces.pdf", sheets)); err != nil {
		return nil, err
	}
	if err := addSettings(c, h); err != nil {
		return nil, err
	}
	for _, r := range accountant.RecordFiles(t.In.Input) {
		var b bytes.Buffer
		if err := csvfile.Write(&b, r.Rows); err != nil {
			return nil, err
		}
		name := "tables/" + strings.ReplaceAll(r.Table, " ", "-") + ".csv"
		h.bytes(fmt.Sprintf("%s records, %d with file, sheet and row", r.Table, len(r.Rows)-1), name, b.Bytes())
	}
	if err := addRecords(h, t.Books); err != nil {
		return nil, err
	}
	// These two list the others, so they stand in neither list.
	h.files = append(h.files, cli.PlainFile(readFirst, []byte(year.HandoverWords(t.In, h.list))),
		cli.PlainFile(hashList, []byte(year.HashList(h.list))))
	h.count = len(h.files)
	return h, nil
}

// addRecords copies the owner's own files that were read, each where the rows
// of the tables say that it is, so that a row can be walked to its source.
func addRecords(h *handed, b *cli.Books) error {
	for _, name := range b.FilesRead() {
		data, err := plainfile.Read(b.Folder, name, cli.HandedBytesMax)
		if err != nil {
			return err
		}
		// A workbook dropped on the program stands in no folder of its own.
		if slices.ContainsFunc(h.list, func(f year.HandedFile) bool { return strings.EqualFold(f.Name, name) }) {
			name = "records/" + name
		}
		h.bytes("the owner's own file, as it was read", name, data)
	}
	return nil
}

// addSettings copies settings.toml as it stands, where there is one.
func addSettings(c *cli.Call, h *handed) error {
	folder, err := booksdir.Open(c.Books)
	if err != nil {
		return err
	}
	data, err := plainfile.Read(folder, "settings.toml", cli.HandedBytesMax)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err == nil {
		h.bytes("the shop's choices, as they stand", "settings.toml", data)
	}
	return err
}
