package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"sync"
	"syscall"

	"piecebook/report/outfile"
)

// stop ends the program at once where it is interrupted, with no file half
// written. The nil stop never does.
type stop struct {
	ctx     context.Context
	writing sync.RWMutex // held while files are on their way
}

// stopOnInterrupt waits for Ctrl-C or a request to end. Reading and working
// out are left as they are; files on their way are taken back first.
func stopOnInterrupt() *stop {
	ctx, _ := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	s := &stop{ctx: ctx}
	go func() {
		<-ctx.Done()
		s.writing.Lock() // for good: nothing is begun after this
		fmt.Fprintln(os.Stderr, "\nStopped. No file is half written.")
		os.Exit(exitStopped)
	}()
	return s
}

// writeAll writes files all or none.
func (s *stop) writeAll(dir string, files []outfile.File) error {
	return s.update(dir, func() ([]outfile.File, error) { return files, nil })
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

// update writes files that are worked out from what is in their folder, all or
// none. Once the program is stopped it does not return: the program ends.
func (s *stop) update(dir string, files func() ([]outfile.File, error)) error {
	if s == nil {
		return outfile.Update(context.Background(), dir, files)
	}
	s.writing.RLock()
	err := outfile.Update(s.ctx, dir, files)
	s.writing.RUnlock()
	if errors.Is(err, context.Canceled) {
		select {}
	}
	return err
}
