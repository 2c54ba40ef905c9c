package rows

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// Choice reads one of the column's words as the table spells it, blank where
// the cell is.
func (row *Row) Choice(name string) string {
	text, ok := row.Text(name)
	if !ok {
		return ""
	}
	words := row.Field(name).Constraints.Enum
	if w := values.Choice(text, words); w != "" {
		return w
	}
	fix := "Type one of " + strings.Join(words, ", ") + row.orBlank(name) + "."
	// The words are listed with the first of a column; the others say which is meant.
	list := " The words are " + strings.Join(words, ", ") + "."
	if !row.r.Once(row.Block.Table.Name + "." + name) {
		list = ""
	}
	if meant := row.r.set.Meant(row.Block.Table.Name+"."+name, text); meant != "" {
		fix = fmt.Sprintf("It belongs to %s most likely: type %s.", meant, meant) + list
	} else if near := fault.Nearest(text, words); near != "" {
		fix = fmt.Sprintf("The nearest is %s: type that.", near) + list
	}
	row.Fail(name, fault.CodeChoiceUnknown, fmt.Sprintf("This is not one of the words that %s takes.", row.Header(name)),
		fix)
	return ""
}

// orBlank is the way out of a cell that need not be filled.
func (row *Row) orBlank(name string) string {
	if row.Field(name).Constraints.Required {
		return ""
	}
	return ", or leave the cell blank"
}

// Missing tells that a needed cell is blank, with an example of what to type.
func (row *Row) Missing(name string) {
	f := row.Field(name)
	if _, there := row.Block.Columns[name]; !there {
		row.FailColumn(name, fault.CodeCellMissing, func(s *Cause) (string, string) {
			return fmt.Sprintf("There is no column %s (%s) here, and %s of %s %s it (%s).", name,
				strings.TrimSuffix(fault.LowerFirst(f.Description), "."),
				fault.Plural(len(s.Rows), "a line", "lines"), row.Block.Table.Title, fault.Plural(len(s.Rows), "needs", "need"),
				RowList(s.Rows)), fmt.Sprintf("Add a column %s. ", name) + row.typeWhat(f)
		})
		return
	}
	row.Fail(name, fault.CodeCellMissing, fmt.Sprintf("The cell under %s is blank, and a line of %s needs it.",
		row.Place(name).Column, row.Block.Table.Title),
		row.typeWhat(f))
}

// typeWhat says what a cell takes, with an example.
func (row *Row) typeWhat(f *templates.Field) string {
	like := func(example string) string { return fmt.Sprintf("Type it in, such as %s.", example) }
	switch f.Cell {
	case templates.Choice:
		return "Type one of " + strings.Join(f.Constraints.Enum, ", ") + "."
	case templates.Date:
		return "Type the day, such as 2026-03-09."
	case templates.Money, templates.SignedMoney:
		return "Type the amount, such as 12.50; 0 if it was nothing."
	case templates.HoursOfAll, templates.HoursOfDay:
		return like("2.5 or 2:30")
	case templates.Container:
		return "Type what one container holds, with its unit, such as 1 qt, 12 oz or 50 sheets."
	case templates.Amount:
		return like("8 fl oz, or 0.5 for half a container")
	case templates.Year:
		return like("2026")
	case templates.YesNo:
		return "Type yes or no."
	case templates.Number, templates.SignedNumber, templates.Whole:
		return like("1")
	case templates.ChannelRef:
		return "Type where, in the same words each time, such as market or direct."
	case templates.PieceRef, templates.PieceList:
		return "Type what stands under Piece in Pieces" + row.r.example("pieces", "piece") + "."
	case templates.SupplyRef:
		return "Type what stands under Supply in Supplies" + row.r.example("supplies", "supply") + "."
	case templates.Name:
		return fmt.Sprintf("Type a number or name of its own%s.", map[string]string{"piece": ", such as P7",
			"lot": ", such as L2"}[f.Name])
	}
	return "It holds: " + fault.LowerFirst(f.Description)
}

// everydayUnit is the unit that an everyday word in an amount stands for.
func (r *Reader) everydayUnit(text string) string {
	at := strings.LastIndexAny(text, "0123456789½¼¾⅓⅔")
	if at < 0 {
		return ""
	}
	for _, c := range text[at:] {
		text = text[at+len(string(c)):]
		break
	}
	return r.set.Meant(templates.Units, text)
}
