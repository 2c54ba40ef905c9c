package sheets

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Number formats as spreadsheet programs write them. Source of the built-in
// numbers: ECMA-376 part 1, 18.8.30.
func TestStyles(t *testing.T) {
	for code, want := range map[string]style{
		"General": {}, "0": {}, "0.00": {}, "#,##0.00": {}, `"P"0`: {before: "P"}, `[$€-407] #,##0.00`: {currency: "€"}, `0.00" days"`: {after: "days"}, `0\h`: {after: "h"}, `0" fl oz";-0" (back)"`: {after: "fl oz"}, `General" qt"`: {after: "qt"}, `[$USD] 0.00`: {currency: "USD"}, `h" h"`: {date: true}, "# ?/?": {}, "@": {},
		`_("$"* #,##0.00_);_("$"* (#,##0.00);_("$"* "-"??_);_(@_)`: {currency: "$"}, "[Red]-0.00": {},
		"yyyy-mm-dd": {date: true, day: true}, `[$-409]d\-mmm\-yy;@`: {date: true, day: true}, "[h]:mm": {date: true}, "h:mm AM/PM": {date: true}, "mm:ss.0": {date: true},
		"0%": {percent: true}, "0.00%": {percent: true}, `0"%"`: {},
		"0.00E+00": {exponent: true}, "##0.0e-0": {exponent: true},
		"000": {zeros: 3}, "00000": {zeros: 5},
	} {
		got := styleOf("164", code)
		require.Equal(t, strings.Contains(code, "0.00") && !want.percent && !want.exponent && want.after == "",
			got.money, code)
		got.money = false
		require.Equal(t, want, got, code)
	}
	for id, want := range map[string]style{"0": {}, "1": {}, "4": {}, "9": {percent: true}, "10": {percent: true},
		"11": {exponent: true}, "12": {},
		"14": {date: true, day: true}, "22": {date: true, day: true}, "23": {}, "45": {date: true}, "48": {exponent: true},
		"49": {}, "": {}} {
		got := styleOf(id, "")
		require.Equal(t, id == "4", got.money, id)
		got.money = false
		require.Equal(t, want, got, id)
	}
}

func TestCellNames(t *testing.T) {
	for name, want := range map[string][2]int{"A1": {0, 1}, "b4": {1, 4}, "Z9": {25, 9}, "AA10": {26, 10},
		"XFD1048576": {16383, 1048576}} {
		column, row, ok := readCellName(name)
		require.True(t, ok, name)
		require.Equal(t, want, [2]int{column, row}, name)
	}
	for _, name := range []string{"", "A", "1", "A1B", "$A$1", "ABCD1", "A-1", "é1"} {
		_, _, ok := readCellName(name)
		require.False(t, ok, name)
	}
	require.Equal(t, "AB", ColumnLetters(27))
}
