package measure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/money"
)

// A gallon is 4 quarts of 32 fluid ounces (NIST Handbook 44, Appendix C), a
// square metre 10.7639 square feet.
func TestCoveragePerUnitIsWorkedOut(t *testing.T) {
	for _, c := range []struct {
		text, container string
		metric          bool
		want            string
	}{
		{"12 m²/l", "750 ml", true, "9"},
		{"12 sq m per litre", "0.75 l", true, "9"},
		{"400 sq ft/gal", "1 qt", false, "100"},
		{"400 sq. ft. per gallon", "1 gal", false, "400"},
		{"400/gal", "16 fl oz", false, "50"},
		{"100 a qt", "1 pt", false, "50"},
		{"10 m2/l", "1 l", false, "107.64"},
		{"8 per sheet", "50 sheets", false, "400"},
		{"400 sq ft/gal", "1 lb", false, ""},
		{"400 sq ft", "1 qt", false, ""},
		{"1/2", "1 qt", false, ""},
		{"400 yd/gal", "1 qt", false, ""},
	} {
		container, refusal := ReadAmount(c.container, Style{})
		require.Nil(t, refusal)
		does, _, ok := CoveragePer(c.text, Style{}, c.metric, container)
		require.Equal(t, c.want != "", ok, c.text)
		if ok {
			require.Equal(t, c.want, money.AtMost(does, 2), c.text)
		}
	}
}
