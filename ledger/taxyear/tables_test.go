package taxyear_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/taxyear"
	"piecebook/templates"
)

// Every text that the year's tables print promises nothing and names a source.
func TestTaxTablesNameTheirSources(t *testing.T) {
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	set, err := templates.Load()
	require.NoError(t, err)
	groups := set.Table("expenses").Field("group").Constraints.Enum
	known := taxyear.Asked(groups, []string{"insurance", "tool sold", "scrap", "allowance",
		"rebate", "other"})
	for year := 2021; year <= 2028; year++ {
		lines := tax.Lines(year)
		for _, l := range lines.Lines {
			assert.NotEmpty(t, l.Source, "line %s", l.Line)
			assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, l.Label)
			for _, ask := range l.Asks {
				assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, ask.Words)
				assert.Subset(t, known, ask.Of, "line %s", l.Line)
			}
		}
		other := "27b"
		if lines.Year < 2025 {
			other = "27a"
		}
		assert.NotNil(t, lines.Line(other), year)
		assert.Equal(t, year < 2022 || year > 2026, strings.Contains(lines.Check, "No lines are known"), year)
	}
	for _, k := range tax.Keep {
		assert.NotEmpty(t, k.Source, k.What)
	}
	for _, c := range tax.Treatments {
		assert.NotEmpty(t, c.Source, c.Words)
	}
}

// Each amount of the books is taken by one line of each year, and each line
// takes only amounts there are.
func TestEachAmountIsTakenOnce(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	for year := 2022; year <= 2026; year++ {
		taken := map[string]int{}
		for _, l := range tax.Lines(year).Lines {
			for _, term := range l.Takes {
				taken[term.Name]++
			}
		}
		for _, amount := range taxyear.Amounts(set.Table("expenses").Field("group").Constraints.Enum) {
			assert.Equal(t, 1, taken[amount], "%s in %d", amount, year)
			delete(taken, amount)
		}
		assert.Empty(t, taken, "lines of %d take what there is not", year)
	}
}
