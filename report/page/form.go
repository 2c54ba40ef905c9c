package page

import "strings"

// Blank is a place to write in by hand.
type Blank struct {
	Label string   // small, at its upper left; may be blank
	Value string   // what stands there already
	Ticks []string // small boxes, each with its word, in place of room to write
	Part  int      // its part of the row's width; 0: 1
}

// FormRow is blanks beside each other.
type FormRow struct {
	Blanks []Blank
	Head   bool // only labels: the heads over the rows that follow
}

// Form is a card to fill in by hand. Down is how many stand under each other on
// a page: its height is that part of the page, shared by its rows.
type Form struct {
	Title string
	Under string // small, at the right of the title
	Rows  []FormRow
	Down  int
}

// Fallback is the labels, with what stands there already.
func (f Form) Fallback() []Block {
	out := Facts{Columns: 1}
	for _, r := range f.Rows {
		for _, b := range r.Blanks {
			if b.Label != "" || b.Value != "" {
				out.Items = append(out.Items, Fact{Label: b.Label, Value: strings.TrimSpace(b.Value + " " +
					strings.Join(b.Ticks, " "))})
			}
		}
	}
	return []Block{Heading{Text: f.Title, Level: 1}, Paragraph{Style: Note, Text: f.Under}, out}
}
