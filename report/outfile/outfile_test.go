package outfile

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// words is a file of the given words.
// writeAll writes files that are there already.
func writeAll(ctx context.Context, dir string, files []File) error {
	return Update(ctx, dir, func() ([]File, error) { return files, nil })
}

func words(name, text string) File {
	return File{Name: name, Write: func(w io.Writer) error { _, err := io.WriteString(w, text); return err }}
}

// renaming does something while files are renamed by other means.
func renaming(by func(from, to string) error, do func() error) error {
	defer func() { Rename = os.Rename }()
	Rename = by
	return do()
}

// tree is every file below dir with what is in it; folders end in a slash.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		require.NoError(t, err)
		name, _ := filepath.Rel(dir, path)
		if d.IsDir() {
			out[filepath.ToSlash(name)+"/"] = ""
			return nil
		}
		b, err := os.ReadFile(path)
		out[filepath.ToSlash(name)] = string(b)
		return err
	}))
	return out
}

func TestWriteAllReplacesAndLeavesNothingElse(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "1"), words("2026-03/b", "2")}))
	require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "new"), words("c", "3")}))
	assert.Equal(t, map[string]string{"./": "", "a": "new", "2026-03/": "", "2026-03/b": "2", "c": "3"}, tree(t, dir))
	info, err := os.Stat(filepath.Join(dir, "a"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o644), info.Mode().Perm())
}

func TestFailureKeepsTheOldPack(t *testing.T) {
	broken := errors.New("disk full")
	fails := func(w io.Writer) error {
		if _, err := io.WriteString(w, "half"); err != nil {
			return err
		}
		return broken
	}
	t.Run("writing the last", func(t *testing.T) {
		dir := t.TempDir()
		require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "old"), words("b", "old")}))
		before := tree(t, dir)
		err := writeAll(t.Context(), dir, []File{words("a", "new"), words("sub/x", "new"), {Name: "b", Write: fails}})
		require.ErrorIs(t, err, broken)
		assert.Equal(t, before, tree(t, dir))
	})
	t.Run("any rename", func(t *testing.T) {
		// One for the set to be complete, one for each of three files.
		for fail := range 4 {
			dir := t.TempDir()
			require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "old"), words("c", "old"), words("gone", "old")}))
			before := tree(t, dir)
			n := 0
			err := renaming(func(from, to string) error {
				if n++; n == fail+1 {
					return broken
				}
				return os.Rename(from, to)
			}, func() error {
				return writeAll(t.Context(), dir, []File{{Name: "gone"}, words("a", "new"), words("sub/b", "new"),
					words("c", "new")})
			})
			require.ErrorIs(t, err, broken, "rename %d", fail)
			assert.Equal(t, before, tree(t, dir), "rename %d", fail)
		}
	})
	t.Run("a folder where the last should be", func(t *testing.T) {
		dir := t.TempDir()
		require.NoError(t, os.MkdirAll(filepath.Join(dir, "b"), 0o755))
		require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "old"), words("b/kept", "old")}))
		before := tree(t, dir)
		require.Error(t, writeAll(t.Context(), dir, []File{words("a", "new"), words("b", "new")}))
		assert.Equal(t, before, tree(t, dir))
	})
	t.Run("the first time", func(t *testing.T) {
		dir := filepath.Join(t.TempDir(), "reports", "2026-03")
		require.Error(t, writeAll(t.Context(), dir, []File{words("a", "new"), {Name: "b", Write: fails}}))
		_, err := os.Stat(filepath.Dir(dir))
		assert.ErrorIs(t, err, os.ErrNotExist)
	})
}

// Goal: stopped in the middle, by its context or by a defect, a set leaves what
// stood there before and nothing else, and does not wait for what is at work.
func TestStoppedSetLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "old")}))
	before := tree(t, dir)

	ctx, stop := context.WithCancel(t.Context())
	never := make(chan struct{})
	defer close(never)
	waits := File{Name: "sub/b", Write: func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Repeat("half", 10_000))
		stop()
		<-never
		return err
	}}
	require.ErrorIs(t, writeAll(ctx, dir, []File{words("a", "new"), waits}), context.Canceled)
	assert.Equal(t, before, tree(t, dir))

	breaks := File{Name: "sub/b", Write: func(io.Writer) error { panic("a defect") }}
	require.Panics(t, func() { _ = writeAll(t.Context(), dir, []File{words("a", "new"), breaks}) })
	assert.Equal(t, before, tree(t, dir))
}

// Goal: the files of a set are written side by side. Method: two that wait for
// each other.
func TestFilesAreWrittenSideBySide(t *testing.T) {
	if runtime.GOMAXPROCS(0) < 2 {
		t.Skip("one processor writes one file at a time")
	}
	met := make(chan struct{})
	meets := func(name string) File {
		return File{Name: name, Write: func(io.Writer) error {
			select {
			case met <- struct{}{}:
			case <-met:
			}
			return nil
		}}
	}
	require.NoError(t, writeAll(t.Context(), t.TempDir(), []File{meets("a"), meets("b")}))
}

func TestNamesOutsideTheFolderAreRefused(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"../a", "/a", ""} {
		require.Error(t, writeAll(t.Context(), dir, []File{words("ok", "1"), words(name, "2")}), name)
	}
	require.Error(t, writeAll(t.Context(), dir, []File{words("a", "1"), words("a", "2")}))
	assert.Equal(t, map[string]string{"./": ""}, tree(t, dir))
}
