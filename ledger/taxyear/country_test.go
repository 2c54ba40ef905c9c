package taxyear_test

import (
	"os"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/templates"
)

// An invented country: other line names in another order, no parts, costs of
// stock taken and given on one line, one line for most expenses.
var invented = fstest.MapFS{
	"lines-xx.toml": {Data: []byte(`
country = "XX"
form = "Form K"
first_year = 2020
last_year = 2030
[holds]
profit = "Z"
cost = "S"
expenses = "E"
[money]
code = "XXD"
name = "invented dollars"
[[line]]
line = "Z"
label = "Result"
adds = ["M", "-S", "-E"]
[[line]]
line = "M"
label = "Money in"
takes = ["gross receipts", "-refunds", "other income"]
[[line]]
line = "S"
label = "Goods used"
takes = ["opening stock", "acquired", "-kept or donated", "supplies bought", "parts", "outside work", "-closing stock"]
[[line]]
line = "E"
label = "Expenses"
adds = ["E1", "E2"]
[[line]]
line = "E1"
label = "Roads and channels"
takes = ["trips", "fees", "delivery cost"]
[[line]]
line = "E2"
label = "The rest"
takes = ["depreciation", "equipment above the limit", "equipment at once", "supplies when used", "expense: advertising", "expense: insurance",
  "expense: legal and professional", "expense: office", "expense: booth rent", "expense: storage", "expense: repairs", "expense: small tools",
  "expense: licences", "expense: utilities", "expense: training", "expense: other"]
`)},
	"depreciation-xx.toml": {Data: []byte(`
source = "an invented table"
[[table]]
life = "first year"
percent = ["100"]
[[table]]
life = "5"
percent = ["50", "50"]
[[table]]
life = "7"
percent = ["50", "25", "25"]
`)},
	"records-xx.toml": {Data: []byte(`country = "XX"`)},
}

// Goal: another country is another file. Method: the year with everything in it
// by the invented country's lines; its reconciliations hold, its result is that
// of the other country's lines but for what the tables write off, and an amount
// is found on the line that the file puts it on.
func TestAnotherCountryIsAnotherFile(t *testing.T) {
	xx, err := templates.ReadTax(invented, "XX")
	require.NoError(t, err)
	l, set := costed(t, os.DirFS(everything), 2022)
	us := worked(t, l, set, 2022)
	y, err := taxyear.For(l, 2022, xx, set.AtOnceCents)
	require.NoError(t, err)
	sound(t, y)
	assert.Equal(t, us.Net()+us.Depreciation, y.Net()+y.Depreciation)
	number, stock := y.Taking(figures.LineClosingStock)
	assert.Equal(t, "S", number)
	_, same := us.Taking(figures.LineClosingStock)
	assert.Equal(t, same, stock)
	assert.Equal(t, us.Amount("42"), y.Amount("S"))
	assert.Equal(t, []string{"E", "E1", "E2"}, y.Table.Under("E"))
	for _, r := range y.Remarks {
		assert.NotRegexp(t, "Form [0-9]|Pub\\.|Schedule", r.Words)
	}
}
