package page

// Ref names what a figure is made of. It is whatever the composer of a document
// names it by and can be compared; nothing here looks into it.
type Ref any

// Detail is what one figure is made of: postings, or other figures that open in
// turn.
type Detail struct {
	Of     Ref
	Title  string
	Figure Cell // the figure that it comes to
	Blocks []Block
}

// Opens is a cell that opens to what it is made of.
func (c Cell) Opens(of Ref) Cell {
	c.Of = of
	return c
}
