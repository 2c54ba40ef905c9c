package values

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Error values as spreadsheet programs show them, in some of their languages
// (from memory), and texts that only look so.
func TestErrorTexts(t *testing.T) {
	for _, text := range []string{"#REF!", "#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#VALUE!", "#SPILL!", "#CALC!",
		"#GETTING_DATA", "#FIELD!", "#BLOCKED!",
		"#ERROR!", "#BEZUG!", "#WERT!", "#NV", "#VALEUR!", "#NOM?", "#¡REF!", "#¿NOMBRE?", "#N/D", "Err:502", "#ref!"} {
		require.True(t, errorText.MatchString(text), text)
	}
	for _, text := range []string{"#12", "#1 pine", "# of coats?", "err", "Err: 5", "#", "#4/0", "No. #7!x"} {
		require.False(t, errorText.MatchString(text), text)
	}
}
