package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestNothingSaidIsWider: on a terminal what is said breaks at blanks, under
// its indent; bold takes no room; a word wider than the terminal stays whole.
func TestNothingSaidIsWider(t *testing.T) {
	for said, want := range map[string]string{
		"one two three\n":                   "one two\nthree\n",
		"  one two three\n":                 "  one\n  two\n  three\n",
		"one two\n":                         "one two\n",
		boldOn + "one two" + boldOff + "\n": boldOn + "one two" + boldOff + "\n",
		"/a/long/path/of/files\n":           "/a/long/path/of/files\n",
		"é é é é é é\n":                     "é é é é\né é\n",
		"no end of line":                    "no end\nof line",
	} {
		var b bytes.Buffer
		n, err := peopleWriter{&b, 8}.Write([]byte(said))
		assert.NoError(t, err)
		assert.Equal(t, len(said), n)
		assert.Equal(t, want, b.String())
	}
}

// TestAnswerFirst: the month's answer comes first, in bold on a terminal that
// wants it; what is no terminal gets plain words.
func TestAnswerFirst(t *testing.T) {
	for _, c := range []struct {
		wide    int
		noColor string
		bold    bool
	}{{0, "", false}, {80, "", true}, {80, "1", false}} {
		var out, said bytes.Buffer
		status := run([]string{"--books", "../../sample", "--out", t.TempDir(), "month", "2026-02"},
			console{out: &out, err: &said, errWide: c.wide, env: func(k string) string {
				return map[string]string{"NO_COLOR": c.noColor}[k]
			}})
		assert.Equal(t, exitDone, status)
		want := `February 2026: net profit \$[0-9.]+, 7 sold, \$[0-9.]+ an hour after shop costs\.`
		if c.bold {
			want = regexp.QuoteMeta(boldOn) + want + regexp.QuoteMeta(boldOff)
		}
		if c.wide == 0 {
			want = "^" + want // a bar stands before it on a terminal
		}
		assert.Regexp(t, want+"\n", said.String())
		assert.Equal(t, c.bold, strings.Contains(said.String(), boldOn))
	}
}

// Goal: what could steer a terminal or turn a line around is shown by its mark
// (ECMA-48; Unicode, UAX 9), wherever it comes from.
func TestNamesCannotSteerTheTerminal(t *testing.T) {
	for _, wide := range []int{0, 200} {
		var b bytes.Buffer
		_, err := peopleWriter{&b, wide}.Write([]byte("a\x1b]0;x\x07\x1b[31m\u202egpj.exe \u2066é\x7f\u0085\tz\n"))
		assert.NoError(t, err)
		assert.Equal(t, `a\u001b]0;x\u0007\u001b[31m\u202egpj.exe \u2066é\u007f\u0085`+"\tz\n", b.String())
	}
}

// Goal: no two sets of pieces have sheets of one name, on no system.
func TestSheetNamesDoNotMeet(t *testing.T) {
	long := strings.Repeat("é", 300)
	seen := map[string][]string{}
	for _, ids := range [][]string{{"a/b"}, {"a-b"}, {`a\b`}, {"a:b"}, {"a"}, {"a, b"}, {"a", "b"}, {"a."}, {"a "},
		{"a\x1bb"}, {"a\u202eb"},
		{"1", "2", "3", "4"}, {"1", "2", "3", "5"}, {"1", "2", "3", "and 1 more"}, {"1", "2", "3"}, {long}, {long + "x"},
		{sheetNameOf("a/b")}, {"a ~1"}} {
		name := sheetName(ids)
		key := strings.ToLower(name)
		assert.Nil(t, seen[key], "%q and %q both %s", ids, seen[key], name)
		seen[key] = ids
		assert.LessOrEqual(t, len(name), 255)
		assert.NotContains(t, name, "/")
	}
	assert.Equal(t, "sheet P012, P013.pdf", sheetName([]string{"P012", "P013"}))
}

// sheetNameOf is a piece that is named as another's sheet is.
func sheetNameOf(id string) string {
	return strings.TrimSuffix(strings.TrimPrefix(sheetName([]string{id}), "sheet "), ".pdf")
}
