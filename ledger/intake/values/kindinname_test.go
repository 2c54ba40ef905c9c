package values_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/intake/values"
)

// Goal: a kind is read from a piece's name only where it stands last.
func TestKindsIn(t *testing.T) {
	kinds := []string{"chair", "side chair", "desk", "dresser", "table", "table lamp", "bench"}
	for name, want := range map[string]struct {
		last string
		all  []string
	}{
		"Oak dresser":          {"dresser", []string{"dresser"}},
		"DRESSER":              {"dresser", []string{"dresser"}},
		"Blue side chairs":     {"side chair", []string{"side chair"}},
		"two benches":          {"bench", []string{"bench"}},
		"Dresser, oak":         {"dresser", []string{"dresser"}},
		"Oak dresser 2":        {"dresser", []string{"dresser"}},
		"Oak dresser #12":      {"dresser", []string{"dresser"}},
		"Oak dresser (Ann)":    {"dresser", []string{"dresser"}},
		"Pine desk - from Bo":  {"desk", []string{"desk"}},
		"Brass table lamp":     {"table lamp", []string{"table lamp"}},
		"Desk chair":           {"chair", []string{"desk", "chair"}},
		"Dresser with mirror":  {"", []string{"dresser"}},
		"Chair (goes to desk)": {"chair", []string{"chair", "desk"}},
		"Mystery thing":        {"", nil},
		"Armchair":             {"", nil},
		"12":                   {"", nil},
		"":                     {"", nil},
	} {
		last, all := values.KindsIn(name, kinds)
		require.Equal(t, want.last, last, name)
		require.Equal(t, want.all, all, name)
	}
}
