package cli

import (
	"errors"
	"fmt"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/words"
)

// Exit statuses, as the help prints them.
const (
	ExitDone     = 0  // done
	ExitProblems = 1  // problems in the records; no report was written
	ExitUse      = 2  // wrong use of the command
	ExitFiles    = 3  // a file could not be read or written
	ExitBug      = 70 // a defect of piecebook itself
)

// Usage is an error of how the command was given.
type Usage string

func (u Usage) Error() string { return string(u) }

// Usagef is a Usage whose words are put together as fmt.Sprintf does.
func Usagef(format string, args ...any) Usage { return Usage(fmt.Sprintf(format, args...)) }

// Problems is what stops a report; the list has been shown.
type Problems struct{ List fault.List }

func (Problems) Error() string { return "there are problems in the records" }

// Ended is an exit status of which everything has been shown.
type Ended int

func (e Ended) Error() string { return fmt.Sprintf("exit status %d", int(e)) }

// Tell prints what an error means for the owner and gives its exit status.
func Tell(w terminal.Console, err error) int {
	var u Usage
	var p Problems
	var e Ended
	var closed *closing.Refused
	switch {
	case err == nil:
		return ExitDone
	case errors.As(err, &e):
		return int(e)
	case errors.As(err, &p):
		return ExitProblems
	case errors.As(err, &u):
		fmt.Fprintln(w.Err, u.Error())
		return ExitUse
	case errors.As(err, &closed):
		fmt.Fprintln(w.Err, words.ClosedFile(closed))
		return ExitFiles
	}
	fmt.Fprintln(w.Err, words.FileProblem(err))
	return ExitFiles
}
