package intake

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Error values as spreadsheet programs show them, in some of their languages
// (from memory), and texts that only look so.
func TestErrorTexts(t *testing.T) {
	for _, text := range []string{"#REF!", "#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#VALUE!", "#SPILL!", "#CALC!", "#GETTING_DATA", "#FIELD!", "#BLOCKED!",
		"#ERROR!", "#BEZUG!", "#WERT!", "#NV", "#VALEUR!", "#NOM?", "#¡REF!", "#¿NOMBRE?", "#N/D", "Err:502", "#ref!"} {
		require.True(t, errorText.MatchString(text), text)
	}
	for _, text := range []string{"#12", "#1 pine", "# of coats?", "err", "Err: 5", "#", "#4/0", "No. #7!x"} {
		require.False(t, errorText.MatchString(text), text)
	}
}

func TestSameNumber(t *testing.T) {
	known := []string{"007", "12", "P1", "1.5", "0"}
	for typed, want := range map[string]string{"7": "007", "07": "007", "7.0": "007", "12.00": "12", "0012": "12", "00": "0", "1": "", "P01": "", "1.50": "", "": "", "7.5": "",
		"99999999999999999999": ""} {
		require.Equal(t, want, sameNumber(typed, known), typed)
	}
}

func TestCellNames(t *testing.T) {
	for name, want := range map[string][2]int{"A1": {0, 1}, "b4": {1, 4}, "Z9": {25, 9}, "AA10": {26, 10}, "XFD1048576": {16383, 1048576}} {
		column, row, ok := readCellName(name)
		require.True(t, ok, name)
		require.Equal(t, want, [2]int{column, row}, name)
	}
	for _, name := range []string{"", "A", "1", "A1B", "$A$1", "ABCD1", "A-1", "é1"} {
		_, _, ok := readCellName(name)
		require.False(t, ok, name)
	}
	require.Equal(t, "AB7", cellName(27, 7))
}
