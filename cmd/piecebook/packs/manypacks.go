package packs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"sync/atomic"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/atonce"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// Made is a pack that was made.
type Made struct {
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
			return nil, 0, cli.Usagef("Two months are given, %s and %s. One at a time.", month, word)
		}
		if month, err = cli.ReadMonth(word); err != nil {
			return nil, 0, err
		}
	}
	return folders, month, nil
}

// manyPacks makes the packs of several books folders, as many at once as there
// are processors. Each is on its own: what fails in one stops no other. It
// prints one line of result each, in the order given, as soon as it may.
func manyPacks(c *cli.Call, w terminal.Console, folders []string, month calendar.Month, draft bool) error {
	if c.Books != "." {
		return cli.Usage("Name the books folders either after month or with --books.")
	}
	outs, err := outOfEach(c, folders)
	if err != nil {
		return err
	}
	results := make([]chan outcome, len(folders))
	for i := range results {
		results[i] = make(chan outcome, 1)
	}
	var begun atomic.Int64
	go atonce.Each(len(folders), func(i int) {
		c.Bar.At(float64(begun.Add(1)-1)/float64(len(folders)), "Making the pack of "+folders[i])
		one := &cli.Call{Books: folders[i], Out: outs[i], JSON: c.JSON, Stop: c.Stop, Command: c.Command}
		results[i] <- onePack(one, w, month, draft)
	})
	worst := cli.ExitDone
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
		if err := cli.WriteJSON(w, answers); err != nil {
			return err
		}
	}
	if worst != cli.ExitDone {
		return cli.Ended(worst)
	}
	return nil
}

// manyAnswer is one books folder's result as JSON.
type manyAnswer struct {
	Books  string          `json:"books"`
	Status int             `json:"status"`
	Answer json.RawMessage `json:"answer"`
}

// outOfEach is where each folder's reports go: with --out below the folder's
// name, and two of one name would write over each other.
func outOfEach(c *cli.Call, folders []string) ([]string, error) {
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
			return nil, cli.Usagef("%s and %s have one name, so their packs would get into one folder of %s. Make them "+
				"one after the other.", other, dir, c.Out)
		}
		of[name] = dir
		outs[i] = filepath.Join(c.Out, name)
	}
	return outs, nil
}

// onePack makes the pack of one books folder of several and says what came of
// it in one line.
func onePack(c *cli.Call, w terminal.Console, month calendar.Month, draft bool) (o outcome) {
	defer func() {
		if r := recover(); r != nil {
			o = outcome{status: cli.ExitBug, line: fmt.Sprintf("%s: piecebook has a defect; nothing was written. %v\n%s",
				c.Books, r,
				debug.Stack())}
		}
	}()
	var answer bytes.Buffer
	quiet := terminal.Console{Out: &answer, Err: io.Discard, Env: w.Env}
	c.FindBooks(quiet)
	m, err := packOrDraft(c, quiet, month, draft)
	o = outcome{answer: answer.Bytes()}
	var p cli.Problems
	switch {
	case err == nil && m.refused > 0:
		o.line = fmt.Sprintf("%s: draft of %s without %d problems: %d files in %s", c.Books, m.month, m.refused,
			m.files, m.dir)
	case err == nil:
		o.line = fmt.Sprintf("%s: %s, %d files in %s", c.Books, m.month, m.files, m.dir)
	case errors.As(err, &p):
		n := len(p.List.Errors())
		o.status = cli.ExitProblems
		o.line = fmt.Sprintf("%s: %d %s in the records, no report written: %s check tells %s", c.Books, n,
			fault.Plural(n, "problem", "problems"), c.Self(), fault.Plural(n, "it", "them"))
	default:
		var said bytes.Buffer
		o.status = cli.Tell(terminal.Console{Err: &said}, err)
		o.line = string(bytes.TrimSpace(said.Bytes()))
		var path *os.PathError
		if !errors.As(err, &path) || path.Path != c.Books {
			o.line = c.Books + ": " + o.line
		}
	}
	return o
}

func packOrDraft(c *cli.Call, w terminal.Console, month calendar.Month, draft bool) (Made, error) {
	if draft {
		return makeDraft(c, w, month)
	}
	return pack(c, w, month)
}
