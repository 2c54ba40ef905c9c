package tables

import (
	"slices"
	"strings"

	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// fitLeast is how many headers a table must answer to for a sheet to fit it.
const fitLeast = 3

// Fitting is the one table whose columns a sheet's headers are: with all that
// it needs, at least three and half of the headers, or with all but one, at least
// four and two thirds; and with more than any other table has; nil where there is
// none. head is which line the headers are.
func (r *Finder) Fitting(s *sheets.Sheet) (t *templates.Table, head int) {
	for i := range min(len(s.Lines), sheets.TitleRowsMax) {
		if !canBeTitles(s.Lines[:i]) {
			break // a record, below which no header is looked for
		}
		if t := r.fittingRow(s.Lines[i].Cells); t != nil {
			return t, i
		}
	}
	return nil, 0
}

func (r *Finder) fittingRow(cells []string) *templates.Table {
	headers := 0
	for _, text := range cells {
		if strings.TrimSpace(text) != "" {
			headers++
		}
	}
	var best *templates.Table
	most, tied, almost := 0, false, false
	for i := range r.set.Tables {
		t := &r.set.Tables[i]
		found, _ := r.names.Fields(t, cells)
		n := columns.Distinct(found)
		lacks := len(columns.Lacking(t, found))
		nearly := lacks == 1 && n > fitLeast && n*3 >= headers*2 // the one is asked for once it is read
		almost = almost || n == fitLeast && lacks == 1 && n == headers && slices.ContainsFunc(found,
			func(f *templates.Field) bool { return f != nil && columns.IsMoney(f.Cell) })
		if n < fitLeast || n*2 < headers || !columns.HasNeeded(t, found) && !nearly || lacksMark(t, found) {
			continue
		}
		score := 2*n - min(lacks, 1) // of two with as many, the one that lacks nothing
		switch {
		case score > most:
			best, most, tied = t, score, false
		case score == most:
			tied = true
		}
	}
	if tied || almost && most <= 2*fitLeast {
		return nil // a day, words and an amount are as well another table's that only lacks one
	}
	return best
}

// lacksMark says that of columns of which a table has one, none is among those found.
func lacksMark(t *templates.Table, found []*templates.Field) bool {
	return slices.ContainsFunc(marks[t.Name], func(of []string) bool {
		return !slices.ContainsFunc(of, func(name string) bool { return columns.Has(found, name) })
	})
}

// wholeFits are the tables but its own all of whose needed columns a row names, with as
// many names at least, those with most first.
func (r *Finder) wholeFits(cells []string, own *templates.Table) (out []*templates.Table) {
	count := map[*templates.Table]int{}
	for i := range r.set.Tables {
		t := &r.set.Tables[i]
		found, _ := r.names.Fields(t, cells)
		count[t] = columns.Distinct(found)
		if t != own && count[t] >= fitLeast && r.isWhole(t, found) && !lacksMark(t, found) {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b *templates.Table) int { return count[b] - count[a] })
	return slices.DeleteFunc(out, func(t *templates.Table) bool { return count[t] < count[own] })
}

// isWhole says that all columns a table cannot do without are found.
func (r *Finder) isWhole(t *templates.Table, found []*templates.Field) bool {
	return columns.HasNeeded(t, found) || !slices.ContainsFunc(columns.Lacking(t, found), func(name string) bool {
		return !t.Field(name).ColumnMayBeMissing
	})
}

// moneyOf is the money in all of a sheet's columns that a table holds money in,
// by the headers in line head.
func (r *Finder) moneyOf(s *sheets.Sheet, t *templates.Table, head int) (cents int64) {
	found, _ := r.names.Fields(t, s.Lines[head].Cells)
	for i, f := range found {
		if f != nil && columns.IsMoney(f.Cell) {
			cents += columns.SumOf(s, i, r.settings)
		}
	}
	return cents
}

// bestNames is namesIn of the first lines' best.
func (r *Finder) bestNames(t *templates.Table, p *sheets.Sheet) (most int, complete bool) {
	for _, l := range p.Lines[:min(len(p.Lines), sheets.TitleRowsMax)] {
		n, all := r.names.In(t, l.Cells)
		most, complete = max(most, n), complete || all && n >= 2
	}
	return most, complete
}
