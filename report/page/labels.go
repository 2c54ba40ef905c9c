package page

// RowName is what a row says it is of.
func RowName(r Row) string {
	for _, c := range r.Cells {
		if c.Kind == KindText && c.Text != "" {
			return Pageless(c.Text)
		}
	}
	return ""
}

// EachLabel visits the figures of blocks that open to what they are made of, by
// what stands beside them: a row's name, that with the head of the column, the
// words under a key figure, a bar's.
func EachLabel(blocks []Block, visit func(label string, c Cell)) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Table:
			for _, r := range b.Rows {
				for i, c := range r.Cells {
					if i < len(b.Columns) {
						visit(RowName(r), c)
						visit(RowName(r)+" "+b.Columns[i].Head, c)
					}
				}
			}
		case KeyFigures:
			for _, k := range b.Items {
				visit(k.Words, k.Figure)
				for _, small := range k.Small {
					visit(small.Label+" "+k.Words, small.Figure)
					visit(small.Label, small.Figure)
				}
			}
		case Bars:
			for _, r := range b.Rows {
				visit(r.Label, r.Figure)
			}
		case Columns:
			EachLabel(b.Left, visit)
			EachLabel(b.Right, visit)
		case KeepTogether:
			EachLabel(b.Blocks, visit)
		}
	}
}
