package plainfile

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

func TestRead(t *testing.T) {
	fsys := fstest.MapFS{"a": {Data: []byte("12345")}, "pipe": {Mode: fs.ModeNamedPipe}, "dir/b": {}}
	b, err := Read(fsys, "a", 5)
	require.NoError(t, err)
	require.Equal(t, "12345", string(b))
	_, err = Read(fsys, "a", 4)
	var big *TooBigError
	require.ErrorAs(t, err, &big)
	require.EqualValues(t, 4, big.Limit)
	for name, want := range map[string]error{"pipe": ErrNoFile, "dir": ErrFolder, "none": fs.ErrNotExist} {
		_, err = Read(fsys, name, 5)
		require.ErrorIs(t, err, want, name)
	}
}

// Goal: a link within the folder is followed, one that leads out is not.
func TestLinks(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	for _, f := range []string{filepath.Join(dir, "in"), filepath.Join(out, "out")} {
		require.NoError(t, os.WriteFile(f, []byte("x"), 0o644))
	}
	if err := os.Symlink("in", filepath.Join(dir, "near")); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	require.NoError(t, os.Symlink(filepath.Join(out, "out"), filepath.Join(dir, "far")))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer func() { _ = root.Close() }()
	b, err := Read(root.FS(), "near", 9)
	require.NoError(t, err)
	require.Equal(t, "x", string(b))
	_, err = Read(root.FS(), "far", 9)
	require.ErrorIs(t, err, ErrLink)
}
