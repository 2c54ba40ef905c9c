package pdf

import (
	"iter"
	"slices"

	"piecebook/report/page"
)

// layout turns blocks into strips.
type layout struct {
	faces faces
	sheet sheet
	sign  string
	// tight is how much closer than usual things stand, from 0 to 1.
	tight float64
}

// closer is white space as it is at the layout's tightness: at least a third.
func (l layout) closer(gap float64) float64 { return gap * (1 - 2*l.tight/3) }

// rowPitch is that of a table's rows: at the tightest 8.5 point on 9.5.
func (l layout) rowPitch() float64 { return tablePitch - 2*l.tight }

// linePitch is that of running words: at the tightest 9 point on 11.
func (l layout) linePitch() float64 { return bodyPitch - l.tight }

// document is the strips of each section, laid out when they are asked for: of
// thousands of sheets only one is in memory besides the pages, and those that are
// still to come.
func (l layout) document(d page.Document) iter.Seq[[]strip] {
	sections := slices.Clone(d.Sections)
	return func(yield func([]strip) bool) {
		for i, s := range sections {
			sections[i] = page.Section{}
			if strips := l.begun(s, i == 0); len(strips) > 0 && !yield(strips) {
				return
			}
		}
	}
}

// begun is a section's strips, with what the first says of it.
func (l layout) begun(s page.Section, isFirst bool) []strip {
	strips := l.section(s)
	if len(strips) == 0 {
		return nil
	}
	first := &strips[0]
	first.begins, first.fresh = true, s.NewPage && !isFirst
	if s.IfRoom {
		first.ifRoom = extent(strips)
	}
	if s.Joins {
		first.joins = extent(strips)
	}
	first.section = s.Head
	if s.Head == "" {
		first.section = s.Title
	}
	if s.Title != "" {
		first.marks = append([]mark{{s.Title, 0}}, first.marks...)
	}
	if s.Anchor != "" {
		first.anchors = append(first.anchors, s.Anchor)
	}
	return strips
}

// section is a section's strips. One that is for one page is tried closer and
// closer; where even the closest is too long, its long form stands instead.
func (l layout) section(s page.Section) []strip {
	if s.Long == nil {
		return l.sectionStrips(s)
	}
	for ; l.tight <= 1; l.tight += 0.25 {
		if out := l.sectionStrips(s); extent(out) <= l.sheet.bodyHeight() {
			return out
		}
	}
	l.tight, s.Blocks = 0, s.Long
	return l.sectionStrips(s)
}

func (l layout) sectionStrips(s page.Section) []strip {
	var out []strip
	if s.Title != "" && !s.Untitled {
		out = l.heading(page.Heading{Text: s.Title}, l.sheet.bodyWidth())
	}
	body := l.blocks(s.Blocks, l.sheet.bodyWidth())
	if len(out) > 0 && len(body) > 0 && headed(page.Heading{}, s.Blocks[0]) {
		body[0].gap = 0
	}
	out = append(out, body...)
	for i := range out {
		out[i].gap = l.closer(out[i].gap)
	}
	return out
}

// blocks is the strips of blocks under each other in a column of the width.
func (l layout) blocks(blocks []page.Block, width float64) []strip {
	var out []strip
	fresh, gap := false, 0.0
	for i, b := range blocks {
		switch b := b.(type) {
		case page.Break:
			fresh = true
			continue
		case page.Gap:
			gap += float64(b.Thirds) * bodyPitch / 3
			continue
		default:
			strips := l.splitToPages(l.block(b, width))
			if len(strips) == 0 {
				continue
			}
			strips[0].fresh = strips[0].fresh || fresh
			if i > 0 && headed(blocks[i-1], b) {
				strips[0].gap = 0
			}
			strips[0].gap += gap
			fresh, gap = false, 0
			out = append(out, strips...)
		}
	}
	return out
}

// headed says that a block is a table right under its heading, which needs no
// white between them.
func headed(above, b page.Block) bool {
	_, heading := above.(page.Heading)
	t, table := b.(page.Table)
	return heading && table && t.Caption == ""
}

// splitToPages splits strips that would not fit on a page at all.
func (l layout) splitToPages(strips []strip) []strip {
	for i := 0; i < len(strips); i++ {
		if strips[i].height > l.sheet.bodyHeight()*0.9 {
			parts := parted(strips[i], bodyPitch)
			strips = slices.Replace(strips, i, i+1, parts...)
			i += len(parts) - 1
		}
	}
	return strips
}

// block is one block's strips. A new kind gets a line here and a file beside.
func (l layout) block(b page.Block, width float64) []strip {
	switch b := b.(type) {
	case page.Title:
		return l.title(b, width)
	case page.Heading:
		return l.heading(b, width)
	case page.Paragraph:
		return l.paragraph(b, width)
	case page.KeyFigures:
		return l.keyFigures(b, width)
	case page.Facts:
		return l.facts(b, width)
	case page.Table:
		return l.table(b, width)
	case page.Columns:
		return l.columns(b, width)
	case page.VerticalBars:
		return l.verticalBars(b, width)
	case page.Timeline:
		return l.timeline(b, width)
	case page.Strip:
		return l.scaleStrip(b, width)
	case page.Photos:
		return l.photos(b, width)
	case page.Form:
		return l.form(b, width)
	case page.KeepTogether:
		return held(l.blocks(b.Blocks, width), l.sheet.bodyHeight())
	default:
		return l.blocks(b.Fallback(), width)
	}
}

// columns sets two lots of blocks beside each other as one strip; what no page
// can hold that way goes under each other at full width.
func (l layout) columns(b page.Columns, width float64) []strip {
	leftWidth := span(width, b.LeftSpan)
	left := l.blocks(b.Left, leftWidth)
	right := l.blocks(b.Right, width-leftWidth-gridGutter)
	if max(extent(left), extent(right)) > l.sheet.bodyHeight()*0.8 {
		return append(l.blocks(b.Left, width), l.blocks(b.Right, width)...)
	}
	out := strip{gap: bodyPitch, ops: make([]op, 0, marksOf(left)+marksOf(right))}
	for i, side := range [][]strip{left, shifted(right, leftWidth+gridGutter)} {
		y := 0.0
		for j, s := range side {
			if j > 0 {
				y += l.closer(s.gap)
			}
			for _, o := range s.ops {
				o.y += y
				out.ops = append(out.ops, o)
			}
			out.anchors = append(out.anchors, s.anchors...)
			out.marks = append(out.marks, s.marks...)
			y += s.height
		}
		if i == 0 || y > out.height {
			out.height = y
		}
	}
	return []strip{out}
}
