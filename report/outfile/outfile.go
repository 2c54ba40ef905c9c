// Package outfile writes a set of files all or none: whoever looks in the
// folder finds either the old pack or the new one.
package outfile

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
)

// File is one file of a set. Name is below the folder, with forward slashes.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// staged is a file on its way.
type staged struct {
	target string
	temp   string // the new one, beside the target
	old    string // the one that stood there, set aside; blank: there was none
	placed bool   // temp has become target
	open   *os.File
}

// set is a set of files on its way, with the folders made for it.
type set struct {
	files   []*staged
	folders []string
	rename  func(from, to string) error // os.Rename; tests fail it
}

// WriteAll writes the files into dir, making folders as needed. They are
// written side by side, each beside its target, and brought to the disk; only
// when all are there do they take their places. On any failure, and where ctx
// ends before that, what was there before stands again, and nothing else is
// left behind; a Write that is still at work then is not waited for.
//
// A power cut between two renames can still part a set: no file system of
// today renames several files at once. Each single file is whole even then.
func WriteAll(ctx context.Context, dir string, files []File) error {
	return writeAll(ctx, dir, files, os.Rename)
}

func writeAll(ctx context.Context, dir string, files []File, rename func(from, to string) error) (err error) {
	s := &set{rename: rename}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.undo())
		}
	}()
	seen := map[string]bool{}
	for _, f := range files {
		if !filepath.IsLocal(filepath.FromSlash(f.Name)) || seen[f.Name] {
			return fmt.Errorf("%s: not a name for one file below %s", f.Name, dir)
		}
		seen[f.Name] = true
		if err := s.stage(filepath.Join(dir, filepath.FromSlash(f.Name))); err != nil {
			return err
		}
	}
	if err := s.fill(ctx, files); err != nil {
		return err
	}
	for _, f := range s.files {
		if err := s.place(f); err != nil {
			return err
		}
	}
	s.finish()
	return nil
}

// stage opens a new file beside its target.
func (s *set) stage(target string) error {
	folder := filepath.Dir(target)
	if err := s.makeFolder(folder); err != nil {
		return err
	}
	if info, err := os.Stat(target); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s: something that is no file stands there; move it and try again", target)
	}
	temp, err := os.CreateTemp(folder, ".new-*")
	if err != nil {
		return err
	}
	s.files = append(s.files, &staged{target: target, temp: temp.Name(), open: temp})
	return nil
}

// fill writes the staged files side by side, as many at once as there are
// processors. Of several failures the first file's is returned.
func (s *set) fill(ctx context.Context, files []File) error {
	failures := make([]error, len(files))
	left := make(chan struct{}, len(files))
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range files {
		go func() {
			free <- struct{}{}
			failures[i] = s.files[i].fill(files[i].Write)
			<-free
			left <- struct{}{}
		}()
	}
	for range files {
		select {
		case <-left:
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	for _, err := range failures {
		var p panicked
		if errors.As(err, &p) {
			panic(errors.Join(err, s.undo()))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// panicked is a panic of a Write, brought over to WriteAll's caller.
type panicked string

func (p panicked) Error() string { return string(p) }

// fill writes one file and brings it to the disk.
func (f *staged) fill(write func(io.Writer) error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = panicked(fmt.Sprintf("%v\n%s", r, debug.Stack()))
		}
		if closing := f.open.Close(); err == nil {
			err = closing
		}
		if err != nil {
			err = fmt.Errorf("%s: %w", f.target, err)
		}
	}()
	buffered := bufio.NewWriter(f.open)
	if err := write(buffered); err != nil {
		return err
	}
	if err := buffered.Flush(); err != nil {
		return err
	}
	if err := f.open.Sync(); err != nil {
		return err
	}
	// CreateTemp's files are the owner's alone; reports are to be handed on.
	return f.open.Chmod(0o644)
}

// makeFolder makes a folder and remembers which of its parents are new.
func (s *set) makeFolder(folder string) error {
	var missing []string
	for at := folder; ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break
		}
		missing = append(missing, at)
	}
	// Deepest first, the order in which they can be taken away again.
	s.folders = append(missing, s.folders...)
	return os.MkdirAll(folder, 0o755)
}

// place sets the old file aside and puts the new one in its place.
func (s *set) place(f *staged) error {
	if _, err := os.Lstat(f.target); err == nil {
		aside := f.temp + ".old"
		if err := s.rename(f.target, aside); err != nil {
			return fmt.Errorf("%s: %w", f.target, err)
		}
		f.old = aside
	}
	if err := s.rename(f.temp, f.target); err != nil {
		return fmt.Errorf("%s: %w", f.target, err)
	}
	f.placed = true
	return nil
}

// finish clears what was set aside. The new pack stands: a leftover is not
// worth failing for, and is hidden.
func (s *set) finish() {
	for _, f := range s.files {
		if f.old != "" {
			_ = os.Remove(f.old)
		}
		syncFolder(filepath.Dir(f.target))
	}
}

// syncFolder brings a folder's names to the disk, where the system can.
func syncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// undo puts everything back, last first.
func (s *set) undo() error {
	var failed []error
	for i := len(s.files) - 1; i >= 0; i-- {
		f := s.files[i]
		_ = f.open.Close() // else some systems do not let it go
		if f.placed {
			failed = append(failed, os.Remove(f.target))
		} else if err := os.Remove(f.temp); !errors.Is(err, fs.ErrNotExist) {
			failed = append(failed, err)
		}
		if f.old != "" {
			failed = append(failed, os.Rename(f.old, f.target))
		}
	}
	for _, folder := range s.folders {
		_ = os.Remove(folder) // only where it is empty: never what others put there
	}
	return errors.Join(failed...)
}
