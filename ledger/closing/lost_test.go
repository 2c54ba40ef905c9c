package closing_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
)

// Goal: a file that is gone, emptied, or has lost half of its records and five at
// least, is reported; one whose records stand elsewhere or of which few are gone is not.
func TestLostFiles(t *testing.T) {
	trips := func(n int) string {
		out := "on,miles,purpose\n"
		for day := range n {
			out += fmt.Sprintf("2026-01-%02d,%d,pick up\n", day+1, day+5)
		}
		return out
	}
	const pieces = "piece,kind,got_on,price\nA1,desk,2026-01-05,40.00\n"
	lines := func(files map[string]string) []closing.Line {
		in := map[string][]byte{"records/pieces.csv": []byte(pieces)}
		for name, text := range files {
			in["records/"+name] = []byte(text)
		}
		b, fine := read(t, in)
		require.True(t, fine)
		return closing.LinesOf(b)
	}
	was := lines(map[string]string{"trips.csv": trips(12)})
	file, rest := "records/trips.csv", "on,miles,purpose\n"
	half := strings.Join(strings.SplitAfter(trips(12), "\n")[:7], "")
	for name, c := range map[string]struct {
		now  map[string]string
		lost []closing.LostFile
	}{
		"gone":           {nil, []closing.LostFile{{file, 12, 12, true}}},
		"emptied":        {map[string]string{"trips.csv": trips(0)}, []closing.LostFile{{file, 12, 12, true}}},
		"half":           {map[string]string{"trips.csv": half}, []closing.LostFile{{file, 12, 6, false}}},
		"few":            {map[string]string{"trips.csv": trips(9)}, nil},
		"another name":   {map[string]string{"trips 2026.csv": trips(12)}, nil},
		"split in two":   {map[string]string{"trips.csv": half, "trips 2.csv": rest + strings.TrimPrefix(trips(12), half)}, nil},
		"as it was":      {map[string]string{"trips.csv": trips(12)}, nil},
		"more":           {map[string]string{"trips.csv": trips(20)}, nil},
		"written again":  {map[string]string{"trips.csv": strings.ReplaceAll(trips(12), "pick up", "fetch")}, nil},
		"another format": {map[string]string{"trips.csv": strings.ReplaceAll(trips(12), "2026-01-", "Jan ")}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			if name == "another format" {
				c.now["trips.csv"] = dated(c.now["trips.csv"])
			}
			got := closing.Compare(was, lines(c.now), calendar.MonthOf(2026, 1)).Lost
			require.True(t, slices.Equal(c.lost, got), "%v", got)
		})
	}
}

// dated writes the year behind the days: Jan 05, 2026.
func dated(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if day, rest, is := strings.Cut(l, ","); is && strings.HasPrefix(day, "Jan ") {
			lines[i] = fmt.Sprintf("%q,%s", day+", 2026", rest)
		}
	}
	return strings.Join(lines, "\n")
}
