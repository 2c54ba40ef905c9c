package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/templates"
)

// trailing is what may follow a table's name: a year, a month or a number.
var trailing = regexp.MustCompile(`(?i)^(.*?)(?:[\s\-_.]*(?:\(\s*\d+\s*\)|\d+)|[\s\-_.]+(?:jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec|january|february|march|april|june|july|august|september|october|november|december))\s*$`)

// compact is a name for comparing: small letters and digits only.
func compact(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// tableFor finds the table a file or sheet is named for, in settings.toml
// first, then by the tables' own names, as it stands and then without what
// trails it; nil where it is none.
func (r *reading) tableFor(known string) *templates.Table {
	for name := known; ; {
		for own, table := range r.settings.Sheets {
			own = strings.TrimSuffix(strings.ToLower(own), ".csv")
			if compact(own) == compact(name) {
				return r.set.Table(table)
			}
		}
		for i := range r.set.Tables {
			t := &r.set.Tables[i]
			if named(compact(name), t.Name, t.OtherNames) {
				return t
			}
		}
		m := trailing.FindStringSubmatch(name)
		if m == nil || compact(m[1]) == "" {
			return nil
		}
		name = m[1]
	}
}

// named says that a compact name is a name or one of its other names.
func named(compacted, name string, others []string) bool {
	return compacted == compact(name) ||
		slices.ContainsFunc(others, func(o string) bool { return compact(o) == compacted })
}

// column is one column of a sheet that the table knows.
type column struct {
	field  *templates.Field
	index  int
	header string
}

// layout is which columns of a sheet are which of its table's.
type layout struct {
	table   *templates.Table
	columns map[string]column // by field
	width   int               // columns up to the last with a header
	headers []string
	broken  bool // the rows cannot be read
}

// readHeader matches the first row to the table's columns and tells what is
// unknown, twice there, or missing.
func (r *reading) readHeader(s *sheet, t *templates.Table) *layout {
	head := s.lines[0]
	at := s.place()
	at.Row = head.number
	lay := &layout{table: t, columns: map[string]column{}, headers: head.cells, broken: head.broken}
	fields := r.headerFields(t, head.cells)
	for i, text := range head.cells {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		lay.width = i + 1
		f := fields[i]
		if f == nil {
			r.unknownHeader(at.At(text), t, text, fields)
			continue
		}
		if first, twice := lay.columns[f.Name]; twice {
			r.problems.Add(fault.Problem{Code: fault.CodeColumnTwice, Place: at.At(text), Found: text,
				Why: fmt.Sprintf("This column and %q are both read as %s.", first.header, f.Name),
				Fix: "Rename one of them."})
			lay.broken = true
			continue
		}
		lay.columns[f.Name] = column{f, i, text}
		r.checkHeaderUnit(at.At(text), lay, f, text)
	}
	r.noteBlankHeaders(s, at, lay)
	r.missingColumns(at, t, lay)
	return lay
}

// noteBlankHeaders notes a column that is filled but has no name. In a
// workbook it may stand beside the table, a scribble; in a plain file a value
// behind the last name means that the row's values have shifted, which
// checkCells refuses.
func (r *reading) noteBlankHeaders(s *sheet, at fault.Place, lay *layout) {
	width := lay.width
	if s.asks != nil {
		for _, l := range s.lines[1:] {
			width = max(width, len(l.cells))
		}
	}
	for i := range width {
		if i < len(lay.headers) && strings.TrimSpace(lay.headers[i]) != "" {
			continue
		}
		for _, l := range s.lines[1:] {
			if i < len(l.cells) && strings.TrimSpace(l.cells[i]) != "" {
				r.problems.Add(fault.Problem{Code: fault.CodeHeaderBlank, Note: true, Place: at.At(columnLetters(i)),
					Why: fmt.Sprintf("Column %s is filled but has no name, so it is not read.", columnLetters(i)),
					Fix: "Give it a name if it is to be read."})
				break
			}
		}
	}
}

// headerFields finds each header's field: by settings.toml, by the column's
// own name, then by its other names, but those only for a column that is not
// there under its own.
func (r *reading) headerFields(t *templates.Table, cells []string) []*templates.Field {
	found := make([]*templates.Field, len(cells))
	own := map[string]bool{}
	for i, text := range cells {
		name := compact(text)
		for header, field := range r.settings.Columns[t.Name] {
			if name != "" && compact(header) == name {
				found[i] = t.Field(field)
			}
		}
		for j := range t.Fields {
			if f := &t.Fields[j]; found[i] == nil && name != "" && (compact(f.Name) == name || compact(f.Title) == name) {
				found[i] = f
			}
		}
		if found[i] != nil {
			own[found[i].Name] = true
		}
	}
	for i, text := range cells {
		for j := range t.Fields {
			f := &t.Fields[j]
			if found[i] == nil && compact(text) != "" && !own[f.Name] && named(compact(text), f.Name, f.OtherNames) {
				found[i] = f
			}
		}
	}
	return found
}

// unknownHeader notes a column that is not read, with the nearest name of one
// that is not there yet.
func (r *reading) unknownHeader(at fault.Place, t *templates.Table, text string, taken []*templates.Field) {
	var free []string
	for i := range t.Fields {
		if f := &t.Fields[i]; !slices.Contains(taken, f) {
			free = append(free, f.Name, strings.ReplaceAll(f.Name, "_", " "))
			free = append(free, f.OtherNames...)
		}
	}
	fix := "Nothing need be done if it is your own."
	if near := fault.Nearest(text, free); near != "" {
		fix = fmt.Sprintf("The nearest known name is %q. Rename the column if that is meant.", near)
	}
	r.problems.Add(fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at, Found: text,
		Why: fmt.Sprintf("%s has no column of that name, so it is not read.", t.Title), Fix: fix})
}

// missingColumns tells each needed column that is not there; without any
// known column the row is no header at all.
func (r *reading) missingColumns(at fault.Place, t *templates.Table, lay *layout) {
	if lay.broken && len(lay.columns) == 0 {
		return
	}
	if len(lay.columns) == 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeNoHeader, Place: at, Found: strings.Join(lay.headers, ", "),
			Why: fmt.Sprintf("The first row names none of the columns of %s.", t.Title),
			Fix: fmt.Sprintf("Put the column names into the first row, such as %s.", strings.Join(neededColumns(t), ", "))})
		lay.broken = true
		return
	}
	for _, name := range neededColumns(t) {
		if _, there := lay.columns[name]; !there {
			r.problems.Add(fault.Problem{Code: fault.CodeColumnMissing, Place: at,
				Why: fmt.Sprintf("The column %s is missing, and %s cannot be read without it.", name, t.Title),
				Fix: fmt.Sprintf("Add a column %s, or map your own name for it in [columns.%s] of settings.toml.", name, settingsKey(t.Name))})
			lay.broken = true
		}
	}
}

// neededColumns are the columns a table cannot do without.
func neededColumns(t *templates.Table) []string {
	var names []string
	for _, f := range t.Fields {
		if f.Constraints.Required {
			names = append(names, f.Name)
		}
	}
	return names
}

// settingsKey is a table's name as a key of settings.toml is written.
func settingsKey(table string) string {
	if strings.Contains(table, " ") {
		return fmt.Sprintf("%q", table)
	}
	return table
}

// Headers that tell a unit. One of the other system's would make every figure
// below it wrong without a sign.
var (
	metricHeaders = []string{"km", "kilometres", "kilometers", "sqm", "squaremetres"}
	usHeaders     = []string{"sqft", "squarefeet"}
	milesHeaders  = []string{"miles", "businessmiles"}
)

// checkHeaderUnit refuses a column in units the shop does not use. The column
// miles of a metric shop is read as km, with a note.
func (r *reading) checkHeaderUnit(at fault.Place, lay *layout, f *templates.Field, text string) {
	name, metric := compact(text), r.settings.Metric()
	wrong := slices.Contains(metricHeaders, name) && !metric || slices.Contains(usHeaders, name) && metric
	switch {
	case wrong:
		r.problems.Add(fault.Problem{Code: fault.CodeDistanceUnit, Place: at, Found: text,
			Why: fmt.Sprintf("The shop works in %s and %s (units in settings.toml), but this column is named for another unit.", r.settings.DistanceUnit(), r.settings.AreaUnit()),
			Fix: fmt.Sprintf("Convert the column and name it %s, or change units in settings.toml.", f.Name)})
		lay.broken = true
	case metric && f.Name == "miles" && slices.Contains(milesHeaders, name):
		r.problems.Add(fault.Problem{Code: fault.CodeDistanceAssumed, Note: true, Place: at, Found: text,
			Why: "In a metric shop the distances in this column are read as km.",
			Fix: "Name the column km."})
	}
}
