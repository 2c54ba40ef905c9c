// Package html renders a page.Document as one HTML file that loads nothing from
// elsewhere: style, script, drawings and pictures are in it. It knows nothing of
// the ledger.
//
// Every word goes through html/template, which escapes it for where it stands.
// Anchors are numbered here, so that no name of the owner's becomes part of an
// id or a link. A content security policy lets in the file's own style and
// script by their hashes, and pictures that are in the file; nothing else.
//
// A figure that the document has a Detail of is a link to it. The details are
// hidden until the link is followed (CSS :target), so they open without scripts.
package html

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"strings"
	"sync"

	"piecebook/report/page"
)

//go:embed blocks.tmpl style.css script.js
var files embed.FS

// parts is the templates, parsed once.
var parts = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").ParseFS(files, "blocks.tmpl"))
})

// own is a file of this package's own, which is in the program.
func own(name string) string {
	text, err := files.ReadFile(name)
	if err != nil {
		panic(err) // it is embedded: a defect of the build
	}
	return string(text)
}

// style is style.css with the rules that are counted out.
func style() string { return own("style.css") + barRules() }

// hashed is how a content security policy names a script or style that stands
// in the file (W3C, Content Security Policy Level 3, section 2.3.1).
func hashed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// renderer writes one document.
type renderer struct {
	w        *bytes.Buffer
	err      error
	sign     string
	anchors  map[string]string   // of sections, headings and rows, by the document's name for them
	names    map[string]string   // of those places that have a heading, by their ids
	opens    map[page.Ref]string // of details
	used     map[string]bool     // ids of places that have been written
	heading  int                 // the level of the last heading
	above    string              // its words, and how many tables are under it
	under    int
	titled   bool            // the first Title has been written
	sections int             // written so far
	drawn    int             // drawings so far: each has its own ids
	words    strings.Builder // of one template
	tables   int             // written so far: each that is Wide has its own name
	listing  bool            // what is written is what figures are made of
}

// Write renders d. The same document gives the same bytes. An error is w's own.
func Write(w io.Writer, d page.Document) error {
	r := &renderer{w: &bytes.Buffer{}, sign: page.Sign(d.Currency),
		anchors: map[string]string{}, names: map[string]string{}, opens: map[page.Ref]string{}, used: map[string]bool{}}
	r.number(d)
	r.head(d)
	r.header(d)
	r.raw("<main id=\"main\">\n")
	for i, s := range d.Sections {
		r.section(s, i == 0)
	}
	r.raw("</main>\n")
	foot := r.apart(func() {
		r.put("foot", d)
		r.raw("<script>" + own("script.js") + "</script>\n</body>\n</html>\n")
	})
	r.details(d, mostBytes-r.w.Len()-len(foot))
	r.raw(string(foot))
	if r.err != nil {
		return r.err
	}
	_, err := r.w.WriteTo(w)
	return err
}

// apart is what is written, not yet in its place.
func (r *renderer) apart(write func()) []byte {
	whole := r.w
	r.w = &bytes.Buffer{}
	write()
	out := r.w.Bytes()
	r.w = whole
	return out
}

// raw writes what is the program's own.
func (r *renderer) raw(s string) { r.w.WriteString(s) }

// put writes a template's words, with visible marks for what would turn a line
// around or has no shape.
func (r *renderer) put(name string, view any) {
	if r.err != nil {
		return
	}
	r.words.Reset()
	if r.err = parts().ExecuteTemplate(&r.words, name, view); r.err == nil {
		r.raw(page.Visible(r.words.String()))
	}
}

// headView is what the file says before its first word.
type headView struct {
	Policy, Title, Author, Subject string
}

// head is the file's head.
func (r *renderer) head(d page.Document) {
	style, script := style(), own("script.js")
	policy := []string{"default-src 'none'", "img-src data:", "style-src " + hashed(style), "script-src " + hashed(script),
		"base-uri 'none'", "form-action 'none'"}
	r.put("head", headView{Policy: strings.Join(policy, "; "), Title: joined(" · ", d.Title, d.Period, d.Shop),
		Author: d.Author, Subject: d.Subject})
	r.raw("<style>" + style + "</style>\n</head>\n")
}

// entry is a line of the contents.
type entry struct{ ID, Title string }

// headerView is what stands over the first section.
type headerView struct {
	Banner, Line string
	Contents     []entry
}

// header is the running head of paper, and the contents.
func (r *renderer) header(d page.Document) {
	v := headerView{Banner: d.Banner, Line: joined(" · ", d.Shop, d.Title, d.Period)}
	for i, s := range d.Sections {
		if s.Title != "" && !s.Indexed {
			v.Contents = append(v.Contents, entry{sectionID(i), s.Title})
		}
	}
	r.put("header", v)
}

// joined is the words that there are.
func joined(with string, texts ...string) string {
	var out []string
	for _, s := range texts {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, with)
}
