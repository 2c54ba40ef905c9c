package main

import (
	"archive/zip"
	"bytes"
	"io/fs"
	"os"
	"time"
)

// desktopEntry starts the menu in a terminal from a file manager (Desktop Entry
// Specification 1.5; %k is where the entry itself stands).
const desktopEntry = `[Desktop Entry]
Type=Application
Name=piecebook
Comment=Costs and profit of refinished furniture
Exec=sh -c 'cd "$(dirname "$1")" && exec ./piecebook menu' sh %k
Terminal=true
`

// member is a file of an archive.
type member struct {
	name string
	mode fs.FileMode
	data []byte
}

// archive is the program with its licence, those of what is inside, and the
// guide. Times are the same each time.
func (t target) archive(program string, stamp time.Time, list []module) ([]byte, error) {
	data, err := os.ReadFile(program)
	if err != nil {
		return nil, err
	}
	members := []member{{t.program(), 0o755, data}}
	for _, m := range []struct{ name, from string }{{"guide.md", "report/guide/guide.md"}, {"LICENSE.txt", "LICENSE"},
		{"FONT-LICENSE.txt", "report/pdf/FONT-LICENCE.txt"}} {
		if data, err = os.ReadFile(m.from); err != nil {
			return nil, err
		}
		members = append(members, member{m.name, 0o644, data})
	}
	members = append(members, member{"LICENSES of what is inside.txt", 0o644, licenceTexts(list)})
	if t.goos == "linux" {
		members = append(members, member{"piecebook.desktop", 0o755, []byte(desktopEntry)})
	}
	return zipped(members, stamp)
}

// zipped is members as a zip archive, in their order.
func zipped(members []member, stamp time.Time) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, m := range members {
		h := &zip.FileHeader{Name: m.name, Method: zip.Deflate, Modified: stamp}
		h.SetMode(m.mode)
		w, err := z.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(m.data); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return b.Bytes(), err
}
