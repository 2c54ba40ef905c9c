package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// reportsOf runs a command on the books and returns the files it wrote, by name.
func reportsOf(t *testing.T, books string, env map[string]string, args ...string) map[string][]byte {
	t.Helper()
	out := t.TempDir()
	var said bytes.Buffer
	status := commands.Run(append([]string{"--books", books, "--out", out}, args...), terminal.Console{Out: io.Discard,
		Err: &said,
		Env: func(k string) string { return env[k] }})
	require.Equal(t, cli.ExitDone, status, said.String())
	files := map[string][]byte{}
	require.NoError(t, filepath.WalkDir(out, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(out, path)
		if err != nil {
			return err
		}
		files[name], err = os.ReadFile(path)
		return err
	}))
	require.NotEmpty(t, files)
	return files
}

// sameFiles says which files differ, not how: they are large.
func sameFiles(t *testing.T, want, got map[string][]byte) {
	t.Helper()
	assert.Len(t, got, len(want))
	for name := range want {
		assert.True(t, bytes.Equal(want[name], got[name]), "%s differs", name)
	}
}

// TestSameBytes: the same records give the same bytes on two runs, in two
// folders, in two time zones; without SOURCE_DATE_EPOCH they are dated by the
// period's end, with it by what it says.
func TestSameBytes(t *testing.T) {
	sample := filepath.Join("..", "..", "sample")
	elsewhere := filepath.Join(t.TempDir(), "another place")
	require.NoError(t, os.CopyFS(elsewhere, os.DirFS(sample)))
	for _, args := range [][]string{{"month", "2026-02"}, {"sheet", "153", "158"}} {
		first := reportsOf(t, sample, nil, args...)
		sameFiles(t, first, reportsOf(t, sample, nil, args...))
		sameFiles(t, first, reportsOf(t, elsewhere, nil, args...))
		for _, hours := range []int{-12, 14} {
			local := time.Local
			time.Local = time.FixedZone("", hours*3600)
			got := reportsOf(t, sample, nil, args...)
			time.Local = local
			sameFiles(t, first, got)
		}
		for name, data := range first {
			if strings.HasSuffix(name, ".pdf") {
				assert.Contains(t, string(data), "/CreationDate (D:20260228000000)", name)
			}
		}
		for name, data := range reportsOf(t, sample, map[string]string{"SOURCE_DATE_EPOCH": "1767225600"}, args...) {
			if strings.HasSuffix(name, ".pdf") {
				assert.Contains(t, string(data), "/CreationDate (D:20260101000000)", name)
				assert.Contains(t, string(data), "/ModDate (D:20260101000000)", name)
				continue
			}
			if strings.HasSuffix(name, ".xlsx") {
				assert.False(t, bytes.Equal(first[name], data), "%s is dated", name)
				continue
			}
			assert.True(t, bytes.Equal(first[name], data), "%s has no date in it", name)
		}
	}
}

// TestWrongStamp: a SOURCE_DATE_EPOCH that is none stops the run and says so.
func TestWrongStamp(t *testing.T) {
	for _, text := range []string{"yesterday", "-1", "1.5", "999999999999999"} {
		var said bytes.Buffer
		status := commands.Run([]string{"--books", filepath.Join("..", "..", "sample"), "--out", t.TempDir(), "month"},
			terminal.Console{Out: io.Discard, Err: &said, Env: func(string) string { return text }})
		assert.Equal(t, cli.ExitUse, status, text)
		assert.Contains(t, said.String(), "SOURCE_DATE_EPOCH")
	}
}
