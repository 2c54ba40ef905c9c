package taxyear_test

import (
	"os"
	"testing"

	"piecebook/report/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/ledger/testkit"
	"piecebook/templates"
)

// Goal: another country is another file. Method: the year with everything in it
// by the invented country's lines; its reconciliations hold, its result is that
// of the other country's lines but for what the tables write off, and an amount
// is found on the line that the file puts it on.
func TestAnotherCountryIsAnotherFile(t *testing.T) {
	xx, err := templates.ReadTax(testkit.InventedCountry, "XX")
	require.NoError(t, err)
	l, set := costed(t, os.DirFS(everything), 2022)
	us := worked(t, l, set, 2022)
	y, err := taxyear.For(l, 2022, xx, set.RatesFor("USD").AtOnceCents)
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
		assert.NotRegexp(t, "Form [0-9]|Pub\\.|Schedule", words.YearNote(r.Note))
	}
}
