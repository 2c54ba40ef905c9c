package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// follows says that the words stand in the text in that order.
func follows(t *testing.T, text string, words ...string) {
	t.Helper()
	text = strings.Join(strings.Fields(text), " ")
	at := 0
	for _, w := range words {
		i := strings.Index(text[at:], w)
		if !assert.GreaterOrEqual(t, i, 0, "%q does not follow what stands before it", w) {
			return
		}
		at += i + len(w)
	}
}

// TestReadingOrder: an outside reader that takes words as they come in the file
// meets the figures in the order a person reads them. Method: poppler's
// pdftotext, without its own guess at the layout.
func TestReadingOrder(t *testing.T) {
	needs(t, "pdftotext")
	dir := samplePack(t)
	text := func(name, page string) string {
		out, err := exec.Command("pdftotext", "-raw", "-f", page, "-l", page, filepath.Join(dir, name), "-").Output()
		require.NoError(t, err)
		return string(out)
	}
	follows(t, text("month.pdf", "1"), "February 2026", "the shop sold", "net profit", "month before", "pieces sold", "hours worked", "per hour", "tied up",
		"Net profit, the last twelve months", "What wants doing", "At stake", "Pieces bought", "rows read", "page 1 of")
	follows(t, text("month.pdf", "2"), "Statement", "Gross receipts $2,006.00", "Net receipts", "Gross profit", "Booth rent 70.00", "Net profit $889.48", "Opening", "Closing $565.31")
	follows(t, text("pieces.pdf", "2"), "153 · dresser", "Got", "2025-11-15", "Sold", "2026-02-07", "$288.84", "after everything", "$21.80", "$415.00", "Between the two stand",
		"Receipts $480.00", "less: acquisition 65.00", "Supplies 79.28", "Profit, after everything $288.84", "Time", "strip 3.00", "All hours 13.25", "Among its kind", "How sure", "Before", "After", "Take care")
}

// TestPagesLeadOn: the bookmarks name the sections, and links within the file
// lead to places in it. Method: qpdf's view of the file's objects.
func TestPagesLeadOn(t *testing.T) {
	needs(t, "qpdf")
	dir := samplePack(t)
	for name, marks := range map[string][]string{"month.pdf": {"Statement", "Pieces sold", "The shelf", "Bank", "Reconciliations", "Cautions"}, "pieces.pdf": {"The sheets", "153, dresser"}} {
		out, err := exec.Command("qpdf", "--json", filepath.Join(dir, name)).Output()
		require.NoError(t, err)
		for _, m := range marks {
			assert.Contains(t, string(out), m, name)
		}
		assert.Greater(t, strings.Count(string(out), `"/Subtype": "/Link"`), 5, name)
	}
}
