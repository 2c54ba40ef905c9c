package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing is needed at run time but the program: it makes the sample's pack,
// the guide and the cards in a root folder that holds itself and the books
// alone: no fonts, no time zones, no user, no network.
func TestInAnEmptyRoot(t *testing.T) {
	info, ok := debug.ReadBuildInfo()
	require.True(t, ok)
	if slices.Contains(info.Settings, debug.BuildSetting{Key: "CGO_ENABLED", Value: "1"}) {
		t.Skip("this test was built with cgo, which no release is; make test builds without")
	}
	root := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(root, "books"), os.DirFS(filepath.Join("..", "..", "sample"))))
	here, err := os.Executable()
	require.NoError(t, err)
	program, err := os.Open(here)
	require.NoError(t, err)
	defer func() { require.NoError(t, program.Close()) }()
	to, err := os.OpenFile(filepath.Join(root, "piecebook"), os.O_CREATE|os.O_WRONLY, 0o755)
	require.NoError(t, err)
	_, err = io.Copy(to, program)
	require.NoError(t, err)
	require.NoError(t, to.Close())
	for _, args := range [][]string{{"--books", "books", "month"}, {"--out", "books", "guide"},
		{"--books", "books", "cards"}} {
		c := exec.Command("/piecebook", args...)
		c.Dir, c.Env = "/", []string{}
		c.SysProcAttr = &syscall.SysProcAttr{Chroot: root, Cloneflags: syscall.CLONE_NEWUSER | syscall.CLONE_NEWNET,
			UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
			GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}}
		var said strings.Builder
		c.Stdout, c.Stderr = &said, &said
		err := c.Start()
		if os.IsPermission(err) {
			t.Skipf("another root folder may not be used here: %v", err)
		}
		require.NoError(t, err)
		require.NoError(t, c.Wait(), said.String())
	}
	for _, name := range []string{"reports/2026-02/month.pdf", "reports/2026-02/month.xlsx", "guide.pdf",
		"reports/cards.pdf"} {
		info, err := os.Stat(filepath.Join(root, "books", name))
		require.NoError(t, err)
		assert.Greater(t, info.Size(), int64(5000), name)
	}
}
