package cli

import (
	"errors"
	"io/fs"

	"piecebook/report/outfile"
)

// WriteSettings writes the lines that check proposes into settings.toml, once their
// owner has asked for it. done is false where they must be pasted by hand.
func (c *Call) WriteSettings(b *Books) (done bool, err error) {
	text, err := fs.ReadFile(b.Folder, "settings.toml")
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, err
	}
	with, ok := b.Read.WithSettingsLines(text)
	if !ok {
		return false, nil
	}
	file := PlainFile("settings.toml", []byte(with))
	return true, c.Stop.WriteAll(c.BooksDir(), []outfile.File{file})
}
