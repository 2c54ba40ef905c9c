package pdf

import (
	"iter"
	"slices"
)

// op is one mark on the paper: words, a line, or a place that leads elsewhere.
// Its place is from the strip's upper left corner until it is put on a
// page, then from the body's.
type op struct {
	x, y float64 // of words: the baseline's left end
	text string
	face *face
	size float64
	link string // an anchor; over the words

	toX   float64 // of a line: its other end; of a box: its right edge
	rise  float64 // of a line: how far below y it ends; of a box: its height
	thick float64 // of a line or an outline; 0 for words
	jpeg  []byte  // of a picture

	// Last, so that a mark is small: thousands of pages have hundreds each.
	ink, fill ink
	dashed    bool
	tall      bool  // of a standing line in a row: as tall as the row becomes
	shape     shape // what is filled
}

// mark is a bookmark.
type mark struct {
	text  string
	level int
}

// strip is what a page break never splits: a line of a paragraph, a row.
type strip struct {
	gap     float64 // white above it, dropped at a page's top
	height  float64
	ops     []op
	keep    bool    // on one page with the next strip
	fresh   bool    // begins a new page
	ifRoom  float64 // begins what is left out where so much has no room; 0: never
	joins   float64 // fresh, but on the page before where so much has room; 0: never
	repeat  []strip // stands above it where it begins a page: a table's head
	anchors []string
	marks   []mark
	section string // where a section begins: its words in the running head
	begins  bool   // a section begins here
}

// placed is a page's marks, with the heights of its anchors and bookmarks.
type placed struct {
	ops     []op
	anchors map[string]float64
	marks   []mark
	markAt  []float64
	section string  // the one it opens with
	carries bool    // that section began on an earlier page
	used    float64 // of its height
}

// paginator puts strips on pages.
type paginator struct {
	height  float64
	pages   []placed
	ops     []op // of the last page
	y       float64
	section string
}

// paginate puts the strips of sections on pages of the given height. Strips that
// keep together move to the next page as one; a run that no page can hold is
// parted between any two of its strips.
func paginate(sections iter.Seq[[]strip], height float64) []placed {
	d := paginator{height: height}
	d.newPage(strip{})
	var run []strip
	left := false // what comes belongs to what was left out
	for strips := range sections {
		for _, s := range strips {
			if n := len(run); n == 0 || !run[n-1].keep {
				d.run(run)
				run = run[:0]
				left = left && !s.begins || s.ifRoom > 0 && d.y+s.ifRoom > height
			}
			if !left {
				run = append(run, s)
			}
		}
	}
	d.run(run)
	d.endPage()
	return d.pages
}

// endPage keeps the last page's marks, in no more room than they need.
func (d *paginator) endPage() {
	if n := len(d.pages); n > 0 {
		d.pages[n-1].ops, d.ops = slices.Clone(d.ops), d.ops[:0]
	}
}

// run places strips that keep together.
func (d *paginator) run(strips []strip) {
	if len(strips) == 0 {
		return
	}
	first := strips[0]
	if first.fresh && d.y > 0 && !d.joins(first) {
		d.newPage(first)
	}
	if d.y > 0 && d.y+extent(strips) > d.height {
		d.newPage(first)
	}
	for _, s := range strips {
		// Only a run taller than a page gets here with no room left.
		if d.y > 0 && d.y+s.gap+s.height > d.height+0.01 {
			d.newPage(s)
		}
		d.place(s)
	}
}

// joins says that a section that would begin a page may stand on this one: it
// has room there whole, or else the page would be nearly empty.
func (d *paginator) joins(first strip) bool {
	return first.joins > 0 && (d.y < d.height/4 || d.y+first.joins <= d.height)
}

// extent is the height of strips one under another.
func extent(strips []strip) float64 {
	sum := 0.0
	for _, s := range strips {
		sum += s.gap + s.height
	}
	return sum
}

// marksOf is how many marks strips have.
func marksOf(strips []strip) int {
	n := 0
	for _, s := range strips {
		n += len(s.ops)
	}
	return n
}

// newPage begins a page with what must stand above its first strip.
func (d *paginator) newPage(first strip) {
	p := placed{anchors: map[string]float64{}, section: d.section, carries: true}
	if first.begins {
		p.section, p.carries = first.section, false
	}
	d.endPage()
	d.pages = append(d.pages, p)
	d.y = 0
	for _, s := range first.repeat {
		d.place(s)
	}
}

func (d *paginator) place(s strip) {
	p := &d.pages[len(d.pages)-1]
	if d.y > 0 {
		d.y += s.gap
	}
	if s.begins {
		if d.y == 0 {
			p.section, p.carries = s.section, false
		}
		d.section = s.section
	}
	for _, o := range s.ops {
		o.y += d.y
		d.ops = append(d.ops, o)
	}
	for _, a := range s.anchors {
		p.anchors[a] = d.y
	}
	for _, m := range s.marks {
		p.marks = append(p.marks, m)
		p.markAt = append(p.markAt, d.y)
	}
	d.y += s.height
	p.used = d.y
}

// held makes strips keep together where a page of the given height holds them.
func held(strips []strip, height float64) []strip {
	if extent(strips) > height {
		return strips
	}
	for i := range strips[:max(0, len(strips)-1)] {
		strips[i].keep = true
	}
	return strips
}

// shifted moves strips' marks sideways.
func shifted(strips []strip, dx float64) []strip {
	for i := range strips {
		for j := range strips[i].ops {
			strips[i].ops[j].x += dx
			strips[i].ops[j].toX += dx
		}
	}
	return strips
}
