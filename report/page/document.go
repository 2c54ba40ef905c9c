// Package page is a report before it has a form: sections of blocks (headings,
// tables, key figures, ...) that any renderer lays out in its own way. It
// knows nothing of pieces or postings, of paper or of terminals.
//
// A new kind of block needs nothing here but its own file: it implements
// Block, and a renderer that does not know it shows its Fallback.
package page

import "time"

// Paper is the sheet a document is printed on.
type Paper string

// The papers. The zero value is Letter.
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// Document is one report.
type Document struct {
	Title       string // of the report: metadata, running head and foot
	Subtitle    string // metadata and the text form's second line; may be blank
	Shop        string // running foot; blank: left out
	Period      string // in words: March 2026
	Fingerprint string // of the records, as printed in the running foot
	Author      string
	Subject     string
	Stamp       time.Time // the only date in the file; never the clock's
	Paper       Paper
	Currency    string // ISO 4217 code
	Banner      string // on every page where not blank: DRAFT
	Sections    []Section
	// Details are what the figures of the sections, and of the details
	// themselves, are made of; for a renderer on whose pages a figure opens.
	Details []Detail
}

// Section is a part of a document. Its Title, where it has one, is its heading
// and its bookmark.
type Section struct {
	Title   string
	Anchor  string // what Link fields elsewhere name; may be blank
	Head    string // at the right of the running head; blank: the Title
	NewPage bool
	// Joins lets a section of its own page begin on the one before where it
	// fits there whole, or where less than a quarter of that page is used.
	Joins bool
	// IfRoom leaves a section off paper that has no room on the page where the
	// one before it ends: what it says stands elsewhere too.
	IfRoom bool
	// Untitled keeps the Title for bookmark and running head only, where a
	// Title block of the section's own says it larger.
	Untitled bool
	// Indexed leaves it out of a list of contents: a table elsewhere leads to it.
	Indexed bool
	Blocks  []Block
	// Long is what stands in place of Blocks where they are for one page and
	// have no room on one, however close they are set. Nil: they need no page of
	// their own.
	Long []Block
}

// Block is one thing on the page, top to bottom in its section.
type Block interface {
	// Fallback is what a renderer shows that does not know this kind of block:
	// of a chart, its table. The kinds of this package need none.
	Fallback() []Block
}

// known is embedded by the kinds that every renderer must know.
type known struct{}

// Fallback is nothing: there is nothing simpler.
func (known) Fallback() []Block { return nil }

// Title is the largest line of a page, with a line under it and one at its right.
type Title struct {
	known
	Text  string
	Under string
	Right string
}

// Heading stands over the blocks that follow, and stays with them.
type Heading struct {
	known
	Text     string
	Level    int    // 0 a section's, 1 and 2 below it
	Anchor   string // may be blank
	Bookmark bool
}

// Style is how a paragraph is set.
type Style int

// The styles of a paragraph.
const (
	Body    Style = iota
	Note          // small: notes and sources
	Caution       // ordinary type, marked at its left
	Lead          // a sentence that is read before the rest of the page
)

// Paragraph is running words.
type Paragraph struct {
	known
	Style Style
	Text  string
	// Figures is Text with the figures in it, where these open; see Says.
	Figures Sentence
	Tail    string // after the text in the Note style: an authority, a source
	Mark    string // of a Caution: the letter at its left; blank: a dot
	Link    string // an anchor it leads to; may be blank
}

// KeyFigure is one big figure with its words.
type KeyFigure struct {
	Figure Cell
	Words  string
	By     Operator    // how it goes on from those at its left; blank where it does not
	From   []Term      // how it follows from figures beside it; may be empty
	Small  []SubFigure // small comparatives under it
}

// Operator joins a term to those before it.
type Operator string

// The operators. The first term of a sum needs none.
const (
	Plus      Operator = "+"
	Minus     Operator = "−"
	DividedBy Operator = "÷"
	Times     Operator = "×"
	Equals    Operator = "="
)

// Term is one part of a figure's arithmetic: − 82.95 shop costs.
type Term struct {
	By     Operator
	Figure Cell
	Words  string // after the figure; may be blank
}

// Sum is the arithmetic as printed: = 288.84 − 82.95 shop costs.
func (k KeyFigure) Sum() string {
	if len(k.From) == 0 {
		return ""
	}
	out := "="
	for _, t := range k.From {
		for _, s := range []string{string(t.By), t.Figure.String(""), t.Words} {
			if s != "" {
				out += " " + s
			}
		}
	}
	return out
}

// SubFigure is a comparative under a key figure: 'month before' and its figure.
type SubFigure struct {
	Label  string
	Figure Cell
}

// KeyFigures are big figures, Across in a row, or all in one where that is
// zero. Operators stand between those that follow from each other.
type KeyFigures struct {
	known
	Items  []KeyFigure
	Across int
}

// Fact is a labelled value.
type Fact struct {
	Label string
	Value string
	Under string // small, beneath the value; may be blank
}

// Facts are labelled values in columns. Stacked puts the label over its value.
type Facts struct {
	known
	Columns int // 1 where zero
	Stacked bool
	Items   []Fact
}

// Columns puts two lots of blocks beside each other on the six-column grid. A
// renderer that has no room, or would have to break them, stacks them.
type Columns struct {
	known
	LeftSpan int // of six
	Left     []Block
	Right    []Block
}

// KeepTogether keeps its blocks on one page where one page can hold them.
type KeepTogether struct {
	known
	Blocks []Block
}

// Break starts a new page.
type Break struct{ known }

// Gap is white space of so many thirds of a line.
type Gap struct {
	known
	Thirds int
}
