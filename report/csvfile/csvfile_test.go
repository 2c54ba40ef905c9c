package csvfile_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/csvfile"
)

// What begins like a formula becomes words; numbers stay numbers.
func TestText(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "oak": "oak", "12.50": "12.50", "-12.50": "-12.50", "+3": "+3", "3 - 4": "3 - 4",
		"=1+1": "'=1+1", "+A1": "'+A1", "-A1": "'-A1", "- new": "'- new", "@SUM(A1)": "'@SUM(A1)", "\t=1": "'\t=1", "\r=1": "'\r=1", "\n=1": "'\n=1", "＝1": "'＝1",
		"-1-1": "'-1-1", "=": "'=",
	} {
		assert.Equal(t, want, csvfile.Text(in), "%q", in)
	}
}

func TestWrite(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, csvfile.Write(&b, [][]string{{"piece", "amount"}, {"=cmd|' /C calc'!A0", "-1.00"},
		{"a,\"b\"", ""}}))
	assert.Equal(t, "\uFEFFpiece,amount\r\n'=cmd|' /C calc'!A0,-1.00\r\n\"a,\"\"b\"\"\",\r\n", b.String())
}
