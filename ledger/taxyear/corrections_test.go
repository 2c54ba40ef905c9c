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
	"piecebook/ledger/figures"
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
				y, err := taxyear.For(view, year+1, tax, set.RatesFor("USD").AtOnceCents)
				require.NoError(t, err)
				for _, tie := range y.Ties {
					require.Zerof(t, tie.Difference, "%s: %v", tie.Name, tie.Terms)
				}
			})
		}
	}
}

// Goal: a correction that takes an item over the limit per item, or back, or out of
// what is written off at once, takes all of it out of the line it was in and puts
// all of it into the other: the year's lines are as if the records had been so from
// the start, or, where they correct a year before, carry the difference of each.
// Source: the limit of 2,500 per item, Treas. Reg. 1.263(a)-1(f) and Notice
// 2015-82, is of each item as it was bought, not of a sum of changes.
func TestCorrectionsOverTheLimitPerItem(t *testing.T) {
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	parts := func(l *costing.Ledger, set *templates.Set, of int) (atOnce, above string) {
		y, err := taxyear.For(l, of, tax, set.RatesFor("USD").AtOnceCents)
		require.NoError(t, err)
		for _, tie := range y.Ties {
			require.Zerof(t, tie.Difference, "%s: %v", tie.Name, tie.Terms)
		}
		for _, line := range y.Lines {
			for _, p := range line.Parts {
				switch p.Amount {
				case figures.LineAtOnce:
					atOnce = p.Cents.String()
				case figures.LineAboveLimit:
					above = p.Cents.String()
				}
			}
		}
		return atOnce, above
	}
	for _, c := range []struct {
		name, closed, now string
		year              int
		atOnce, above     string
	}{
		{"over it", "2026-02-03,saw,2400,,,,\n", "2026-02-03,saw,2600,,at once,,\n", 2026, "0.00", "2600.00"},
		{"back", "2026-02-03,saw,2600,,at once,,\n", "2026-02-03,saw,2400,,,,\n", 2026, "2400.00", "0.00"},
		{"over it, another within", "2026-02-03,saw,2400,,,,\n2026-02-04,lamp,100,,,,\n",
			"2026-02-03,saw,2600,,at once,,\n2026-02-04,lamp,150,,,,\n", 2026, "150.00", "2600.00"},
		{"a sum that is as it was", "2026-02-03,saw,2400,,,,\n2026-02-04,lamp,200,,,,\n",
			"2026-02-03,saw,2600,,at once,,\n", 2026, "0.00", "2600.00"},
		{"two within that come to more than it", "2026-02-04,lamp,100,,,,\n",
			"2026-02-03,saw,2000,,,,\n2026-02-04,lamp,1000,,,,\n", 2026, "3000.00", "0.00"},
		{"over years", "2026-02-03,saw,2400,,,,\n", "2026-02-03,saw,2400,,5,,\n", 2026, "0.00", "0.00"},
		{"of the year before", "2025-02-03,saw,2400,,,,\n", "2025-02-03,saw,2600,,at once,,\n", 2026, "-2400.00", "2600.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			was, _ := costed(t, bookgen.InWords(equipment(c.closed)), 2026)
			now, set := costed(t, bookgen.InWords(equipment(c.now)), 2026)
			closed := closeThrough(was, max(calendar.MonthOf(2026, time.March), was.Months[0].Month))
			view, carried := closing.View(now, closed, "test")
			require.NotNil(t, carried)
			atOnce, above := parts(view, set, c.year)
			require.Equal(t, []string{c.atOnce, c.above}, []string{atOnce, above})
			if was.Months[0].Month.Year() == c.year {
				plainAtOnce, plainAbove := parts(now, set, c.year)
				require.Equal(t, []string{plainAtOnce, plainAbove}, []string{atOnce, above})
			}
		})
	}
}
