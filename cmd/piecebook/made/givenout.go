// Package made compares what was made before, of months and tax years, with what
// the records give now.
package made

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/plainfile"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

// madeBytesMax is the most that a made-from.json is read of.
const madeBytesMax = 256 << 20

// made is what a month's reports are made from now.
func made(b *cli.Books, m calendar.Month, figures []byte, lines func() iter.Seq[closing.Line]) *closing.Made {
	return &closing.Made{Month: m, Program: cli.Version(), Fingerprint: b.Read.Fingerprint, Figures: figures,
		Records: func() (iter.Seq[closing.Line], error) { return closing.Until(lines(), m), nil }}
}

// SinceMade holds what the open months up to the books' month were last made
// from against what the records now give, in order; earlier months that are as
// they were are left out. A file that cannot be read is passed over: the next
// making writes it again.
func SinceMade(c *cli.Call, b *cli.Books) ([]closing.Since, error) {
	var out []closing.Since
	var index *figures.Index
	lines := sync.OnceValue(func() []closing.Line { return closing.LinesOf(b.Records.Books) })
	if b.AsOf != nil || b.Ledger == nil {
		return nil, nil
	}
	for _, r := range b.Ledger.Months {
		if r.Month <= b.LastClosed() || r.Month > b.Month {
			continue
		}
		was, err := readMade(filepath.Join(c.OutDir(), r.Month.String(), closing.MadeFile))
		if err != nil {
			return nil, err
		}
		if was == nil || was.Month != r.Month {
			continue
		}
		if index == nil {
			index = figures.NewIndex(b.Ledger)
		}
		text, err := figuresjson.Month(index.For(r.Month, r.Month))
		if err != nil {
			return nil, err
		}
		is := made(b, r.Month, text, func() iter.Seq[closing.Line] { return slices.Values(lines()) })
		s, err := closing.SinceMade(was, is)
		if err == nil && (!s.Nothing() || s.Month == b.Month) {
			out = append(out, s)
		}
	}
	return out, nil
}

// MadeFrom is the file that remembers what the month's reports were made from;
// a closed month has its own.
func MadeFrom(b *cli.Books, text []byte) []outfile.File {
	if b.AsOf != nil {
		return nil
	}
	m := made(b, b.Month, text, func() iter.Seq[closing.Line] { return closing.EachLine(b.Records.Books) })
	return []outfile.File{{Name: closing.MadeFile, Write: func(w io.Writer) error { return closing.WriteMade(w, m) }}}
}

// readMade reads a made-from.json; nil where there is none that can be read.
func readMade(name string) (*closing.Made, error) {
	file, err := plainfile.Open(os.DirFS(filepath.Dir(name)), filepath.Base(name))
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, plainfile.ErrFolder) || errors.Is(err, plainfile.ErrNoFile) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }()
	m, err := closing.ReadMade(io.LimitReader(file, madeBytesMax), func() ([]byte, error) {
		return cli.ReadBounded(name, madeBytesMax)
	})
	if err != nil {
		return nil, nil
	}
	return m, nil
}

// Earlier is what is said of months before the books' month.
func Earlier(all []closing.Since, month calendar.Month) []closing.Since {
	var out []closing.Since
	for _, s := range all {
		if s.Month < month {
			out = append(out, s)
		}
	}
	return out
}

// GivenOutLines says which months would differ from what was made of them, and
// what is waiting for the first open month or stands in the one at hand.
func GivenOutLines(b *cli.Books, all []closing.Since) []string {
	out := slices.Concat(lostOfClosed(b), lostLines(all))
	for _, s := range all {
		if !s.Nothing() {
			out = append(out, words.SinceMade(s))
			out = append(out, changeLines(b, s)...)
		}
	}
	if c := b.Pending(); c != nil {
		net := figures.Effect(figures.OfStatement, figures.LineNetProfit, c.Postings)
		out = append(out, words.Carries(c, net))
		for _, change := range c.Changes {
			out = append(out, "  "+words.ChangeLine(change, b.Records.Books.Settings.DayFirst))
		}
		for _, over := range overYears([]*closing.Corrections{c}) {
			out = append(out, words.YearNote(over.Note))
		}
	}
	return out
}

// lostOfClosed says which files have lost records since the last closed month.
func lostOfClosed(b *cli.Books) []string {
	if b.AsOf != nil || b.Records == nil || len(b.Closed) == 0 {
		return nil
	}
	last := b.Closed[len(b.Closed)-1]
	return lostLines([]closing.Since{{Month: last.Month,
		Differences: closing.Compare(last.Records, closing.LinesOf(b.Records.Books), last.Month)}})
}

// lostLines says which files have lost records since something was made from
// them, each once, by the last month that knew them.
func lostLines(all []closing.Since) []string {
	var out []string
	shown := map[string]bool{}
	for _, s := range slices.Backward(all) {
		for _, l := range s.Lost {
			if !shown[l.File] {
				shown[l.File] = true
				out = append(out, words.LostFile(l, s.Month))
			}
		}
	}
	return out
}

// changeLines are the records changed since a month was made, where they moved
// money.
func changeLines(b *cli.Books, s closing.Since) []string {
	var out []string
	for _, change := range s.Changes {
		if s.Money() {
			out = append(out, "  "+words.ChangeLine(change, b.Records.Books.Settings.DayFirst))
		}
	}
	return out
}

// TellLastMade says what changed since the books' month was last made, where it
// was made before.
func TellLastMade(w terminal.Console, b *cli.Books, all []closing.Since) {
	for i, s := range all {
		if s.Month == b.Month {
			terminal.PrintLines(w.Err, w.ErrWide, slices.Concat([]string{words.SinceLastMade(s)}, changeLines(b, s),
				lostLines(all[i:i+1])))
		}
	}
}

// TellGivenOut says it where people read.
func TellGivenOut(w terminal.Console, b *cli.Books, all []closing.Since) {
	terminal.PrintLines(w.Err, w.ErrWide, GivenOutLines(b, all))
}

// MonthFigures is figures.json of the books' month: of a closed month as it
// was closed. Where this version works it out otherwise, that is shown.
func MonthFigures(w terminal.Console, b *cli.Books, worked []byte) ([]byte, error) {
	if b.AsOf == nil || SameJSON(b.AsOf.Figures, worked) {
		return worked, nil
	}
	fmt.Fprintln(w.Err, words.ReadOtherwise(b.AsOf.Month, b.AsOf.Program, cli.Version()))
	var out bytes.Buffer
	if err := json.Indent(&out, b.AsOf.Figures, "", " "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// SameJSON says that two JSON texts differ in blanks alone.
func SameJSON(a, b []byte) bool {
	var x, y bytes.Buffer
	return json.Compact(&x, a) == nil && json.Compact(&y, b) == nil && bytes.Equal(x.Bytes(), y.Bytes())
}
