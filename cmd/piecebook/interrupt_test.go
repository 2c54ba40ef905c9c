package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bigbooks"
)

// Goal: Ctrl-C while reports are written stops the program at once, and the
// folder is as it was. Method: the program on large books, interrupted when the
// first new file shows.
func TestInterruptLeavesNothingHalfWritten(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process cannot be sent Ctrl-C there")
	}
	dir := ledgerkit.Folder(t, bigbooks.Make(1, bigbooks.Size{Pieces: 600, Years: 1}).Folder())
	pack := filepath.Join(dir, "reports", "2025-12")
	require.NoError(t, os.MkdirAll(pack, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(pack, "month.pdf"), []byte("the old one"), 0o644))
	before := pathsBelow(t, dir)

	cmd := exec.Command("piecebook", "--books", dir, "month")
	require.NoError(t, cmd.Start())
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	for len(pathsBelow(t, dir)) == len(before) {
		select {
		case <-ended:
			require.Fail(t, "the program ended before it was interrupted")
		case <-time.After(time.Millisecond):
		}
	}
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	<-ended
	assert.Equal(t, 130, cmd.ProcessState.ExitCode())
	assert.Equal(t, before, pathsBelow(t, dir))
	old, err := os.ReadFile(filepath.Join(pack, "month.pdf"))
	require.NoError(t, err)
	assert.Equal(t, "the old one", string(old))
}

// pathsBelow are the paths of all files and folders in dir.
func pathsBelow(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, _ os.DirEntry, err error) error {
		out = append(out, path)
		if os.IsNotExist(err) {
			return nil // taken away while we look
		}
		return err
	}))
	return out
}
