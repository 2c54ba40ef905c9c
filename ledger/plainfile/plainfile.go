// Package plainfile reads single files with the guards that everything has that
// the program reads: no pipe or device, which could wait for ever, nothing over
// a stated size, and no link that leads out of the folder.
package plainfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// Why a file is not read. What the system says itself is returned as it is;
// fs.ErrNotExist where there is nothing.
var (
	ErrLink   = errors.New("a link that leads out of the folder, or to nothing")
	ErrFolder = errors.New("a folder where a file should be")
	ErrNoFile = errors.New("neither a file nor a folder")
)

// TooBigError is a file of more bytes than may be read.
type TooBigError struct {
	Name  string
	Limit int64 // in bytes
}

func (e *TooBigError) Error() string {
	return fmt.Sprintf("%s: larger than %d MB", e.Name, e.Limit>>20)
}

// Read reads a file of at most so many bytes. The folder's file system decides
// which links it follows; those of os.Root lead nowhere outside.
func Read(folder fs.FS, name string, limit int64) ([]byte, error) {
	f, err := Open(folder, name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }()
	b, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err == nil && int64(len(b)) > limit {
		return nil, &TooBigError{name, limit}
	}
	return b, err
}

// Open opens a file as Read does, for who does not need all of it.
func Open(folder fs.FS, name string) (fs.File, error) {
	info, err := fs.Stat(folder, name)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission), errors.Is(err, fs.ErrInvalid):
		return nil, err
	case err != nil:
		return nil, &fs.PathError{Op: "read", Path: name, Err: ErrLink}
	case info.IsDir():
		return nil, &fs.PathError{Op: "read", Path: name, Err: ErrFolder}
	case !info.Mode().IsRegular():
		return nil, &fs.PathError{Op: "read", Path: name, Err: ErrNoFile}
	}
	return folder.Open(name)
}
