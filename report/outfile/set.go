package outfile

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"piecebook/ledger/atonce"
)

// How the folder of a set is named, by how far it is.
const (
	beingMade = ".piecebook-new-"  // not complete: it is cleared
	complete  = ".piecebook-done-" // complete: it is finished
	takenBack = ".piecebook-undo-" // its files could not all be placed: it is taken back
)

// listName is the file of a set's folder that says what the others are.
const listName = "list.json"

// listSchema names the form of that file.
const listSchema = "piecebook/writing/1"

// list is what a set consists of.
type list struct {
	Schema     string `json:"schema"`
	Generation string `json:"generation"` // over names and bytes
	Files      []item `json:"files"`
}

// item is one file of a set. In the set's folder the new one is named new-N and
// the one that stood there old-N, by its place in the list.
type item struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256,omitempty"` // blank: it is taken away
	Old    bool   `json:"old,omitempty"`    // one stood there
}

// set is a set of files on its way.
type set struct {
	dir     string
	folder  string // of the set
	list    list
	folders []string // made for it, deepest first
}

// newSet makes the set's folder.
func newSet(dir string, files []File) (*set, error) {
	if err := checkNames(dir, files); err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp(dir, beingMade)
	if err != nil {
		return nil, about(dir, err)
	}
	s := &set{dir: dir, folder: folder, list: list{Schema: listSchema}}
	for _, f := range files {
		s.list.Files = append(s.list.Files, item{Name: f.Name})
	}
	return s, nil
}

// write makes the files, and puts them where they belong once all are there.
func (s *set) write(ctx context.Context, files []File) (err error) {
	defer func() {
		if err != nil {
			removeEmpty(s.folders)
		}
	}()
	if err := s.complete(ctx, files); err != nil {
		_ = removeAll(s.folder)
		return err
	}
	return s.finish()
}

// complete makes the set's files and says that they are there.
func (s *set) complete(ctx context.Context, files []File) error {
	if err := s.fill(ctx, files); err != nil {
		return err
	}
	if err := s.prepare(); err != nil {
		return err
	}
	return s.state(complete)
}

// finish places the files of a complete set; where one cannot be placed, all
// are taken back. A set that can be neither placed nor taken back stays for the
// next run.
func (s *set) finish() error {
	if err := s.place(); err != nil {
		return errors.Join(err, s.takeBack())
	}
	s.clear()
	return nil
}

// path is a file of the set's folder.
func (s *set) path(kind string, n int) string { return filepath.Join(s.folder, fmt.Sprint(kind, n)) }

// target is where the file n belongs.
func (s *set) target(n int) string {
	return filepath.Join(s.dir, filepath.FromSlash(s.list.Files[n].Name))
}

// fill writes the files side by side, as many at once as there are processors,
// from the last to the first: a pack's workbook, which takes longest, is well
// begun when what is left is written beside it. Of several failures the first
// file's is returned.
func (s *set) fill(ctx context.Context, files []File) error {
	failures, sums := make([]error, len(files)), make([]string, len(files))
	filled := make(chan struct{})
	go func() {
		defer close(filled)
		atonce.Each(len(files), func(n int) {
			if i := len(files) - 1 - n; files[i].Write != nil {
				sums[i], failures[i] = fill(s.path("new-", i), s.target(i), files[i].Write)
			}
		})
	}()
	select {
	case <-filled:
	case <-ctx.Done():
		return ctx.Err()
	}
	for i, err := range failures {
		var p panicked
		if errors.As(err, &p) {
			_ = removeAll(s.folder)
			panic(p)
		}
		if err != nil {
			return err
		}
		s.list.Files[i].SHA256 = sums[i]
	}
	return nil
}

// panicked is a panic of a Write, brought over to WriteAll's caller.
type panicked string

func (p panicked) Error() string { return string(p) }

// fill writes one file and brings it to the disk; the sum of its bytes.
func fill(name, target string, write func(io.Writer) error) (sum string, err error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return "", about(target, err)
	}
	defer func() {
		if r := recover(); r != nil {
			err = panicked(fmt.Sprintf("%v\n%s", r, debug.Stack()))
		}
		if closing := f.Close(); err == nil {
			err = closing
		}
		if err != nil {
			err = about(target, err)
		}
	}()
	hashed := sha256.New()
	buffered := bufio.NewWriter(io.MultiWriter(f, hashed))
	if err := write(buffered); err != nil {
		return "", err
	}
	if err := buffered.Flush(); err != nil {
		return "", err
	}
	return hexOf(hashed), f.Sync()
}

func hexOf(h hash.Hash) string { return hex.EncodeToString(h.Sum(nil)) }

// prepare makes what placing needs: the folders, the old files once more, and
// the list, so that placing is renaming alone.
func (s *set) prepare() error {
	sum := sha256.New()
	for i := range s.list.Files {
		f := &s.list.Files[i]
		fmt.Fprintf(sum, "%q %s\n", f.Name, f.SHA256)
		if f.SHA256 != "" {
			made, err := makeFolder(filepath.Dir(s.target(i)))
			s.folders = append(made, s.folders...)
			if err != nil {
				return err
			}
		}
		err := keep(s.target(i), s.path("old-", i))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return about(s.target(i), err)
		}
		f.Old = err == nil
	}
	s.list.Generation = hexOf(sum)[:12]
	text, err := json.Marshal(s.list)
	if err != nil {
		return err
	}
	_, err = fill(filepath.Join(s.folder, listName), s.dir, func(w io.Writer) error {
		_,
			err := w.Write(text)
		return err
	})
	return err
}

// state renames the set's folder by how far it is.
func (s *set) state(state string) error {
	syncFolder(s.folder)
	to := filepath.Join(s.dir, state+s.list.Generation)
	if err := removeAll(to); err != nil { // never there, but for a run that was killed
		return err
	}
	if err := Rename(s.folder, to); err != nil {
		return about(s.dir, err)
	}
	s.folder = to
	syncFolder(s.dir)
	return nil
}

// place renames the new files over the old ones. What is placed already is
// passed over, so that it can be done again.
func (s *set) place() error {
	for i, f := range s.list.Files {
		if f.SHA256 == "" {
			if err := os.Remove(s.target(i)); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			continue
		}
		if err := s.moved(s.path("new-", i), s.target(i)); err != nil {
			return err
		}
	}
	return nil
}

// moved renames a file of the set's folder to its place; one that is gone from
// there is in its place.
func (s *set) moved(from, to string) error {
	info, err := os.Lstat(from)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.IsDir():
		return fmt.Errorf("%s: this is no file", from)
	}
	return about(to, Rename(from, to))
}

// takeBack puts the old files back, and takes away those that were not there.
func (s *set) takeBack() error {
	if filepath.Base(s.folder) != takenBack+s.list.Generation {
		if err := s.state(takenBack); err != nil {
			return err
		}
	}
	for i, f := range s.list.Files {
		var err error
		if f.Old {
			err = s.moved(s.path("old-", i), s.target(i))
		} else if _, waits := os.Lstat(s.path("new-", i)); f.SHA256 != "" && errors.Is(waits, fs.ErrNotExist) {
			err = os.Remove(s.target(i))
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	s.clear()
	return nil
}

// clear brings the names to the disk and takes the set's folder away. Of that
// what stays is hidden, and cleared by the next run.
func (s *set) clear() {
	synced := map[string]bool{}
	for i := range s.list.Files {
		if folder := filepath.Dir(s.target(i)); !synced[folder] {
			synced[folder] = true
			syncFolder(folder)
		}
	}
	_ = removeAll(s.folder)
}

// unfinished is the folders of sets that a killed run left in dir.
func unfinished(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var out []string
	for _, e := range entries {
		for _, state := range []string{beingMade, complete, takenBack} {
			if e.IsDir() && strings.HasPrefix(e.Name(), state) {
				out = append(out, e.Name())
			}
		}
	}
	return out, err
}

// finish does what unfinished sets still need. One whose list cannot be read
// is cleared.
func finish(dir string) error {
	left, err := unfinished(dir)
	if err != nil {
		return err
	}
	for _, name := range left {
		s := &set{dir: dir, folder: filepath.Join(dir, name)}
		readable := s.readList()
		switch {
		case readable && strings.HasPrefix(name, complete):
			err = s.finish()
		case readable && strings.HasPrefix(name, takenBack):
			err = s.takeBack()
		default:
			err = removeAll(s.folder)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// listBytes is the most that a list is read of.
const listBytes = 16 << 20

// readList reads the set's list; false where it is not as it was written.
func (s *set) readList() bool {
	name := filepath.Join(s.folder, listName)
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > listBytes {
		return false
	}
	text, err := os.ReadFile(name)
	if err != nil || json.Unmarshal(text, &s.list) != nil || s.list.Schema != listSchema {
		return false
	}
	for _, f := range s.list.Files {
		if !filepath.IsLocal(filepath.FromSlash(f.Name)) {
			return false
		}
	}
	return true
}

// removeAll removes a folder with all that is in it; one by one where the system
// does not know how Go removes a tree, as compatibility layers for Windows do not.
func removeAll(folder string) error {
	err := os.RemoveAll(folder)
	if err == nil {
		return nil
	}
	var names []string
	_ = filepath.WalkDir(folder, func(name string, _ fs.DirEntry, _ error) error {
		names = append(names, name)
		return nil
	})
	for _, name := range slices.Backward(names) {
		if os.Remove(name) != nil {
			return err
		}
	}
	return nil
}
