package main

import (
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	ledgerkit "piecebook/ledger/testkit"
)

// samplePack makes the sample's last month's pack and returns its folder.
func samplePack(t *testing.T) string {
	t.Helper()
	out := t.TempDir()
	status := commands.Run([]string{"--books", filepath.Join("..", "..", "sample"), "--out", out, "month"},
		terminal.Console{Out: io.Discard, Err: io.Discard, Env: os.Getenv})
	require.Equal(t, cli.ExitDone, status)
	return filepath.Join(out, "2026-02")
}

// printed is an amount as the pages print it: grouped, in brackets where
// negative, a dash for nothing.
func printed(t *testing.T, amount string) string {
	t.Helper()
	negative := strings.HasPrefix(amount, "-")
	whole, decimals, ok := strings.Cut(strings.TrimPrefix(amount, "-"), ".")
	require.True(t, ok, amount)
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if whole == "0" && decimals == "00" {
		return "–"
	}
	if negative {
		return "(" + whole + "." + decimals + ")"
	}
	return whole + "." + decimals
}

// Goal: an outside reader finds the statement's and the pieces' figures of
// figures.json in the PDFs. Method: poppler's pdftotext.
func TestFiguresStandInThePDFs(t *testing.T) {
	ledgerkit.Needs(t, "pdftotext")
	dir := samplePack(t)
	text := func(name string) string {
		out, err := exec.Command("pdftotext", "-layout", filepath.Join(dir, name), "-").Output()
		require.NoError(t, err)
		return string(out)
	}
	var f struct {
		Statement map[string]any
		Stock     map[string]string
		Shelf     []map[string]any
		Pieces    []map[string]any
	}
	data, err := os.ReadFile(filepath.Join(dir, "figures.json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &f))
	month, pieces := text("month.pdf"), text("pieces.pdf")
	for name, amount := range f.Statement {
		if s, ok := amount.(string); ok {
			assert.Contains(t, month, printed(t, s), name)
		}
	}
	for group, amount := range f.Statement["expenses"].(map[string]any) {
		assert.Contains(t, month, printed(t, amount.(string)), group)
	}
	for name, amount := range f.Stock {
		assert.Contains(t, month, printed(t, amount), name)
	}
	for _, s := range f.Shelf {
		assert.Contains(t, month, printed(t, s["closing"].(string)), s["supply"])
	}
	n := 0
	for _, p := range f.Pieces {
		if p["status"] != "sold" {
			continue
		}
		n++
		for _, key := range []string{"receipts", "acquisition", "supplies", "selling_costs", "trips", "profit", "overhead",
			"sold_less_bought"} {
			assert.Contains(t, pieces, printed(t, p[key].(string)), "%s of %s", key, p["piece"])
		}
	}
	assert.Greater(t, n, 5, "sold pieces looked for")
}

// The PDFs are well formed by qpdf's judgement, and poppler finds every font
// embedded.
func TestPDFsAreWellFormed(t *testing.T) {
	ledgerkit.Needs(t, "qpdf")
	ledgerkit.Needs(t, "pdffonts")
	dir := samplePack(t)
	for _, name := range []string{"month.pdf", "pieces.pdf"} {
		out, err := exec.Command("qpdf", "--check", filepath.Join(dir, name)).CombinedOutput()
		assert.NoError(t, err, string(out))
		out, err = exec.Command("pdffonts", filepath.Join(dir, name)).Output()
		require.NoError(t, err)
		lines := strings.Split(strings.TrimSpace(string(out)), "\n")
		require.Greater(t, len(lines), 2, string(out))
		for _, line := range lines[2:] {
			fields := strings.Fields(line)
			// ... emb sub uni object ID: embedded is the fifth from the end.
			assert.Equal(t, "yes", fields[len(fields)-5], line)
		}
	}
}
