package page

// Ref names what a figure is made of. It is whatever the composer of a document
// names it by and can be compared; nothing here looks into it.
type Ref any

// Detail is what a figure is made of: postings, or other figures that open in
// turn. One that many figures are rows of (Row.Of) has none of its own.
type Detail struct {
	Of     Ref
	Title  string
	Figure Cell // the figure that it comes to; empty where the rows have theirs
	Blocks []Block
	// Short is what stands in place of Blocks where a file would be too large with
	// them: the same figures, of which some lead to another file. Nil: nothing.
	Short []Block
}

// Opens is a cell that opens to what it is made of. One with nothing in it, or
// a dash, stays as it is.
func (c Cell) Opens(of Ref) Cell {
	if !c.IsEmpty() && (c.Kind != KindMoney || c.Cents != 0 || c.Full) {
		c.Of = of
	}
	return c
}

// EachTable visits the tables of blocks, those within others too; what it does
// to their rows is done to the blocks.
func EachTable(blocks []Block, visit func(Table)) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Table:
			visit(b)
		case Columns:
			EachTable(b.Left, visit)
			EachTable(b.Right, visit)
		case KeepTogether:
			EachTable(b.Blocks, visit)
		}
	}
}

// EachCell visits every cell of blocks: of tables, key figures, charts and
// sentences.
func EachCell(blocks []Block, visit func(*Cell)) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Paragraph:
			b.Figures.eachCell(visit)
		case Table:
			for _, r := range b.Rows {
				for i := range r.Cells {
					visit(&r.Cells[i])
					r.Cells[i].Said.eachCell(visit)
				}
			}
			b.NoteFigures.eachCell(visit)
		case Columns:
			EachCell(b.Left, visit)
			EachCell(b.Right, visit)
		case KeepTogether:
			EachCell(b.Blocks, visit)
		case KeyFigures:
			for i := range b.Items {
				b.Items[i].eachCell(visit)
			}
		case VerticalBars:
			for i := range b.Items {
				visit(&b.Items[i].Figure)
			}
		case Bars:
			for i := range b.Rows {
				visit(&b.Rows[i].Figure)
			}
		case Dots:
			for i := range b.Rows {
				visit(&b.Rows[i].Median)
			}
		}
	}
}

func (s Sentence) eachCell(visit func(*Cell)) {
	for i := range s {
		visit(&s[i])
	}
}

func (k *KeyFigure) eachCell(visit func(*Cell)) {
	visit(&k.Figure)
	for i := range k.From {
		visit(&k.From[i].Figure)
	}
	for i := range k.Small {
		visit(&k.Small[i].Figure)
	}
}
