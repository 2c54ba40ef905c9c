package terminal

import (
	"bytes"
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
		"家 家 家 家\n":                         "家 家 家\n家\n", // each is two columns wide
		"no end of line":                    "no end\nof line",
	} {
		var b bytes.Buffer
		n, err := peopleWriter{&b, 8}.Write([]byte(said))
		assert.NoError(t, err)
		assert.Equal(t, len(said), n)
		assert.Equal(t, want, b.String())
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
