package fault_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/fault"
)

func TestNearest(t *testing.T) {
	known := []string{"Primer, oil", "Primer, bonding", "Paste wax"}
	assert.Equal(t, "Paste wax", fault.Nearest("past wax", known))
	assert.Equal(t, "", fault.Nearest("gloves", known), "none is near enough to be meant")
	assert.Equal(t, "", fault.Nearest("P09", []string{"P01", "P02", "P03"}), "all are equally near, so none is meant")
	assert.Equal(t, "P1", fault.Nearest("p1", []string{"P1", "P2", "P3", "P4"}))
}

func TestAlike(t *testing.T) {
	for _, pair := range [][2]string{{"Dreser", "dresser"}, {"chairs", "chair"}, {"side tabel", "side table"},
		{"Markt", "market"}} {
		assert.True(t, fault.Alike(pair[0], pair[1]), "%v", pair)
	}
	for _, pair := range [][2]string{{"booth 1", "booth 2"}, {"end table", "side table"}, {"bed", "bad"},
		{"stool", "chest"}} {
		assert.False(t, fault.Alike(pair[0], pair[1]), "%v", pair)
	}
}

func TestPlacePrintsEveryForm(t *testing.T) {
	p := fault.Place{File: "records/Shop book.xlsx", Sheet: "Sales", Row: 4}
	assert.Equal(t, `records/Shop book.xlsx, sheet "Sales", row 4, column "price"`, p.At("price").String())
	assert.Equal(t, "Shop book.xlsx Sales:4", p.Short())
	assert.Equal(t, "a.csv", fault.Place{File: "a.csv"}.String())
	assert.Equal(t, "a.csv, row 4", fault.Place{File: "a.csv", Row: 4}.String())
	assert.Equal(t, "sales.csv:14", fault.Place{File: "records/sales.csv", Row: 14}.Short())
}

// Errors come in reading order, notes by the money they could move, the same
// thing reported twice is reported once.
func TestListOrders(t *testing.T) {
	var l fault.List
	at := func(row int) fault.Place { return fault.Place{File: "a.csv", Row: row} }
	l.Add(fault.Problem{Code: "b", Place: at(3)}, fault.Problem{Code: "a", Place: at(2)}, fault.Problem{Code: "a",
		Place: at(2)},
		fault.Problem{Code: "n", Note: true, Place: at(1), MoneyCents: 5}, fault.Problem{Code: "m", Note: true, Place: at(9),
			MoneyCents: 50})
	assert.Len(t, l.All(), 4)
	assert.Equal(t, 2, l.Errors()[0].Place.Row)
	assert.Equal(t, 9, l.Notes()[0].Place.Row)
	assert.True(t, l.HasErrors())
}

// Codes are for good: each is lower-case words with dashes, and no two
// catalogues give one code two meanings.
func TestCodesAreWellFormedAndUnique(t *testing.T) {
	form := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[fault.Code]string{}
	for name, catalogue := range map[string]map[fault.Code]string{"intake": fault.IntakeCodes,
		"checks": fault.ChecksCatalogue, "costing": fault.CostingCatalogue, "missing": fault.MissingCatalogue} {
		for code, meaning := range catalogue {
			assert.Regexp(t, form, string(code))
			assert.NotEmpty(t, meaning, code)
			assert.Empty(t, seen[code], "%s is in two catalogues", code)
			seen[code] = name
		}
	}
}

// A note that stands first does so before one that could move more.
func TestFirstNotesStandFirst(t *testing.T) {
	var l fault.List
	l.Add(fault.Problem{Code: "a", Note: true, Why: "much", MoneyCents: 900})
	l.Add(fault.Problem{Code: "b", Note: true, Why: "first", MoneyCents: 1, First: true})
	assert.Equal(t, "first", l.Notes()[0].Why)
}
