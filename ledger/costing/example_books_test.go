package costing_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit"
	"piecebook/report/figuresjson"
	"piecebook/templates"
)

// The contract's example books, whose figures were worked out twice and
// independently: every key that they hold must come out equal.
func TestExampleBooks(t *testing.T) {
	dir := filepath.Join("..", "testdata", "example")
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(os.DirFS(dir), set)
	require.Empty(t, read.Problems.Errors())
	l := costing.Run(&read.Books, month(t, "2026-01"))
	require.Empty(t, l.Problems.Errors())
	goldens, err := filepath.Glob(filepath.Join(dir, "figures-*.json"))
	require.NoError(t, err)
	require.Len(t, goldens, 8)
	for _, golden := range goldens {
		period := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(golden), "figures-"), ".json")
		t.Run(period, func(t *testing.T) {
			text, err := os.ReadFile(golden)
			require.NoError(t, err)
			var want, got any
			require.NoError(t, json.Unmarshal(text, &want))
			m := month(t, period)
			out, err := figuresjson.Month(figures.For(l, m, m))
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(out, &got))
			n := contains(t, "", want, got)
			assert.Greater(t, n, 200, "keys compared")
		})
	}
	testkit.Tied(t, l)
}

// contains asserts that got has all that want has, and counts the values
// compared. Lists must be of one length and order.
func contains(t *testing.T, path string, want, got any) int {
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		require.True(t, ok, path)
		n := 0
		for k, v := range w {
			_, there := g[k]
			assert.True(t, there, "%s.%s is missing", path, k)
			n += contains(t, path+"."+k, v, g[k])
		}
		return n
	case []any:
		g, ok := got.([]any)
		require.True(t, ok, path)
		require.Len(t, g, len(w), path)
		n := 0
		for i := range w {
			n += contains(t, fmt.Sprintf("%s[%d]", path, i), w[i], g[i])
		}
		return n
	}
	assert.Equal(t, want, got, path)
	return 1
}
