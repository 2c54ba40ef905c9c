package testkit

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// Folder writes a books folder of the test's own: texts by their names in it.
func Folder[T ~string | ~[]byte](t testing.TB, files map[string]T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return dir
}

// Needs skips where a program that is no part of Go is not installed; in CI,
// which installs it, that is a failure.
func Needs(t testing.TB, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err == nil {
		return
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not installed, and CI must not skip this", program)
	}
	t.Skipf("%s is not installed", program)
}
