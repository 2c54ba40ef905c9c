package shapes

import (
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// A workbook keeps a time as a part of a day: 2:30 as 0.104166…, 26:30 as
// 1.104166…, 24:00 as 1 (ECMA-376 part 1, 18.17.4). So whole days are hours in
// a cell shown as a time, and are what 1/2 or 3 became in a cell shown as a
// date.
func TestHoursOfCellsShownAsTimes(t *testing.T) {
	for _, c := range []struct {
		value  any
		format string
		hours  string // empty: reported as a date
	}{
		{0.10416666666666667, "h:mm", "5/2"}, {1.1041666666666667, "[h]:mm:ss", "53/2"}, {1, "[h]:mm", "24"}, {2, "[hh]:mm", "48"},
		{0.10416666666666667, "m/d/yyyy", "5/2"}, {0.10416666666666667, "[mm]:ss", "5/2"}, {3, "0.00", "3"},
		{46024, "d-mmm", ""}, {46024, "m/d/yyyy", ""}, {44562, "mmm", ""}, {46024.1, "m/d/yyyy h:mm", ""}, {46024, "[h]:mm", ""},
		{3, "d-mmm", ""}, {1.5, "yyyy-mm-dd", ""}, {3, `[$-409]dddd`, ""},
	} {
		b := workbook("Pieces", func(f *excelize.File) {
			row(f, 1, "piece", "kind", "got_on", "price", "area", "hours")
			row(f, 2, "P9", "chair", "2026-01-05", 4, 3, c.value)
			style, _ := f.NewStyle(&excelize.Style{CustomNumFmt: &c.format})
			_ = f.SetCellStyle("Pieces", "F2", "F2", style)
		})
		res := read(t, map[string]string{"records/pieces.csv": "", "records/b.xlsx": b})
		if c.hours == "" {
			require.Len(t, res.Problems.Errors(), 1, "%v as %s", c.value, c.format)
			require.Equal(t, fault.CodeNumberIsDate, res.Problems.Errors()[0].Code, "%v as %s", c.value, c.format)
			continue
		}
		require.Empty(t, res.Problems.Errors(), "%v as %s", c.value, c.format)
		require.Len(t, res.Books.Hours, 1)
		require.Equal(t, c.hours, res.Books.Hours[0].Hours.RatString(), "%v as %s", c.value, c.format)
	}
}

// A whole column of days that a plain file holds as counts is reported once, as
// that, and is not taken for a column of another meaning.
func TestColumnOfCountedDays(t *testing.T) {
	res := read(t, map[string]string{
		"records/pieces.csv": "piece,kind,got_on,price,area,sold\nP1,chair,2026-01-05,4,3,46031\nP2,chair,2026-01-05,4,3,46032\nP3,chair,2026-01-05,4,3,46033\n"})
	require.Len(t, res.Problems.Errors(), 1)
	p := res.Problems.Errors()[0]
	require.Equal(t, fault.CodeDateIsNumber, p.Code)
	require.Contains(t, p.Why, "2026-01-09", "46031 by Excel's count from 1900, from memory")
	require.Contains(t, p.Why, "rows 2 to 4")
	require.Empty(t, res.Proposals)
}

// A sheet that is turned over has no layout: other programs would read its
// rows as columns.
func TestTurnedSheetHasNoLayout(t *testing.T) {
	res := read(t, map[string]string{"records/pieces.csv": "piece,P1,P2\nkind,dresser,chair\n" +
		"got on,2026-01-05,2026-01-06\nprice,40,15\narea,30,12\n"})
	require.Len(t, res.Books.Pieces, 2)
	require.Len(t, res.Layouts, 1)
	require.Equal(t, "supplies", res.Layouts[0].Table)
}
