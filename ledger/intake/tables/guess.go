package tables

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// guess is a table that a sheet can be by what its cells hold, where its column names
// are not known.
type guess struct {
	t     *templates.Table
	needs []needed // the columns it needs that no name says, and what can be them
	named int      // columns of the sheet that are the table's by their names
	holds int      // columns of the sheet that the table has a column for
}

type needed struct{ field, header string }

// guessesMost is how many tables are named that a sheet can be.
const guessesMost = 3

// guessed are the tables that owners have lists of before they know this program, the
// likeliest first, and the columns that say what they are.
var guessed = []struct {
	table   string
	columns []string
}{
	{"pieces", []string{"piece", "got_on", "price"}}, {"sales", []string{"sold_on", "pieces", "price"}},
	{"hours", []string{"worked_on", "hours"}}, {"purchases", []string{"bought_on", "supply", "cost"}},
	{"expenses", []string{"paid_on", "what", "group", "amount"}},
	{"parts", []string{"bought_on", "pieces", "what", "cost"}}, {"trips", []string{"on", "miles", "purpose"}},
}

// guesses are the tables that a sheet can be, those first that know most of its names and
// then have a column for most of its columns, with the first's number of them but one.
// None where the first row of several cells is a record, or says what came in and what
// went out.
func (r *Finder) guesses(s *sheets.Sheet) (out []guess) {
	if s.IsCash {
		return []guess{{t: r.set.Table(cashTable[s.Heading])}}
	}
	head := slices.IndexFunc(s.Lines, func(l sheets.Line) bool { return sheets.Filled(l.Cells) > 1 })
	if head < 0 || head+1 == len(s.Lines) || head >= sheets.TitleRowsMax || !canBeTitles(s.Lines[:head+1]) ||
		cashColumn(s.Lines[head], cashIn) >= 0 && cashColumn(s.Lines[head], cashOut) >= 0 {
		return nil
	}
	below := *s
	below.Lines = s.Lines[head:]
	for _, of := range guessed {
		if g, is := r.guessOf(&below, r.set.Table(of.table), of.columns); is {
			out = append(out, g)
		}
	}
	slices.SortStableFunc(out, func(a, b guess) int {
		return cmp.Or(cmp.Compare(b.named, a.named), cmp.Compare(b.holds, a.holds))
	})
	return slices.DeleteFunc(out[:min(len(out), guessesMost)], func(g guess) bool { return g.holds+1 < out[0].holds })
}

// guessOf looks for columns that can be those a table needs, and counts what else its
// columns could be.
func (r *Finder) guessOf(s *sheets.Sheet, t *templates.Table, needs []string) (g guess, is bool) {
	heads := s.Lines[0].Cells
	found, _ := r.names.Fields(t, heads)
	g = guess{t: t, named: columns.Distinct(found)}
	for _, name := range needs {
		if columns.Has(found, name) {
			continue
		}
		at := r.columnFor(s, t.Field(name), found)
		if at < 0 {
			return g, false
		}
		found[at] = t.Field(name)
		g.needs = append(g.needs, needed{name, strings.TrimSpace(heads[at])})
	}
	for i := range t.Fields {
		if f := &t.Fields[i]; !columns.Has(found, f.Name) {
			if at := r.columnFor(s, f, found); at >= 0 {
				found[at] = f
			}
			if f.Name == "kind" && t.Name == "pieces" && columns.Has(found, f.Name) {
				g.needs = append(g.needs, needed{f.Name, strings.TrimSpace(heads[slices.Index(found, f)])})
			}
		}
	}
	g.holds = columns.Distinct(found)
	return g, true
}

// columnFor is the first column without a field that can hold one, of numbers the first
// with parts of a whole; -1 where there is none.
func (r *Finder) columnFor(s *sheets.Sheet, f *templates.Field, found []*templates.Field) int {
	first := -1
	for i, head := range s.Lines[0].Cells {
		if strings.TrimSpace(head) == "" || found[i] != nil || !r.canHold(s, i, f) {
			continue
		}
		if first < 0 {
			first = i
		}
		if isHours := f.Cell == templates.HoursOfDay || f.Cell == templates.Number; !isHours || hasParts(s, i) {
			return i
		}
	}
	return first
}

// hasParts says that some cell of a column is no whole number.
func hasParts(s *sheets.Sheet, i int) bool {
	return slices.ContainsFunc(columns.Samples(s, i), func(x columns.Sample) bool {
		return strings.ContainsAny(x.Cell.Text, ".,:")
	})
}

// canHold says that all cells of a column read as what a field holds, and that they look
// it: money has cents or a sign, or no column has and it is whole.
func (r *Finder) canHold(s *sheets.Sheet, i int, f *templates.Field) bool {
	cells, head := columns.Samples(s, i), s.Lines[0].Text(i)
	all := func(kind templates.Cell) bool {
		return len(cells) > 0 && !slices.ContainsFunc(cells, func(x columns.Sample) bool {
			return !columns.ReadsAs(kind, x.Cell, r.settings)
		})
	}
	looksMoney := r.looksMoney(s, i, false) || r.looksMoney(s, i, true)
	isAmount, isNumber := mostAmounts(cells), all(templates.Number)
	switch f.Cell {
	case templates.Money, templates.SignedMoney:
		return !columns.HasWord(head, columns.DerivedWords) && !columns.CountsThings(head) && all(templates.Money) &&
			(looksMoney || isNumber && !hasParts(s, i) && columns.SumOf(s, i, r.settings) >= int64(len(cells))*leastMean &&
				!r.someMoney(s))
	case templates.Date:
		return all(templates.Date)
	case templates.Text, templates.ChannelRef, templates.SupplyRef:
		return !isAmount && all(templates.Text)
	case templates.Name, templates.PieceRef, templates.PieceList:
		return !looksMoney && !isAmount && all(templates.Name) && !all(templates.Date) &&
			!(isNumber && hasParts(s, i)) && (!f.Constraints.Unique || differ(cells))
	case templates.Number, templates.SignedNumber, templates.HoursOfAll, templates.HoursOfDay:
		return !looksMoney && isNumber
	case templates.Container, templates.Amount:
		return isAmount
	}
	return false
}

// leastMean is what whole numbers come to in the mean, in cents, that can be money and no
// numbers of pieces.
const leastMean = 10_00

// mostAmounts says that most cells are numbers with a unit, as of what a can holds.
func mostAmounts(cells []columns.Sample) bool {
	n := 0
	for _, x := range cells {
		if a, refusal := measure.ReadAmount(x.Cell.Text, measure.Style{DecimalComma: true}); refusal == nil && !a.Bare {
			n++
		}
	}
	return 2*n > len(cells)
}

// someMoney says that some column of a sheet looks like money that is not worked out.
func (r *Finder) someMoney(s *sheets.Sheet) bool {
	for i, head := range s.Lines[0].Cells {
		if !columns.HasWord(head, columns.DerivedWords) && !columns.SaysMoney(head) &&
			(r.looksMoney(s, i, false) || r.looksMoney(s, i, true)) {
			return true
		}
	}
	return false
}

// looksMoney is columns.LooksMoney with a decimal comma or a point.
func (r *Finder) looksMoney(s *sheets.Sheet, i int, comma bool) bool {
	shop := r.settings
	shop.DecimalComma = comma
	return columns.LooksMoney(s, s.Lines[0].Text(i), i, s.Lines[1:], shop)
}

// differ says that no two cells hold the same text.
func differ(cells []columns.Sample) bool {
	seen := map[string]bool{}
	for _, x := range cells {
		seen[values.Fold(x.Cell.Text)] = true
	}
	return len(seen) == len(cells)
}

// sayGuesses says which tables a sheet can be, and the lines that have it read as the
// first of them; blank where none can be said.
func (r *Finder) sayGuesses(s *sheets.Sheet, name string) (why, lines string) {
	var titles []string
	for _, g := range r.guesses(s) {
		sheetLine := settings.NameLine(name, g.t.Name)
		paste, put := "[sheets]\n"+sheetLine, settings.Put("sheets", sheetLine)
		for i, n := range g.needs {
			line := settings.NameLine(n.header, n.field)
			if i == 0 {
				section := settings.ColumnsSection(g.t.Name)
				paste, put = paste+"\n["+section+"]", put+fmt.Sprintf(", and under [%s]", section)
			}
			paste, put = paste+"\n"+line, put+" "+line+","
		}
		if lines == "" && len(titles) == 0 {
			if r.rejectsSheet(s, g.t.Name) || !r.lines.Tell("", paste, s.Place()) {
				continue
			}
			lines = fmt.Sprintf("If it is %s, %s", g.t.Title, strings.TrimSuffix(put, ","))
		}
		titles = append(titles, g.t.Title)
	}
	switch n := len(titles); n {
	case 0:
		return "", ""
	case 1:
		return fmt.Sprintf(" By what its cells hold it could be %s.", titles[0]), lines
	default:
		return fmt.Sprintf(" By what its cells hold it could be %s or %s.", strings.Join(titles[:n-1], ", "), titles[n-1]),
			lines
	}
}
