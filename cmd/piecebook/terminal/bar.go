package terminal

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
	"unicode/utf8"
)

// barAfter is how long work may take before a bar is worth drawing.
const barAfter = 500 * time.Millisecond

const (
	barWidth  = 30
	barRedraw = 100 * time.Millisecond
)

// Bar tells on a terminal how far the work is, once it takes over half a
// second. The nil bar draws nothing: there is none where no one looks.
type Bar struct {
	w     io.Writer
	mu    sync.Mutex
	share float64 // of the work that is done
	what  string
	drawn int // columns of the widest that was drawn
	stop  chan struct{}
	done  sync.WaitGroup
}

// startBar starts drawing after a while. It is only for a terminal.
func startBar(w io.Writer, after time.Duration) *Bar {
	b := &Bar{w: w, stop: make(chan struct{})}
	b.done.Go(func() {
		wait := time.NewTimer(after)
		defer wait.Stop()
		for {
			select {
			case <-b.stop:
				return
			case <-wait.C:
				b.draw()
				wait.Reset(barRedraw)
			}
		}
	})
	return b
}

// At says what is being done now and which share of the whole is done.
func (b *Bar) At(share float64, what string) {
	if b == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.share, b.what = share, what
}

func (b *Bar) draw() {
	b.mu.Lock()
	defer b.mu.Unlock()
	full := min(barWidth, int(b.share*barWidth))
	line := fmt.Sprintf("[%s%s] %s", strings.Repeat("=", full), strings.Repeat(" ", barWidth-full), b.what)
	b.drawn = max(b.drawn, utf8.RuneCountInString(line))
	fmt.Fprintf(b.w, "\r%-*s", b.drawn, line)
}

// End takes the bar off the terminal, so that what is said next stands on a
// line of its own. It may be called again.
func (b *Bar) End() {
	if b == nil {
		return
	}
	b.mu.Lock()
	select {
	case <-b.stop:
		b.mu.Unlock()
		return
	default:
		close(b.stop)
	}
	b.mu.Unlock()
	b.done.Wait()
	if b.drawn > 0 {
		fmt.Fprintf(b.w, "\r%s\r", strings.Repeat(" ", b.drawn))
	}
}

// afterBar is a writer that takes the bar away before anything is said.
type afterBar struct {
	io.Writer
	bar *Bar
}

// Write ends the bar, then writes.
func (a afterBar) Write(p []byte) (int, error) {
	a.bar.End()
	return a.Writer.Write(p)
}
