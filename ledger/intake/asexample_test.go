package intake_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
)

// A name whose own row still begins with example: is told with the place of that
// row and what to delete there, and is read once that is done.
func TestNamesStillMarkedAsExamples(t *testing.T) {
	supplies := "Supply *,Group *,Size *\n%Primer,primer,1 qt\nVarnish,topcoat,1 qt\n"
	schedules := "schedule,supply,coats\n%Painted,Varnish,2\n"
	pieces := "piece,kind,got_on,price,area,schedule,finished_on\nP1,chair,2026-01-05,40,30,Painted,2026-01-09\n" +
		"%P2,desk,2026-01-05,40,30,,\n"
	uses := "used_on,piece,supply,amount\n2026-01-09,P1,primer,0.5\n2026-01-09,P2,Varnish,0.5\n"
	with := func(mark string) map[string]string {
		marked := func(text string) string { return strings.ReplaceAll(text, "%", mark) }
		return map[string]string{"records/supplies.csv": marked(supplies), "records/schedules.csv": marked(schedules),
			"records/pieces.csv": marked(pieces), "records/uses.csv": uses}
	}
	require.Empty(t, read(t, with("")).Problems.Errors())
	fixes := map[fault.Code]string{}
	for _, p := range read(t, with("Example: ")).Problems.Errors() {
		if p.Code != fault.CodeRefusedRow { // of the use of the piece whose schedule is not read
			fixes[p.Code] = p.Fix
		}
	}
	const from = ` is still marked as an example, which is not read. Delete "example:" in records/`
	require.Equal(t, map[fault.Code]string{
		fault.CodeSupplyUnknown:   `Its row in Supplies` + from + `supplies.csv, row 2, column "Supply *".`,
		fault.CodeScheduleUnknown: `Its row in Schedules` + from + `schedules.csv, row 2, column "schedule".`,
		fault.CodePieceUnknown:    `Its row in Pieces` + from + `pieces.csv, row 3, column "piece".`}, fixes)
}

// A missing column is named as the other columns of its sheet are.
func TestMissingColumnIsNamedAsItsSheetHasThem(t *testing.T) {
	for head, want := range map[string]string{"pieces,hours": "Add a column worked_on.",
		"Pieces *,Hours *": "Add a column Worked on."} {
		errs := read(t, file("hours.csv", head+"\nP1,2\n")).Problems.Errors()
		require.Len(t, errs, 1)
		require.Equal(t, fault.CodeColumnMissing, errs[0].Code)
		require.Equal(t, want, errs[0].Fix)
	}
}
