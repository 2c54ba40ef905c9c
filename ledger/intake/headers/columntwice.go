package headers

import (
	"cmp"
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// columnTwice tells that two headers are read as one column, and proposes how
// settings.toml can tell them apart. Of two that are only remarks (`What is it`
// and `Notes`) the first is read, with a note.
func (r *Reader) columnTwice(b *Block, first, second Column) {
	if f := second.Field; f.Cell == templates.Text && !f.Constraints.Required &&
		settings.HeaderKey(first.Header) != settings.HeaderKey(second.Header) && r.unreadMoney(b.sheet, second) == 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: b.at(second.Header),
			Found: second.Header,
			Why: fmt.Sprintf("%s has one column %s, and %q is read as that, so this one is not read.", b.Table.Title,
				f.Name, first.Header),
			AsksNothing: true, Fix: fmt.Sprintf("It may stay if it is your own. To read this one instead, %s.",
				b.put(first.Header, settings.NoTable))})
		return
	}
	b.Faulty, b.Missing[second.Field.Name] = true, true // its cells are not judged either
	p := fault.Problem{Code: fault.CodeColumnTwice, Place: b.at(second.Header), Found: second.Header,
		Why: fmt.Sprintf("This column and %q are both read as %s of %s, so it is not clear which one counts.", first.Header,
			second.Field.Name, b.Table.Title)}
	if odd, other, is := r.oddOne(b.sheet, first, second); is {
		p.Place, p.Found = b.at(odd.Header), odd.Header
		p.Why = fmt.Sprintf("This column and %q are both read as %s of %s by their names, but the cells of this one hold "+
			"something else.", other.Header, odd.Field.Name, b.Table.Title)
		b.Columns[odd.Field.Name] = other
		b.unreadMoney[odd.Index] = r.mistakenMoney(b.sheet, odd) != 0
		p.Fix = r.oddFix(b, odd, settings.HeaderKey(other.Header) == settings.HeaderKey(odd.Header))
	} else {
		b.unreadMoney[second.Index] = columns.IsMoney(second.Field.Cell)
		p.Fix = r.eitherFix(b, first, second)
	}
	r.problems.Add(p)
}

// oddOne is which of two columns of one meaning has cells most of which do not read as
// that, where those of the other do.
func (r *Reader) oddOne(s *sheets.Sheet, first, second Column) (odd, other Column, is bool) {
	one, two := r.mostRead(s, first, first.Field), r.mostRead(s, second, second.Field)
	if two {
		first, second = second, first
	}
	return second, first, one != two
}

// oddFix says what to do with a column whose cells do not hold what its name says.
func (r *Reader) oddFix(b *Block, c Column, isTwin bool) string {
	rename := fmt.Sprintf("Rename column %s for what it holds.", sheets.ColumnLetters(c.Index))
	field := r.betterField(c, b)
	b.Missing[field] = true
	if isTwin && field != "" {
		return rename + fmt.Sprintf(" Its cells look like %s.", field)
	} else if isTwin {
		return rename
	}
	return r.meantOtherwise(b, c, field, rename)
}

// meantOtherwise is the line that has a column read as the field that its cells
// fit, or not read, and a fix for where that is not meant. No line leaves money out.
func (r *Reader) meantOtherwise(b *Block, c Column, field, fix string) string {
	as := cmp.Or(field, settings.NoTable)
	b.Missing[field] = true // reported here, so not in each row
	if field == "" {
		if cents := r.mistakenMoney(b.sheet, c); cents != 0 {
			return fix + fmt.Sprintf(" The %s in it is in no figure until then.", cents.Grouped())
		}
	}
	switch ok := r.propose(b, c.Header, as); {
	case ok && field == "":
		fix += fmt.Sprintf(" Or, if it is not to be read, %s.", b.put(c.Header, as))
	case ok:
		return fmt.Sprintf("If it is %s, %s; if not, %s", field, b.put(c.Header, as), fault.LowerFirst(fix))
	}
	return fix
}

// saleOf are the columns of a piece's sale that are named as those of its purchase
// below a heading of two rows: Purchase and Sale, below each Date and Price.
var saleOf = map[string]string{"got_on": "sold_on", "price": "sold_price"}

// eitherFix says how two columns of one meaning, whose cells both read as that,
// can be distinguished.
func (r *Reader) eitherFix(b *Block, first, second Column) string {
	section := settings.ColumnsSection(b.Table.Name)
	fix := "Rename one of them."
	switch near := otherwise(second, b); {
	case settings.HeaderKey(first.Header) == settings.HeaderKey(second.Header):
		name := saleOf[second.Field.Name]
		if _, taken := b.Columns[name]; name != "" && b.Table.Name == "pieces" && !taken && !b.sheet.IsTurned {
			return fmt.Sprintf("If cell %s is of the sale, type %s there; if not, rename one of them.",
				sheets.CellName(second.Index, b.sheet.Lines[0].Number), name)
		}
	case columns.IsMoney(second.Field.Cell):
		// Which of two amounts counts only the owner knows: nothing is proposed.
		fix += fmt.Sprintf(" Or say in settings.toml, under [%s], what the other one is: %s.",
			section, r.eitherMoney(b, first, second))
	case near == "" && r.unreadMoney(b.sheet, second) != 0:
		fix += fmt.Sprintf(" The %s in %q is in no figure until then.", money.Cents(r.unreadMoney(b.sheet, second)).Grouped(),
			second.Header)
	default:
		if as := cmp.Or(near, settings.NoTable); r.propose(b, second.Header, as) {
			fix += fmt.Sprintf(" Or say in settings.toml, under [%s], what the other one is: %s.", section,
				settings.NameLine(second.Header, as))
		}
	}
	return fix
}

// otherwise is what a second column of one meaning is most likely: the column
// it is spelled nearest to, or beside a piece's number its kind, which every piece
// needs, or its description.
func otherwise(c Column, b *Block) string {
	if near := nearestField(c.Header, b); near != "" {
		return near
	}
	if b.Table.Name == "pieces" && c.Field.Name == "piece" {
		for _, name := range []string{"kind", "description"} {
			if _, taken := b.Columns[name]; !taken {
				return name
			}
		}
	}
	return ""
}

// meaningLeast is how many filled cells a column needs for all of them to say
// what it is; of fewer, one may be a slip.
const meaningLeast = 3

// otherMeanings tells a column whose name says one thing and whose cells all
// say another: `Sold` is read as the day, `Sold at` as the place, and either holds
// prices. It is reported once instead of for each cell.
func (r *Reader) otherMeanings(b *Block) {
	for _, c := range b.inOrder() {
		holds := map[templates.Cell]string{templates.Date: "days", templates.ChannelRef: "words"}[c.Field.Cell]
		if holds == "" || r.saidInSettings(b, c) && holds == "words" {
			continue
		}
		cells := columns.Samples(b.sheet, c.Index)
		counted := holds == "days" && !slices.ContainsFunc(cells, func(x columns.Sample) bool {
			_, is := values.CountedDay(x.Cell)
			return !is
		})
		if len(cells) < meaningLeast || counted || slices.ContainsFunc(cells, func(x columns.Sample) bool {
			day := columns.ReadsAs(templates.Date, x.Cell, r.settings)
			if holds == "days" {
				return day || x.Cell.IsText() && values.LooksLikeDate(x.Cell.Text)
			}
			return !day && !columns.ReadsAs(templates.Money, x.Cell, r.settings)
		}) {
			continue
		}
		b.Other[c.Field.Name] = true
		b.unreadMoney[c.Index] = r.mistakenMoney(b.sheet, c) != 0
		r.problems.Add(fault.Problem{Code: fault.CodeColumnMeaning, Place: b.at(c.Header),
			Found: sheets.Shortened(cells[0].Cell.Text),
			Why: fmt.Sprintf("This column is read as %s of %s, which holds %s, but none of its %d filled %s is one; "+
				"this is the first.",
				c.Field.Name, b.Table.Title, holds, len(cells), fault.Plural(len(cells), "cell", "cells")),
			Fix: r.meantOtherwise(b, c, r.betterField(c, b), fmt.Sprintf("Type %s into it.", holds))})
	}
}

// meantBy are the columns that a column's name is also used for.
var meantBy = map[string][]string{"sold_on": {"sold_price", "price", "channel"}, "got_on": {"price", "from",
	"sold_price"}, "bought_on": {"cost", "from"}, "listed_on": {"asking", "channel"},
	"channel": {"sold_price", "price", "sold_on"}, "from": {"price", "cost", "got_on", "bought_on"},
	"price": {"got_on", "sold_on"}, "sold_price": {"sold_on", "channel"}, "cost": {"bought_on", "from"}}

// betterField is the column not there yet that a column's cells read as; empty
// where there is no such column.
func (r *Reader) betterField(c Column, b *Block) string {
	for _, name := range meantBy[c.Field.Name] {
		f := b.Table.Field(name)
		if _, taken := b.Columns[name]; f != nil && !taken && r.couldHold(Column{Index: c.Index, Header: c.Header,
			table: b.Table.Name}, b, f) {
			return name
		}
	}
	return ""
}
