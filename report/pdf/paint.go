package pdf

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"piecebook/report/page"
)

// canvas is the file being painted. The library would keep what all pages show
// until the end, so each is drawn on a template of its own, which begins as the
// page before it ended, and is compressed at once. The file has the pages, empty,
// with their links and bookmarks, until finish puts in what they show.
type canvas struct {
	file   *gofpdf.Fpdf
	pdf    *gofpdf.Fpdf // the page being drawn
	faces  faces
	worded bool // the page has words, the last of them with
	inked  ink
	packer
	shown [][]byte // what each page shows
	// pictures is how many have been drawn for the first time.
	pictures int
}

func newCanvas(d page.Document, compress bool) (*canvas, error) {
	f, err := loadFaces()
	if err != nil {
		return nil, err
	}
	packer, err := newPacker(compress)
	if err != nil {
		return nil, err
	}
	pdf := gofpdf.New("P", "pt", sheetOf(d.Paper).name, "")
	pdf.SetCompression(false) // the packer does it
	// Fonts and images come from maps; sorted, the same input gives the same bytes.
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(d.Stamp.UTC())
	pdf.SetModificationDate(d.Stamp.UTC())
	title := d.Title
	if d.Period != "" {
		title += ", " + d.Period
	}
	pdf.SetTitle(title, true)
	pdf.SetAuthor(d.Author, true)
	pdf.SetSubject(d.Subject, true)
	pdf.SetCreator("piecebook", true)
	pdf.SetProducer("piecebook", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.AddUTF8FontFromBytes(family, f.regular.style, f.regular.ttf)
	pdf.AddUTF8FontFromBytes(family, f.bold.style, f.bold.ttf)
	return &canvas{file: pdf, pdf: pdf, faces: f, packer: packer}, pdf.Error()
}

// paint draws the pages with their running heads and feet, and drops them.
func (c *canvas) paint(d page.Document, s sheet, pages []placed) error {
	links, on := c.links(s, pages)
	for i, p := range pages {
		pages[i] = placed{}
		c.file.AddPage()
		drawn := c.pdf.CreateTemplate(func(t *gofpdf.Tpl) {
			c.pdf, c.worded = &t.Fpdf, false
			for _, o := range p.ops {
				c.mark(o, s, links, on)
			}
			for j, m := range p.marks {
				for _, pdf := range []*gofpdf.Fpdf{c.pdf, c.file} {
					pdf.SetFont(family, "", noteSize)
				}
				c.file.Bookmark(c.faces.regular.clean(m.text), m.level, s.top+p.markAt[j])
			}
			c.furniture(d, s, p, i+1, len(pages))
		})
		shown, err := c.pack(drawn.Bytes())
		if err := cmp.Or(c.pdf.Error(), err); err != nil {
			return err
		}
		c.shown = append(c.shown, shown)
	}
	return nil
}

// mark draws a mark of the body, with its link.
func (c *canvas) mark(o op, s sheet, links, on map[string]int) {
	o.x, o.toX, o.y = o.x+s.left, o.toX+s.left, o.y+s.top
	if on[o.link] == 0 { // its page is in another document
		o.text = page.Pageless(o.text)
	} else if strings.Contains(o.text, page.PageHere) {
		o.text = strings.ReplaceAll(o.text, page.PageHere, strconv.Itoa(on[o.link]))
	}
	c.draw(o)
	if id, ok := links[o.link]; ok && o.link != "" && o.text != "" {
		c.file.Link(o.x, o.y-o.size*0.8, o.face.width(o.text, o.size), o.size, id)
	}
}

// links gives every anchor its number before any page that leads to it, and
// says on which page it is.
func (c *canvas) links(s sheet, pages []placed) (links, on map[string]int) {
	links, on = map[string]int{}, map[string]int{}
	for i, p := range pages {
		for _, anchor := range slices.Sorted(maps.Keys(p.anchors)) {
			id := c.file.AddLink()
			c.file.SetLink(id, s.top+p.anchors[anchor], i+1)
			links[anchor], on[anchor] = id, i+1
		}
	}
	return links, on
}

// draw paints one mark.
func (c *canvas) draw(o op) {
	if o.shape != noShape {
		c.shape(o)
		return
	}
	if o.thick > 0 {
		c.line(o)
		return
	}
	if o.text == "" {
		return
	}
	c.pdf.SetFont(family, o.face.style, o.size)
	if !c.worded || c.inked != o.ink {
		c.worded, c.inked = true, o.ink
		c.pdf.SetTextColor(o.ink.rgb())
	}
	c.pdf.Text(o.x, o.y, o.text)
}

// furniture is the running foot and, from the second page, head. Each is one
// line; where it would be too long the shop's name, shown in full in the file's
// author, gives way.
func (c *canvas) furniture(d page.Document, s sheet, p placed, n, of int) {
	report := d.Title
	if d.Period != "" {
		report += ", " + d.Period
	}
	words := ""
	if d.Banner != "" {
		words = d.Banner + " · "
	}
	tail := report
	if d.Fingerprint != "" {
		tail += " · records " + d.Fingerprint
	}
	pages := fmt.Sprintf("page %d of %d", n, of)
	f := c.faces.regular
	room := s.bodyWidth() - f.width(pages, noteSize) - 2*columnGap
	if d.Shop != "" {
		rest := room - f.width(f.clean(words+" · "+tail), noteSize)
		words += f.shorten(f.clean(d.Shop), noteSize, max(rest, room/4)) + " · "
	}
	c.say(s.left, s.footLine, f.shorten(f.clean(words+tail), noteSize, room), f)
	c.say(s.right-f.width(pages, noteSize), s.footLine, pages, f)
	c.head(d, s, p, n, report)
}

// head is the running head: the report, and the section the page opens with.
func (c *canvas) head(d page.Document, s sheet, p placed, n int, report string) {
	f := c.faces.regular
	if n == 1 {
		if d.Banner != "" {
			c.say(s.left, s.headLine, f.shorten(f.clean(d.Banner), noteSize, s.bodyWidth()), c.faces.bold)
		}
		return
	}
	right := p.section
	if p.carries && right != "" {
		right += " (continued)"
	}
	right = f.shorten(f.clean(right), noteSize, s.bodyWidth()*0.45)
	left := report
	if d.Banner != "" {
		left = d.Banner + " · " + left
	}
	c.say(s.left, s.headLine, f.shorten(f.clean(left), noteSize, s.bodyWidth()*0.5), f)
	c.say(s.right-f.width(right, noteSize), s.headLine, right, f)
	c.draw(op{x: s.left, toX: s.right, y: s.headLine + 4, thick: hairline, ink: grey})
}

// say draws a line of furniture.
func (c *canvas) say(x, y float64, text string, f *face) {
	c.draw(op{x: x, y: y, text: text, face: f, size: noteSize, ink: grey})
}

// output writes the file.
func (c *canvas) output(w io.Writer) error {
	return c.file.Output(wholeFile(func(file []byte) error { return finish(w, file, c.shown, c.packs()) }))
}

// wholeFile takes what the library writes: the whole file at once.
type wholeFile func(file []byte) error

func (f wholeFile) Write(file []byte) (int, error) {
	if err := f(file); err != nil {
		return 0, err
	}
	return len(file), nil
}
