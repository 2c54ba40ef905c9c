package tables

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// form is a sheet whose names stand below each other.
type form struct {
	facts *turnedSheet
	many  []*sheets.Sheet // the sheets of its workbook with the same names, one piece each
}

// FindForms finds the sheets whose column names stand below each other: those
// turned over, with pieces across, and the same form on many sheets, one piece
// each. It is to be called before Parts, with all sheets of a file.
func (r *Finder) FindForms(all []*sheets.Sheet) {
	same := map[string][]*sheets.Sheet{}
	for _, s := range all {
		if isGuide(s) || len(s.Lines) < 2 {
			continue
		}
		t, ignored := r.tableOf(s)
		if ignored {
			continue
		}
		facts := findTurned(s, r.names.IsName, r.namesOf(t))
		if facts == nil || !r.factsFit(facts, t) {
			continue
		}
		r.forms[s] = &form{facts: facts}
		if len(facts.Columns) == 1 && t == nil {
			key := s.File
			if !s.InBook {
				key = path.Dir(s.File) // plain files are a workbook's sheets
			}
			key += "\n" + headKey(facts)
			same[key] = append(same[key], s)
		}
	}
	for _, of := range same {
		for _, s := range of {
			if len(of) > 1 {
				r.forms[s].many = of
			}
		}
	}
}

// headKey is the names of a form.
func headKey(f *turnedSheet) string {
	var keys []string
	for _, h := range f.Sheet.Lines[0].Cells {
		keys = append(keys, settings.HeaderKey(h))
	}
	slices.Sort(keys)
	return strings.Join(keys, "|")
}

// factsFit says that the names of a sheet are columns of the table it is named
// for, or else all that Pieces needs, but for the name of the piece on a form.
func (r *Finder) factsFit(f *turnedSheet, t *templates.Table) bool {
	if t == nil {
		t = r.set.Table("pieces")
	}
	cells := f.Sheet.Lines[0].Cells
	if len(f.Columns) == 1 {
		cells = append(slices.Clone(cells), "piece")
	}
	found, _ := r.names.Fields(t, cells)
	return columns.Distinct(found) >= fitLeast && columns.HasNeeded(t, found)
}

// formParts are a form's facts and its list, as tables.
func (r *Finder) formParts(s *sheets.Sheet, f *form) []*sheets.Sheet {
	facts := f.facts.Sheet
	t, _ := r.tableOf(s)
	if f.many == nil {
		facts.IsTurned = true
		r.tellTurned(s, f, t)
		r.tellLeft(s, f, facts)
		return []*sheets.Sheet{facts}
	}
	pieces := r.set.Table("pieces")
	found, _ := r.names.Fields(pieces, facts.Lines[0].Cells)
	at := slices.IndexFunc(found, func(f *templates.Field) bool { return f != nil && f.Name == "piece" })
	name := s.Known
	if at >= 0 && facts.Lines[1].Text(at) != "" {
		name = facts.Lines[1].Text(at)
	} else if at < 0 {
		facts = withColumn(facts, "piece", name)
	}
	facts.Of, facts.FirstCell = s, sheets.CellName(0, facts.Lines[0].Number)
	r.ofPart[facts] = partTable{t: pieces}
	if s == f.many[0] {
		r.tellForms(f, pieces, facts)
	}
	r.tellLeft(s, f, facts)
	out := []*sheets.Sheet{facts}
	if list := f.facts.List; list != nil {
		parts := r.set.Table("parts")
		list = withColumn(list, "pieces", name)
		r.ofPart[list] = partTable{t: parts}
		out = append(out, list)
	}
	return out
}

// tellLeft notes what stands on a form or a sheet turned over and is no fact of a
// piece by its name, with the money in it: what has a sign or two decimals, or
// stands beside or below a word for money.
func (r *Finder) tellLeft(s *sheets.Sheet, f *form, facts *sheets.Sheet) {
	var said []string
	var cents money.Cents
	heading := false
	for _, cells := range f.facts.Left {
		var texts []string
		named := false
		for _, at := range cells {
			text := s.Lines[at.Line].Text(at.Column)
			texts = append(texts, text)
			named = named || columns.HasWord(text, columns.MoneyWords) || columns.HasWord(text, columns.SpentWords)
		}
		heading = len(cells) == 1 && named || len(cells) > 1 && heading
		said = append(said, strings.Join(texts, " "))
		for _, at := range cells {
			cell := s.Cell(s.Lines[at.Line], at.Column)
			_, decimals, _ := strings.Cut(cell.Text, ".")
			if x, refusal := values.Money(cell, r.settings); refusal == nil && (heading || named || cell.IsMoney() ||
				len(decimals) == 2 || strings.ContainsAny(cell.Text, measure.CurrencySigns)) {
				cents += x.Abs()
			}
		}
	}
	if len(said) == 0 {
		return
	}
	r.leftOnForm[facts] = cents
	p := fault.Problem{Code: fault.CodeFormLeft, Note: true, Place: s.Place(), MoneyCents: int64(cents),
		Found: sheets.Shortened(strings.Join(said, "; ")), AsksNothing: cents == 0,
		Why: "This stands on the form and is no column of Pieces by its name, so it is not read.",
		Fix: "It may stay. What a piece alone had belongs in Parts: put date, what and cost above such a list on the form."}
	p.Place.Row = s.Lines[f.facts.Left[0][0].Line].Number
	if cents != 0 {
		p.Why = fmt.Sprintf("This stands on the form and is no column of Pieces by its name, so it is not read, "+
			"and the %s in "+
			"it is in no figure.", cents.Grouped())
		p.Fix = "What a piece alone had belongs in Parts: put Date, What and Cost above such a list on the " +
			"form, with its day " +
			"in each row. What is worked out may stay."
	}
	r.problems.Add(p)
}

// withColumn is a sheet with one more column, the same text in each row.
func withColumn(s *sheets.Sheet, name, text string) *sheets.Sheet {
	p := *s
	p.Lines = slices.Clone(s.Lines)
	width := 0
	for _, l := range p.Lines {
		width = max(width, len(l.Cells))
	}
	head := 0
	for i, l := range p.Lines[:min(len(p.Lines), sheets.TitleRowsMax)] {
		if sheets.Filled(l.Cells) > 1 {
			head = i
			break
		}
	}
	for i, l := range p.Lines {
		if i < head || i > head && columns.SaysTotal(l) {
			continue
		}
		cells := slices.Clone(l.Cells)
		for len(cells) < width {
			cells = append(cells, "")
		}
		l.Cells = append(cells, text)
		if i == head {
			l.Cells[width] = name
		}
		p.Lines[i] = l
	}
	return &p
}

// tellTurned tells a sheet that is turned over, with one piece as it was read.
func (r *Finder) tellTurned(s *sheets.Sheet, f *form, t *templates.Table) {
	if t == nil {
		return // it is proposed as any sheet is that no table is named for
	}
	why, args := "The names stand below each other here, so the sheet is read turned over, a column as a row of %s.",
		[]any{t.Title}
	if len(f.facts.Columns) > 1 {
		why += " In what is said of it %s is column %s, and so on."
		args = append(args, fault.Row(f.facts.Sheet.Lines[1].Number), f.facts.Columns[0])
	}
	r.problems.Add(fault.Problem{Code: fault.CodeTurnedOver, Note: true, Place: s.Place(), AsksNothing: true,
		Fix: "It may stay if that is right."}.Naming(why+" Column %s is read as: %s.",
		append(args, f.facts.Columns[0], r.oneRow(t, f.facts.Sheet))...))
}

// tellForms tells, once a workbook, the same form on many sheets.
func (r *Finder) tellForms(f *form, t *templates.Table, first *sheets.Sheet) {
	r.problems.Add(fault.Problem{Code: fault.CodeFormRead, Note: true, Place: f.many[0].Place(),
		Why: fmt.Sprintf("%d sheets are the same form, and each is read as one piece, with the list below it "+
			"as its parts. This one is read as: %s.", len(f.many), r.oneRow(t, first)),
		AsksNothing: true, Fix: "It may stay if that is right."})
}

// oneRow is the first row of a sheet as it is read: `kind dresser, price 40`.
func (r *Finder) oneRow(t *templates.Table, s *sheets.Sheet) string {
	found, _ := r.names.Fields(t, s.Lines[0].Cells)
	var out []string
	for i, f := range found {
		if text := s.Lines[1].Text(i); f != nil && text != "" {
			if f.Cell == templates.Date && s.Cell(s.Lines[1], i).InBook && values.IsRaw(text) {
				if d, _, refusal := values.Date(s.Cell(s.Lines[1], i), false); refusal == nil {
					text = d.String()
				}
			}
			out = append(out, strings.ToLower(f.Title)+" "+text)
		}
	}
	return strings.Join(out, ", ")
}
