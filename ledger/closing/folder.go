package closing

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing/fstest"

	"piecebook/ledger/calendar"
	"piecebook/ledger/plainfile"
)

// Folder is where closed months are kept, within the books folder.
const Folder = "closed"

// FileName is a closed month's file within the books folder, CopyName the
// folder with the copy of its records.
func FileName(m calendar.Month) string { return path.Join(Folder, m.String()+".json") }

// CopyName is the folder with the copy of a closed month's records.
func CopyName(m calendar.Month) string { return path.Join(Folder, m.String()) }

// bytesMax is the most that one file is read of: twice what the largest books
// there are known to make.
const bytesMax = 512 << 20

// Refused is a file of the closed months that cannot be used, and why.
type Refused struct {
	File string
	Err  error
}

func (r *Refused) Error() string { return r.File + ": " + r.Err.Error() }

// Unwrap is why.
func (r *Refused) Unwrap() error { return r.Err }

// ErrNoFile is for something that is no file where one should be.
var ErrNoFile = errors.New("a plain file was written here, and something else stands in its place")

// Read reads the closed months of a books folder, in order; none where nothing
// was closed. The first file that cannot be used is returned as *Refused: of
// several months none is used then.
func Read(books fs.FS) ([]*Month, error) {
	entries, err := fs.ReadDir(books, Folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, &Refused{Folder, err}
	}
	var out []*Month
	for _, e := range entries { // by name
		name, isJSON := strings.CutSuffix(e.Name(), ".json")
		month, err := calendar.ParseMonth(name)
		if !isJSON || err != nil {
			continue
		}
		m, err := readMonth(books, month)
		if err != nil {
			return nil, &Refused{FileName(month), err}
		}
		before := ""
		if len(out) > 0 {
			before = out[len(out)-1].Sum
		}
		if m.Month != month || m.After != before || len(out) > 0 && out[len(out)-1].Month != month-1 ||
			(len(out) == 0) != (m.Before != nil) {
			return nil, &Refused{FileName(month), ErrOrder}
		}
		out = append(out, m)
	}
	return out, nil
}

func readMonth(books fs.FS, month calendar.Month) (*Month, error) {
	data, err := readFile(books, FileName(month))
	if err != nil {
		return nil, err
	}
	return Decode(data)
}

// readFile reads a plain file.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	data, err := plainfile.Read(fsys, name, bytesMax)
	var path *fs.PathError
	var big *plainfile.TooBigError
	switch {
	case errors.As(err, &big):
		return nil, ErrAltered // what was written is smaller
	case errors.Is(err, plainfile.ErrFolder), errors.Is(err, plainfile.ErrNoFile), errors.Is(err, plainfile.ErrLink):
		return nil, ErrNoFile
	case errors.As(err, &path) && !errors.Is(err, fs.ErrNotExist):
		return nil, path.Err
	}
	return data, err
}

// Copy is the copy of a closed month's records as a books folder, held in
// memory. Each file must be as it was closed, else *Refused; what else stands
// in the folder is not in it.
func Copy(books fs.FS, m *Month) (fs.FS, error) {
	out := fstest.MapFS{}
	for _, f := range m.Files {
		name := path.Join(CopyName(m.Month), f.Name)
		if !fs.ValidPath(f.Name) {
			return nil, &Refused{name, ErrAltered}
		}
		data, err := readFile(books, name)
		if err != nil {
			return nil, &Refused{name, err}
		}
		if FileOf(f.Name, data) != f {
			return nil, &Refused{name, ErrAltered}
		}
		out[f.Name] = &fstest.MapFile{Data: data, Mode: 0o444}
	}
	return out, nil
}

// CheckCopies reads the copies of all closed months; the first file that is not as
// it was closed is returned as *Refused.
func CheckCopies(books fs.FS, closed []*Month) error {
	for _, m := range closed {
		if _, err := Copy(books, m); err != nil {
			return err
		}
	}
	return nil
}

// FileOf is a file of a copy.
func FileOf(name string, data []byte) File {
	return File{Name: name, Size: int64(len(data)), SHA256: sum(data)}
}

// Upto is the closed months up to and with a month.
func Upto(closed []*Month, m calendar.Month) []*Month {
	n := slices.IndexFunc(closed, func(c *Month) bool { return c.Month > m })
	if n < 0 {
		return closed
	}
	return closed[:n]
}
