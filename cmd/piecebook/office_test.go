package main

import (
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// typingMacro opens a workbook in the office program, types cells into it (a
// line of the list each: sheet, cell, what is typed), saves and closes it. Into a
// cell formatted as text what is typed goes as it is; elsewhere it becomes a
// number or a day, as it does for whoever types it.
const typingMacro = `Sub Main
  Dim hidden(0) As New com.sun.star.beans.PropertyValue
  hidden(0).Name = "Hidden"
  hidden(0).Value = True
  book = StarDesktop.loadComponentFromURL(ConvertToURL("%s"), "_blank", 0, hidden())
  Open "%s" For Input As #1
  Do While Not EOF(1)
    Line Input #1, typed
    part = Split(typed, Chr(9))
    cell = book.Sheets.getByName(part(0)).getCellRangeByName(part(1))
    If book.NumberFormats.getByKey(cell.NumberFormat).Type And com.sun.star.util.NumberFormat.TEXT Then
      cell.setString(part(2))
    Else
      cell.setFormula(part(2))
    End If
  Loop
  Close #1
  book.store()
  book.close(True)
  StarDesktop.terminate()
End Sub
`

// officeProfile is a profile of the office program that holds a macro and
// counts as set up, so that the first start does not write over it.
func officeProfile(t *testing.T, macro string) string {
	var escaped strings.Builder
	require.NoError(t, xml.EscapeText(&escaped, []byte(macro)))
	profile := filepath.Join(t.TempDir(), "profile")
	const library = `xmlns:library="http://openoffice.org/2000/library"`
	for name, text := range map[string]string{
		"basic/script.xlc": `<!DOCTYPE library:libraries PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "libraries.dtd">
<library:libraries ` + library + `><library:library library:name="Standard" library:link="false"/></library:libraries>`,
		"basic/Standard/script.xlb": `<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library ` + library + ` library:name="Standard" library:readonly="false" library:passwordprotected="false">
<library:element library:name="Module1"/></library:library>`,
		"basic/Standard/Module1.xba": `<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Module1" script:language="StarBasic">` +
			escaped.String() + `</script:module>`,
		"registrymodifications.xcu": `<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/Office"><prop oor:name="ooSetupInstCompleted" oor:op="fuse"><value>true</value></prop></item>
</oor:items>`} {
		file := filepath.Join(profile, "user", filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(xml.Header+text), 0o644))
	}
	return profile
}

// officeTypes types cells into a workbook in the office program; false where
// none is installed.
func officeTypes(t *testing.T, name string, cells [][3]any) bool {
	if _, err := exec.LookPath("libreoffice"); err != nil {
		return false
	}
	whole, err := filepath.Abs(name)
	require.NoError(t, err)
	list := filepath.Join(t.TempDir(), "typed")
	var lines strings.Builder
	for _, c := range cells {
		fmt.Fprintf(&lines, "%v\t%v\t%v\n", c[0], c[1], c[2])
	}
	require.NoError(t, os.WriteFile(list, []byte(lines.String()), 0o644))
	before, err := os.ReadFile(name)
	require.NoError(t, err)
	profile := officeProfile(t, fmt.Sprintf(typingMacro, whole, list))
	said, err := exec.Command("libreoffice", "--headless", "-env:UserInstallation=file://"+filepath.ToSlash(profile),
		"macro:///Standard.Module1.Main").CombinedOutput()
	require.NoError(t, err, string(said))
	after, err := os.ReadFile(name)
	require.NoError(t, err)
	require.NotEqual(t, before, after, "nothing was typed: %s", said)
	return true
}
