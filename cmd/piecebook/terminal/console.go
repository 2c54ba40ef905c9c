// Package terminal is what a run prints on and reads from: lines broken to the
// terminal's width, bold type, the progress bar, Ctrl-C, and opening a file.
package terminal

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/term"

	"piecebook/report/text"
)

// Console is the terminal, and what else of the machine a run may touch besides
// the books folder.
type Console struct {
	Out, Err io.Writer
	Env      func(string) string
	OutWide  int   // columns, where out is a terminal
	ErrWide  int   // the same of err
	Stop     *Stop // nil: nothing stops it

	In         io.Reader
	InMenu     bool               // a command that the menu runs: the next one is a number of it
	OwnWindow  bool               // started by a double click, in a window of its own
	ProgramDir string             // the folder the program stands in
	Show       func(string) error // opens a file with the program it usually opens with
	Wrote      func(string)       // called for each file that was written; may be nil
}

// TellFile prints where a file is that was written.
func (w Console) TellFile(path string) {
	fmt.Fprintln(w.Out, path)
	if w.Wrote != nil {
		w.Wrote(path)
	}
}

// OfProcess is the console the process was started with.
func OfProcess() Console {
	w := Console{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Env: os.Getenv, OutWide: wide(os.Stdout),
		ErrWide: wide(os.Stderr), Stop: stopOnInterrupt(), OwnWindow: ownWindow(), Show: show, ProgramDir: "."}
	if !boldWorks() {
		w.Env = func(key string) string {
			if key == "NO_COLOR" {
				return "1"
			}
			return os.Getenv(key)
		}
	}
	if program, err := os.Executable(); err == nil {
		w.ProgramDir = filepath.Dir(program)
	}
	return w
}

// wide is how many columns a terminal has; 0 where f is none.
func wide(f *os.File) int {
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return columns
}

// ForPeople is the console with all that is printed shown as people can read
// it: see peopleWriter. JSON on standard output stays as it is. A console that is
// so already, as the menu's, stays as it is: nothing is wrapped twice.
func (w Console) ForPeople(json bool) Console {
	w.Out, w.Err = bare(w.Out), bare(w.Err)
	w.Err = peopleWriter{w.Err, w.ErrWide}
	if !json {
		w.Out = peopleWriter{w.Out, w.OutWide}
	}
	return w
}

// Begin is forPeople with a progress bar where standard error is a terminal;
// whatever is printed takes the bar away first.
func (w Console) Begin(json bool) (Console, *Bar) {
	people := w.ForPeople(json)
	if w.ErrWide == 0 {
		return people, nil
	}
	b := startBar(bare(w.Err), barAfter)
	people.Err = afterBar{people.Err, b}
	people.Out = afterBar{people.Out, b}
	return people, b
}

// bare is a writer as it was before Begin or ForPeople.
func bare(w io.Writer) io.Writer {
	for {
		switch x := w.(type) {
		case peopleWriter:
			w = x.Writer
		case afterBar:
			w = x.Writer
		default:
			return w
		}
	}
}

// Bold is text in bold where it goes to a terminal of so many columns, and
// plain where it does not or NO_COLOR is set.
func (w Console) Bold(wide int, text string) string {
	if wide == 0 || w.Env("NO_COLOR") != "" {
		return text
	}
	return boldOn + text + boldOff
}

// BoldFirst is text for standard output whose first so many paragraphs, a title
// among them, are the answer. The rule under a title stays as it is.
func (w Console) BoldFirst(text string, paragraphs int) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		switch {
		case line == "":
			paragraphs--
		case strings.Trim(line, "=") != "":
			lines[i] = w.Bold(w.OutWide, line)
		}
		if paragraphs == 0 {
			return strings.Join(lines, "\n")
		}
	}
	return strings.Join(lines, "\n")
}

// narrowest is the fewest columns that long lines are broken for: on anything
// narrower the terminal's own way of breaking them reads no worse.
const narrowest = 40

// PrintLines prints lines, broken at blanks where a terminal of so many
// columns is looked at (0: none is).
func PrintLines(out io.Writer, columns int, lines []string) {
	for _, line := range lines {
		if columns < narrowest {
			fmt.Fprintln(out, line)
			continue
		}
		for _, l := range text.Hang(line, columns) {
			fmt.Fprintln(out, l)
		}
	}
}

// KeepOpen waits before a window of the program's own is closed.
func KeepOpen(w Console) {
	fmt.Fprint(w.Out, "\nPress Enter to close this window. ")
	_, _ = bufio.NewReader(io.LimitReader(w.In, 1<<16)).ReadString('\n')
}
