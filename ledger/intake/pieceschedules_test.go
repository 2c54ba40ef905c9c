package intake_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
)

// withNamedUse are books with a finished piece that has a schedule on its row, and one
// line of Uses that names it.
func withNamedUse(supply string) map[string]string {
	return map[string]string{
		"records/supplies.csv": "supply,group,container,coverage\nPrimer,primer,1 qt,80\nPaint,paint,1 qt,80\n" +
			"Wax,wax,1 lb,100\n",
		"records/schedules.csv": "schedule,supply,coats\nPainted,Primer,1\nPainted,Paint,2\n",
		"records/pieces.csv": "piece,kind,got_on,price,area,finished_on,schedule\n" +
			"P1,dresser,2026-01-05,40,30,2026-01-20,Painted\n",
		"records/uses.csv": "used_on,pieces,supply\n2026-01-19,P1," + supply + "\n"}
}

// A schedule that is not counted since Uses names the piece is told, but where the
// lines of Uses have any of its supplies they stand for it.
func TestScheduleNotCountedIsTold(t *testing.T) {
	notes := func(files map[string]string) (why []string) {
		for _, n := range read(t, files).Problems.Notes() {
			if n.Code == fault.CodeScheduleNotCounted {
				why = append(why, n.Why)
			}
		}
		return why
	}
	require.Equal(t, []string{"P1 has the schedule Painted on its row, but Uses (row 2) names it, so the " +
		"schedule is not " +
		"counted: Primer, Paint."}, notes(withNamedUse("Wax")))
	require.Empty(t, notes(withNamedUse("Primer")))
}

// Hours on a piece's row and in Hours are told with both sums, and the note says what
// it is about where its words stand alone.
func TestHoursTwiceTellsBothSums(t *testing.T) {
	for lines, want := range map[string]string{
		"2026-01-09,P1,2\n2026-01-10,P1,4\n": "P1 has 6 h on its row and 6 h on lines of Hours (rows 2, 3), and both " +
			"count: 12 h (the same sum, so most likely counted twice).",
		"2026-01-09,P1,2.5\n":   "P1 has 6 h on its row and 2.5 h on lines of Hours (row 2), and both count: 8.5 h.",
		"2026-01-09,P1; P2,3\n": "P1 has 6 h on its row and a part of 3 h on lines of Hours (row 2), and both count.",
	} {
		res := read(t, map[string]string{"records/hours.csv": "worked_on,pieces,hours\n" + lines,
			"records/pieces.csv": "piece,kind,got_on,price,area,hours\nP1,dresser,2026-01-05,40,30,6\n" +
				"P2,dresser,2026-01-05,40,30,\n"})
		found := false
		for _, n := range res.Problems.Notes() {
			if n.Code == fault.CodeHoursTwice {
				found = true
				require.Equal(t, want, n.Why)
				require.Equal(t, "P1: hours stand twice", n.About)
			}
		}
		require.True(t, found, lines)
	}
}

// A line of Schedules with a supply whose own row is still an example may go too.
func TestScheduleLineWithExampleSupplyMayGo(t *testing.T) {
	errs := read(t, map[string]string{"records/supplies.csv": "Supply *,Group *,Size *\nExample: Primer,primer,1 qt\n",
		"records/schedules.csv": "schedule,supply,coats\nPainted,Primer,1\n"}).Problems.Errors()
	require.Len(t, errs, 1)
	require.Equal(t, `Its row in Supplies is still marked as an example, which is not read. Delete "example:" in `+
		`records/supplies.csv, row 2, column "Supply *", or delete this line of Schedules.`, errs[0].Fix)
}
