package taxyear_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/taxyear"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// closeThrough closes the months of a ledger up to one.
func closeThrough(l *costing.Ledger, through calendar.Month) []*closing.Month {
	var closed []*closing.Month
	lines := closing.LinesOf(l.Books)
	for _, m := range l.Months {
		if m.Month <= through {
			view, c := closing.View(l, closed, "test")
			closed = append(closed, closing.Seal(view, c, closed, "test", json.RawMessage(`{}`), lines, nil))
		}
	}
	return closed
}

// twice repeats a table's last line, as an owner does who finds another receipt.
func twice(files map[string][]byte, table string) map[string][]byte {
	out := maps.Clone(files)
	name := "records/" + table + ".csv"
	lines := bytes.Split(bytes.TrimSpace(files[name]), []byte("\n"))
	if len(lines) < 2 {
		return out
	}
	out[name] = append(bytes.Join(append(slices.Clone(lines), lines[1]), []byte("\n")), '\n')
	return out
}

// Goal: the reconciliations of a tax year hold where it carries corrections to
// closed months of the year before, under both treatments of supplies. Method:
// books over New Year, closed to the end of their first year, with lines of
// closed months put in again; every tie of every year.
func TestYearWithCorrectionsTiesOut(t *testing.T) {
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	for seed := uint64(1); seed <= uint64(max(2, *taxBooks/3)); seed++ {
		for _, treatment := range []string{"with the piece", "when used"} {
			t.Run(fmt.Sprintf("%d %s", seed, treatment), func(t *testing.T) {
				files := bookgen.WithTreatment(bookgen.Years(seed), treatment)
				l, set := costed(t, asFolder(files), 2027)
				year := l.Months[0].Month.Year()
				closed := closeThrough(l, calendar.MonthOf(year, time.December))
				for _, table := range []string{"trips", "expenses", "purchases", "other income", "equipment", "parts", "hours"} {
					files = twice(files, table)
				}
				now, _ := costed(t, asFolder(files), 2027)
				view, c := closing.View(now, closed, "test")
				require.NotNil(t, c)
				y, err := taxyear.For(view, year+1, tax, set.AtOnceCents)
				require.NoError(t, err)
				for _, tie := range y.Ties {
					require.Zerof(t, tie.Difference, "%s: %v", tie.Name, tie.Terms)
				}
			})
		}
	}
}
