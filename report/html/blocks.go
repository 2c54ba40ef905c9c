package html

import (
	"encoding/base64"
	"html/template"
	"strings"

	"piecebook/report/page"
)

// section is one section with its heading.
func (r *renderer) section(s page.Section, first bool) {
	id := sectionID(r.sections)
	r.sections++
	r.used[id] = true
	r.put("section", id)
	r.heading = 1
	if first && !titled(s) {
		r.putHeading(1, "", s.Title)
	} else if s.Title != "" && !s.Untitled {
		r.putHeading(2, "", s.Title)
	}
	r.blocks(s.Blocks)
	r.raw("</section>\n")
}

// titled says that a section begins with a Title of its own, perhaps beside
// something else.
func titled(s page.Section) bool {
	if len(s.Blocks) == 0 {
		return false
	}
	switch b := s.Blocks[0].(type) {
	case page.Title:
		return true
	case page.Columns:
		return titled(page.Section{Blocks: b.Left})
	}
	return false
}

// headingView is a heading of a level from 1 to 4.
type headingView struct {
	Level    int
	ID, Text string
}

// putHeading writes a heading, at most one level below the last one.
func (r *renderer) putHeading(level int, id, text string) {
	level = min(level, r.heading+1, 4)
	r.heading, r.above, r.under = level, text, 0
	r.put("heading", headingView{level, id, text})
}

// blocks writes blocks one under another. Gaps and page breaks are for paper.
func (r *renderer) blocks(blocks []page.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case page.Title:
			r.title(b)
		case page.Heading:
			r.putHeading(b.Level+2, r.taken(b.Anchor), b.Text)
		case page.Paragraph:
			r.paragraph(b)
		case page.KeyFigures:
			r.keyFigures(b)
		case page.Facts:
			r.put("facts", b)
		case page.Table:
			r.table(b)
		case page.Columns:
			r.raw("<div class=\"columns\"><div>\n")
			r.blocks(b.Left)
			r.raw("</div><div>\n")
			r.blocks(b.Right)
			r.raw("</div></div>\n")
		case page.KeepTogether:
			r.blocks(b.Blocks)
		case page.VerticalBars:
			r.verticalBars(b)
		case page.Timeline:
			r.timeline(b)
		case page.Strip:
			r.strip(b)
		case page.Photos:
			r.photos(b)
		case page.Break, page.Gap:
		default:
			r.blocks(b.Fallback())
		}
	}
}

// title is a Title: the document's own the first time, a section's after.
func (r *renderer) title(b page.Title) {
	level := 2
	if r.sections == 1 && r.heading == 1 && !r.titled {
		level = 1
	}
	r.titled = true
	r.heading, r.above, r.under = level, b.Text, 0
	r.put("title", struct {
		headingView
		Under, Right string
	}{headingView{level, "", b.Text}, b.Under, b.Right})
}

// paragraphView is a paragraph as the template writes it.
type paragraphView struct {
	Class, Mark, Text, Tail, To string
	Name                        string       // the link after the text; blank: the text is the link
	Parts                       []figureView // the text where figures in it open
}

// saying is the view with its words.
func (v paragraphView) saying(r *renderer, text string, parts page.Sentence) paragraphView {
	v.Text = page.Pageless(text)
	for _, c := range parts {
		v.Parts = append(v.Parts, figureView{Text: page.Pageless(c.Text), Open: r.open(c.Of)})
	}
	return v
}

var paragraphClass = map[page.Style]string{page.Note: "note", page.Caution: "caution", page.Lead: "lead"}

func (r *renderer) paragraph(b page.Paragraph) {
	v := paragraphView{Class: paragraphClass[b.Style], Mark: b.Mark, Tail: b.Tail, To: r.to(b.Link),
		Name: r.leadsTo(b.Link, b.Text)}
	r.put("paragraph", v.saying(r, b.Text, b.Figures))
}

// figureView is a figure, leading to what it is made of.
type figureView struct {
	Label, By, Text, Open, Words string
}

func (r *renderer) figure(c page.Cell, sign string) figureView {
	v := figureView{Text: c.String(sign), Open: r.open(c.Of)}
	if c.IsEmpty() {
		v.Text = page.Dash
	}
	return v
}

// keyView is one key figure with its arithmetic and comparatives.
type keyView struct {
	figureView
	From, Small []figureView
}

func (r *renderer) keyFigures(b page.KeyFigures) {
	var out []keyView
	for _, k := range b.Items {
		v := keyView{figureView: r.figure(k.Figure, r.sign)}
		v.Words, v.By = k.Words, string(k.By)
		for _, t := range k.From {
			part := r.figure(t.Figure, "")
			part.By, part.Words = string(t.By), t.Words
			v.From = append(v.From, part)
		}
		for _, s := range k.Small {
			part := r.figure(s.Figure, "")
			part.Label = s.Label
			v.Small = append(v.Small, part)
		}
		out = append(out, v)
	}
	r.put("keys", struct {
		Across int
		Items  []keyView
	}{b.Across, out})
}

// photoView is a picture that is in the file.
type photoView struct {
	Caption, Missing string
	Width, Height    int
	Data             template.URL
}

func (r *renderer) photos(b page.Photos) {
	var out []photoView
	for _, x := range b.Items {
		v := photoView{Caption: x.Caption, Missing: x.Missing, Width: x.Width, Height: x.Height}
		if x.JPEG != nil {
			// The bytes are a JPEG that this program encoded, not the owner's file.
			v.Data = template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(x.JPEG))
		}
		out = append(out, v)
	}
	r.put("photos", struct {
		Caption string
		Items   []photoView
	}{b.Caption, out})
}

// mostBytes is how large a file is where the details that have a Short can make it so.
const mostBytes = 3_000_000

// details are what figures are made of, each hidden until a figure's link is
// followed. Where they have no room they are Short, the first of them first.
func (r *renderer) details(d page.Document, room int) {
	if len(d.Details) == 0 {
		return
	}
	r.listing = true
	r.raw("<aside aria-label=\"What the figures are made of\">\n<div id=\"none\" tabindex=\"-1\"></div>\n")
	written := make([][]byte, len(d.Details))
	for i, x := range d.Details {
		written[i] = r.apart(func() { r.detail(x, x.Blocks) })
		room -= len(written[i])
	}
	for i, x := range d.Details {
		if room < 0 && x.Short != nil {
			r.unwritten(x)
			short := r.apart(func() { r.detail(x, x.Short) })
			room += len(written[i]) - len(short)
			written[i] = short
		}
		r.w.Write(written[i])
	}
	r.raw("<a class=\"close\" href=\"#none\">Close</a>\n</aside>\n")
}

// detail is one of them, once.
func (r *renderer) detail(x page.Detail, blocks []page.Block) {
	id := r.opening(x.Of)
	if id == "" {
		return
	}
	title := x.Title
	if !x.Figure.IsEmpty() {
		title += ": " + x.Figure.String(r.sign)
	}
	r.put("detail", entry{id, title})
	r.heading = 2
	r.blocks(blocks)
	r.raw("</section>\n")
}

// unwritten frees the ids of a detail that is written anew.
func (r *renderer) unwritten(x page.Detail) {
	delete(r.used, r.open(x.Of))
	page.EachTable(x.Blocks, func(t page.Table) {
		for _, c := range t.Columns {
			delete(r.used, r.open(c.Of))
		}
	})
}

// oneLine is a label of several lines on one.
func oneLine(s string) string { return strings.ReplaceAll(s, "\n", " ") }
