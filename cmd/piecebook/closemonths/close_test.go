package closemonths

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/closing"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
)

// Goal: a run of close that ends at any file leaves months that are closed whole
// or open, the records as they were, and the next run makes of it what one run
// would have made. Method: the files of two months put in place in their order,
// as the writing does it, up to each of them; then close again.
func TestCloseStoppedAtAnyFile(t *testing.T) {
	quiet := terminal.Console{Out: io.Discard, Err: io.Discard}
	dir := ledgerkit.Folder(t, bookgen.Files(3))
	c := cli.Call{Books: dir}
	b, err := c.Open(0)
	require.NoError(t, err)
	b, err = c.Open(b.Ledger.Months[1].Month)
	require.NoError(t, err)
	months, files, err := toClose(b)
	require.NoError(t, err)
	require.Len(t, months, 2)
	whole := func(dir string) map[string]string {
		out := map[string]string{}
		for _, f := range files {
			data, err := os.ReadFile(filepath.Join(dir, closing.Folder, filepath.FromSlash(f.Name)))
			require.NoError(t, err)
			out[f.Name] = string(data)
		}
		return out
	}
	once := t.TempDir()
	require.NoError(t, os.CopyFS(once, os.DirFS(dir)))
	require.NoError(t, CloseCmd{Month: months[1].String()}.Run(&cli.Call{Books: once}, quiet))
	for stopped := 0; stopped < len(files); stopped += 5 {
		books := t.TempDir()
		require.NoError(t, os.CopyFS(books, os.DirFS(dir)))
		require.NoError(t, (*terminal.Stop)(nil).WriteAll(filepath.Join(books, closing.Folder), files[:stopped]))
		closed, err := closing.Read(os.DirFS(books))
		require.NoError(t, err)
		for i, m := range closed {
			require.Equal(t, months[i], m.Month)
			_, err := closing.Copy(os.DirFS(books), m)
			require.NoError(t, err)
		}
		require.NoError(t, CloseCmd{Month: months[1].String()}.Run(&cli.Call{Books: books}, quiet))
		require.Equal(t, whole(once), whole(books), "stopped before %s", files[stopped].Name)
	}
}
