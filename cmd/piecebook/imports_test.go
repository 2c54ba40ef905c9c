package main

import (
	"encoding/json"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// policy is the whole import policy: what each package of ours may import of
// ours. Data moves one way: files in, records, costed ledger, report pages,
// files out. An edge or a package that is not here fails; draw the house
// again before adding one.
const policy = `
templates:
ledger/atonce:
ledger/calendar:
ledger/money:
ledger/plainfile:
ledger/fault: ledger/calendar
ledger/measure: ledger/fault ledger/money
ledger: ledger/calendar ledger/fault ledger/money
ledger/intake/sheets: ledger/atonce ledger/fault ledger/plainfile
ledger/intake/values: ledger ledger/calendar ledger/fault ledger/intake/sheets ledger/measure ledger/money templates
ledger/intake/settings: ledger ledger/calendar ledger/fault ledger/intake/sheets ledger/intake/values ledger/measure ledger/money templates
ledger/intake/columns: ledger ledger/intake/settings ledger/intake/sheets ledger/intake/values ledger/measure ledger/money templates
ledger/intake/tables: ledger ledger/fault ledger/intake/columns ledger/intake/settings ledger/intake/sheets ledger/intake/values ledger/measure ledger/money templates
ledger/intake/receipts: ledger/intake/values
ledger/intake/headers: ledger ledger/fault ledger/intake/columns ledger/intake/receipts ledger/intake/settings ledger/intake/sheets ledger/intake/tables ledger/intake/values ledger/measure ledger/money templates
ledger/intake/rows: ledger ledger/calendar ledger/fault ledger/intake/columns ledger/intake/headers ledger/intake/settings ledger/intake/sheets ledger/intake/values ledger/measure ledger/money templates
ledger/intake: ledger ledger/calendar ledger/fault ledger/intake/columns ledger/intake/headers ledger/intake/receipts ledger/intake/rows ledger/intake/settings ledger/intake/sheets ledger/intake/tables ledger/intake/values ledger/measure ledger/money templates
ledger/checks: ledger ledger/calendar ledger/fault ledger/money templates
ledger/costing: ledger ledger/calendar ledger/fault ledger/money
ledger/seen: ledger/fault ledger/plainfile
ledger/figures: ledger ledger/calendar ledger/costing ledger/fault ledger/money
ledger/closing: ledger ledger/calendar ledger/costing ledger/fault ledger/money ledger/plainfile
ledger/taxyear: ledger ledger/calendar ledger/closing ledger/costing ledger/fault ledger/figures ledger/money templates
ledger/statistics:
ledger/kinds: ledger ledger/calendar ledger/costing ledger/fault ledger/figures ledger/money ledger/statistics templates
ledger/missing: ledger ledger/calendar ledger/costing ledger/fault ledger/figures ledger/kinds ledger/money templates
ledger/offer: ledger/calendar ledger/costing ledger/fault ledger/kinds ledger/money ledger/statistics templates
ledger/opened: ledger/atonce ledger/calendar ledger/checks ledger/closing ledger/costing ledger/fault ledger/figures ledger/intake ledger/missing ledger/seen templates
report/page:
report/pdf: report/page
report/text: report/page
report/html: report/page
report/outfile: ledger/atonce
report/cards: report/page templates
report/guide: report/page
sample:
report/xlsx: report/workbook
report/starter: report/xlsx templates
report/datapackage: templates
report/workbook:
report/csvfile:
report/photo: ledger/plainfile
report/words: ledger ledger/calendar ledger/closing ledger/fault ledger/figures ledger/intake ledger/missing ledger/money ledger/plainfile ledger/taxyear report/page templates
report/cells: ledger/money report/page report/words
report/figuresjson: ledger/calendar ledger/figures ledger/money ledger/taxyear
report: ledger ledger/calendar ledger/closing ledger/costing ledger/fault ledger/figures ledger/kinds ledger/missing ledger/money ledger/opened ledger/taxyear report/cells report/page report/words templates
report/month: ledger ledger/calendar ledger/closing ledger/fault ledger/figures ledger/kinds ledger/money report report/cells report/page report/words
report/piece: ledger ledger/calendar ledger/fault ledger/figures ledger/money report report/cells report/page report/photo report/words
report/kinds: ledger ledger/kinds ledger/money ledger/offer report report/cells report/page report/words
report/year: ledger ledger/fault ledger/figures ledger/money ledger/taxyear report report/cells report/page report/words templates
report/trace: ledger ledger/calendar ledger/closing ledger/fault ledger/figures ledger/money report report/cells report/page report/words
report/screen: report report/month report/page report/piece report/trace report/year
report/accountant: ledger ledger/calendar ledger/closing ledger/figures ledger/kinds ledger/money ledger/taxyear report report/words report/workbook
cmd/release:
cmd/piecebook/booksdir: ledger/seen
cmd/piecebook/terminal: report/outfile report/page report/text
cmd/piecebook/shapewords: ledger/fault ledger/measure
cmd/piecebook/cli: cmd/piecebook/booksdir cmd/piecebook/terminal ledger ledger/calendar ledger/closing ledger/fault ledger/figures ledger/intake ledger/money ledger/opened ledger/plainfile ledger/seen report report/html report/outfile report/page report/pdf report/text report/words report/workbook report/xlsx templates
cmd/piecebook/made: cmd/piecebook/booksdir cmd/piecebook/cli cmd/piecebook/terminal ledger/calendar ledger/closing ledger/figures ledger/money ledger/plainfile ledger/taxyear report report/figuresjson report/outfile report/words templates
cmd/piecebook/packs: cmd/piecebook/booksdir cmd/piecebook/cli cmd/piecebook/made cmd/piecebook/terminal ledger/atonce ledger/calendar ledger/checks ledger/closing ledger/fault ledger/figures ledger/kinds ledger/opened ledger/plainfile report report/accountant report/csvfile report/figuresjson report/month report/outfile report/page report/piece report/screen report/text report/words report/workbook report/year
cmd/piecebook/questions: cmd/piecebook/booksdir cmd/piecebook/cli cmd/piecebook/made cmd/piecebook/shapewords cmd/piecebook/terminal ledger ledger/calendar ledger/checks ledger/closing ledger/fault ledger/figures ledger/intake ledger/kinds ledger/measure ledger/money ledger/offer ledger/plainfile ledger/seen ledger/taxyear report report/datapackage report/kinds report/month report/outfile report/page report/piece report/trace report/words templates
cmd/piecebook/closemonths: cmd/piecebook/cli cmd/piecebook/made cmd/piecebook/packs cmd/piecebook/terminal ledger/calendar ledger/checks ledger/closing ledger/fault ledger/figures ledger/plainfile report/figuresjson report/outfile report/words
cmd/piecebook/setup: cmd/piecebook/booksdir cmd/piecebook/cli cmd/piecebook/terminal ledger/fault report/cards report/guide report/month report/outfile report/page report/piece report/starter sample templates
cmd/piecebook/commands: cmd/piecebook/booksdir cmd/piecebook/cli cmd/piecebook/closemonths cmd/piecebook/packs cmd/piecebook/questions cmd/piecebook/setup cmd/piecebook/terminal ledger/calendar ledger/fault report/text report/words
cmd/piecebook: cmd/piecebook/commands cmd/piecebook/terminal

# What only tests import or what holds only tests; no package may list one of them.
ledger/costing/slow:
ledger/intake/shapes:
report/accountant/formulas:
ledger/testkit: ledger ledger/calendar ledger/checks ledger/costing ledger/figures ledger/intake ledger/testkit/bookgen templates
ledger/testkit/bigbooks: ledger/calendar ledger/money
ledger/testkit/smallbooks: ledger/fault ledger/intake templates
ledger/testkit/shopsim:
ledger/testkit/bookgen: ledger/calendar ledger/money templates
report/testkit: ledger ledger/calendar ledger/checks ledger/closing ledger/costing ledger/fault ledger/figures ledger/intake ledger/kinds ledger/money ledger/opened ledger/testkit/bigbooks ledger/taxyear report report/page templates
report/testkit/recalc: report/workbook
`

// allowed reads the policy's lines: a package, a colon, what it may import.
func allowed() map[string][]string {
	out := map[string][]string{}
	for line := range strings.Lines(policy) {
		if name, may, ok := strings.Cut(line, ":"); ok {
			out[name] = strings.Fields(may)
		}
	}
	return out
}

// TestImportsGoOneWay holds every import of ours to the policy.
func TestImportsGoOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "piecebook/...").Output()
	require.NoError(t, err)
	allowed, seen := allowed(), map[string]bool{}
	for d := json.NewDecoder(strings.NewReader(string(out))); d.More(); {
		var pkg struct {
			ImportPath string
			Imports    []string
		}
		require.NoError(t, d.Decode(&pkg))
		name := strings.TrimPrefix(pkg.ImportPath, "piecebook/")
		seen[name] = true
		may, listed := allowed[name]
		if !listed {
			t.Errorf("package %s is not in the import policy", name)
			continue
		}
		for _, i := range pkg.Imports {
			if ours, ok := strings.CutPrefix(i, "piecebook/"); ok && !slices.Contains(may, ours) {
				t.Errorf("%s may not import %s", name, ours)
			}
		}
	}
	for name := range allowed {
		if !seen[name] {
			t.Errorf("the import policy lists %s, which is not there", name)
		}
	}
}
