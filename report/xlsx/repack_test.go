package xlsx_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/report/xlsx"
)

// made is a workbook of several streamed sheets, which the library packs in an
// order of its own.
func made(t *testing.T) []byte {
	f := excelize.NewFile()
	for i := range 6 {
		name := fmt.Sprintf("S%d", i)
		_, err := f.NewSheet(name)
		require.NoError(t, err)
		w, err := f.NewStreamWriter(name)
		require.NoError(t, err)
		require.NoError(t, w.SetRow("A1", []any{i}))
		require.NoError(t, w.Flush())
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

// TestRepackedIsTheSameEveryTime packs the same sheets again and again.
func TestRepackedIsTheSameEveryTime(t *testing.T) {
	first, err := xlsx.Repack(made(t))
	require.NoError(t, err)
	for range 20 {
		again, err := xlsx.Repack(made(t))
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
	f, err := excelize.OpenReader(bytes.NewReader(first))
	require.NoError(t, err)
	for i := range 6 {
		v, err := f.GetCellValue(fmt.Sprintf("S%d", i), "A1")
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(i), v)
	}
}

// TestRepackRefusesWhatIsNoWorkbook says so instead of writing nothing.
func TestRepackRefusesWhatIsNoWorkbook(t *testing.T) {
	_, err := xlsx.Repack([]byte("no zip"))
	require.ErrorContains(t, err, "reading the workbook")
}
