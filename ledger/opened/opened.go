// Package opened is the way from a books folder to costed books: read, checked,
// costed, as the closed months have it, and with the notes that were marked as
// seen kept quiet.
package opened

import (
	"io/fs"
	"maps"
	"slices"

	"piecebook/ledger/atonce"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/missing"
	"piecebook/ledger/seen"
	"piecebook/templates"
)

// Books is a books folder read, checked and costed up to a month.
type Books struct {
	Set      *templates.Set
	Read     *intake.Result
	Folder   fs.FS
	Month    calendar.Month
	Ledger   *costing.Ledger      // as the closed months have it
	Records  *costing.Ledger      // of the records as they stand
	Problems fault.List           // but for the quiet notes
	Quiet    fault.List           // notes that seen.csv quiets
	Refused  fault.List           // of a draft: the errors whose rows it leaves out
	Closed   []*closing.Month     // the closed months, in order
	carried  *closing.Corrections // by the first open month; nil: none
	Photos   fs.FS                // where photos are, where the records are a copy
	AsOf     *closing.Month       // whose copy of the records this is; nil: the records as they stand
	entries  []seen.Entry
	program  string
}

// Reader is how books are opened: by which tables, by which version of the
// program, and who is shown how far it is, in percent.
type Reader struct {
	Set      *templates.Set
	Program  string
	Progress func(percent int, now Step) // may be nil
}

// Step is what a Reader is at.
type Step int

// The steps of opening books, in order.
const (
	Reading Step = iota
	Costing      // and checking
)

// Open reads a books folder and costs it up to the month, or up to the last month
// that has records of two tables where none is asked for. It fails only where
// seen.csv could not be read; problems are in the result.
func (r Reader) Open(folder fs.FS, month calendar.Month, closed []*closing.Month) (*Books, error) {
	b := r.costed(folder, month, closed)
	return b, b.quietSeen()
}

// Copied is Open of a closed month's copy of the records, after the closed
// months given.
func (r Reader) Copied(folder fs.FS, m *closing.Month, closed []*closing.Month) (*Books, error) {
	records, err := closing.Copy(folder, m)
	if err != nil {
		return nil, err
	}
	b := r.costed(records, m.Month, closed)
	b.AsOf, b.Photos = m, folder
	return b, b.quietSeen()
}

// Draft is Open without the lines that have an error. A line that only
// other tables show to be wrong is refused and all is read again, since other
// lines may rest on it; what then shows is refused too, until nothing does.
func (r Reader) Draft(folder fs.FS, month calendar.Month, closed []*closing.Month) (*Books, error) {
	var refused fault.List
	without := map[fault.Place]bool{}
	for {
		b := r.costed(folder, month, closed, slices.Collect(maps.Keys(without))...)
		more := false
		for _, p := range b.Problems.Errors() {
			refused.Add(p)
			if row := p.Place.At(""); row.Row > 0 && !without[row] {
				without[row], more = true, true
			}
		}
		if !more {
			b.Refused = refused
			return b, b.quietSeen()
		}
	}
}

func (r Reader) at(percent int, now Step) {
	if r.Progress != nil {
		r.Progress(percent, now)
	}
}

// costed reads, checks and costs, but for the rows at the places without; the ledger is as the closed months have it.
func (r Reader) costed(folder fs.FS, month calendar.Month, closed []*closing.Month, without ...fault.Place) *Books {
	r.at(0, Reading)
	b := &Books{Set: r.Set, Folder: folder, Photos: folder, Read: intake.Read(folder, r.Set, without...), Closed: closed,
		Month: month, program: r.Program}
	if b.Month == 0 {
		b.Month = checks.LastMonth(&b.Read.Books)
	}
	b.Problems.Join(b.Read.Problems)
	if b.Month == 0 {
		return b
	}
	r.at(40, Costing)
	var found fault.List
	atonce.Do(func() { found = checks.Look(&b.Read.Books, b.Month) },
		func() { b.Ledger = costing.Run(&b.Read.Books, b.Month) })
	found.Join(b.Ledger.Problems)
	if b.Problems.HasErrors() {
		found = errorsOf(found) // what is noted across tables may be due to a row that is refused
	}
	b.Problems.Join(b.Read.Named(found))
	if !b.Problems.HasErrors() {
		b.Problems.Join(b.Read.Named(missing.Look(b.Ledger, b.Month)))
	}
	b.Problems = figures.Complete(b.Ledger, b.Problems)
	b.Records = b.Ledger
	b.Ledger, b.carried = closing.View(b.Ledger, closing.Upto(closed, b.Month), r.Program)
	return b
}

func errorsOf(l fault.List) (out fault.List) {
	for _, p := range l.Errors() {
		out.Add(p)
	}
	return out
}

// NotesSince is the notes with all that the ledger shows to be missing in the
// months from one on, where problems have the last month's only.
func (b *Books) NotesSince(from calendar.Month) []fault.Problem {
	shown, _ := seen.Split(b.Read.Named(missing.Look(b.Records, from)), b.entries, b.Read.RowText)
	for _, n := range b.Problems.Notes() {
		if fault.MissingCatalogue[n.Code] == "" {
			shown.Add(n)
		}
	}
	return shown.Notes()
}

// quietSeen takes out the notes that seen.csv quiets.
func (b *Books) quietSeen() error {
	entries, problems, err := seen.ReadFile(b.Folder)
	if err != nil || entries == nil && len(problems.All()) == 0 {
		return err
	}
	b.entries = entries
	b.Problems, b.Quiet = seen.Split(b.Problems, entries, b.Read.RowText)
	b.Problems.Join(problems)
	return nil
}

// LastClosed is the last closed month; 0: none.
func (b *Books) LastClosed() calendar.Month {
	if n := len(b.Closed); n > 0 {
		return b.Closed[n-1].Month
	}
	return 0
}

// Corrections are what the months from..to carry for closed months.
func (b *Books) Corrections(from, to calendar.Month) []*closing.Corrections {
	var out []*closing.Corrections
	for _, m := range b.Closed {
		if m.Corrections != nil && m.Month >= from && m.Month <= to {
			out = append(out, m.Corrections)
		}
	}
	if first := b.LastClosed() + 1; b.carried != nil && first >= from && first <= to {
		out = append(out, b.carried)
	}
	return out
}

// Pending is the corrections that the records now give, whether or not the
// books' month is one that carries them.
func (b *Books) Pending() *closing.Corrections {
	if b.carried != nil || b.AsOf != nil || b.Records == nil || b.LastClosed() == 0 || b.Month > b.LastClosed() {
		return b.carried
	}
	_, c := closing.View(costing.Run(b.Records.Books, b.LastClosed()+1), b.Closed, b.program)
	return c
}

// CountThese is missing.CountThese, of books without errors.
func (b *Books) CountThese() []missing.Count {
	if b.Ledger == nil || b.Problems.HasErrors() {
		return nil
	}
	return missing.CountThese(b.Ledger)
}
