package sheets

import (
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
)

func TestDecodeText(t *testing.T) {
	utf16 := func(order unicode.Endianness, text string) string {
		s, err := unicode.UTF16(order, unicode.IgnoreBOM).NewEncoder().String(text)
		require.NoError(t, err)
		return s
	}
	for _, c := range []struct {
		bytes, text string
		guessed     bool
		err         error
	}{
		{"caf\u00e9", "caf\u00e9", false, nil},
		{"caf\xe9", "caf\u00e9", true, nil},
		{"\u00e9t\u00e9 \xe9t\xe9 \x80", "\u00e9t\u00e9 \u00e9t\u00e9 \u20ac", true, nil}, // one row by another program
		{"caf\u00e9 caf\xc3", "", false, errHalfText},
		{"caf\xc3", "caf\u00c3", true, nil}, // nothing says that it is UTF-8
		{"a,b\n\x1a", "a,b\n", false, nil},
		{utf16(unicode.LittleEndian, "worked_on,\u00e9"), "worked_on,\u00e9", false, nil},
		{utf16(unicode.BigEndian, "worked_on,\u00e9"), "worked_on,\u00e9", false, nil},
		{utf16(unicode.BigEndian, "worked_on,\u00e9")[:15], "", false, errNoText},
		{"\xff\xfe" + utf16(unicode.LittleEndian, "a")[:1], "", false, errHalfText},
		{"\xff\xfe\x00\x00a\x00\x00\x00", "", false, errNoText}, // UTF-32
		{"ab\x00c", "", false, errNoText},
		{"", "", false, nil},
	} {
		text, guessed, err := Decode([]byte(c.bytes))
		require.Equal(t, c.text, text, "%q", c.bytes)
		require.Equal(t, c.guessed, guessed, "%q", c.bytes)
		require.Equal(t, c.err, err, "%q", c.bytes)
	}
}
