package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync/atomic"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/plainfile"
	"piecebook/report/html"
	"piecebook/report/outfile"
	"piecebook/report/page"
	"piecebook/report/pdf"
	"piecebook/report/text"
	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

// PrintAnswer prints an answer that another room has made as JSON.
func PrintAnswer(w terminal.Console, answer []byte, err error) error {
	if err == nil {
		_, err = fmt.Fprintf(w.Out, "%s\n", answer)
	}
	return err
}

func WriteJSON(w terminal.Console, v any) error {
	e := json.NewEncoder(w.Out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// FiguresBytesMax is the most that a figures.json is read of.
const FiguresBytesMax = 256 << 20

// ReadBounded reads a plain file among the reports, of at most so many bytes.
func ReadBounded(name string, limit int64) ([]byte, error) {
	return plainfile.Read(os.DirFS(filepath.Dir(name)), filepath.Base(name), limit)
}

// HandedBytesMax is the most that one file of a folder to hand over is read of.
const HandedBytesMax = 512 << 20

// FiguresFile is the pack's figures for other programs.
const FiguresFile = "figures.json"

// ListFiles prints where the files are.
func ListFiles(w terminal.Console, dir string, files []outfile.File) {
	for _, f := range files {
		w.TellFile(filepath.Join(dir, f.Name))
	}
}

// PdfFile composes and renders a document when the file is written.
func PdfFile(name string, compose func() page.Document) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return pdf.Write(w, compose()) }}
}

// HtmlFile composes and renders a document for a browser when the file is written.
func HtmlFile(name string, compose func() page.Document) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return html.Write(w, compose()) }}
}

// BookFile composes and renders a workbook when the file is written.
func BookFile(name string, compose func(*workbook.Book)) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { return xlsx.Write(w, compose) }}
}

// PlainFile is a file of bytes there are.
func PlainFile(name string, data []byte) outfile.File {
	return outfile.File{Name: name, Write: func(w io.Writer) error { _, err := w.Write(data); return err }}
}

// Text is a document as the terminal shows it, or as it is read aloud.
func (c *Call) Text(d page.Document) string {
	if c.Plain {
		return text.Plain(d)
	}
	return text.Render(d, c.Wide)
}

// writingGarbage is how much may lie about, in percent of what is in use, before
// it is collected while files are written. All that was read and costed is in use
// then: with the usual 100, ten years take an eighth more memory, and no less
// time, since little is collected in so short a while.
const writingGarbage = 75

// Write writes a set of files, all or none, with the bar moving along.
func (c *Call) Write(dir string, files []outfile.File) error {
	if err := c.FinishInterrupted(); err != nil {
		return err
	}
	debug.SetGCPercent(writingGarbage)
	const before = 0.6 // of the work is done when writing begins
	var begun atomic.Int64
	shown := slices.Clone(files)
	for i, f := range files {
		if f.Write == nil {
			continue
		}
		shown[i].Write = func(w io.Writer) error {
			share := float64(begun.Add(1)-1) / float64(len(files))
			c.Bar.At(before+(1-before)*share, "Writing "+f.Name)
			return f.Write(w)
		}
	}
	return c.Stop.WriteAll(dir, shown)
}

// FinishInterrupted finishes what a run that was killed left, in the books folder
// and in every folder of reports, so that no pack stays half of one making and
// half of another.
func (c *Call) FinishInterrupted() error {
	for _, dir := range []string{c.BooksDir(), c.OutDir()} {
		if err := outfile.Finish(dir); err != nil {
			return err
		}
	}
	entries, err := os.ReadDir(c.OutDir())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		if err := outfile.Finish(filepath.Join(c.OutDir(), e.Name())); err != nil {
			return err
		}
	}
	return nil
}
