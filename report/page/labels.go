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

// EachMention visits the figures of blocks by words beside them that are no
// label of their own: in a sentence those right before it, as "trips" in
// "− trips 24.65", in a row the cell before it, in a key figure's sum those after it.
func EachMention(blocks []Block, visit func(label string, c Cell)) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Paragraph:
			b.Figures.eachMention(visit)
		case Table:
			for _, r := range b.Rows {
				for i := 1; i < len(r.Cells); i++ {
					if before := r.Cells[i-1]; before.Kind == KindText {
						visit(before.Text, r.Cells[i])
					}
				}
			}
			b.NoteFigures.eachMention(visit)
		case KeyFigures:
			for _, k := range b.Items {
				for _, term := range k.From {
					visit(term.Words, term.Figure)
				}
			}
		case Columns:
			EachMention(b.Left, visit)
			EachMention(b.Right, visit)
		case KeepTogether:
			EachMention(b.Blocks, visit)
		}
	}
}

func (s Sentence) eachMention(visit func(label string, c Cell)) {
	var label string
	for _, c := range s {
		if c.Of != nil {
			visit(label, c)
		} else if c.Text != " " {
			label = c.Text
		}
	}
}
