package outfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// lockName is the file that is locked while a run writes into its folder. It is
// there only then, or after a run was killed.
const lockName = ".piecebook-lock"

// lock waits until no other run writes into dir. The system lets the lock go
// whenever a program ends. A file system that has no locks has none.
func lock(dir string) (unlock func(), err error) {
	name := filepath.Join(dir, lockName)
	for {
		f, err := lockedfile.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
		switch {
		case errors.Is(err, errors.ErrUnsupported):
			return func() {}, nil
		case errors.Is(err, fs.ErrNotExist): // another run took the folder away again
			if err := os.MkdirAll(dir, 0o755); err != nil {
				return nil, err
			}
			continue
		case err != nil:
			return nil, err
		}
		// The program that had it before took the file away: then this is no lock any more.
		mine, err := f.Stat()
		if there, gone := os.Stat(name); err == nil && gone == nil && os.SameFile(mine, there) {
			return func() {
				removed := os.Remove(name)
				_ = f.Close()
				if removed != nil { // some systems remove only what is closed
					_ = os.Remove(name)
				}
			}, nil
		}
		_ = f.Close()
	}
}
