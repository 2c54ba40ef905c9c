package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/cmd/piecebook/terminal"
)

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
			terminal.Console{Out: &out, Err: &said, ErrWide: c.wide, Env: func(k string) string {
				return map[string]string{"NO_COLOR": c.noColor}[k]
			}})
		assert.Equal(t, exitDone, status)
		want := `February 2026: net profit \$[0-9.]+, 7 sold, \$[0-9.]+ an hour after shop costs\.`
		if c.bold {
			want = `\x1b\[1m` + want + `\x1b\[0m`
		}
		if c.wide == 0 {
			want = "^" + want // a bar stands before it on a terminal
		}
		assert.Regexp(t, want+"\n", said.String())
		assert.Equal(t, c.bold, strings.Contains(said.String(), "\x1b[1m"))
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
