package headers

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// columnNames says of a text whether any table has a column of that name.
func (r *Reader) ColumnNames() func(string) bool {
	known := map[string]bool{}
	for i := range r.set.Tables {
		t := &r.set.Tables[i]
		for key := range r.names(t).any {
			known[key] = true
		}
		for header := range r.settings.Columns[t.Name] {
			known[settings.HeaderKey(header)] = true
		}
	}
	delete(known, "")
	return func(text string) bool { return len(text) <= 100 && known[settings.HeaderKey(text)] }
}

// takeTitles takes up to nine rows above the column names off a sheet, with a note.
// The first row is the header unless it names too few of the columns the table
// needs and a row shortly below names them; rows above that may be records
// leave the first row as the header, whose problems are then reported. Column names
// may be in two rows.
func (r *Reader) takeTitles(s *sheets.Sheet, t *templates.Table) (titles []string) {
	at, head := r.headerRow(s, t)
	if at == 0 {
		return nil
	}
	for _, l := range s.Lines[:at] {
		for _, c := range l.Cells {
			if c = strings.TrimSpace(c); c != "" {
				titles = append(titles, c)
			}
		}
	}
	place := s.Place()
	place.Row = s.Lines[0].Number
	what := fmt.Sprintf("This row stands above the column names, which are in row %d, so it was taken for a title.",
		s.Lines[at].Number)
	if at > 1 {
		what = fmt.Sprintf("The rows from here to %d stand above the column names, which are in row %d, so they were "+
			"taken for a title.", s.Lines[at-1].Number, s.Lines[at].Number)
	}
	fix := "It may stay if it is one; records belong below the column names."
	if !slices.Equal(head, s.Lines[at].Cells) {
		what = fmt.Sprintf("The column names stand in two rows, down to row %d; where both have one, the lower is taken.",
			s.Lines[at].Number)
		fix = "It may stay; to be sure, put all column names into one row."
	}
	r.problems.Add(fault.Problem{Code: fault.CodeTitleRows, Note: true, Place: place,
		Found:       sheets.Shortened(strings.Join(titles, ", ")),
		AsksNothing: true, Why: what, Fix: fix})
	s.Lines = slices.Clone(s.Lines[at:])
	s.Lines[0].Cells = head
	return titles
}

// headerRow is which line holds the column names, and the names: where they
// stand in two rows, group names above and merged (Bought: date, price), a
// column's name is the lower one, or the upper where there is no lower.
func (r *Reader) headerRow(s *sheets.Sheet, t *templates.Table) (at int, names []string) {
	first := s.Lines[0].Cells
	known, complete := r.namesIn(t, first)
	if s.Lines[0].Broken {
		return 0, first
	}
	if len(s.Lines) > 1 && canBeTitles(s.Lines[:1]) && r.allNames(t, s.Lines[1].Cells) && (!complete ||
		r.blankBelow(t, first, s.Lines[1].Cells)) {
		both := joinedNames(first, s.Lines[1].Cells)
		if n, all := r.namesIn(t, both); all && n > known {
			return 1, both
		}
	}
	if complete {
		return 0, first
	}
	lone := filledCells(first) == 1
	for i := 1; i < min(len(s.Lines), sheets.TitleRowsMax); i++ {
		if s.Lines[i].Broken || !canBeTitles(s.Lines[:i]) {
			return 0, first
		}
		cells := s.Lines[i].Cells
		n, complete := r.namesIn(t, cells)
		if n >= 2 && n > known && (complete || (lone || known == 0) && 2*n >= filledCells(cells)) {
			return i, cells
		}
		if both := joinedNames(s.Lines[i-1].Cells, cells); r.allNames(t, cells) {
			if _, complete := r.namesIn(t, both); complete {
				return i, both
			}
		}
	}
	return 0, first
}

// namesIn counts the columns of a table that a row names, and says whether all
// that the table needs are among them.
func (r *Reader) namesIn(t *templates.Table, cells []string) (n int, complete bool) {
	named := map[string]bool{}
	found, _ := r.headerFields(t, cells)
	for _, f := range found {
		if f != nil {
			named[f.Name] = true
		}
	}
	for _, name := range NeededColumns(t) {
		if !named[name] {
			return len(named), false
		}
	}
	return len(named), true
}

// allNames says that each filled cell of a row names a column, two at least,
// or is one that settings.toml says is none.
func (r *Reader) allNames(t *templates.Table, cells []string) bool {
	_, ignored := r.headerFields(t, cells)
	none := 0
	for _, is := range ignored {
		if is {
			none++
		}
	}
	n, _ := r.namesIn(t, cells)
	return n >= 2 && n+none == filledCells(cells)
}

// blankBelow says that a row has nothing below the columns that another names, as
// the second row of column names has not and every record has.
func (r *Reader) blankBelow(t *templates.Table, names, lower []string) bool {
	found, _ := r.headerFields(t, names)
	for i, f := range found {
		if f != nil && i < len(lower) && strings.TrimSpace(lower[i]) != "" {
			return false
		}
	}
	return true
}

// joinedNames is the lower of two rows, with the upper's where it is blank.
func joinedNames(upper, lower []string) []string {
	both := slices.Clone(lower)
	for i, c := range upper {
		if i >= len(both) {
			both = append(both, c)
		} else if strings.TrimSpace(both[i]) == "" {
			both[i] = c
		}
	}
	return both
}

// canBeTitles says that no row looks like a record: none has a cell that begins
// like a number or a date, but for a lone cell, and one after its word
// (printed on, 2026-03-01).
func canBeTitles(lines []sheets.Line) bool {
	for _, l := range lines {
		filled, first := filledCells(l.Cells), true
		if l.Broken {
			return false
		}
		for _, c := range l.Cells {
			if c = strings.TrimSpace(c); c == "" {
				continue
			}
			c = strings.TrimLeft(c, "$€£-(")
			if c != "" && unicode.IsDigit(rune(c[0])) && (filled > 2 || filled == 2 && first) {
				return false
			}
			first = false
		}
	}
	return true
}

// filledCells counts the cells of a row that hold something.
func filledCells(cells []string) (n int) {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			n++
		}
	}
	return n
}

// What lines of words say: an amount, a day, and what was done.
var (
	amountWithin = regexp.MustCompile(`[$€£¥₹] ?\d[\d,]*(?:\.\d{1,2})?|\d[\d,]*(?:\.\d{1,2})? ?[$€£¥₹]|\b\d+\.\d\d\b`)
	digitsWithin = regexp.MustCompile(`\d`)
	soldWords    = regexp.MustCompile(`(?i)\b(?:sold|sale)\b`)
	workWords    = regexp.MustCompile(`(?i)\b\d+(?:\.\d+)? ?(?:h|hr|hrs|hours?)\b`)
	wordsLeast   = 3 // of a line that says something
)

// areWords says that a sheet holds lines of words, as they are typed into a phone:
// two or more, each in one cell, most of them with a number among words.
func (r *Reader) areWords(s *sheets.Sheet) bool {
	telling := 0
	for _, l := range s.Lines {
		if l.Broken || filledCells(l.Cells) != 1 {
			return false
		}
		if text := rowText(l); digitsWithin.MatchString(text) && len(strings.Fields(text)) >= wordsLeast {
			telling++
		}
	}
	return len(s.Lines) >= 2 && 2*telling > len(s.Lines)
}

// tellWords tells lines of words: all of them, and one as the row to type. It
// stops a report where the sheet is named for a table. cents is the money that
// stands in the lines.
func (r *Reader) tellWords(s *sheets.Sheet, named *templates.Table) (cents int64) {
	place := s.Place()
	place.Row = s.Lines[0].Number
	var lines []string
	for _, l := range s.Lines {
		lines = append(lines, fmt.Sprintf("row %d %s", l.Number, fault.Quoted(sheets.Shortened(rowText(l)))))
		for _, text := range amountWithin.FindAllString(rowText(l), -1) {
			if x, refusal := measure.Money(text, measure.Style{}); refusal == nil {
				cents += int64(x.Abs())
			}
		}
	}
	p := fault.Problem{Code: fault.CodeLinesOfWords, Note: named == nil, Place: place, MoneyCents: cents,
		Found: sheets.Shortened(rowText(s.Lines[0])),
		Why: fmt.Sprintf("These are lines of words and no table, so none of them is read: %s.",
			strings.Join(lines, "; ")),
		Fix: "Type each as a row. " + asRow(rowText(s.Lines[0]))}
	r.problems.Add(p)
	return cents
}

// asRow is a line of words as the row to type.
func asRow(text string) string {
	amount := strings.Trim(amountWithin.FindString(text), measure.CurrencySigns+" ")
	switch {
	case workWords.MatchString(text) && amount == "":
		return "The first would be in a sheet Hours, with the columns Worked on, Pieces, Hours: the day with its year, the " +
			"piece as Pieces has it, " + workWords.FindString(text) + "."
	case soldWords.MatchString(text):
		return "The first would be in a sheet Sales, with the columns Sold on, Pieces, Channel, Price: the day " +
			"with its year, " +
			"the piece as Pieces has it, where it was sold, " + orAmount(amount) + "."
	}
	return "The first would be in a sheet Purchases if it is a supply, with the columns Bought on, Supply, " +
		"Containers, Cost: " +
		"the day with its year, its name, how many, " + orAmount(amount) + "; in Pieces if it is a piece, in " +
		"Expenses if it is " +
		"neither."
}

func orAmount(amount string) string {
	if amount == "" {
		return "the amount"
	}
	return amount
}
