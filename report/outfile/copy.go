package outfile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// keep makes a second name for a file, and where the system has none a copy.
func keep(from, to string) error {
	if err := os.Link(from, to); err == nil || errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return copyFile(from, to)
}

// copyFile copies a file with its day.
func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	err = errors.Join(err, out.Sync(), out.Close())
	if info, failed := in.Stat(); err == nil && failed == nil {
		err = os.Chtimes(to, info.ModTime(), info.ModTime())
	}
	return err
}

// CopyFolder copies a folder with all that is below it. The copy is there
// whole or not at all; nothing may stand in its place. Files are not copied but
// given a second name where the system can.
func CopyFolder(from, to string) (err error) {
	unlock, err := lock(filepath.Dir(to))
	if err != nil {
		return err
	}
	defer unlock()
	temp, err := os.MkdirTemp(filepath.Dir(to), beingMade)
	if err != nil {
		return about(to, err)
	}
	defer func() {
		if err != nil {
			_ = removeAll(temp)
		}
	}()
	err = filepath.WalkDir(from, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		below, err := filepath.Rel(from, name)
		if err != nil || d.Name() == lockName {
			return err
		}
		switch copied := filepath.Join(temp, below); {
		case d.IsDir():
			return os.MkdirAll(copied, 0o755)
		case d.Type().IsRegular():
			return keep(name, copied)
		}
		return nil
	})
	if err != nil {
		return err
	}
	if err := os.Chmod(temp, 0o755); err != nil {
		return err
	}
	if err := Rename(temp, to); err != nil {
		return about(to, err)
	}
	syncFolder(filepath.Dir(to))
	return nil
}
