package intake

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSameNumber(t *testing.T) {
	known := []string{"007", "12", "P1", "1.5", "0"}
	for typed, want := range map[string]string{"7": "007", "07": "007", "7.0": "007", "12.00": "12", "0012": "12",
		"00": "0", "1": "", "P01": "", "1.50": "", "": "", "7.5": "",
		"99999999999999999999": ""} {
		require.Equal(t, want, sameNumber(typed, known), typed)
	}
}
