package commands

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/cli"
)

// Goal: labels as pages print them lead to their figure, or to what to type where
// a whole column is meant; a row's name says which other columns can be asked.
// Method: labels of sentences, of key figures and of columns of the sample's report.
func TestWhyTakesWhatIsPrinted(t *testing.T) {
	dir := sampleCopy(t)
	why := func(status int, args ...string) string {
		out, said := runs(t, status, append([]string{"--books", dir, "why"}, append(args, "2026-02")...)...)
		return out + said
	}
	for label, want := range map[string]string{
		"profit before shop costs": `^Profit before shop costs of the pieces sold: [\d,.]+`,
		"to spend":                 `^A container of each, at its last price: \$[\d,.]+`,
	} {
		assert.Regexp(t, want, why(cli.ExitDone, label))
	}
	for label, want := range map[string]string{
		"Fees":             `Fees of what\? Type: piecebook .*why "\w.* Fees"`,
		"Profit at asking": `Profit at asking of what\? Type: piecebook .*why ".* Profit at asking"`,
	} {
		assert.Regexp(t, want, why(cli.ExitUse, label))
	}
	assert.Regexp(t, `Its\s+other\s+columns:\s+Bought;\s+Used`, why(cli.ExitDone, "The whole shelf"))
	assert.Regexp(t, `^Cotton rags: Used, `, why(cli.ExitDone, "Cotton rags", "Used"))
}

// Goal: close says which pack was made before the records changed, with both
// figures and the command; and a correction names the record that was changed.
// Method: the sample's month made, a purchase changed, the month closed; then the
// purchase changed once more.
func TestCloseTellsAnOutdatedPack(t *testing.T) {
	dir := sampleCopy(t)
	purchases := filepath.Join(dir, "records", "purchases 2025.csv")
	runs(t, cli.ExitDone, "--books", dir, "month", "2025-02")
	replaced(t, purchases, "2025-01-03,Cotton rags,1,,15.50", "2025-01-03,Cotton rags,1,,35.50")
	_, said := runs(t, cli.ExitDone, "--books", dir, "close", "2025-02")
	assert.Regexp(t, `The pack in \S*2025-02 was made before the records changed: [\w ]+ was [\d,.()]+ and is [\d,.()]+\. `+
		`Make it again: piecebook .*month 2025-02`, said)
	require.NoError(t, os.RemoveAll(filepath.Join(dir, "closed")))
	_, said = runs(t, cli.ExitDone, "--books", dir, "month", "2025-02")
	assert.NotEmpty(t, said)
	_, said = runs(t, cli.ExitDone, "--books", dir, "close", "2025-02")
	assert.NotContains(t, said, "was made before the records changed")
	replaced(t, purchases, "2025-01-03,Cotton rags,1,,35.50", "2025-01-03,Cotton rags,1,,45.50")
	out, _ := runs(t, cli.ExitDone, "--books", dir, "why", "Corrections on the net profit", "2025-03")
	assert.Regexp(t, `^Corrections on the net profit: `, out)
	assert.Regexp(t, `(?s)purchases\s+2025\.csv:\d+`, out)
}

// Goal: seen counts what is left as check does, notes and remarks.
func TestSeenCountsAsCheck(t *testing.T) {
	dir := sampleCopy(t)
	out, _ := runs(t, cli.ExitDone, "--books", dir, "check")
	assert.Regexp(t, `6 notes worth a look(?s:.*)2 remarks with nothing to type`, out)
	_, said := runs(t, cli.ExitDone, "--books", dir, "seen", "typical-area", "Shop book.xlsx Pieces:47")
	assert.Contains(t, said, "Left: 5 notes and 2 remarks. ")
}
