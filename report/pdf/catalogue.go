package pdf

import (
	"bytes"
	"errors"
	"strconv"
)

// language is what the pages are written in, as ISO 32000-1, 14.9.2, has it.
const language = "en-US"

// withCatalogue adds to a finished file's catalogue what the library has no
// call for: the language, and that a reader shows the document's title rather
// than the file's name (ISO 32000-1, 7.7.2 and 12.2; both since PDF 1.4). The
// library writes the catalogue last, so that no object's place changes, only
// that of the table of places after it.
func withCatalogue(file []byte) ([]byte, error) {
	const kind, start, version = "/Type /Catalog\n", "\nstartxref\n", "%PDF-1."
	catalogue := bytes.LastIndex(file, []byte(kind))
	at := bytes.LastIndex(file, []byte(start))
	if catalogue < 0 || at < catalogue || !bytes.HasPrefix(file, []byte(version)) {
		return nil, errors.New("the PDF library's file ends otherwise than it did")
	}
	tail := file[at+len(start):]
	digits, end, _ := bytes.Cut(tail, []byte("\n"))
	places, err := strconv.Atoi(string(digits))
	if err != nil || places < catalogue {
		return nil, errors.New("the PDF library's catalogue is no longer the last object")
	}
	added := "/Lang (" + language + ")\n/ViewerPreferences <</DisplayDocTitle true>>\n"
	catalogue += len(kind)
	out := bytes.NewBuffer(make([]byte, 0, len(file)+len(added)+2))
	out.Write(file[:catalogue])
	out.WriteString(added)
	out.Write(file[catalogue : at+len(start)])
	out.WriteString(strconv.Itoa(places+len(added)) + "\n")
	out.Write(end)
	if out.Bytes()[len(version)] < '4' {
		out.Bytes()[len(version)] = '4'
	}
	return out.Bytes(), nil
}
