package templates

import (
	"regexp"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	namesYear = regexp.MustCompile(`\b(19|20)\d\d\b`)
	// The year that an edition was seen in or holds for, which is to be compared
	// with the tax year, so it stands in braces.
	bareEdition = regexp.MustCompile(
		`(?i)\b(as of|read in|forms? of|court in|Pub\. \d+ of|Pub\. \d+ \() ?\d{4}|\d{4} forms`)
	// A publication, regulation, statute or form that a sentence rests on.
	ofLaw = regexp.MustCompile(`\bPub\. |\bReg\. |\bIRC |\bRev\. Proc\. |section 179|on Form \d{4}|so Form \d{4} goes`)
)

// Goal: each text of law on the pages has a year beside its source, and an
// edition's year is compared with the tax year. Method: every source in the
// US files has a year; so has every other text that names what it rests on; no
// edition's year stands outside braces.
func TestSourcesHaveYears(t *testing.T) {
	for _, name := range []string{"lines-us.toml", "depreciation-us.toml", "records-us.toml", "rates-us.toml"} {
		var file map[string]any
		_, err := toml.DecodeFS(files, "data/"+name, &file)
		require.NoError(t, err)
		var walk func(key string, of any)
		walk = func(key string, of any) {
			switch x := of.(type) {
			case map[string]any:
				for k, v := range x {
					walk(k, v)
				}
			case []map[string]any:
				for _, v := range x {
					walk(key, v)
				}
			case []any:
				for _, v := range x {
					walk(key, v)
				}
			case string:
				if key == "seen" { // for whoever keeps the file up to date, on no page
					return
				}
				if key == "source" || ofLaw.MatchString(x) && !strings.HasSuffix(x, "?") {
					assert.Regexp(t, namesYear, x, name)
				}
				assert.NotRegexp(t, bareEdition, x, name)
			}
		}
		walk("", file)
	}
}

// An edition of the tax year, or of years around it, stands as it is; an older
// and a later one are said to be that.
func TestEditionsAreComparedWithTheTaxYear(t *testing.T) {
	us, err := TaxFor("USD")
	require.NoError(t, err)
	for year, want := range map[int][2]string{
		2022: {"forms of 2023 to 2025 (later than this tax year's);", "IRC 446(e) and 481(a), as of 2026 (later than " +
			"this tax year's)"},
		2023: {"forms of 2023 to 2025;", "as of 2026 (later than this tax year's)"},
		2025: {"forms of 2023 to 2025;", "as of 2026 (later than this tax year's)"},
		2026: {"forms of 2023 to 2025 (older than this tax year's);", "481(a), as of 2026)"},
		2027: {"forms of 2023 to 2025 (older than this tax year's);", "as of 2026 (older than this tax year's)"},
	} {
		tax, err := us.Of(year)
		require.NoError(t, err)
		lines := tax.Lines(year)
		assert.Contains(t, lines.Words.Numbers, want[0], year)
		assert.Contains(t, tax.Rule(RuleMethod).Words, want[1], year)
	}
}

// The usual figures say once a file where they are from; and the line that a
// source speaks of is the form's own.
func TestUsualFiguresHaveSources(t *testing.T) {
	for _, name := range []string{"areas.toml", "groups.toml", "words.toml"} {
		var file map[string]any
		_, err := toml.DecodeFS(files, "data/"+name, &file)
		require.NoError(t, err)
		assert.NotEmpty(t, file["source"], name)
	}
	tax, err := TaxFor("USD")
	require.NoError(t, err)
	for _, l := range tax.lines.Line {
		assert.Contains(t, []string{"", l.Line}, l.SourceLine)
		assert.False(t, strings.HasSuffix(l.Source, ", line "+l.Line), "source_line says it: %s", l.Source)
	}
}
