package checks_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/fault"
)

var update = flag.Bool("update", false, "write testdata/messages.golden again")

// golden holds, for each case, what is reported: code, error or note with its
// money, and the whole line as printed.
var golden = filepath.Join("testdata", "messages.golden")

// lookAt runs a case.
func lookAt(t *testing.T, c testCase) fault.List {
	t.Helper()
	through := checks.LastMonth(&c.books)
	if c.through != "" {
		var err error
		if through, err = calendar.ParseMonth(c.through); err != nil {
			t.Fatal(err)
		}
	}
	return checks.Look(&c.books, through)
}

// TestMessages compares every message with the golden text: its place, its
// words and its money. Each case raises its own code, and no other unless the
// golden text shows it.
func TestMessages(t *testing.T) {
	var got strings.Builder
	for _, c := range append(errorCases(), noteCases()...) {
		fmt.Fprintf(&got, "== %s\n", c.name)
		code, _, _ := strings.Cut(c.name, ":")
		raised := false
		list := lookAt(t, c)
		for _, p := range append(list.Errors(), list.Notes()...) {
			raised = raised || p.Code == fault.Code(code)
			kind := "error"
			if p.Note {
				kind = fmt.Sprintf("note %d", p.MoneyCents)
			}
			fmt.Fprintf(&got, "[%s, %s] %s\n", p.Code, kind, p)
		}
		if !raised {
			t.Errorf("%s is not raised by its own case", c.name)
		}
	}
	// A line of settings.toml has its day in quotation marks.
	if day := regexp.MustCompile(`\b20\d\d-\d\d-\d\d\b[^"]`).FindString(got.String()); day != "" {
		t.Errorf("%s is a day in another form than reports have it", day)
	}
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		t.Errorf("the messages are not those of %s (-update writes it again):\n%s", golden, firstDifference(got.String(),
			string(want)))
	}
}

// firstDifference is the first line in which the two differ.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d\n got: %s\nwant: %s", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(g), len(w))
}

// TestEveryCode sees to it that each code has a meaning and a case, and is
// spelt as codes are.
func TestEveryCode(t *testing.T) {
	cased := map[fault.Code]bool{}
	for _, c := range append(errorCases(), noteCases()...) {
		code, _, _ := strings.Cut(c.name, ":")
		cased[fault.Code(code)] = true
		if _, known := fault.ChecksCatalogue[fault.Code(code)]; !known {
			t.Errorf("case %q is of no code in the catalogue", c.name)
		}
	}
	for code, meaning := range fault.ChecksCatalogue {
		if !cased[code] {
			t.Errorf("no case raises %s", code)
		}
		if strings.Trim(string(code), "abcdefghijklmnopqrstuvwxyz-") != "" || meaning == "" {
			t.Errorf("code %q (%s) is not words with dashes, or has no meaning", code, meaning)
		}
	}
}

// TestClean looks at books with every table in which nothing is wrong, month
// by month: nothing is reported.
func TestClean(t *testing.T) {
	b := clean()
	for _, through := range []calendar.Month{0, day("2026-02-01").InMonth(), checks.LastMonth(&b), checks.LastMonth(&b) +
		1} {
		list := checks.Look(&b, through)
		for _, p := range list.All() {
			t.Errorf("through %s: [%s] %s", through, p.Code, p)
		}
	}
}

// TestWords holds the messages to the house words.
func TestWords(t *testing.T) {
	for _, c := range append(errorCases(), noteCases()...) {
		list := lookAt(t, c)
		for _, p := range list.All() {
			text := strings.ToLower(p.Why + " " + p.Fix)
			for _, banned := range []string{"invalid", "please", "sorry", "illegal", "forbidden", "you forgot", "%!", "nil"} {
				if strings.Contains(text, banned) {
					t.Errorf("%s: %q in %q", c.name, banned, text)
				}
			}
			for _, sentence := range []string{p.Why, p.Fix} {
				if !strings.HasSuffix(sentence, ".") || strings.Contains(sentence, "  ") {
					t.Errorf("%s: no whole sentence: %q", c.name, sentence)
				}
			}
		}
	}
}

// TestLastMonth covers what counts as two tables.
func TestLastMonth(t *testing.T) {
	cases := map[string]string{"date-ahead": "2026-03", "sold-twice": "2026-03", "channel-twice": "0000-01",
		"after-it-left": "2026-04"}
	for _, c := range slices.Concat(errorCases(), noteCases()) {
		if want, asked := cases[c.name]; asked {
			if got := checks.LastMonth(&c.books).String(); got != want {
				t.Errorf("%s: last month %s, want %s", c.name, got, want)
			}
		}
	}
}
