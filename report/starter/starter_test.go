package starter_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/report/starter"
	"piecebook/templates"
)

// open makes the starter workbook and opens it again.
func open(t *testing.T) (*templates.Set, *excelize.File) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	b, err := starter.Workbook(set)
	require.NoError(t, err)
	book, err := excelize.OpenReader(bytes.NewReader(b))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, book.Close()) })
	return set, book
}

// The same program writes the same bytes.
func TestSameBytes(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	first, err := starter.Workbook(set)
	require.NoError(t, err)
	for range 3 {
		again, err := starter.Workbook(set)
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
}

// Where to begin, the four that cost a piece, those of daily work, the others,
// the lists, as the first sheet's words say, not the tabs' colours alone.
func TestSheets(t *testing.T) {
	set, book := open(t)
	want := []string{templates.BeginSheet, "Pieces", "Supplies", "Schedules", "Purchases", "Uses", "Hours", "Sales"}
	var later []string
	for _, table := range set.Tables {
		if !table.Essential && table.Name != "schedules" {
			later = append(later, table.Title)
		}
	}
	want = append(append(want, later...), templates.ListsSheet)
	require.Equal(t, want, book.GetSheetList())
	require.Equal(t, 0, book.GetActiveSheetIndex())
	rows, err := book.GetRows(templates.BeginSheet)
	require.NoError(t, err)
	require.Equal(t, templates.BeginOpening, rows[0][0])
	var first []string
	for _, row := range rows {
		if len(row) > 0 {
			first = append(first, row[0])
		}
	}
	at := slices.Index(first, "When you need it")
	require.Greater(t, at, 6)
	for i, name := range want[1:8] {
		assert.Less(t, slices.Index(first, name), at, name)
		assert.Equal(t, i < 4, slices.Index(first, name) < slices.Index(first, "As you work and sell"), name)
	}
	for _, name := range later {
		assert.Greater(t, slices.Index(first, name), at, name)
	}
}

// style is a cell's style.
func style(t *testing.T, book *excelize.File, sheet, cell string) *excelize.Style {
	t.Helper()
	id, err := book.GetCellStyle(sheet, cell)
	require.NoError(t, err)
	s, err := book.GetStyle(id)
	require.NoError(t, err)
	return s
}

// Each column: its title as the header, with a star where it is needed; the
// note; the format of the prepared cells and of the rows below them.
func TestColumns(t *testing.T) {
	set, book := open(t)
	for _, table := range set.Tables {
		notes, err := book.GetComments(table.Title)
		require.NoError(t, err)
		require.Len(t, notes, len(table.StarterFields()))
		fields, first := table.InOrderOfUse()
		for i, f := range fields {
			letter, err := excelize.ColumnNumberToName(i + 1)
			require.NoError(t, err)
			shown, err := book.GetColVisible(table.Title, letter)
			require.NoError(t, err)
			level, err := book.GetColOutlineLevel(table.Title, letter)
			require.NoError(t, err)
			assert.Equal(t, i < first, shown, "%s %s", table.Title, f.Name)
			assert.Equal(t, i >= first, level == 1, "%s %s", table.Title, f.Name)
			assert.False(t, f.Constraints.Required && !shown, "%s %s must be seen", table.Title, f.Name)
			head, err := book.GetCellValue(table.Title, letter+"1")
			require.NoError(t, err)
			require.Equal(t, f.Title, strings.TrimRight(head, " (*)"))
			assert.Equal(t, f.Constraints.Required, strings.HasSuffix(head, " *"), head)
			assert.Equal(t, !f.Constraints.Required && f.NeededWhen != "", strings.HasSuffix(head, " (*)"), head)
			for _, note := range notes {
				if note.Cell == letter+"1" {
					assert.Equal(t, starter.NoteText(f), note.Paragraph[0].Text)
				}
			}
			for _, row := range []string{"4", "500", "1500"} {
				s := style(t, book, table.Title, letter+row)
				switch f.Cell {
				case templates.Date:
					require.NotNil(t, s.CustomNumFmt)
					assert.Equal(t, "yyyy-mm-dd", *s.CustomNumFmt)
				case templates.Money, templates.SignedMoney:
					assert.Equal(t, 4, s.NumFmt)
				case templates.Name, templates.SetName, templates.LotRef, templates.PieceRef, templates.PieceList,
					templates.SupplyRef, templates.Amount, templates.Text,
					templates.HoursOfDay, templates.HoursOfAll:
					assert.Equal(t, 49, s.NumFmt, "%s %s must keep 0012, 1E5 and 12-5 as they are", table.Title, f.Name)
				case templates.Number, templates.SignedNumber, templates.Percent:
					assert.Zero(t, s.NumFmt, "%s %s: a fixed format would hide a date", table.Title, f.Name)
				}
			}
		}
		panes, err := book.GetPanes(table.Title)
		require.NoError(t, err)
		assert.True(t, panes.Freeze && panes.YSplit == 1 && panes.XSplit == 1)
	}
}

// Choices: pieces, supplies and the rest are offered from the sheets they are
// typed on, below the example lines; supplies and schedules, whose example lines
// are there to be changed, from a list worked out of them; nothing is ever a stop.
func TestChoices(t *testing.T) {
	set, book := open(t)
	from := map[templates.Cell]string{templates.PieceRef: "'Pieces'!$A$4:", templates.PieceList: "'Pieces'!$A$4:",
		templates.SupplyRef: "'Lists'!$P$4:",
		templates.LotRef:    "'Lots'!$A$4:", templates.ScheduleRef: "'Lists'!$Q$4:",
		templates.ChannelRef: "'Channels'!$A$4:"}
	offered := 0
	for _, table := range set.Tables {
		validations, err := book.GetDataValidations(table.Title)
		require.NoError(t, err)
		byColumn := map[string]*excelize.DataValidation{}
		for _, v := range validations {
			require.NotNil(t, v.ErrorStyle)
			assert.Contains(t, []string{"warning", "information"}, *v.ErrorStyle)
			byColumn[strings.TrimRight(strings.Split(v.Sqref, ":")[0], "0123456789")] = v
		}
		fields, _ := table.InOrderOfUse()
		for i, f := range fields {
			letter, err := excelize.ColumnNumberToName(i + 1)
			require.NoError(t, err)
			v := byColumn[letter]
			switch {
			case from[f.Cell] != "":
				require.NotNil(t, v, "%s %s", table.Title, f.Name)
				assert.True(t, strings.HasPrefix(v.Formula1, from[f.Cell]), v.Formula1)
				assert.False(t, v.ShowErrorMessage && f.Cell == templates.PieceList, "several pieces in a cell are right")
			case len(f.Constraints.Enum) > 0:
				require.NotNil(t, v, "%s %s", table.Title, f.Name)
				assert.Equal(t, f.Constraints.Enum, values(t, book, v.Formula1))
			case f.Cell == templates.YesNo:
				assert.Equal(t, []string{"yes", "no"}, values(t, book, v.Formula1))
			case table.Name == "pieces" && f.Name == "kind":
				assert.Len(t, values(t, book, v.Formula1), len(set.Areas))
			default:
				assert.Nil(t, v, "%s %s", table.Title, f.Name)
				continue
			}
			offered++
		}
	}
	assert.Equal(t, 39, offered)
}

// TestNamesAreOfferedOnce: no example line is offered, a line made the owner's is,
// and a name of several lines once.
func TestNamesAreOfferedOnce(t *testing.T) {
	set, book := open(t)
	lists := map[string]templates.Cell{"supplies": templates.SupplyRef, "schedules": templates.ScheduleRef}
	offered := func(table string) (out []string) {
		uses := set.Table("uses")
		fields, _ := uses.InOrderOfUse()
		for i, f := range fields {
			if f.Cell != lists[table] {
				continue
			}
			validations, err := book.GetDataValidations(uses.Title)
			require.NoError(t, err)
			letter, err := excelize.ColumnNumberToName(i + 1)
			require.NoError(t, err)
			for _, v := range validations {
				if strings.HasPrefix(v.Sqref, letter) {
					sheet, cells, _ := strings.Cut(strings.ReplaceAll(v.Formula1, "$", ""), "!")
					first, _, _ := strings.Cut(cells, ":")
					col, row, err := excelize.CellNameToCoordinates(first)
					require.NoError(t, err)
					for r := row; r < row+3; r++ {
						cell, err := excelize.CoordinatesToCellName(col, r)
						require.NoError(t, err)
						text, err := book.CalcCellValue(strings.Trim(sheet, "'"), cell)
						require.NoError(t, err)
						out = append(out, text)
					}
				}
			}
		}
		return out
	}
	assert.Empty(t, strings.Join(offered("schedules"), ""))
	for cell, text := range map[string]string{"Supplies!A3": "Sandpaper 120", "Supplies!A11": "Oil",
		"Schedules!A2": "Painted", "Schedules!A3": "Painted", "Schedules!A16": "Oiled"} {
		sheet, at, _ := strings.Cut(cell, "!")
		require.NoError(t, book.SetCellStr(sheet, at, text))
	}
	assert.Equal(t, []string{"Sandpaper 120", "Oil", ""}, offered("supplies"))
	assert.Equal(t, []string{"Painted", "Oiled", ""}, offered("schedules"))
}

// values are the texts in a range.
func values(t *testing.T, book *excelize.File, formula string) (out []string) {
	t.Helper()
	sheet, cells, ok := strings.Cut(strings.ReplaceAll(formula, "$", ""), "!")
	require.True(t, ok, formula)
	first, last, ok := strings.Cut(cells, ":")
	require.True(t, ok, formula)
	col, from, err := excelize.CellNameToCoordinates(first)
	require.NoError(t, err)
	_, to, err := excelize.CellNameToCoordinates(last)
	require.NoError(t, err)
	for row := from; row <= to; row++ {
		cell, err := excelize.CoordinatesToCellName(col, row)
		require.NoError(t, err)
		text, err := book.GetCellValue(strings.Trim(sheet, "'"), cell)
		require.NoError(t, err)
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}
