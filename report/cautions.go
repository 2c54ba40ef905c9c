package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// CautionsAnchor is where the cautions' full words stand in a document.
const CautionsAnchor = "cautions"

// SupplyCalls says that a supply calls for a caution. A caution of the
// supply's own stands in place of its group's, but not of what depends on the
// piece's age.
func SupplyCalls(c templates.Caution, s *ledger.Supply) bool {
	group := s.Group
	if s.Caution != "" && c.When.MadeBefore == 0 {
		if strings.EqualFold(c.Name, s.Caution) {
			return true
		}
		group = ""
	}
	return c.When.Supply(s.Name, group, s.Unit)
}

// Shipped says that words name one of the shipped cautions.
func (in *Input) Shipped(name string) bool {
	return slices.ContainsFunc(in.Cautions.List, func(c templates.Caution) bool { return strings.EqualFold(c.Name, name) })
}

// Caution is a caution with its letter, which is the same in all documents of
// the books: pages name it by the letter and print its words once.
type Caution struct {
	Letter string
	Name   string
	Words  string
	Source string             // the authority, or the owner's record
	Usual  *templates.Caution // nil for the owner's own
	of     map[string]bool    // the supplies that call for it
}

// LetteredCautions are all cautions there are: the shipped ones in their order,
// then the owner's own by supply. One with a day in its words is not there
// before that day; the letters of the others stay. The first call works them
// out for all pieces.
func (in *Input) LetteredCautions() []Caution {
	if in.lettered == nil {
		in.lettered = in.letteredCautions()
	}
	return in.lettered
}

func (in *Input) letteredCautions() []Caution {
	out := []Caution{}
	for i := range in.Cautions.List {
		c := &in.Cautions.List[i]
		x := Caution{Name: c.Name, Words: in.dated(c.Words), Source: c.Authority, Usual: c, of: map[string]bool{}}
		for i := range in.Books.Supplies {
			s := &in.Books.Supplies[i]
			x.of[s.Name] = SupplyCalls(*c, s)
		}
		out = append(out, x)
	}
	var own []Caution
	for _, s := range in.Books.Supplies {
		if s.Caution != "" && !in.Shipped(s.Caution) {
			own = append(own, Caution{Name: s.Name, Words: s.Name + ": " + s.Caution, Source: "the shop's own caution, " +
				s.At.Short(), of: map[string]bool{s.Name: true}})
		}
	}
	slices.SortStableFunc(own, func(a, b Caution) int { return strings.Compare(a.Name, b.Name) })
	out = append(out, own...)
	for i := range out {
		out[i].Letter = letter(i)
	}
	return slices.DeleteFunc(out, func(c Caution) bool { return c.Usual != nil && in.notYet(c.Usual.Words) })
}

// notYet says that words hold from a day after the period's end: {2026-04-28}.
func (in *Input) notYet(text string) bool {
	_, rest, _ := strings.Cut(text, "{")
	day, _, _ := strings.Cut(rest, "}")
	d, err := calendar.Parse(day)
	return err == nil && d.After(in.Month.To.Last())
}

// letter is A to Z, then A2 to Z2 and so on.
func letter(i int) string {
	out := string(rune('A' + i%26))
	if round := i / 26; round > 0 {
		out += fmt.Sprint(round + 1)
	}
	return out
}

// Of says that a supply calls for the caution on any piece; one that depends on
// the piece's age is the piece's to judge.
func (c Caution) Of(s *ledger.Supply) bool { return c.of[s.Name] }

// dated puts days into a caution's words, written {2026-04-28}, as the
// document's other days are.
func (in *Input) dated(text string) string {
	before, rest, ok := strings.Cut(text, "{")
	day, after, closed := strings.Cut(rest, "}")
	if !ok || !closed {
		return text
	}
	if d, err := calendar.Parse(day); err == nil {
		day = in.Day(d)
	}
	return before + day + in.dated(after)
}

// CautionBlocks are the full words of cautions, each with its letter, and what
// holds always.
func (in *Input) CautionBlocks(list []Caution) []page.Block {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b Caution) int {
		return cmp.Or(cmp.Compare(len(a.Letter), len(b.Letter)), strings.Compare(a.Letter, b.Letter))
	})
	list = slices.CompactFunc(list, func(a, b Caution) bool { return a.Letter == b.Letter })
	var out []page.Block
	for _, c := range list {
		out = append(out, page.Paragraph{Style: page.Caution, Mark: c.Letter, Text: c.Words, Tail: c.Source})
	}
	for _, text := range []string{in.Cautions.Always, in.Cautions.RecordsOnly} {
		if text != "" {
			out = append(out, page.Paragraph{Text: text})
		}
	}
	return out
}

// CautionNames are cautions in a line: A strippers and solvents, C oily rags.
func CautionNames(list []Caution) string {
	var out []string
	for _, c := range list {
		out = append(out, words.Unbroken(c.Letter+" "+c.Name))
	}
	return strings.Join(out, ", ")
}

// Day is a day in words as all pages of a document have it: Feb 7, 2026, or
// 7 Feb 2026 where the settings say that the day comes first.
func (in *Input) Day(d calendar.Date) string { return d.Written(in.Settings().DayFirst) }
