package commands

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync/atomic"

	"piecebook/report/outfile"
)

// write writes a set of files, all or none, with the bar moving along.
func (c *cli) write(dir string, files []outfile.File) error {
	if err := c.finishInterrupted(); err != nil {
		return err
	}
	const before = 0.6 // of the work is done when writing begins
	var begun atomic.Int64
	shown := slices.Clone(files)
	for i, f := range files {
		if f.Write == nil {
			continue
		}
		shown[i].Write = func(w io.Writer) error {
			share := float64(begun.Add(1)-1) / float64(len(files))
			c.bar.At(before+(1-before)*share, "Writing "+f.Name)
			return f.Write(w)
		}
	}
	return c.stop.WriteAll(dir, shown)
}

// finishInterrupted finishes what a run that was killed left, in the books folder
// and in every folder of reports, so that no pack stays half of one making and
// half of another.
func (c *cli) finishInterrupted() error {
	for _, dir := range []string{c.booksDir(), c.outDir()} {
		if err := outfile.Finish(dir); err != nil {
			return err
		}
	}
	entries, err := os.ReadDir(c.outDir())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		if err := outfile.Finish(filepath.Join(c.outDir(), e.Name())); err != nil {
			return err
		}
	}
	return nil
}
