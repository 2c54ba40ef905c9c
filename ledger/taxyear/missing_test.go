package taxyear_test

import "testing"

const (
	missingTrips = `
trips
on,miles,purpose,to
`
	missingVehicle = `
settings
[vehicle]
in_service = "2025-05-01"
"2026" = 900
`
	missingCount = `
counts
counted_on,supply,amount
`
)

// Goal: what is missing is asked for where it is missing, and nowhere else.
// Method: of each, two books of a year that lack it and two that do not.
func TestMissingOnlyWhereItIs(t *testing.T) {
	gone := remarkPieces + remarkRemovals
	shelf := remarkUse + "2026-12-30,A,Stripper\n"
	checkRemarks(t, 2026, []remarkCase{
		{words: "The year is not whole",
			must: [2]string{remarkPieces, remarkExpenses + "2026-11-30,ink,office,24,,\n"},
			mustNot: [2]string{remarkExpenses + "2026-12-01,ink,office,24,,\n",
				remarkPieces + missingTrips + "2026-12-31,5,post,town\n"}},
		{words: "no receipt: ",
			must: [2]string{remarkExpenses + "2026-03-01,ink,office,75.01,,\n", equipment("2026-03-01,saw,100,,5,,\n")},
			mustNot: [2]string{remarkExpenses + "2026-03-01,ink,office,75,,\n",
				remarkIncome + "2026-03-01,paint,rebate,100\n"}},
		{words: "was donated; its fair value",
			must:    [2]string{gone + "2026-03-01,A,donated,,,R1\n", gone + "2026-03-01,B,donated,,,\n"},
			mustNot: [2]string{gone + "2026-03-01,A,donated,,120,R1\n", gone + "2026-03-01,A,scrapped,,,\n"}},
		{words: "was donated; no receipt is named",
			must:    [2]string{gone + "2026-03-01,A,donated,,120,\n", gone + "2026-03-01,B,donated,,60,\n"},
			mustNot: [2]string{gone + "2026-03-01,A,donated,,120,R1\n", gone + "2026-03-01,A,kept,,120,\n"}},
		{words: "was kept; its fair value",
			must:    [2]string{gone + "2026-03-01,A,kept,,,\n", gone + "2026-03-01,B,kept,,,\n"},
			mustNot: [2]string{gone + "2026-03-01,A,kept,,120,\n", gone + "2026-03-01,A,scrapped,,,\n"}},
		{words: "no police or insurance paper is named",
			must:    [2]string{gone + "2026-03-01,A,stolen,80,,\n", gone + "2026-03-01,B,stolen,,,\n"},
			mustNot: [2]string{gone + "2026-03-01,A,stolen,80,,F1\n", gone + "2026-03-01,A,scrapped,12,,\n"}},
		{words: "The day the vehicle was first used",
			must:    [2]string{missingTrips + "2026-02-01,5,post,town\n", missingTrips + "2026-12-01,5,post,town\n"},
			mustNot: [2]string{missingVehicle + missingTrips + "2026-02-01,5,post,town\n", remarkPieces}},
		{words: "The vehicle's total miles of 2026 are not given",
			must: [2]string{missingTrips + "2026-12-01,5,post,town\n", missingTrips + "2026-12-31,5,post,\n"},
			// A year so far, and a total that is given.
			mustNot: [2]string{missingTrips + "2026-02-01,5,post,town\n",
				missingVehicle + missingTrips + "2026-12-01,5,post,town\n"}},
		{words: "are fewer than the log's",
			must: [2]string{missingVehicle + missingTrips + "2026-12-01,901,post,town\n",
				missingVehicle + missingTrips + "2026-11-01,500,post,town\n2026-12-01,500,post,town\n"},
			mustNot: [2]string{missingVehicle + missingTrips + "2026-12-01,900,post,town\n",
				missingVehicle + missingTrips + "2026-12-01,5,post,town\n"}},
		{words: "Some trips do not say where they went",
			must: [2]string{missingTrips + "2026-02-01,5,post,\n", missingTrips +
				"2026-02-01,5,post,town\n2026-02-02,5,post,\n"},
			mustNot: [2]string{missingTrips + "2026-02-01,5,post,town\n",
				missingTrips + "2025-02-01,5,post,\n2026-02-01,5,post,town\n"}},
		{words: "The shelf was not counted at the year's end for",
			must: [2]string{remarkPieces + shelf, remarkPieces + shelf + missingCount + "2027-01-05,Stripper,8 fl oz\n"},
			// A year so far, and both counted.
			mustNot: [2]string{remarkPieces + remarkUse + "2026-02-01,A,Stripper\n", remarkPieces + shelf + missingCount +
				"2026-12-31,Stripper,8 fl oz\n2027-01-05,Paint,1 qt\n"}},
	})
}
