package html

import (
	"strconv"

	"piecebook/report/page"
)

// sectionID is the id of the nth section.
func sectionID(i int) string { return "s" + strconv.Itoa(i+1) }

// number gives every anchor of the document and every detail its id. Where two
// places have one anchor the first is meant.
func (r *renderer) number(d page.Document) {
	for i, s := range d.Sections {
		r.name(s.Anchor, sectionID(i))
		r.names[sectionID(i)] = s.Title
		r.numberBlocks(s.Blocks)
	}
	for _, x := range d.Details {
		r.opensAt(x.Of)
		r.numberBlocks(x.Blocks)
		page.EachTable(x.Blocks, func(t page.Table) {
			for _, c := range t.Columns {
				r.opensAt(c.Of)
			}
			for _, row := range t.Rows {
				r.opensAt(row.Of)
			}
		})
	}
}

// opensAt gives a figure the id of where it opens: the first place that is its own.
func (r *renderer) opensAt(of page.Ref) {
	if _, known := r.opens[of]; of != nil && !known {
		r.opens[of] = figureID(len(r.opens))
	}
}

// short is a number in few letters.
func short(n int) string { return strconv.FormatInt(int64(n), 36) }

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"

// figureID is the nth id of figures: theirs alone begin with a capital.
func figureID(n int) string {
	id := letters[n%26 : n%26+1]
	for n /= 26; n > 0; n /= len(letters) {
		id += letters[n%len(letters) : n%len(letters)+1]
	}
	return id
}

// name gives an anchor its id.
func (r *renderer) name(anchor, id string) {
	if _, known := r.anchors[anchor]; anchor != "" && !known {
		r.anchors[anchor] = id
	}
}

// next is the next id of a place within a section.
func (r *renderer) next() string { return "p" + short(len(r.anchors)) }

func (r *renderer) numberBlocks(blocks []page.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case page.Heading:
			r.names[r.next()] = b.Text
			r.name(b.Anchor, r.next())
		case page.Table:
			for _, row := range b.Rows {
				r.name(row.Anchor, r.next())
			}
		case page.Columns:
			r.numberBlocks(b.Left)
			r.numberBlocks(b.Right)
		case page.KeepTogether:
			r.numberBlocks(b.Blocks)
		}
	}
}

// taken is the id of an anchor, for the one place that has it; a second
// place with the anchor gets none.
func (r *renderer) taken(anchor string) string {
	id := r.anchors[anchor]
	if anchor == "" || r.used[id] {
		return ""
	}
	r.used[id] = true
	return id
}

// opening is the id of a place where a figure opens, for the one that is its own.
func (r *renderer) opening(of page.Ref) string {
	id := r.open(of)
	if r.used[id] {
		return ""
	}
	r.used[id] = id != ""
	return id
}

// to is where a link leads; blank where the document has no such anchor.
func (r *renderer) to(anchor string) string {
	if anchor == "" {
		return ""
	}
	return r.anchors[anchor]
}

// open is the id of what a figure is made of; blank where it opens to nothing.
func (r *renderer) open(of page.Ref) string {
	if of == nil {
		return ""
	}
	return r.opens[of]
}
