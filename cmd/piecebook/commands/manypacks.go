package commands

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"sync/atomic"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// made is a pack that was made.
type made struct {
	month   calendar.Month
	dir     string
	files   int
	refused int // problems whose rows a draft left out
}

// outcome is what came of one books folder of several.
type outcome struct {
	status int
	line   string
	answer []byte // what --json would have printed
}

var monthForm = regexp.MustCompile(`^\d{4}-\d{2}$`)

// foldersAndMonth takes apart what was given to month: what has the form
// 2026-03 is a period and all else a folder; a single word that is no folder
// may be a month in another form.
func foldersAndMonth(words []string) (folders []string, month calendar.Month, err error) {
	for _, word := range words {
		_, missing := os.Stat(word)
		if !monthForm.MatchString(word) && (missing == nil || len(words) > 1) {
			folders = append(folders, word)
			continue
		}
		if month != 0 {
			return nil, 0, usage(fmt.Sprintf("Two months are given, %s and %s. One at a time.", month, word))
		}
		if month, err = readMonth(word); err != nil {
			return nil, 0, err
		}
	}
	return folders, month, nil
}

// manyPacks makes the packs of several books folders, as many at once as there
// are processors. Each is on its own: what fails in one stops no other. It
// prints one line of result each, in the order given, as soon as it may.
func (c *cli) manyPacks(w terminal.Console, folders []string, month calendar.Month, draft bool) error {
	if c.Books != "." {
		return usage("Name the books folders either after month or with --books.")
	}
	outs, err := c.outOfEach(folders)
	if err != nil {
		return err
	}
	results := make([]chan outcome, len(folders))
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var begun atomic.Int64
	for i, dir := range folders {
		results[i] = make(chan outcome, 1)
		go func() {
			free <- struct{}{}
			c.bar.At(float64(begun.Add(1)-1)/float64(len(folders)), "Making the pack of "+dir)
			one := &cli{Books: dir, Out: outs[i], JSON: c.JSON, stop: c.stop, command: c.command}
			results[i] <- one.onePack(w, month, draft)
			<-free
		}()
	}
	worst := ExitDone
	var answers []json.RawMessage
	for i, result := range results {
		r := <-result
		worst = max(worst, r.status)
		if c.JSON {
			answer, err := json.Marshal(manyAnswer{folders[i], r.status, r.answer})
			if err != nil {
				return err
			}
			answers = append(answers, answer)
			continue
		}
		fmt.Fprintln(w.Out, r.line)
	}
	if c.JSON {
		if err := writeJSON(w, answers); err != nil {
			return err
		}
	}
	if worst != ExitDone {
		return ended(worst)
	}
	return nil
}

// manyAnswer is one books folder's result as JSON.
type manyAnswer struct {
	Books  string          `json:"books"`
	Status int             `json:"status"`
	Answer json.RawMessage `json:"answer"`
}

// ended is an exit status of which everything has been shown.
type ended int

func (e ended) Error() string { return fmt.Sprintf("exit status %d", int(e)) }

// outOfEach is where each folder's reports go: with --out below the folder's
// name, and two of one name would write over each other.
func (c *cli) outOfEach(folders []string) ([]string, error) {
	outs := make([]string, len(folders))
	if c.Out == "" {
		return outs, nil
	}
	of := map[string]string{}
	for i, dir := range folders {
		whole, err := filepath.Abs(dir)
		if err != nil {
			return nil, err
		}
		name := filepath.Base(whole)
		if other, taken := of[name]; taken {
			return nil, usage(fmt.Sprintf("%s and %s have one name, so their packs would get into one folder of %s. Make them "+
				"one after the other.", other, dir, c.Out))
		}
		of[name] = dir
		outs[i] = filepath.Join(c.Out, name)
	}
	return outs, nil
}

// onePack makes the pack of one books folder of several and says what came of
// it in one line.
func (c *cli) onePack(w terminal.Console, month calendar.Month, draft bool) (o outcome) {
	defer func() {
		if r := recover(); r != nil {
			o = outcome{status: exitBug, line: fmt.Sprintf("%s: piecebook has a defect; nothing was written. %v\n%s", c.Books, r,
				debug.Stack())}
		}
	}()
	var answer bytes.Buffer
	quiet := terminal.Console{Out: &answer, Err: io.Discard, Env: w.Env}
	c.find(quiet)
	err := c.packOrDraft(quiet, month, draft)
	o = outcome{answer: answer.Bytes()}
	var p problems
	switch {
	case err == nil && c.made.refused > 0:
		o.line = fmt.Sprintf("%s: draft of %s without %d problems: %d files in %s", c.Books, c.made.month, c.made.refused,
			c.made.files, c.made.dir)
	case err == nil:
		o.line = fmt.Sprintf("%s: %s, %d files in %s", c.Books, c.made.month, c.made.files, c.made.dir)
	case errors.As(err, &p):
		n := len(p.list.Errors())
		o.status = ExitProblems
		o.line = fmt.Sprintf("%s: %d %s in the records, no report written: %s check tells %s", c.Books, n,
			fault.Plural(n, "problem", "problems"), c.self(), fault.Plural(n, "it", "them"))
	default:
		var said bytes.Buffer
		o.status = tell(terminal.Console{Err: &said}, err)
		o.line = string(bytes.TrimSpace(said.Bytes()))
		var path *os.PathError
		if !errors.As(err, &path) || path.Path != c.Books {
			o.line = c.Books + ": " + o.line
		}
	}
	return o
}

func (c *cli) packOrDraft(w terminal.Console, month calendar.Month, draft bool) error {
	if draft {
		return c.draft(w, month)
	}
	return c.pack(w, month)
}
