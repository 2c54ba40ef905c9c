package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/require"

	ledgerkit "piecebook/ledger/testkit"
	"piecebook/report/outfile"
)

// Larger counts are run by hand: go test ./cmd/piecebook -run Killed -kills 200.
var (
	kills = flag.Int("kills", 1, "at how many random moments each command is killed; with ten or more before every rename")
	pairs = flag.Int("pairs", 1, "how many times each command is run twice at once")
)

// killAt, in the environment of piecebook-killed, is before which rename it
// kills itself.
const killAt = "PIECEBOOK_TEST_KILL_AT"

// killedMain is the program, killed before one of its renames.
func killedMain() {
	n, err := strconv.Atoi(os.Getenv(killAt))
	if err != nil {
		panic(err)
	}
	outfile.Rename = func(from, to string) error {
		if n--; n < 0 {
			self, _ := os.FindProcess(os.Getpid())
			_ = self.Kill()
			select {}
		}
		return os.Rename(from, to)
	}
	main()
}

// writing is one command that writes, on books prepared for it.
type writing struct {
	name    string
	prepare [][]string // commands before records are changed
	args    []string
	refused []string // what a second run of it says where the first was done
}

// writings are the commands that write.
var writings = []writing{
	{"month", [][]string{{"month", "2026-03"}}, []string{"month", "2026-03"}, nil},
	{"close", [][]string{{"close", "2026-01"}}, []string{"close", "2026-03"}, []string{"is closed already"}},
	{"handover", [][]string{{"handover", "2026"}}, []string{"handover", "2026"}, nil},
	{"seen", nil, []string{"seen", "sold-without-hours", "pieces.csv:2"}, []string{"is quiet already"}},
	{"start", nil, []string{"start", "new"}, []string{"is there already"}},
}

// smallBooks is a folder of few records, with what a command stands on.
func (c writing) smallBooks(t *testing.T) string {
	dir := ledgerkit.Folder(t, map[string]string{
		"records/pieces.csv":   "piece,kind,got_on,price,area,asking\nA1,desk,2026-01-05,40.00,20,120\nA2,chair,2026-02-06,15.00,8,60\n",
		"records/supplies.csv": "supply,group,container,coverage\nPrimer,primer,1 qt,100\n",
		"records/purchases.csv": "bought_on,supply,containers,cost,tax_paid\n2026-01-06,Primer,1,20.00,1.20\n" +
			"2026-03-02,Primer,1,21.00,1.26\n",
		"records/uses.csv":  "used_on,pieces,supply\n2026-01-10,A1,Primer\n2026-03-05,A2,Primer\n",
		"records/sales.csv": "sold_on,pieces,price\n2026-02-20,A1,110.00\n2026-03-20,A2,55.00\n",
	})
	for _, args := range c.prepare {
		out, err := exec.Command("piecebook", append([]string{"--books", dir}, args...)...).CombinedOutput()
		require.NoError(t, err, string(out))
	}
	purchases := filepath.Join(dir, "records", "purchases.csv")
	text, err := os.ReadFile(purchases)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(purchases, bytes.Replace(text, []byte("21.00,1.26"), []byte("25.00,1.50"), 1), 0o644))
	return dir
}

// command is the command on books as a process.
func (c writing) command(program, dir string) *exec.Cmd {
	args := append([]string{"--books", dir}, c.args...)
	if c.name == "start" {
		args = []string{"start", filepath.Join(dir, "new")}
	}
	return exec.Command(program, args...)
}

// sums is every file below a folder by its name, but for lock files.
func sums(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == ".lock" {
			return err
		}
		data, err := os.ReadFile(name)
		sum := sha256.Sum256(data)
		below, _ := filepath.Rel(dir, name)
		out[filepath.ToSlash(below)] = hex.EncodeToString(sum[:8])
		return err
	}))
	return out
}

// settled finishes what was left in every folder, as the next run does.
func settled(t *testing.T, dir string) map[string]string {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && !strings.HasPrefix(d.Name(), ".") {
			return outfile.Finish(name)
		}
		return err
	}))
	return sums(t, dir)
}

// isWhole asserts what a killed run may leave: records as they were; of what is
// written all old or all new, where a copy of a hand-over may be there before it.
func (c writing) isWhole(t *testing.T, dir string, before, after map[string]string, when string) {
	t.Helper()
	got := settled(t, dir)
	for name, sum := range before {
		if strings.HasPrefix(name, "records/") {
			require.Equal(t, sum, got[name], "%s %s: %s", c.name, when, name)
		}
	}
	lock := func(name, _ string) bool { return strings.HasSuffix(name, ".piecebook-lock") }
	maps.DeleteFunc(got, lock)
	if maps.Equal(got, before) || maps.Equal(got, after) {
		return
	}
	if c.name == "handover" {
		copied := maps.Clone(after)
		for name := range before {
			copied[name] = before[name]
		}
		for name := range copied { // the new files are not there yet
			if _, old := before[name]; !old && !strings.Contains(name, " of ") {
				delete(copied, name)
			}
		}
		if maps.Equal(got, copied) {
			return
		}
	}
	require.Equal(t, after, got, "%s %s", c.name, when)
}

// again runs the command to its end and asserts that all is as after a run that
// nothing stopped, with nothing left beside.
func (c writing) again(t *testing.T, dir string, after map[string]string, when string) {
	t.Helper()
	out, err := c.command("piecebook", dir).CombinedOutput()
	if err != nil {
		said := false
		for _, refused := range c.refused {
			said = said || strings.Contains(string(out), refused)
		}
		require.True(t, said, "%s %s: %s", c.name, when, out)
	}
	require.Equal(t, after, sums(t, dir), "%s %s", c.name, when)
}

// Goal: killed before any of its renames, and at random moments, a command
// leaves the old files or the new ones, each set whole, the records untouched;
// and the next run is as if nothing had happened.
func TestKilledCommands(t *testing.T) {
	for _, c := range writings {
		t.Run(c.name, func(t *testing.T) {
			whole := c.smallBooks(t)
			before := sums(t, whole)
			start := time.Now()
			out, err := c.command("piecebook", whole).CombinedOutput()
			require.NoError(t, err, "%s", out)
			took := time.Since(start)
			after := sums(t, whole)
			require.NotEqual(t, before, after)
			renames := 0
			for done := false; !done; renames++ {
				if *kills < 10 && renames > 1 {
					renames += 4 // some of them
				}
				dir := c.smallBooks(t)
				cmd := c.command("piecebook-killed", dir)
				cmd.Env = append(os.Environ(), fmt.Sprintf("%s=%d", killAt, renames))
				done = cmd.Run() == nil
				when := fmt.Sprintf("killed before rename %d", renames)
				c.isWhole(t, dir, before, after, when)
				c.again(t, dir, after, when)
			}
			r := rand.New(rand.NewPCG(uint64(*kills), 15))
			killed, runs := 0, 0
			for ; killed < *kills && runs < 4**kills; runs++ { // one that had ended does not count
				dir := c.smallBooks(t)
				cmd := c.command("piecebook", dir)
				require.NoError(t, cmd.Start())
				moment := time.Duration(r.Int64N(int64(took) * 6 / 5))
				time.Sleep(moment)
				_ = cmd.Process.Kill()
				if cmd.Wait() != nil {
					killed++
				}
				when := fmt.Sprintf("killed after %s", moment)
				c.isWhole(t, dir, before, after, when)
				c.again(t, dir, after, when)
			}
			t.Logf("%s: killed before the %d renames it makes, or some; %d of %d runs killed while they ran", c.name, renames-1,
				killed, runs)
		})
	}
}

// Goal: two runs at once write one whole set; of seen both notes are quiet after,
// of close one is done and the other says that it is.
func TestTwoCommandsAtOnce(t *testing.T) {
	for _, c := range writings[:4] {
		if c.name == "handover" {
			continue
		}
		whole := c.smallBooks(t)
		require.NoError(t, c.command("piecebook", whole).Run())
		after := sums(t, whole)
		for range *pairs {
			dir := c.smallBooks(t)
			one, two := c.command("piecebook", dir), c.command("piecebook", dir)
			if c.name == "seen" {
				two.Args[len(two.Args)-1] = "pieces.csv:3"
			}
			var said [2]bytes.Buffer
			one.Stderr, two.Stderr = &said[0], &said[1]
			require.NoError(t, one.Start())
			require.NoError(t, two.Start())
			failed := 0
			for i, err := range []error{one.Wait(), two.Wait()} {
				if err != nil {
					failed++
					require.Equal(t, "close", c.name, "%s", &said[i])
					require.Contains(t, said[i].String(), c.refused[0])
				}
			}
			require.Equal(t, c.name == "close", failed == 1)
			got := sums(t, dir)
			if c.name == "seen" {
				text, err := os.ReadFile(filepath.Join(dir, "seen.csv"))
				require.NoError(t, err)
				require.Equal(t, 2, strings.Count(string(text), "sold-without-hours,"), "%s", text)
				delete(got, "seen.csv")
				got["seen.csv"] = after["seen.csv"]
			}
			require.Equal(t, after, got, c.name)
		}
	}
}

// Goal: on a disk without room, or that can only be read, a command says so,
// exits 3, and leaves all as it was. Method: a small file system in memory, filled
// up; skipped where none can be made.
func TestDiskFullAndReadOnly(t *testing.T) {
	for _, c := range writings {
		disk := t.TempDir()
		if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", disk).CombinedOutput(); err != nil {
			t.Skipf("no file system can be made here: %s", out)
		}
		t.Cleanup(func() { _ = exec.Command("umount", disk).Run() })
		dir := filepath.Join(disk, "books")
		require.NoError(t, os.CopyFS(dir, os.DirFS(c.smallBooks(t))))
		before := sums(t, dir)
		fill(t, filepath.Join(disk, "fill"))
		c.fails(t, dir, before, "The disk is full, so nothing was changed")
		require.NoError(t, os.Remove(filepath.Join(disk, "fill")))
		require.NoError(t, exec.Command("mount", "-o", "remount,ro", disk).Run())
		c.fails(t, dir, before, "This disk can only be read, so nothing was changed")
		require.NoError(t, exec.Command("mount", "-o", "remount,rw", disk).Run())
		out, err := c.command("piecebook", dir).CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
}

// fill writes a file until the disk is full.
func fill(t *testing.T, name string) {
	f, err := os.Create(name)
	require.NoError(t, err)
	for _, size := range []int{64 << 10, 4 << 10, 512} {
		for err = nil; err == nil; {
			_, err = f.Write(make([]byte, size))
		}
	}
	_ = f.Close()
}

// fails asserts that the command exits 3 with some words, and that all is as
// it was.
func (c writing) fails(t *testing.T, dir string, before map[string]string, words string) {
	t.Helper()
	out, err := c.command("piecebook", dir).CombinedOutput()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit, c.name)
	require.Equal(t, cli.ExitFiles, exit.ExitCode(), "%s: %s", c.name, out)
	require.Contains(t, string(out), words, c.name)
	got := sums(t, dir)
	maps.DeleteFunc(got, func(name, _ string) bool { return strings.Contains(name, " of ") }) // what was handed over, kept
	require.Equal(t, before, got, c.name)
}
