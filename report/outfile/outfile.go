// Package outfile writes a set of files all or none: anyone who looks in the
// folder finds either the old set or the new one.
//
// A set is made in a folder of its own, .piecebook-new-*, within the folder it
// is for. Once all its files are on the disk that folder is renamed to
// .piecebook-done-GENERATION, and from then on the set counts as written: its
// files are renamed over those that are there, never with one of them aside.
// A run that is killed in the middle leaves a folder that says by its name what
// the next run has to do: clear what was not yet complete, finish what was,
// or take back what a failure stopped (.piecebook-undo-*).
package outfile

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// File is one file of a set. Name is below the folder, with forward slashes.
// One without Write is not there when the set is.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Rename renames a file. Tests put their own in its place, to stop or fail it.
var Rename = os.Rename

// Update writes files into dir, making folders as needed; they are worked out from
// what is in dir, and no other run writes there between the two. On any failure,
// and where ctx ends before the set is complete, what was there before stands
// again, and nothing else is left behind; a Write that is still at work then
// is not waited for. What an earlier run left unfinished in dir is finished first.
//
// Only one run at a time writes into a folder; others wait.
func Update(ctx context.Context, dir string, make func() ([]File, error)) (err error) {
	made, err := makeFolder(dir)
	defer func() {
		if err != nil {
			removeEmpty(made)
		}
	}()
	if err != nil {
		return err
	}
	unlock, err := lock(dir)
	if err != nil {
		return about(dir, err)
	}
	defer unlock()
	if err := finish(dir); err != nil {
		return err
	}
	files, err := make()
	if err != nil {
		return err
	}
	s, err := newSet(dir, files)
	if err != nil {
		return err
	}
	return s.write(ctx, files)
}

// Finish finishes, or clears, what a run that was killed left in dir; nothing
// where there is nothing of it. It waits for a run that writes there now.
func Finish(dir string) error {
	left, err := unfinished(dir)
	_, noLock := os.Lstat(filepath.Join(dir, lockName))
	if err != nil || len(left) == 0 && noLock != nil {
		return err
	}
	unlock, err := lock(dir)
	if err != nil {
		return about(dir, err)
	}
	defer unlock()
	return finish(dir)
}

// about is an error of the system as one about a file or folder that the owner
// knows, rather than about one that is there only while a set is written.
func about(name string, err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &link):
		return &fs.PathError{Op: "write", Path: name, Err: link.Err}
	case errors.As(err, &path):
		return &fs.PathError{Op: "write", Path: name, Err: path.Err}
	case err == nil:
		return nil
	}
	return fmt.Errorf("%s: %w", name, err)
}

// checkNames refuses names that are not each one file's below the folder.
func checkNames(dir string, files []File) error {
	seen := map[string]bool{}
	for _, f := range files {
		if !filepath.IsLocal(filepath.FromSlash(f.Name)) || seen[f.Name] {
			return fmt.Errorf("%s: not a name for one file below %s", f.Name, dir)
		}
		seen[f.Name] = true
		target := filepath.Join(dir, filepath.FromSlash(f.Name))
		if info, err := os.Stat(target); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s: what stands there is not a file; move it and try again", target)
		}
	}
	return nil
}

// makeFolder makes a folder; it returns those it made, deepest first.
func makeFolder(folder string) (made []string, err error) {
	for at := folder; ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break
		}
		made = append(made, at)
	}
	return made, os.MkdirAll(folder, 0o755)
}

// removeEmpty takes folders away again, where they are empty: never what
// others put there.
func removeEmpty(folders []string) {
	for _, folder := range folders {
		_ = os.Remove(folder)
	}
}

// syncFolder brings a folder's names to the disk, where the system can.
func syncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
