// Package guide is the owner's guide: guide.md, which reads by itself, laid out
// as pages. Its pictures are not in it: each is named, and stands for blocks
// that the caller composes, so that they are always the pages as they are now.
package guide

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"

	"piecebook/report/page"
)

// Text is the guide as it reads in the repository, in Markdown (CommonMark with
// GitHub's tables).
//
//go:embed guide.md
var Text []byte

// Doc is the guide as a document. Pictures are the pages that its images name
// by their titles; one that is missing is an error.
func Doc(paper page.Paper, pictures map[string]page.Section) (page.Document, error) {
	r := reader{source: Text, pictures: pictures}
	root := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser().Parse(text.NewReader(Text))
	for n := root.FirstChild(); n != nil; n = n.NextSibling() {
		r.block(n)
	}
	r.endSection()
	return page.Document{Title: r.title, Paper: paper, Author: "piecebook", Subject: "The owner's guide",
		Sections: r.sections}, r.err
}

// reader turns Markdown into sections, one for each heading of the second level.
type reader struct {
	source   []byte
	pictures map[string]page.Section
	title    string
	sections []page.Section
	now      page.Section
	err      error
}

func (r *reader) add(b page.Block) { r.now.Blocks = append(r.now.Blocks, b) }

func (r *reader) endSection() {
	if len(r.now.Blocks) > 0 {
		r.sections = append(r.sections, r.now)
	}
	r.now = page.Section{}
}

func (r *reader) block(n ast.Node) {
	switch n := n.(type) {
	case *ast.Heading:
		r.heading(n)
	case *ast.Paragraph:
		if image, ok := n.FirstChild().(*ast.Image); ok {
			r.picture(image)
			return
		}
		r.add(page.Paragraph{Text: r.words(n)})
	case *ast.List:
		r.list(n)
	case *ast.FencedCodeBlock:
		t := page.Table{Columns: page.Heads{}.Wide(1, ""), NoHead: true}
		for i := range n.Lines().Len() {
			line := n.Lines().At(i)
			words := strings.TrimRight(string(line.Value(r.source)), "\n")
			t.AddStyled(page.Group, page.Text(words))
		}
		r.add(t)
	case *tables.Table:
		r.table(n)
	default:
		r.fail(fmt.Errorf("guide.md has a block of a kind that is not laid out: %s", n.Kind()))
	}
}

func (r *reader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

func (r *reader) heading(n *ast.Heading) {
	words := r.words(n)
	switch n.Level {
	case 1:
		r.title = words
		r.now.Title, r.now.Untitled = words, true
		r.add(page.Title{Text: words})
	case 2:
		r.endSection()
		r.now = page.Section{Title: words}
	default:
		r.add(page.Heading{Text: words, Level: 1})
	}
}

// picture puts the page it names on a page of its own.
func (r *reader) picture(n *ast.Image) {
	s, ok := r.pictures[string(n.Title)]
	if !ok {
		r.fail(fmt.Errorf("guide.md shows %q, and there is no such page", n.Title))
	}
	begun := r.now
	if len(begun.Blocks) == 0 { // right under its heading: the page, then the words on it
		r.now = page.Section{}
	}
	r.endSection()
	if len(begun.Blocks) == 0 {
		r.now = begun
	}
	s.Title, s.Untitled, s.NewPage, s.Joins, s.Anchor = r.words(n), true, true, false, ""
	s.Head = s.Title
	caption := []page.Block{page.Paragraph{Style: page.Note, Text: s.Title}}
	s.Blocks = slices.Concat(caption, s.Blocks)
	if s.Long != nil {
		s.Long = slices.Concat(caption, s.Long)
	}
	r.sections = append(r.sections, s)
}

// list is its items as rows, numbered where it is ordered.
func (r *reader) list(n *ast.List) {
	t := page.Table{NoHead: true, Columns: page.Heads{}.Text("").Wide(1, "")}
	number := n.Start
	for item := n.FirstChild(); item != nil; item = item.NextSibling() {
		mark := "•"
		if n.IsOrdered() {
			mark = fmt.Sprintf("%d.", number)
			number++
		}
		t.Add(page.Text(mark), page.Text(r.words(item)))
	}
	r.add(t)
}

func (r *reader) table(n *tables.Table) {
	var t page.Table
	for row := n.FirstChild(); row != nil; row = row.NextSibling() {
		var cells []page.Cell
		for c := row.FirstChild(); c != nil; c = c.NextSibling() {
			cells = append(cells, page.Text(r.words(c)))
			if _, head := row.(*tables.TableHeader); head {
				t.Columns = append(t.Columns, page.Column{Head: r.words(c)})
			}
		}
		if _, head := row.(*tables.TableHeader); !head {
			t.Add(cells...)
		}
	}
	t.Columns[len(t.Columns)-1].Weight = 1
	r.add(t)
}

// words is the text within a node, without the signs of Markdown.
func (r *reader) words(n ast.Node) string {
	var b strings.Builder
	r.gather(&b, n)
	return strings.TrimSpace(b.String())
}

func (r *reader) gather(b *strings.Builder, n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			b.Write(c.Segment.Value(r.source))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(c.Value)
		default:
			r.gather(b, c)
		}
	}
}
