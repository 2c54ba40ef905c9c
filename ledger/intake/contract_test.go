package intake_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
)

// cell is one typed cell: what it is read as, or the code it is refused with.
type cell struct {
	settings, typed, want string
	refused               fault.Code
}

const comma = "decimal_comma = true\n"

// quoted is a text as a cell of a plain file.
func quoted(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

// try reads one cell of one table in each of its cases.
func try(t *testing.T, cells []cell, files func(typed string) map[string]string, value func(*intake.Result) string) {
	t.Helper()
	for _, c := range cells {
		all := files(quoted(c.typed))
		all["settings.toml"] = c.settings
		res := read(t, all)
		name := fmt.Sprintf("%q %s", c.typed, c.settings)
		if c.refused == "" {
			noErrors(t, res)
			require.Equal(t, c.want, value(res), name)
			continue
		}
		errs := res.Problems.Errors()
		require.NotEmpty(t, errs, name)
		require.Equal(t, c.refused, errs[0].Code, name)
		require.Len(t, errs, 1, name)
	}
}

// What RECORDS.md says of each kind of cell, line by line.

func TestContractDates(t *testing.T) {
	const dmy = "dates = \"dmy\"\n"
	try(t, []cell{
		{"", "2026-03-09", "2026-03-09", ""}, {"", "3/9/2026", "2026-03-09", ""}, {"", "3/9/26", "2026-03-09", ""}, {"", "9 Mar 2026", "2026-03-09", ""},
		{"", "Mar 9, 2026", "2026-03-09", ""}, {dmy, "3/9/2026", "2026-09-03", ""}, {dmy, "3.9.2026", "2026-09-03", ""}, {dmy, "3.9.26", "2026-09-03", ""},
		{"", "3.9.2026", "2026-03-09", ""}, {"", "9\u00a0Mar 2026", "2026-03-09", ""}, {dmy, "2026-03-09", "2026-03-09", ""}, {"", "SEPT 9 2026", "2026-09-09", ""},
		{"", "2026-02-30", "", fault.CodeDateNoSuchDay}, {"", "31/31/2026", "", fault.CodeDateNoSuchDay}, {"", "13/2/2026", "", fault.CodeDateOtherOrder},
		{dmy, "2/13/2026", "", fault.CodeDateOtherOrder}, {"", "2026", "", fault.CodeDateYearOnly}, {"", "March", "", fault.CodeDateNotRead},
		{"", "yesterday", "", fault.CodeDateNotRead}, {"", "3/9", "", fault.CodeDateNotRead}, {"", "Mar 2026", "", fault.CodeDateNotRead},
	}, func(typed string) map[string]string { return file("hours.csv", "worked_on,hours\n"+typed+",1\n") },
		func(r *intake.Result) string { return r.Books.Hours[0].On.String() })
}

func TestContractMoney(t *testing.T) {
	refused := []cell{
		{"", "1.005", "", fault.CodeMoneyDecimals}, {"", "1e9", "", fault.CodeNumberExponent}, {"", "text", "", fault.CodeMoneyNotRead},
		{"", "1,5", "", fault.CodeDecimalMark}, {comma, "1.5", "", fault.CodeDecimalMark}, {"", "1'234.50", "", fault.CodeMoneyNotRead}, {"", "12.34.56", "", fault.CodeMoneyNotRead}, {"", "12.500", "", fault.CodeMoneyDecimals}, {"", "1.250", "", fault.CodeMoneyDecimals},
	}
	good := []cell{
		{"", "1234.5", "1234.50", ""}, {"", "$1,234.50", "1234.50", ""}, {comma, "1.234,50", "1234.50", ""}, {"", "12.5000", "12.50", ""},
		{comma, "1 234,50", "1234.50", ""}, {comma, "1\u00a0234,50", "1234.50", ""}, {comma, "1\u202f234,50", "1234.50", ""}, {comma, "1\u2009234,50", "1234.50", ""},
		{"", "$\u00a01,234.50", "1234.50", ""}, {"", "1,234.50\u00a0$", "1234.50", ""}, {"currency = \"EUR\"\n" + comma, "1.234,50 EUR", "1234.50", ""},
	}
	equipment := func(typed string) map[string]string {
		return file("equipment.csv", "bought_on,what,cost,life\n2026-01-09,saw,"+typed+",5\n")
	}
	try(t, append(append([]cell{{"", "-12.00", "", fault.CodeMoneyNegative}, {"", "(12.00)", "", fault.CodeMoneyNegative}},
		good...), refused...),
		equipment, func(r *intake.Result) string { return r.Books.Equipment[0].Cost.String() })
	// A negative makes sense where money can come back.
	try(t, append(append([]cell{{"", "-12.00", "-12.00", ""}, {"", "(12.00)", "-12.00", ""}, {"", "\u221212.00", "-12.00",
		""}, {"", "-$12", "-12.00", ""}, {"", "($12.00)", "-12.00", ""}, {"", "- $12.00", "-12.00", ""}, {"", "+ $12.00", "12.00", ""}}, good...), refused...),
		func(typed string) map[string]string {
			return file("expenses.csv", "paid_on,what,group,amount\n2026-01-09,x,other,"+typed+"\n")
		}, func(r *intake.Result) string { return r.Books.Expenses[0].Amount.String() })
}

func TestContractNumbers(t *testing.T) {
	try(t, []cell{
		{"", "7.5", "15/2", ""}, {"", "7 1/2", "15/2", ""}, {"", "7½", "15/2", ""}, {comma, "7,5", "15/2", ""}, {"", "7\u00a01/2", "15/2", ""}, {"", "1,250", "1250", ""},
		{"", "7 ½", "15/2", ""}, {"", "7.5 sq ft", "15/2", ""},
		{"", "text", "", fault.CodeNumberNotRead}, {"", "NaN", "", fault.CodeNumberNotFinite}, {"", "inf", "", fault.CodeNumberNotFinite}, {"", "1e3", "", fault.CodeNumberExponent},
	}, func(typed string) map[string]string {
		return pieces("piece,kind,got_on,price,area", "P1,desk,2026-01-05,40,"+typed)
	}, func(r *intake.Result) string { return r.Books.Pieces[0].Area.RatString() })
}

func TestContractLengths(t *testing.T) {
	try(t, []cell{
		{"", "36", "36", ""}, {"", "36\"", "36", ""}, {"", "3' 6\"", "42", ""}, {"", "7½", "15/2", ""}, {"", "7 1/2", "15/2", ""}, {"", "3’ 6”", "42", ""}, {"", "3 ft 6 in", "42", ""},
		{"units = \"metric\"\n", "90", "90", ""}, {"units = \"metric\"\n", "1.2 m", "120", ""}, {"", "36\u00a0in", "36", ""},
		{"", "wide", "", fault.CodeLengthNotRead}, {"", "NaN", "", fault.CodeNumberNotFinite}, {"", "36x24", "", fault.CodeLengthNotRead},
	}, func(typed string) map[string]string {
		return file("surfaces.csv", "piece,part,shape,width,height\nP1,top,rectangle,"+typed+",18\n")
	}, func(r *intake.Result) string { return r.Books.Surfaces[0].Width.RatString() })
}

func TestContractAmounts(t *testing.T) {
	try(t, []cell{
		{"", "8 fl oz", "1/4", ""}, {"", "1/2 qt", "1/2", ""}, {"", "0.5", "1/2", ""}, {"", "1", "1", ""}, {"", "8\u00a0fl\u00a0oz", "1/4", ""}, {"", "½ pint", "1/4", ""},
		{"", "8 Fl. Oz.", "1/4", ""}, {"", "2 cups", "1/2", ""}, {"", "0.25 gal", "1", ""}, {"", "8 fluid ounces", "1/4", ""}, {"", "1/4 quarts", "1/4", ""}, {comma, "0,5 qt", "1/2", ""},
		{"", "3 sheets", "", fault.CodeUnitOtherKind}, {"", "8 oz", "", fault.CodeUnitOtherKind}, {"", "8 furlongs", "", fault.CodeUnitUnknown}, {"", "some", "", fault.CodeAmountNotRead},
	}, func(typed string) map[string]string {
		return file("uses.csv", usesHead+"2026-01-09,P1,Primer,,,,"+typed+"\n")
	},
		func(r *intake.Result) string { return r.Books.Uses[0].Amount.RatString() })
	for _, unit := range []string{"each", "sheet", "disc", "pad", "roll", "pair", "can", "tube", "bag", "discs", "tubes",
		"oz", "lb", "g", "kg", "in", "ft", "yd", "cm", "m", "ml", "l", "liter", "litres", "pounds"} {
		noErrors(t, read(t, file("supplies.csv", "supply,group,container\nX,other,12 "+unit+"\n")))
	}
}

func TestContractHours(t *testing.T) {
	try(t, []cell{
		{"", "2.5", "5/2", ""}, {"", "2:30", "5/2", ""}, {"", "2h 30m", "5/2", ""}, {"", "150 min", "5/2", ""}, {comma, "2,5", "5/2", ""}, {"", "2h\u00a030m", "5/2", ""}, {"", "24", "24", ""},
		{"", "2½", "5/2", ""}, {"", "2 hrs", "2", ""}, {"", "25", "", fault.CodeHoursTooMany}, {"", "2:75", "", fault.CodeHoursNotRead}, {"", "-1", "", fault.CodeHoursNotRead}, {"", "two", "", fault.CodeHoursNotRead},
	}, func(typed string) map[string]string {
		return file("hours.csv", "worked_on,hours\n2026-01-09,"+typed+"\n")
	},
		func(r *intake.Result) string { return r.Books.Hours[0].Hours.RatString() })
	// A Pieces row may hold more than a day.
	res := read(t, pieces("piece,kind,got_on,price,area,hours", "P1,desk,2026-01-05,40,33,38"))
	noErrors(t, res)
	require.Equal(t, "38", res.Books.Hours[0].Hours.RatString())
}

func TestContractLists(t *testing.T) {
	files := func(typed string) map[string]string {
		return map[string]string{"records/lots.csv": "lot,got_on,price\nL1,2026-01-02,90\n",
			"records/pieces.csv": "piece,kind,got_on,price,lot,set,area\nP1,chair,2026-01-05,40,,Four,12\nP2,chair,2026-01-05,40,,four,12\nP3,stool,,,L1,,8\n\"Table, oak\",desk,2026-01-05,60,,,33\nA+B,desk,2026-01-05,60,,,33\n",
			"records/hours.csv":  "worked_on,hours,pieces\n2026-01-09,1," + typed + "\n"}
	}
	try(t, []cell{
		{"", "P1; P2", "P1|P2", ""}, {"", "P1,P2", "P1|P2", ""}, {"", "P1 + P2", "P1|P2", ""}, {"", "L1", "P3", ""}, {"", "FOUR", "P1|P2", ""}, {"", " p1 ", "P1", ""},
		{"", "Table, oak", "Table, oak", ""}, {"", "A+B", "A+B", ""}, {"", "four; L1", "P1|P2|P3", ""}, {"", "P1\u00a0", "P1", ""}, {"", "P1;P1", "P1", ""},
		{"", "P9", "", fault.CodePieceUnknown}, {"", "P1 P2", "", fault.CodePieceUnknown},
	}, files, func(r *intake.Result) string { return strings.Join(r.Books.Hours[0].Pieces, "|") })
	// One name space: a lot, a set and a piece cannot share a name.
	for _, rows := range []string{"P1,chair,2026-01-05,40,,p1,12\n", "L1,chair,2026-01-05,40,,,12\nP3,stool,,,l1,,8\n",
		"P1,chair,2026-01-05,40,,L1,12\nP3,stool,,,L1,,8\n"} {
		all := files("P1")
		all["records/pieces.csv"] = "piece,kind,got_on,price,lot,set,area\n" + rows
		codes := ""
		for _, p := range read(t, all).Problems.Errors() {
			codes += string(p.Code) + " "
		}
		require.Contains(t, codes, string(fault.CodeNameTwice), rows)
	}
}

// How a table is found: case, blanks, - and _, and a trailing year, month or
// number do not count.
func TestContractTableNames(t *testing.T) {
	for _, name := range []string{"hours", "HOURS", "Hours 2026", "hours-2026", "hours_2026-03", "hours (2)",
		"Hours 2026-03", "hours march", "Hours Mar 2026", "hours 3", "time sheet", "Time-Sheet_2026",
		"hours.2026", "hours 2026 (1)", "2026/hours"} {
		res := read(t, file(name+".csv", "worked_on,hours\n2026-01-09,1\n"))
		require.Len(t, res.Books.Hours, 1, name)
	}
	for _, name := range []string{"hourses", "my hours", "hours old"} {
		require.Empty(t, read(t, file(name+".csv", "worked_on,hours\n2026-01-09,1\n")).Books.Hours, name)
	}
	res := read(t, map[string]string{"records/other_income 2026.csv": "got_on,what,group,amount\n2026-01-09,x,scrap,5\n",
		"records/Tax-Paid.csv": "paid_on,period,amount\n2026-01-09,Q4,5\n"})
	noErrors(t, res)
	require.Len(t, res.Books.OtherIncome, 1)
	require.Len(t, res.Books.TaxPaid, 1)
}
