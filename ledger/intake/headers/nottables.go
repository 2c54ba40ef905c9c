package headers

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// skipSheet notes a sheet that is no table, unless it is wholly blank or
// settings.toml maps it to none. All its rows count as skipped, the first too.
// One whose headers fit a table is proposed as that; it could move all the
// money in it.
func (r *Reader) skipSheet(s *sheets.Sheet, ignored bool) *Block {
	b := &Block{sheet: s, Tally: Tally{Rows: len(s.Lines), NotTable: len(s.Lines)}}
	b.ignored = ignored
	for b.head+1 < len(s.Lines) && filledCells(s.Lines[b.head].Cells) == 1 {
		b.head++ // a title
	}
	if t, head := r.fitting(s); t != nil {
		found, _ := r.headerFields(t, s.Lines[head].Cells)
		b.head, b.likely = head, found
	}
	if len(s.Lines) == 0 || ignored || r.ofPart[s].refused {
		return b
	}
	example, cents := "", r.UnreadMoney(b)
	// A line that brings no money in makes nothing absurd, and need not be tried.
	if likely := cmp.Or(r.likely(s), "pieces"); !r.rejectsSheet(s, likely) &&
		(cents == 0 || r.Tell("sheets", columnLine(s.Known, likely), s.Place())) {
		example = ", as in " + columnLine(s.Known, likely)
	}
	p := fault.Problem{Code: fault.CodeSheetSkipped, Note: true, Place: s.Place(), Found: s.Known,
		Why:         "No table has this name, so it was skipped.",
		AsksNothing: true, Fix: fmt.Sprintf("If it holds no records, it may stay. If it does, rename it for its table, or "+
			"name the table under [sheets] of settings.toml%s; \"none\" there skips it without a note.", example)}
	if s.Name != "" {
		p.Found = "" // the place says it
	}
	if t, head := r.fitting(s); t != nil && !r.rejectsSheet(s, t.Name) {
		r.fits = append(r.fits, fit{s.Known, inFile(s), t.Name, s.Place()})
		p.MoneyCents, p.AsksNothing = r.moneyOf(s, t, head), false
		p.Why = fmt.Sprintf("No table has this name, so it was skipped, but its column names fit %s.", t.Title)
		p.Fix = fmt.Sprintf("If it holds records of it, rename it %s, or put %s = %s under [sheets] of settings.toml.",
			t.Title, settings.TomlText(s.Known), settings.TomlText(t.Name))
	} else if near := r.nearTable(s.Known); near != "" && !r.rejectsSheet(s, near) &&
		r.Tell("sheets", columnLine(s.Known, near), s.Place()) {
		p.AsksNothing = false
		p.Fix = fmt.Sprintf("The nearest table is %s. If that is meant, rename it, or put %s = %s under [sheets] of "+
			"settings.toml.", near, settings.TomlText(s.Known), settings.TomlText(near))
	} else if cents != 0 {
		p.MoneyCents, p.AsksNothing = int64(cents), false
		p.Why = fmt.Sprintf("No table has this name, so it was skipped, and the %s in it is in no figure.", cents.Grouped())
	}
	r.problems.Add(p)
	return b
}

// tellBetterFit notes a sheet that is named for one table and whose column names
// fit another better by two and more: a list of pieces called Sold.
func (r *Reader) tellBetterFit(s *sheets.Sheet, t *templates.Table) {
	better, head := r.fitting(s)
	if better == nil || better == t || s.Of != nil || r.rejectsSheet(s, better.Name) ||
		slices.ContainsFunc(slices.Collect(maps.Keys(r.settings.Sheets)), func(name string) bool {
			return settings.SheetKey(name) == settings.SheetKey(s.Known)
		}) {
		return
	}
	count := func(t *templates.Table) int {
		found, _ := r.headerFields(t, s.Lines[head].Cells)
		return distinctFields(found)
	}
	if n, of := count(better), count(t); n >= of+2 && r.Propose("sheets", columnLine(s.Known, better.Name), s.Place()) {
		r.problems.Add(fault.Problem{Code: fault.CodeSheetFitsOther, Note: true, Place: s.Place(),
			MoneyCents: r.moneyOf(s, better, head),
			Why: fmt.Sprintf("By its name this is %s, but of its column names %d fit %s and %d fit %s.", t.Title, n,
				better.Title, of, t.Title),
			Fix: fmt.Sprintf("If its rows are %s, put %s under [sheets] of settings.toml, or rename it.", better.Title,
				columnLine(s.Known, better.Name))})
	}
}

// rejectsSheet says that a sheet is not to be proposed as a table, by its own name
// or with its file's.
func (r *Reader) rejectsSheet(s *sheets.Sheet, table string) bool {
	return r.Rejects("sheets", columnLine(s.Known, table)) || r.Rejects("sheets", columnLine(inFile(s), table))
}

// nearTable is the table a sheet's name is nearest to; empty where none is near.
func (r *Reader) nearTable(name string) string {
	if m := trailing.FindStringSubmatch(name); m != nil && m[1] != "" {
		name = m[1]
	}
	var known []string
	for _, t := range r.set.Tables {
		known = append(known, t.Name)
	}
	return fault.Nearest(name, known)
}

// fit is a sheet whose headers fit a table that it is not named for.
type fit struct {
	known, inFile, table string
	at                   fault.Place
}

// proposeSheets proposes the sheets that fit a table. Two sheets of one name
// that fit different tables are named with their files.
func (r *Reader) ProposeSheets() {
	tables := map[string]string{}
	apart := map[string]bool{}
	for _, f := range r.fits {
		key := settings.SheetKey(f.known)
		if t, seen := tables[key]; seen && t != f.table {
			apart[key] = true
		}
		tables[key] = f.table
	}
	for _, f := range r.fits {
		name := f.known
		if apart[settings.SheetKey(name)] {
			name = f.inFile
		}
		r.Propose("sheets", fmt.Sprintf("%s = %s", settings.TomlText(name), settings.TomlText(f.table)), f.at)
	}
}

// noTable tells records without any table, and which of their sheets could be one.
func (r *Reader) NoTable() {
	p := fault.Problem{Code: fault.CodeNoRecords, Place: fault.Place{File: sheets.RecordsFolder},
		Why: "No file or sheet here is named for a table, so there is nothing to read.",
		Fix: "Name each file or sheet for its table, such as pieces.csv or a sheet Pieces."}
	if len(r.fits) > 0 {
		f := r.fits[0]
		p.Why = fmt.Sprintf("No file or sheet here is named for a table, but the column names of %s fit %s.", f.at,
			r.set.Table(f.table).Title)
		p.Fix = fmt.Sprintf("If it is, write [sheets] into settings.toml and below it %s = %s; or rename it %s.",
			settings.TomlText(f.known), settings.TomlText(f.table), r.set.Table(f.table).Title)
	}
	r.problems.Add(p)
}

// fitLeast is how many headers a table must answer to for a sheet to fit it.
const fitLeast = 3

// fitting is the one table whose columns a sheet's headers are: with all that
// it needs, at least three and half of the headers, or with all but one, at least
// four and two thirds; and with more than any other table has; nil where there is
// none. head is which line the headers are.
func (r *Reader) fitting(s *sheets.Sheet) (t *templates.Table, head int) {
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

func (r *Reader) fittingRow(cells []string) *templates.Table {
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
		found, _ := r.headerFields(t, cells)
		n := distinctFields(found)
		lacks := len(lacking(t, found))
		nearly := lacks == 1 && n > fitLeast && n*3 >= headers*2 // the one is asked for once it is read
		almost = almost || n == fitLeast && lacks == 1 && n == headers && slices.ContainsFunc(found,
			func(f *templates.Field) bool { return f != nil && isMoney(f.Cell) })
		if n < fitLeast || n*2 < headers || !hasNeeded(t, found) && !nearly {
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
	if tied || almost && most == 2*fitLeast {
		return nil // a day, words and an amount are as well another table's that only lacks one
	}
	return best
}

// distinctFields counts the fields, each once.
func distinctFields(found []*templates.Field) int {
	names := map[string]bool{}
	for _, f := range found {
		if f != nil {
			names[f.Name] = true
		}
	}
	return len(names)
}

// lacking are the columns a table needs that are not there.
func lacking(t *templates.Table, found []*templates.Field) []string {
	return slices.DeleteFunc(NeededColumns(t), func(name string) bool { return hasField(found, name) })
}

func hasField(found []*templates.Field, name string) bool {
	return slices.ContainsFunc(found, func(f *templates.Field) bool { return f != nil && f.Name == name })
}

// hasNeeded says that all columns a table needs are there. In Pieces the kind
// may be missing yet where there is a price, and the number where there is a
// description too: a sheet of one row a piece often has none, which is reported
// once it is read.
func hasNeeded(t *templates.Table, found []*templates.Field) bool {
	return !slices.ContainsFunc(lacking(t, found), func(name string) bool {
		late := name == "kind" || name == "piece" && hasField(found, "description")
		return t.Name != "pieces" || !late || !hasField(found, "price")
	})
}
