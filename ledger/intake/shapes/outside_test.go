package shapes

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/templates"
)

// openpyxl is a Python that has it. Without one the test is skipped, but in
// CI, which installs it.
func openpyxl(t *testing.T) string {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import openpyxl").Run() == nil {
			return python
		}
	}
	if os.Getenv("CI") != "" {
		t.Fatal("openpyxl is not installed, and CI must not skip this")
	}
	t.Skip("openpyxl is not installed")
	return ""
}

// Goal: the programs installed here write what is read as ours, today's sample
// included. Method: openpyxl writes the sample's cells with numbers as
// formulas that have no values, which is reported; LibreOffice works them out and
// saves, which is read.
func TestTheSameMonthsByLivePrograms(t *testing.T) {
	python := openpyxl(t)
	ledgerkit.Needs(t, "libreoffice")
	dir := t.TempDir()
	cells := filepath.Join(dir, "cells.json")
	writeSampleCells(t, cells)
	settings, err := os.ReadFile(filepath.Join("..", "..", "..", "sample", "settings.toml"))
	require.NoError(t, err)
	want := figuresOf(t, os.DirFS(filepath.Join("..", "..", "..", "sample")))
	read := func(name string) outcome {
		b, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return figuresOf(t, fstest.MapFS{"settings.toml": {Data: settings}, "records/Shop book.xlsx": {Data: b}})
	}
	call := func(program string, args ...string) {
		out, err := exec.Command(program, args...).CombinedOutput()
		require.NoError(t, err, string(out))
	}
	script := filepath.Join("testdata", "make_openpyxl.py")
	call(python, script, cells, filepath.Join(dir, "openpyxl.xlsx"))
	sameFigures(t, want, read("openpyxl.xlsx"), "openpyxl")

	call(python, script, cells, filepath.Join(dir, "formulas.xlsx"), "formulas")
	b, err := os.ReadFile(filepath.Join(dir, "formulas.xlsx"))
	require.NoError(t, err)
	set, err := templates.Load()
	require.NoError(t, err)
	errs := intake.Read(fstest.MapFS{"records/b.xlsx": {Data: b}}, set).Problems.Errors()
	require.Greater(t, len(errs), 1000, "each formula without a value is reported")
	require.True(t, slices.ContainsFunc(errs, func(p fault.Problem) bool { return p.Code == fault.CodeFormulaNoValue }))
	call("libreoffice", "--headless", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"),
		"--convert-to", "xlsx", "--outdir", filepath.Join(dir, "saved"), filepath.Join(dir, "formulas.xlsx"))
	sameFigures(t, want, read(filepath.Join("saved", "formulas.xlsx")), "LibreOffice")
}
