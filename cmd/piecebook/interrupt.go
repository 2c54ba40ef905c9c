package main

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

// writeAll writes files all or none. Once the program is stopped it does not
// return: the program ends.
func (s *stop) writeAll(dir string, files []outfile.File) error {
	if s == nil {
		return outfile.WriteAll(context.Background(), dir, files)
	}
	s.writing.RLock()
	err := outfile.WriteAll(s.ctx, dir, files)
	s.writing.RUnlock()
	if errors.Is(err, context.Canceled) {
		select {}
	}
	return err
}
