package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	ledgerkit "piecebook/ledger/testkit"
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
	ledgerkit.Needs(t, "pdftotext")
	dir := samplePack(t)
	text := func(name, page string) string {
		out, err := exec.Command("pdftotext", "-raw", "-f", page, "-l", page, filepath.Join(dir, name), "-").Output()
		require.NoError(t, err)
		return string(out)
	}
	follows(t, text("month.pdf", "1"), "February 2026", "the shop sold", "receipts and other income", "costs",
		"net profit", "tied up", "profit after shop costs", "hours on 7 pieces sold",
		"an hour after shop costs", "wanted an hour", "Net profit by month", "Pieces sold", "Sold less bought", "Do next",
		"Pay over", "page 1 of")
	follows(t, text("month.pdf", "2"), "Stock and channels", "days in stock", "Pieces in stock", "Opening", "Closing",
		"What each channel leaves")
	follows(t, text("month.pdf", "3"), "Statement", "Gross receipts $2,006.00", "Net receipts",
		"Gross profit on pieces sold", "Booth rent 70.00", "Net profit", "From the pieces", "What changed")
	follows(t, text("pieces.pdf", "1"), "153 · dresser", "Before", "After", "17 days waiting", "got Nov 15, 2025",
		"sold Feb 7, 2026", "It paid $15.61 an hour after shop costs, $22.00 wanted: $84.66 short in all.", "$289.79", "profit before shop costs", "$206.84", "= 289.79 − 82.95",
		"$21.87", "$15.61", "= 206.84 ÷ 13.25", "$415.00", "Receipts $480.00", "Acquisition 65.00", "Supplies 78.33", "Profit before shop costs $289.79", "Its shop costs 82.95", "Time by task", "strip 3.00", "All hours 13.25",
		"Of the 7 of kind dresser sold since", "this one $15.61", "Supplies, by cost", "All supplies", "Cautions and the "+
			"meaning of words, page "+
			"10: A strippers")
}

// TestPagesLeadOn: the bookmarks name the sections, and links within the file
// lead to places in it. Method: qpdf's view of the file's objects.
func TestPagesLeadOn(t *testing.T) {
	ledgerkit.Needs(t, "qpdf")
	dir := samplePack(t)
	for name, marks := range map[string][]string{"month.pdf": {"Stock and channels", "Statement", "The shelf", "Payouts",
		"Checks", "Cautions"}, "pieces.pdf": {"153, dresser", "Cautions", "Index of the sheets"}} {
		out, err := exec.Command("qpdf", "--json", filepath.Join(dir, name)).Output()
		require.NoError(t, err)
		for _, m := range marks {
			assert.Contains(t, string(out), m, name)
		}
		assert.Greater(t, strings.Count(string(out), `"/Subtype": "/Link"`), 5, name)
	}
}
