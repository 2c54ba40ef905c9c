package terminal

import (
	"bytes"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"
)

// TestBarOnlyWhereWorkTakesLong: nothing under half a second; after it the
// share and the words, and a clean line at the end.
func TestBarOnlyWhereWorkTakesLong(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var short, long bytes.Buffer
		b := startBar(&short, barAfter)
		b.At(0.5, "Reading the records")
		time.Sleep(barAfter - time.Millisecond)
		b.End()
		b.End()
		require.Empty(t, short.String())

		b = startBar(&long, barAfter)
		b.At(0.5, "Reading the records")
		time.Sleep(barAfter + time.Millisecond)
		b.End()
		require.Contains(t, long.String(), "\r["+strings.Repeat("=", 15)+strings.Repeat(" ", 15)+"] Reading the records")
		require.True(t, strings.HasSuffix(long.String(), " \r"))
		for _, line := range strings.Split(long.String(), "\r") {
			require.LessOrEqual(t, len(line), 80)
		}
	})
	var none *Bar
	none.At(1, "nothing")
	none.End()
}

// TestBarWithinTheMenu: a command that the menu runs draws its bar on the
// terminal itself, where what moves the cursor is no name of anybody's.
func TestBarWithinTheMenu(t *testing.T) {
	var out bytes.Buffer
	menu, first := Console{Out: &out, Err: &out, ErrWide: 80, OutWide: 80}.Begin(false)
	first.End()
	command, b := menu.Begin(false)
	b.draw()
	require.True(t, strings.HasPrefix(out.String(), "\r["), out.String())
	_, err := command.Out.Write([]byte("a\x07\n"))
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(out.String(), " \ra\\u0007\n"), out.String())
}
