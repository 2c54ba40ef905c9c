package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/intake"
	"piecebook/templates"
)

// modulesOfPiecebook are the modules noted in the program, built as make month
// builds it: the targets are left to make release.
func modulesOfPiecebook(t *testing.T) []module {
	t.Helper()
	program := filepath.Join(t.TempDir(), "piecebook")
	said, err := exec.Command("go", "build", "-o", program, "piecebook/cmd/piecebook").CombinedOutput()
	require.NoError(t, err, string(said))
	all := map[string]module{}
	require.NoError(t, addModules(all, program))
	list, err := inside(all)
	require.NoError(t, err)
	return list
}

var stamp = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

// Every module has a licence of a known kind, and is in the list, in the
// licences' texts and in the bill of materials (CycloneDX 1.6: bomFormat,
// specVersion, components with purl and SPDX identifiers; every ref depended on
// is there).
func TestWhatIsInside(t *testing.T) {
	list := modulesOfPiecebook(t)
	require.Greater(t, len(list), 15)
	data, err := billOfMaterials("v1.0.0", stamp, list)
	require.NoError(t, err)
	again, err := billOfMaterials("v1.0.0", stamp, list)
	require.NoError(t, err)
	require.Equal(t, data, again)
	var b bom
	require.NoError(t, json.Unmarshal(data, &b))
	assert.Equal(t, "CycloneDX 1.6 2026-03-01T12:00:00Z v1.0.0",
		strings.Join([]string{b.Format, b.Spec, b.Metadata.Timestamp,
			b.Metadata.Component.Version}, " "))
	require.Len(t, b.Components, len(list))
	refs := map[string]bool{}
	names, texts := string(modulesText("v1.0.0", list)), string(licenceTexts(list))
	for i, c := range b.Components {
		assert.NotEmpty(t, c.Licences, c.Name)
		assert.Regexp(t, `^pkg:golang/[^A-Z@]+@v?\d[\w.+-]*$`, c.PackageURL)
		refs[c.Ref] = true
		assert.Contains(t, names, list[i].path)
		assert.Contains(t, texts, "==== "+list[i].path)
	}
	for _, on := range b.DependsOn[0].On {
		assert.True(t, refs[on], on)
	}
	assert.Contains(t, texts, "SIL OPEN FONT LICENSE", "the fonts' own")
}

// An archive has the program, which may be run, licences and the guide; the
// same bytes twice, whatever the clock says.
func TestArchive(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	program := filepath.Join(t.TempDir(), "piecebook")
	require.NoError(t, os.WriteFile(program, []byte("a program"), 0o600))
	list := []module{{path: "example.org/m", version: "v1.0.0", texts: []string{"its licence"}}}
	for _, of := range targets {
		first, err := of.archive(program, stamp, list)
		require.NoError(t, err)
		again, err := of.archive(program, stamp, list)
		require.NoError(t, err)
		require.Equal(t, first, again)
		z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
		require.NoError(t, err)
		names := ""
		for _, f := range z.File {
			names += f.Name + ", "
			assert.True(t, f.Modified.Equal(stamp), f.Name)
		}
		assert.Equal(t, of.program(), z.File[0].Name)
		assert.Equal(t, fs.FileMode(0o755), z.File[0].Mode())
		assert.Contains(t, names, "guide.md, LICENSE.txt, FONT-LICENSE.txt, LICENSES of what is inside.txt, ")
		assert.Equal(t, of.goos == "linux", strings.Contains(names, "piecebook.desktop"))
		assert.Empty(t, notesBeside(t, z))
	}
}

// notesBeside are the notes on an archive's files where an owner's own sheet stands
// beside them: none of them is taken for a record.
func notesBeside(t *testing.T, z *zip.Reader) (out []string) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	folder := fstest.MapFS{"pieces.csv": {Data: []byte("piece,kind,got_on,price\nA1,desk,2026-03-01,20\n")}}
	for _, f := range z.File {
		folder[f.Name] = &fstest.MapFile{Data: []byte("x")}
	}
	for _, n := range intake.Read(folder, set).Problems.All() {
		if n.Place.File != "pieces.csv" {
			out = append(out, n.String())
		}
	}
	return out
}

// Checksums are as sha256sum checks them.
func TestChecksums(t *testing.T) {
	files := map[string][]byte{"b.zip": []byte("b"), "a.zip": []byte("a")}
	sums := checksums(files)
	// FIPS 180-4's algorithm over the one byte a, as coreutils prints it.
	assert.True(t, strings.HasPrefix(string(sums),
		"ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb  a.zip\n"))
	if _, err := exec.LookPath("sha256sum"); err != nil {
		t.Skip("sha256sum is not installed here")
	}
	dir := t.TempDir()
	files["SHA256SUMS"] = sums
	for name, data := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o644))
	}
	check := exec.Command("sha256sum", "--check", "--strict", "SHA256SUMS")
	check.Dir = dir
	said, err := check.CombinedOutput()
	require.NoError(t, err, string(said))
}

// Times come from SOURCE_DATE_EPOCH; a version must be given.
func TestStampAndVersion(t *testing.T) {
	got, err := stampOf("1767225600")
	require.NoError(t, err)
	assert.Equal(t, "2026-01-01T00:00:00Z", got.Format(time.RFC3339))
	_, err = stampOf("today")
	require.Error(t, err)
	require.ErrorContains(t, release("", t.TempDir(), ""), "no version")
	assert.Empty(t, licencesOf("all rights reserved"))
	assert.Regexp(t, regexp.MustCompile(`^\[Desktop Entry\]\nType=Application\n`), desktopEntry)
}
