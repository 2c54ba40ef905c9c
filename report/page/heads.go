package page

import "slices"

// Heads are a table's columns, added from left to right by what they hold:
// Heads{}.Text("Piece").Wide(1, "What").Date("Sold").Money("Receipts").
type Heads []Column

// Text adds columns of words.
func (h Heads) Text(heads ...string) Heads { return h.add(Column{}, heads) }

// Wide adds columns of words that take so many parts of the width to spare.
func (h Heads) Wide(weight int, heads ...string) Heads { return h.add(Column{Weight: weight}, heads) }

// Right adds columns of words that stand right.
func (h Heads) Right(heads ...string) Heads { return h.add(Column{Align: AlignRight}, heads) }

// Small adds columns in the size of record references.
func (h Heads) Small(heads ...string) Heads { return h.add(Column{Small: true}, heads) }

// Date, Number and Money add columns of that kind.
func (h Heads) Date(heads ...string) Heads   { return h.add(Column{Kind: KindDate}, heads) }
func (h Heads) Number(heads ...string) Heads { return h.add(Column{Kind: KindNumber}, heads) }
func (h Heads) Money(heads ...string) Heads  { return h.add(Column{Kind: KindMoney}, heads) }

// Drawn adds a drawn column.
func (h Heads) Drawn(weight int, scale *Scale, head string) Heads {
	return append(h, Column{Head: head, Kind: KindDrawn, Weight: weight, Scale: scale})
}

// With adds columns as they are.
func (h Heads) With(columns ...Column) Heads { return append(h, columns...) }

func (h Heads) add(like Column, heads []string) Heads {
	for _, like.Head = range heads {
		h = append(h, like)
	}
	return h
}

// Add adds a normal row, and gives it for what else it has.
func (t *Table) Add(cells ...Cell) *Row { return t.AddStyled(Normal, cells...) }

// AddStyled adds a row of the given style.
func (t *Table) AddStyled(style RowStyle, cells ...Cell) *Row {
	t.Rows = append(t.Rows, Row{Style: style, Cells: cells})
	return &t.Rows[len(t.Rows)-1]
}

// AddSum adds a row of the given style with a label and, in the columns with
// these heads, the sums of the normal rows' money.
func (t *Table) AddSum(style RowStyle, label string, heads ...string) *Row {
	cells := []Cell{Text(label)}
	for c := 1; c < len(t.Columns); c++ {
		cell := Empty()
		if slices.Contains(heads, t.Columns[c].Head) {
			cell = Money(0)
			for _, r := range t.Rows {
				if r.Style == Normal && c < len(r.Cells) {
					cell.Cents += r.Cells[c].Cents
				}
			}
		}
		cells = append(cells, cell)
	}
	for len(cells) > 1 && cells[len(cells)-1].IsEmpty() {
		cells = cells[:len(cells)-1]
	}
	return t.AddStyled(style, cells...)
}
