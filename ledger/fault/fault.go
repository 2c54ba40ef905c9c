// Package fault tells what is wrong in the records: where it stands, what
// stands there, why it stops us or is worth a look, and what to type. A run
// gathers every problem in one List; nothing is reported one at a time.
package fault

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/calendar"
)

// Place is where something stands, as the owner finds it again: the file
// below the books folder, the sheet (workbooks only), the row as the
// spreadsheet numbers it (the header of a plain file is row 1) and the column
// by its header. Zero values mean 'the whole of it': no Column is the row, no
// Row the sheet or file.
type Place struct {
	File   string `json:"file"`
	Sheet  string `json:"sheet,omitempty"`
	Row    int    `json:"row,omitempty"`
	Column string `json:"column,omitempty"`
}

// String prints one of: `a.csv`, `a.csv, row 4`, `a.csv, row 4, column "price"`,
// and with a sheet `b.xlsx, sheet "Sales", row 4, column "price"`.
func (p Place) String() string {
	var b strings.Builder
	b.WriteString(visible(p.File, false))
	if p.Sheet != "" {
		b.WriteString(", sheet " + Quoted(p.Sheet))
	}
	if p.Row > 0 {
		fmt.Fprintf(&b, ", row %d", p.Row)
	}
	if p.Column != "" {
		b.WriteString(", column " + Quoted(p.Column))
	}
	return b.String()
}

// At is the same row's cell under the named column.
func (p Place) At(column string) Place {
	p.Column = column
	return p
}

// Short is the source as printed beside a figure: `sales.csv:14`, or
// `Shop book.xlsx Sales:14`, without folders.
func (p Place) Short() string {
	name := visible(p.File[strings.LastIndexByte(p.File, '/')+1:], false)
	if p.Sheet != "" {
		name += " " + visible(p.Sheet, false)
	}
	if p.Row > 0 {
		return fmt.Sprintf("%s:%d", name, p.Row)
	}
	return name
}

// Compare orders places by file, sheet, row and column.
func (p Place) Compare(q Place) int {
	switch { // most places that are compared are on one sheet
	case p.File != q.File:
		return cmp.Compare(p.File, q.File)
	case p.Sheet != q.Sheet:
		return cmp.Compare(p.Sheet, q.Sheet)
	case p.Row != q.Row:
		return cmp.Compare(p.Row, q.Row)
	}
	return cmp.Compare(p.Column, q.Column)
}

// Problem is one thing wrong (an error: its row is refused and no report is
// written) or worth a look (a note). Code is stable and never used again for
// another meaning. Found is the cell's text as it stands. Why and Fix are
// whole sentences: why it stops us, and what to type. MoneyCents is what a
// note could move, in cents, for telling the largest first; 0 where unknown.
type Problem struct {
	Code       Code   `json:"code"`
	Note       bool   `json:"note"`
	Place      Place  `json:"place"`
	Found      string `json:"found,omitempty"`
	Why        string `json:"why"`
	Fix        string `json:"fix"`
	MoneyCents int64  `json:"money_cents,omitempty"`
	// AsksNothing says that a note only reports how something was read, and needs
	// no change. Cause is, of an error that many cells share, the part of Why
	// that names what they wait for, without the cells. Neither is printed.
	AsksNothing bool `json:"-"`
	First       bool `json:"-"` // a note that stands before all others
	// About is, of a note whose Fix alone does not say what it is about, what that is
	// in a few words: reports put it before the Fix where Why is not beside it.
	About string `json:"-"`
	Cause string `json:"-"`
	// Rowless is, of a note whose Why names rows, the same words without the
	// rows' numbers: what still holds when another row is put in above. Naming
	// makes both.
	Rowless string `json:"-"`
	// Month is the one that a note belongs to: reports of later months leave it
	// out. 0: it belongs to all, until it is put right.
	Month calendar.Month `json:"-"`
}

// String is the house pattern: place, what stands there, why, what to type.
func (p Problem) String() string {
	var b strings.Builder
	b.WriteString(p.Place.String())
	b.WriteString(": ")
	if p.Found != "" {
		b.WriteString(Quoted(p.Found) + ": ")
	}
	b.WriteString(p.Why)
	if p.Fix != "" {
		b.WriteString(" ")
		b.WriteString(p.Fix)
	}
	return b.String()
}

// Quoted is a text in quotation marks as a person reads it: in single ones
// where it has double ones itself, line breaks and the like as blanks, and what
// cannot be seen or could steer a terminal by its number.
func Quoted(text string) string {
	mark := `"`
	if strings.Contains(text, mark) {
		mark = "'"
	}
	return mark + visible(text, true) + mark
}

// visible is a text with what cannot be seen or could steer a terminal by its
// number; blanks says that line breaks and the like become blanks.
func visible(text string, blanks bool) string {
	unseen := func(r rune) bool { return !unicode.IsGraphic(r) || r == unicode.ReplacementChar }
	if strings.IndexFunc(text, unseen) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		switch {
		case blanks && (r == '\n' || r == '\r' || r == '\t'):
			b.WriteByte(' ')
		case unicode.IsGraphic(r) && r != unicode.ReplacementChar:
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	return b.String()
}

// List is all problems of a run. The zero value is ready to use.
type List struct{ problems []Problem }

// Add appends problems.
func (l *List) Add(p ...Problem) { l.problems = append(l.problems, p...) }

// Put adds a problem in place of those of its code and place.
func (l *List) Put(p Problem) {
	l.problems = append(slices.DeleteFunc(l.problems, func(q Problem) bool {
		return q.Code == p.Code && q.Place == p.Place
	}), p)
}

// Join appends another list.
func (l *List) Join(m List) { l.problems = append(l.problems, m.problems...) }

// All is every problem in reading order: by place, then code, then words.
func (l List) All() []Problem {
	out := slices.Clone(l.problems)
	slices.SortStableFunc(out, func(a, b Problem) int {
		return cmp.Or(a.Place.Compare(b.Place), cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Found, b.Found), cmp.Compare(a.Why, b.Why))
	})
	return slices.Compact(out)
}

// Errors is All without the notes.
func (l List) Errors() []Problem {
	return slices.DeleteFunc(l.All(), func(p Problem) bool { return p.Note })
}

// Notes is all notes, the largest in money first, then in reading order.
func (l List) Notes() []Problem {
	out := slices.DeleteFunc(l.All(), func(p Problem) bool { return !p.Note })
	slices.SortStableFunc(out, func(a, b Problem) int {
		if a.First != b.First {
			return map[bool]int{true: -1, false: 1}[a.First]
		}
		return cmp.Compare(b.MoneyCents, a.MoneyCents)
	})
	return out
}

// HasErrors says that no report may be written.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l.problems, func(p Problem) bool { return !p.Note })
}

// Nearest is the known name closest to the one typed, by edit distance
// without regard to case, or nothing where none is close enough to be meant,
// or where a number has three and more equally near (P09 among P01 to P08), so
// that none is.
func Nearest(typed string, known []string) string {
	best, bestAt, asNear := "", 1+max(1, len([]rune(typed))/3), 0
	typed = strings.ToLower(strings.TrimSpace(typed))
	for _, k := range slices.Sorted(slices.Values(known)) {
		switch d := distance(typed, strings.ToLower(k)); {
		case d < bestAt:
			best, bestAt, asNear = k, d, 1
		case d == bestAt && best != "":
			asNear++
		}
	}
	if asNear > 2 && bestAt > 0 && strings.ContainsAny(typed, "0123456789") {
		return ""
	}
	return best
}

// Alike says that two words differ by so little that they are one misspelt: by
// one letter, or two where they have eight and more, case and outer blanks
// apart. Words of under four letters, and those with digits, are never so.
func Alike(a, b string) bool {
	a, b = strings.ToLower(strings.TrimSpace(a)), strings.ToLower(strings.TrimSpace(b))
	letters := min(len([]rune(a)), len([]rune(b)))
	if letters < 4 || strings.ContainsAny(a+b, "0123456789") {
		return false
	}
	most := 1
	if letters >= 8 {
		most = 2
	}
	return distance(a, b) <= most
}
