package pdf

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
)

// language is what the pages are written in, as ISO 32000-1, 14.9.2, has it.
const language = "en-US"

// inCatalogue is what the library has no call for: the language, and that a
// reader shows the document's title rather than the file's name (ISO 32000-1,
// 7.7.2 and 12.2; both since PDF 1.4).
const inCatalogue = "/Lang (" + language + ")\n/ViewerPreferences <</DisplayDocTitle true>>\n"

// errOtherwise says that the PDF library no longer writes files as it did.
var errOtherwise = errors.New("the PDF library's file is not laid out as it was")

// packer makes what pages show shorter (ISO 32000-1, 7.4.4), or not, for tests
// that read it back. The library sets up a compressor of over a megabyte again for
// each page.
type packer struct {
	zlib   *zlib.Writer // nil: nothing is compressed
	packed bytes.Buffer
}

func newPacker(compress bool) (p packer, err error) {
	if compress {
		p.zlib, err = zlib.NewWriterLevel(nil, zlib.BestSpeed)
	}
	return p, err
}

// packs says that it compresses.
func (p *packer) packs() bool { return p.zlib != nil }

func (p *packer) pack(shown []byte) ([]byte, error) {
	if !p.packs() {
		return shown, nil
	}
	p.packed.Reset()
	p.zlib.Reset(&p.packed)
	_, err := p.zlib.Write(shown)
	err = cmp.Or(err, p.zlib.Close())
	return bytes.Clone(p.packed.Bytes()), err
}

// finisher writes a file of the library's once more, object by object: the pages
// with what they show, and the catalogue with what is added to it.
type finisher struct {
	w      io.Writer
	at     int
	err    error
	shown  [][]byte // what the pages still to come show
	packed bool     // it is compressed
	ofPage bool     // the object before is a page, so that this is what it shows
	found  bool     // the catalogue has been written
}

// finish writes the library's file to w, its pages, which are empty, with what
// they show.
func finish(w io.Writer, file []byte, shown [][]byte, packed bool) error {
	places, table, err := objectPlaces(file)
	if err != nil {
		return err
	}
	f := &finisher{w: w, shown: shown, packed: packed}
	order := make([]int, len(places)) // the objects' numbers less one, as they stand in the file
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(places[a], places[b]) })
	moved := make([]int, len(places))
	f.version(file[:places[order[0]]])
	for i, n := range order {
		end := table
		if i+1 < len(order) {
			end = places[order[i+1]]
		}
		moved[n] = f.at
		f.object(file[places[n]:end])
	}
	if !f.found || len(f.shown) > 0 {
		return errOtherwise
	}
	return f.table(moved, file[table:])
}

// objectPlaces are where the objects of a file stand, by their numbers less
// one, and its table of places (ISO 32000-1, 7.5.4).
func objectPlaces(file []byte) (places []int, table int, err error) {
	const start, entry = "\nstartxref\n", len("0000000000 65535 f \n")
	at := bytes.LastIndex(file, []byte(start))
	if at < 0 {
		return nil, 0, errOtherwise
	}
	digits, _, _ := bytes.Cut(file[at+len(start):], []byte("\n"))
	table, err = strconv.Atoi(string(digits))
	if err != nil || table > at {
		return nil, 0, errOtherwise
	}
	var n int
	if _, err := fmt.Sscanf(string(file[table:min(len(file), table+40)]), "xref\n0 %d\n", &n); err != nil || n < 2 {
		return nil, 0, errOtherwise
	}
	entries := file[table+len(fmt.Sprintf("xref\n0 %d\n", n)):]
	for i := 1; i < n; i++ {
		place, err := strconv.Atoi(string(entries[i*entry : i*entry+10]))
		if err != nil || place > table {
			return nil, 0, errOtherwise
		}
		places = append(places, place)
	}
	return places, table, nil
}

func (f *finisher) put(b []byte) {
	if f.err == nil {
		_, f.err = f.w.Write(b)
		f.at += len(b)
	}
}

// version writes the file's first line, with the version that what is added needs.
func (f *finisher) version(head []byte) {
	const version = "%PDF-1."
	if !bytes.HasPrefix(head, []byte(version)) || len(head) == len(version) {
		f.err = errOtherwise
		return
	}
	head = bytes.Clone(head)
	head[len(version)] = max(head[len(version)], '4')
	f.put(head)
}

// object writes one object.
func (f *finisher) object(text []byte) {
	const catalogue = "/Type /Catalog\n"
	head, body, _ := bytes.Cut(text, []byte("\n"))
	shows := f.ofPage
	f.ofPage = bytes.HasPrefix(body, []byte("<</Type /Page\n"))
	switch {
	case shows:
		f.put(append(head, '\n'))
		f.shows(body)
	case bytes.HasPrefix(body, []byte("<<\n"+catalogue)):
		at := len(head) + len("\n<<\n"+catalogue)
		f.put(text[:at])
		f.put([]byte(inCatalogue))
		f.put(text[at:])
		f.found = true
	default:
		f.put(text)
	}
}

// shows writes what the next page shows (ISO 32000-1, 7.3.8), in place of nothing.
func (f *finisher) shows(body []byte) {
	const end = "\nendstream\nendobj\n"
	if len(f.shown) == 0 || !bytes.HasPrefix(body, []byte("<</Length ")) || !bytes.HasSuffix(body, []byte(end)) {
		f.err = errOtherwise
		return
	}
	filter := ""
	if f.packed {
		filter = "/Filter /FlateDecode "
	}
	f.put(fmt.Appendf(nil, "<<%s/Length %d>>\nstream\n", filter, len(f.shown[0])))
	f.put(f.shown[0])
	f.put([]byte(end))
	f.shown = f.shown[1:]
}

// table writes the table of places, and the end of the file as the library has it.
func (f *finisher) table(places []int, old []byte) error {
	at := f.at
	f.put(fmt.Appendf(nil, "xref\n0 %d\n0000000000 65535 f \n", len(places)+1))
	for _, p := range places {
		f.put(fmt.Appendf(nil, "%010d 00000 n \n", p))
	}
	from, to := bytes.Index(old, []byte("trailer\n")), bytes.LastIndex(old, []byte("startxref\n"))
	if from < 0 || to < from {
		return errOtherwise
	}
	f.put(old[from:to])
	f.put(fmt.Appendf(nil, "startxref\n%d\n%%%%EOF\n", at))
	return f.err
}
