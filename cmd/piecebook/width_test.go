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
		n, err := fitting(&b, 8).Write([]byte(said))
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
			world{out: &out, err: &said, errWide: c.wide, env: func(k string) string {
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
