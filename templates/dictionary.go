package templates

import (
	"fmt"
	"slices"
	"strings"
)

// kindWords say what is typed into each kind of cell.
var kindWords = []struct {
	cell  Cell
	name  string
	typed string
}{
	{Text, "text", "anything"},
	{Name, "own name", "a number or name that no other line has"},
	{SetName, "set name", "the same name on each piece of the set; no piece or lot may have it"},
	{Date, "date", "a spreadsheet's date, 2026-03-09, 3/9/2026, 9 Mar 2026 or Mar 9, 2026"},
	{Year, "year", "four digits"},
	{Money, "money", "1234.5 or $1,234.50, at most two decimals; 1.234,50 where decimal_comma is set"},
	{SignedMoney, "money, also negative", "as money; (12.00) or -12.00 for money back"},
	{Number, "number", "7.5, 7 1/2 or 7½"},
	{SignedNumber, "number, also negative", "as number; -1 for what was taken back"},
	{Whole, "whole number", "without a fraction"},
	{Percent, "percent", "10 or 10% for ten in a hundred"},
	{Length, "length", "36, 36\", 3' 6\" or 90 cm; a bare number is inches (cm in a metric shop)"},
	{Amount, "amount", "8 fl oz, 1/2 qt, 250 ml or 3 sheets; a bare number counts containers"},
	{Container, "size", "a number and its unit: 1 qt, 12 oz, 50 sheets"},
	{Coverage, "coverage", "a number, or all"},
	{HoursOfAll, "hours", "2.5, 2:30, 2h 30m or 150 min"},
	{HoursOfDay, "hours, at most 24", "as hours"},
	{Choice, "choice", "one of the words given"},
	{YesNo, "yes or no", "yes or no"},
	{PieceRef, "piece", "a piece's own name"},
	{PieceList, "pieces", "pieces separated by ; , or +, or the name of a lot or set"},
	{SupplyRef, "supply", "a supply's name as on Supplies"},
	{LotRef, "lot", "a lot's name as on Lots"},
	{ScheduleRef, "schedule", "a schedule's name as on Schedules"},
	{ChannelRef, "channel", "the channel's name, the same each time"},
}

// kindName is a cell kind in words.
func kindName(c Cell) string {
	for _, k := range kindWords {
		if k.cell == c {
			return k.name
		}
	}
	panic("no words for the cell kind " + string(c))
}

// dictionaryHead opens the dictionary.
const dictionaryHead = `# What you can write down

Every table and column that piecebook reads. This page is written from the tables' own descriptions in
[` + "`tables/`" + `](tables/), so it says what the program does; ` + "`piecebook start DIR`" + ` lays the same out as a workbook to fill in.

Begin with six tables: %s. The others may stay away until you need them.

A table is a sheet or a .csv file of its name. Names of tables and columns are known without regard to capitals, spaces, dots and
underscores (` + "`got_on`" + `, ` + "`Got on`" + ` and ` + "`GOT ON`" + ` are one), and by the other names given here. Columns you do not need may be left
out, but for those marked \*; those marked (\*) are needed where it says so.

`

// Dictionary is the data dictionary as a page in Markdown: each table with its
// columns, what to type there, an example and the other names it is known by.
func (s *Set) Dictionary() string {
	var b strings.Builder
	var six, all []string
	for _, t := range s.Tables {
		link := fmt.Sprintf("[%s](#%s)", t.Title, strings.ReplaceAll(t.Name, " ", "-"))
		all = append(all, link)
		if t.Essential {
			six = append(six, link)
		}
	}
	fmt.Fprintf(&b, dictionaryHead, strings.Join(six[:len(six)-1], ", ")+" and "+six[len(six)-1])
	fmt.Fprintf(&b, "All tables: %s. [How each kind of cell is typed](#kinds-of-cell) stands at the end.\n",
		strings.Join(all, ", "))
	for _, t := range s.Tables {
		t.dictionary(&b)
	}
	b.WriteString("\n## Kinds of cell\n\n| kind | what to type |\n| --- | --- |\n")
	for _, k := range kindWords {
		fmt.Fprintf(&b, "| %s | %s |\n", k.name, k.typed)
	}
	return b.String()
}

// dictionary writes one table.
func (t *Table) dictionary(b *strings.Builder) {
	fmt.Fprintf(b, "\n## %s\n\n%s", t.Title, t.Description)
	if t.Essential {
		b.WriteString(" One of the six to begin with.")
	}
	fmt.Fprintf(b, " %s Also known as: %s.\n\n", t.Absence, strings.Join(t.OtherNames, ", "))
	b.WriteString("| column | kind | what it holds | example | also known as |\n| --- | --- | --- | --- | --- |\n")
	for _, f := range t.Fields {
		name := f.Title
		switch {
		case f.Constraints.Required:
			name += ` \*`
		case f.NeededWhen != "":
			name += ` (\*)`
		}
		fmt.Fprintf(b, "| **%s** | %s | %s | `%s` | %s |\n", name, kindName(f.Cell), strings.Join(f.Told(), " "), f.Example,
			strings.Join(f.OtherNames, ", "))
	}
}

// Told is what an owner reads of a column, in whole sentences: what it
// holds, when it is needed, what a blank means, and its limits.
func (f Field) Told() []string {
	out := []string{f.Description}
	if f.NeededWhen != "" {
		out = append(out, "Needed where "+f.NeededWhen+".")
	}
	if f.Default != "" {
		out = append(out, "Blank: "+f.Default+".")
	}
	c := f.Constraints
	unsaid := func(word string) bool { return !strings.Contains(f.Description, word) }
	if slices.ContainsFunc(c.Enum, unsaid) {
		out = append(out, "One of: "+strings.Join(c.Enum, ", ")+".")
	}
	switch {
	case c.Minimum != "" && c.Maximum != "":
		out = append(out, fmt.Sprintf("From %s to %s.", c.Minimum, c.Maximum))
	case c.Minimum != "":
		out = append(out, fmt.Sprintf("%s or more.", c.Minimum))
	case c.ExclusiveMinimum != "":
		out = append(out, fmt.Sprintf("Above %s.", c.ExclusiveMinimum))
	}
	return out
}
