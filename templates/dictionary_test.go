package templates_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/templates"
)

var update = flag.Bool("update", false, "rewrite DICTIONARY.md")

// The guide's data dictionary is what the descriptors say.
func TestDictionary(t *testing.T) {
	got := dictionary(load(t))
	if *update {
		require.NoError(t, os.WriteFile("DICTIONARY.md", []byte(got), 0o644))
	}
	want, err := os.ReadFile("DICTIONARY.md")
	require.NoError(t, err)
	require.Equal(t, string(want), got, "go test ./templates -run Dictionary -update writes it again")
}

// kindWords say what is typed into each kind of cell.
var kindWords = []struct {
	cell  templates.Cell
	name  string
	typed string
}{
	{templates.Text, "text", "anything"},
	{templates.Name, "own name", "a number or name that no other line has"},
	{templates.SetName, "set name", "the same name on each piece of the set; no piece or lot may have it"},
	{templates.Date, "date", "a spreadsheet's date, 2026-03-09, 3/9/2026, 9 Mar 2026 or Mar 9, 2026"},
	{templates.Year, "year", "four digits"},
	{templates.Money, "money", "1234.5 or $1,234.50, at most two decimals; 1.234,50 where decimal_comma is set"},
	{templates.SignedMoney, "money, also negative", "as money; (12.00) or -12.00 for money back"},
	{templates.Number, "number", "7.5, 7 1/2 or 7½"},
	{templates.SignedNumber, "number, also negative", "as number; -1 for what was taken back"},
	{templates.Whole, "whole number", "without a fraction"},
	{templates.Percent, "percent", "10 or 10% for ten in a hundred"},
	{templates.Length, "length", "36, 36\", 3' 6\" or 90 cm; a bare number is inches (cm in a metric shop)"},
	{templates.Amount, "amount", "8 fl oz, 1/2 qt, 250 ml or 3 sheets; a bare number counts containers"},
	{templates.Container, "size", "a number and its unit: 1 qt, 12 oz, 50 sheets"},
	{templates.Coverage, "coverage", "a number, or all"},
	{templates.HoursOfAll, "hours", "2.5, 2:30, 2h 30m or 150 min"},
	{templates.HoursOfDay, "hours, at most 24", "as hours"},
	{templates.Choice, "choice", "one of the words given"},
	{templates.YesNo, "yes or no", "yes or no"},
	{templates.PieceRef, "piece", "a piece's own name"},
	{templates.PieceList, "pieces", "pieces separated by ; , or +, or the name of a lot or set"},
	{templates.SupplyRef, "supply", "a supply's name as on Supplies"},
	{templates.LotRef, "lot", "a lot's name as on Lots"},
	{templates.ScheduleRef, "schedule", "a schedule's name as on Schedules"},
	{templates.ChannelRef, "channel", "the channel's name, the same each time"},
}

// kindName is a cell kind in words.
func kindName(c templates.Cell) string {
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

// dictionary is the data dictionary as a page in Markdown: each table with its
// columns, what to type there, an example and the other names it is known by.
func dictionary(s *templates.Set) string {
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
		writeTable(&b, t)
	}
	b.WriteString("\n## Kinds of cell\n\n| kind | what to type |\n| --- | --- |\n")
	for _, k := range kindWords {
		fmt.Fprintf(&b, "| %s | %s |\n", k.name, k.typed)
	}
	return b.String()
}

// writeTable writes one table.
func writeTable(b *strings.Builder, t templates.Table) {
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

// Every column is in the dictionary, with its example and other names; a |
// would part a cell in two.
func TestDictionaryIsWhole(t *testing.T) {
	page := dictionary(load(t))
	for _, table := range load(t).Tables {
		_, section, found := strings.Cut(page, "\n## "+table.Title+"\n")
		require.True(t, found, table.Title)
		section, _, _ = strings.Cut(section, "\n## ")
		lines := strings.Split(strings.TrimSpace(section), "\n")
		require.Len(t, lines, len(table.Fields)+4, table.Title)
		for i, f := range table.Fields {
			line := lines[4+i]
			assert.Equal(t, 6, strings.Count(line, "|"), line)
			for _, text := range append([]string{f.Title, f.Description, f.Example}, f.OtherNames...) {
				assert.Contains(t, line, text)
			}
		}
	}
}

// Each table has two example lines at least, of its own columns, no needed cell blank,
// choices among the choices; and every column has an example.
func TestExampleRows(t *testing.T) {
	for _, table := range load(t).Tables {
		assert.GreaterOrEqual(t, len(table.ExampleRows), 2, table.Name)
		for _, row := range table.ExampleRows {
			for name := range row {
				assert.NotNil(t, table.Field(name), "%s has no column %s", table.Name, name)
			}
		}
		for _, f := range table.Fields {
			assert.NotEmpty(t, f.Example, "%s %s", table.Name, f.Name)
			for _, row := range table.ExampleRows {
				if f.Constraints.Required {
					assert.NotEmpty(t, row[f.Name], "%s %s", table.Name, f.Name)
				}
				if enum := f.Constraints.Enum; len(enum) > 0 && row[f.Name] != "" {
					assert.True(t, slices.Contains(enum, row[f.Name]), "%s %s: %s", table.Name, f.Name, row[f.Name])
				}
			}
		}
	}
}

// The guide sheets' names are no table's, and only the starter's own sheets
// are taken for guides.
func TestGuides(t *testing.T) {
	for _, table := range load(t).Tables {
		for _, name := range append([]string{table.Name, table.Title}, table.OtherNames...) {
			assert.NotEqual(t, letters(templates.BeginSheet), letters(name))
			assert.NotEqual(t, letters(templates.ListsSheet), letters(name))
		}
	}
	assert.True(t, templates.IsGuide(templates.BeginSheet, templates.BeginOpening+" "))
	assert.True(t, templates.IsGuide(templates.ListsSheet, templates.ListsOpening))
	assert.False(t, templates.IsGuide(templates.ListsSheet, "kind"))
	assert.False(t, templates.IsGuide("Notes", templates.BeginOpening))
	assert.False(t, templates.IsGuide("Notes", ""))
}
