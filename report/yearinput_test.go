package report_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/taxyear"
	"piecebook/report"
)

// Goal: receipts that could not be placed stand on the year's list of what is missing,
// with their money, and no other note does.
func TestReceiptsNotPlacedAreMissing(t *testing.T) {
	other := taxyear.Missing{Section: "other"}
	in := &report.YearInput{Tax: &taxyear.Year{Missing: []taxyear.Missing{other}}}
	at := fault.Place{File: "records/Receipts.csv", Row: 2, Column: "What"}
	in.Notes = []fault.Problem{{Code: fault.CodeSlipUnplaced, Note: true, Place: at, MoneyCents: 1200},
		{Code: fault.CodeTypicalArea, Note: true, Place: at, MoneyCents: 900}}
	missing := in.Missing()
	require.Len(t, missing, 2)
	require.Equal(t, "12.00", missing[0].Cents.String())
	require.Contains(t, missing[0].Of[0], "Receipts.csv:2")
	require.Equal(t, other, missing[1])
}
