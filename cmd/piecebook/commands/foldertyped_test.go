package commands

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Folders as they are typed, or dragged into a window of Windows or macOS.
func TestFolderAsTyped(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "my books")
	require.NoError(t, os.Mkdir(dir, 0o755))
	escaped := strings.ReplaceAll(dir, " ", `\ `)
	for _, typed := range []string{dir, `"` + dir + `"`, "'" + dir + "'", dir + string(filepath.Separator), escaped} {
		if filepath.Separator == '\\' && typed == escaped {
			continue
		}
		assert.Equal(t, dir, asFolder(typed, "elsewhere"), typed)
	}
	assert.Equal(t, filepath.Join("here", "new"), asFolder("new", "here"))
	assert.Equal(t, "", asFolder(`""`, "here"))
}
