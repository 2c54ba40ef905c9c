package terminal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"sync"
	"syscall"

	"piecebook/report/outfile"
)

// exitStopped is the exit status after Ctrl-C, as shells have it.
const exitStopped = 130

// Stop ends the program at once where it is interrupted, with no file half
// written. The nil stop never does.
type Stop struct {
	ctx     context.Context
	writing sync.RWMutex // held while files are on their way
}

// stopOnInterrupt waits for Ctrl-C or a request to end. Reading and working
// out are left as they are; files on their way are taken back first.
func stopOnInterrupt() *Stop {
	ctx, _ := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	s := &Stop{ctx: ctx}
	go func() {
		<-ctx.Done()
		s.writing.Lock() // for good: nothing is begun after this
		fmt.Fprintln(os.Stderr, "\nStopped. No file is half written.")
		os.Exit(exitStopped)
	}()
	return s
}

// WriteAll writes files all or none.
func (s *Stop) WriteAll(dir string, files []outfile.File) error {
	return s.Update(dir, func() ([]outfile.File, error) { return files, nil })
}

// Update writes files that are worked out from what is in their folder, all or
// none. Once the program is stopped it does not return: the program ends.
func (s *Stop) Update(dir string, files func() ([]outfile.File, error)) error {
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
