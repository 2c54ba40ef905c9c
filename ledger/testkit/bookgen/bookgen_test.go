package bookgen_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"maps"
	"slices"
	"testing"
	"testing/fstest"

	"piecebook/ledger"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// seeds is how many folders the tests look at; laws want many more.
const seeds = 30

// read reads a folder as a run does.
func read(t *testing.T, set *templates.Set, files map[string][]byte) *intake.Result {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, data := range files {
		fsys[name] = &fstest.MapFile{Data: data}
	}
	return intake.Read(fsys, set)
}

func tables(t *testing.T) *templates.Set {
	t.Helper()
	set, err := templates.Load()
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// TestSameSeed makes and reshapes a folder twice: the same bytes.
func TestSameSeed(t *testing.T) {
	for seed := range uint64(10) {
		a, b := bookgen.Files(seed), bookgen.Files(seed)
		if !maps.EqualFunc(a, b, bytes.Equal) {
			t.Fatalf("seed %d makes other books the second time", seed)
		}
		if c, d := bookgen.Reshape(a, seed+5), bookgen.Reshape(b, seed+5); !maps.EqualFunc(c, d, bytes.Equal) {
			t.Fatalf("seed %d is reshaped another way the second time", seed)
		}
	}
}

// TestWithoutError reads every folder: no row is refused, by itself or across
// tables.
func TestWithoutError(t *testing.T) {
	set := tables(t)
	for seed := range uint64(seeds) {
		res := read(t, set, bookgen.Files(seed))
		list := res.Problems
		list.Join(checks.Look(&res.Books, checks.LastMonth(&res.Books)))
		for _, p := range list.Errors() {
			t.Errorf("seed %d: [%s] %s", seed, p.Code, p)
		}
		b := &res.Books
		within(t, seed, "pieces", len(b.Pieces), 15, 25)
		within(t, seed, "supplies", len(b.Supplies), 12, 18)
		for _, table := range res.Tally {
			if table.Rows == 0 {
				t.Errorf("seed %d: %s is empty", seed, table.Table)
			}
		}
	}
}

func within(t *testing.T, seed uint64, what string, n, low, high int) {
	t.Helper()
	if n < low || n > high {
		t.Errorf("seed %d: %d %s, not %d to %d", seed, n, what, low, high)
	}
}

// TestReshaped reads a reshaped folder: the same records, though at other
// places and in another order, and no error.
func TestReshaped(t *testing.T) {
	set := tables(t)
	for seed := range uint64(seeds) {
		files := bookgen.Files(seed)
		want := contents(t, read(t, set, files).Books)
		res := read(t, set, bookgen.Reshape(files, seed*7+1))
		for _, p := range res.Problems.Errors() {
			t.Errorf("seed %d: [%s] %s", seed, p.Code, p)
		}
		for _, p := range res.Problems.Notes() {
			if p.Code == fault.CodeHeaderUnknown || p.Code == fault.CodeSheetSkipped {
				t.Errorf("seed %d: [%s] %s", seed, p.Code, p)
			}
		}
		got := contents(t, res.Books)
		for table := range want {
			if !slices.Equal(got[table], want[table]) {
				t.Errorf("seed %d: %s reads otherwise when reshaped:\n%s", seed, table, difference(got[table], want[table]))
			}
		}
		if t.Failed() {
			return
		}
	}
}

// difference is the first record that is in one of two sorted lists only.
func difference(got, want []string) string {
	for i := range want {
		if i >= len(got) || got[i] != want[i] {
			if i < len(got) {
				return "got  " + got[i] + "\nwant " + want[i]
			}
			return "lacks " + want[i]
		}
	}
	return "has more than it should"
}

// contents is each table's records without their places, sorted.
func contents(t *testing.T, b ledger.Books) map[string][]string {
	t.Helper()
	text, err := json.Marshal(b)
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	out := map[string][]string{}
	for table, raw := range all {
		var records []map[string]any
		if table == "Settings" || json.Unmarshal(raw, &records) != nil {
			continue
		}
		for _, r := range records {
			delete(r, "At")
			line, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			out[table] = append(out[table], string(line))
		}
		slices.Sort(out[table])
	}
	return out
}

// TestOddEvents counts the odd turns over the seeds: each must come up often
// enough for the laws to be tried on it.
func TestOddEvents(t *testing.T) {
	set := tables(t)
	seen := map[string]int{}
	for seed := range uint64(seeds) {
		files := bookgen.Files(seed)
		res := read(t, set, files)
		for _, event := range events(&res.Books) {
			seen[event]++
		}
	}
	wanted := []string{"free", "own", "traded", "client", "lot by worth", "lot equally", "sold client", "given back",
		"kept", "donated", "scrapped", "stolen",
		"returned to seller", "part payment before it came", "payment after the sale", "refund", "return in the month of the sale",
		"return in a later month", "back and resold in one month", "set line", "own-row sale", "measured", "schedule", "list of pieces", "count of the first days",
		"counts in one month", "zero count", "discarded", "bought after the count", "taken back without a count", "taken back with a count",
		"opening deducted", "opening not deducted", "money back on a part", "typical area", "no area",
		"move from a sold piece", "late cost", "part before it came"}
	for _, event := range wanted {
		if seen[event] < seeds/10 {
			t.Errorf("%q comes up in %d of %d folders", event, seen[event], seeds)
		}
	}
}

// FuzzSeed lets any seed be tried: no panic, and every table is a table.
func FuzzSeed(f *testing.F) {
	f.Add(uint64(1), uint64(2))
	f.Fuzz(func(t *testing.T, seed, other uint64) {
		for name, data := range bookgen.Files(seed) {
			if name == "settings.toml" {
				continue
			}
			if _, err := csv.NewReader(bytes.NewReader(data)).ReadAll(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
		bookgen.Reshape(bookgen.Files(seed), other)
	})
}
