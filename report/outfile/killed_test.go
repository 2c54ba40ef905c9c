package outfile

import (
	"context"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

var pairs = flag.Int("pairs", 10, "how many pairs of runs write into one folder at once")

// killAt, in the environment, has the test program write a set and kill itself
// before its rename of that number.
const killAt = "OUTFILE_TEST_KILL_AT"

func TestMain(m *testing.M) {
	n, err := strconv.Atoi(os.Getenv(killAt))
	if err != nil {
		os.Exit(m.Run())
	}
	Rename = func(from, to string) error {
		if n--; n < 0 {
			self, _ := os.FindProcess(os.Getpid())
			_ = self.Kill()
			select {}
		}
		return os.Rename(from, to)
	}
	if err := writeAll(context.Background(), os.Args[1], newSetOf("new")); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(3)
	}
	os.Exit(0)
}

// newSetOf is a set of three files that replaces one and takes one away.
func newSetOf(text string) []File {
	return []File{words("a", text), words("sub/b", text), {Name: "gone"}, words("c", text)}
}

// seenOf is what is in a folder but for what a killed run leaves there.
func seenOf(t *testing.T, dir string) map[string]string {
	out := tree(t, dir)
	maps.DeleteFunc(out, func(name, _ string) bool { return strings.HasPrefix(name, ".piecebook") })
	return out
}

// Goal: killed before any rename, a folder holds the old set or is finished by the
// next run, which leaves nothing else. Method: a process that kills itself.
func TestKilledBeforeEachRename(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	const renames = 4 // of the set, and of three files
	for n := range renames + 1 {
		dir := t.TempDir()
		old := []File{words("a", "old"), words("gone", "old")}
		require.NoError(t, writeAll(t.Context(), dir, old))
		before := tree(t, dir)
		cmd := exec.Command(self, dir)
		cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%d", killAt, n))
		err := cmd.Run()
		require.Equal(t, n < renames, err != nil, "killed before rename %d", n)
		if n == 0 {
			require.Equal(t, "old", seenOf(t, dir)["a"])
		}
		require.NoError(t, Finish(dir))
		after := map[string]string{"./": "", "a": "new", "sub/": "", "sub/b": "new", "c": "new"}
		if n == 0 {
			after = before
			after["sub/"] = "" // made for what was to come
		}
		require.Equal(t, after, tree(t, dir), "killed before rename %d", n)
		require.NoError(t, writeAll(t.Context(), dir, newSetOf("next")))
		require.Equal(t, "next", tree(t, dir)["sub/b"])
		require.Equal(t, 5, len(tree(t, dir)), "nothing else is left")
	}
}

// Goal: a set that could not be placed, nor taken back, is taken back by the
// next run.
func TestTakingBackIsFinished(t *testing.T) {
	for stop := 2; stop < 7; stop++ {
		dir := t.TempDir()
		require.NoError(t, writeAll(t.Context(), dir, []File{words("a", "old"), words("c", "old")}))
		before := tree(t, dir)
		n := 0
		err := renaming(func(from, to string) error {
			// The third file cannot be placed, and from some rename on nothing can be done.
			if n++; filepath.Base(to) == "c" && strings.Contains(from, complete) || n >= stop+2 {
				return syscall.EACCES
			}
			return os.Rename(from, to)
		}, func() error { return writeAll(t.Context(), dir, []File{words("a", "new"), words("c", "new")}) })
		require.Error(t, err)
		require.NoError(t, Finish(dir))
		got := tree(t, dir)
		if got["a"] == "new" {
			require.Equal(t, "new", got["c"], "finished after all")
			continue
		}
		require.Equal(t, before, got)
	}
}

// Goal: a lock that a killed run left is cleared by the next.
func TestLocksAreCleared(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, lockName), nil, 0o644))
	require.NoError(t, Finish(dir))
	require.Equal(t, map[string]string{"./": ""}, tree(t, dir))
}

// Goal: what is no list of ours is cleared, and names that lead out are not followed.
func TestStrangeListsAreCleared(t *testing.T) {
	for _, text := range []string{"", "{", `{"schema":"other"}`,
		`{"schema":"piecebook/writing/1","files":[{"name":"../x","sha256":"1"}]}`} {
		dir := t.TempDir()
		folder := filepath.Join(dir, complete+"1")
		require.NoError(t, os.MkdirAll(folder, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(folder, listName), []byte(text), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(folder, "new-0"), []byte("x"), 0o644))
		require.NoError(t, Finish(dir))
		require.Equal(t, map[string]string{"./": ""}, tree(t, dir))
	}
}

// Goal: of two runs at once each writes its whole set, and nothing else is left.
func TestTwoAtOnce(t *testing.T) {
	for range *pairs {
		dir := filepath.Join(t.TempDir(), "sub")
		var both sync.WaitGroup
		failed := make([]error, 2)
		for i := range failed {
			both.Go(func() { failed[i] = writeAll(t.Context(), dir, newSetOf(fmt.Sprint(i))) })
		}
		both.Wait()
		require.NoError(t, failed[0])
		require.NoError(t, failed[1])
		got := tree(t, dir)
		require.Contains(t, []string{"0", "1"}, got["a"])
		require.Equal(t, map[string]string{"./": "", "a": got["a"], "sub/": "", "sub/b": got["a"], "c": got["a"]}, got)
	}
}

// Goal: what two runs add to one file is all there.
func TestUpdatesDoNotMeet(t *testing.T) {
	dir := t.TempDir()
	var all sync.WaitGroup
	for i := range 2 * *pairs {
		all.Go(func() {
			err := Update(t.Context(), dir, func() ([]File, error) {
				was, err := os.ReadFile(filepath.Join(dir, "list"))
				if err != nil && !os.IsNotExist(err) {
					return nil, err
				}
				return []File{words("list", string(was)+fmt.Sprintf("%03d\n", i))}, nil
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	require.Len(t, tree(t, dir)["list"], 4*2**pairs)
}

func TestCopyFolder(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeAll(t.Context(), filepath.Join(dir, "is"), newSetOf("1")))
	require.NoError(t, CopyFolder(filepath.Join(dir, "is"), filepath.Join(dir, "was")))
	require.NoError(t, writeAll(t.Context(), filepath.Join(dir, "is"), newSetOf("2")))
	require.Equal(t, "1", tree(t, filepath.Join(dir, "was"))["sub/b"], "what is written over is another file")
	require.Equal(t, "2", tree(t, filepath.Join(dir, "is"))["sub/b"])
	require.Error(t, CopyFolder(filepath.Join(dir, "is"), filepath.Join(dir, "was")), "something stands there")
	entries, err := fs.ReadDir(os.DirFS(dir), ".")
	require.NoError(t, err)
	require.Len(t, entries, 2)
}
