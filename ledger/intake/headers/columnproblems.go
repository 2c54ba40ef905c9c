package headers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// columnTwice tells that two headers are read as one column, and proposes how
// settings.toml can tell them apart. Of two that are only remarks (`What is it`
// and `Notes`) the first is read, with a note.
func (r *Reader) columnTwice(s *sheets.Sheet, at fault.Place, b *Block, first, second Column) {
	section := settings.ColumnsSection(b.Table.Name)
	if f := second.Field; f.Cell == templates.Text && !f.Constraints.Required &&
		settings.HeaderKey(first.Header) != settings.HeaderKey(second.Header) && r.unreadMoney(s, second) == 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at, Found: second.Header,
			Why: fmt.Sprintf("%s has one column %s, and %q is read as that, so this one is not read.", b.Table.Title,
				f.Name, first.Header),
			AsksNothing: true, Fix: fmt.Sprintf("It may stay if it is your own. To read this one instead, put %s = %s under "+
				"[%s] of settings.toml.",
				settings.TomlText(first.Header), settings.TomlText(settings.NoTable), section)})
		return
	}
	b.Faulty, b.Missing[second.Field.Name] = true, true // its cells are not judged either
	p := fault.Problem{Code: fault.CodeColumnTwice, Place: at, Found: second.Header,
		Why: fmt.Sprintf("This column and %q are both read as %s of %s, so it is not clear which one counts.", first.Header,
			second.Field.Name, b.Table.Title)}
	if odd, other, is := r.oddOne(s, first, second); is {
		p.Place, p.Found = at.At(odd.Header), odd.Header
		p.Why = fmt.Sprintf("This column and %q are both read as %s of %s by their names, but the cells of this one hold "+
			"something else.", other.Header, odd.Field.Name, b.Table.Title)
		b.Columns[odd.Field.Name] = other
		b.unreadMoney[odd.Index] = r.mistakenMoney(s, odd) != 0
		p.Fix = r.oddFix(s, at, b, odd, settings.HeaderKey(other.Header) == settings.HeaderKey(odd.Header))
	} else {
		b.unreadMoney[second.Index] = isMoney(second.Field.Cell)
		p.Fix = r.eitherFix(s, at, b, first, second)
	}
	r.problems.Add(p)
}

// oddOne is which of two columns of one meaning has cells that do not all read as
// that, where those of the other do.
func (r *Reader) oddOne(s *sheets.Sheet, first, second Column) (odd, other Column, is bool) {
	one, two := r.allRead(s, first, first.Field), r.allRead(s, second, second.Field)
	if two {
		first, second = second, first
	}
	return second, first, one != two
}

// oddFix says what to do with a column whose cells do not hold what its name says.
func (r *Reader) oddFix(s *sheets.Sheet, at fault.Place, b *Block, c Column, isTwin bool) string {
	rename := fmt.Sprintf("Rename column %s for what it holds.", sheets.ColumnLetters(c.Index))
	field := r.betterField(s, c, b)
	b.Missing[field] = true
	if isTwin && field != "" {
		return rename + fmt.Sprintf(" Its cells look like %s.", field)
	} else if isTwin {
		return rename
	}
	return r.meantOtherwise(s, at, b, c, field, rename)
}

// meantOtherwise is the line that has a column read as the field that its cells
// fit, or not read, and a fix for where that is not meant. No line leaves money out.
func (r *Reader) meantOtherwise(s *sheets.Sheet, at fault.Place, b *Block, c Column, field, fix string) string {
	section := settings.ColumnsSection(b.Table.Name)
	b.Missing[field] = true // told here, so not in each row
	if field == "" {
		if cents := r.mistakenMoney(s, c); cents != 0 {
			return fix + fmt.Sprintf(" The %s in it is in no figure until then.", cents.Grouped())
		}
	}
	switch line, ok := r.proposeColumn(b.Table.Name, c.Header, cmp.Or(field, settings.NoTable), at); {
	case ok && field == "":
		fix += fmt.Sprintf(" Or, if it is not to be read, put %s under [%s] of settings.toml.", line, section)
	case ok:
		return fmt.Sprintf("If it is %s, put %s under [%s] of settings.toml; if not, %s", field, line, section,
			fault.LowerFirst(fix))
	}
	return fix
}

// eitherFix says how two columns of one meaning, whose cells both read as that,
// can be told apart.
func (r *Reader) eitherFix(s *sheets.Sheet, at fault.Place, b *Block, first, second Column) string {
	section := settings.ColumnsSection(b.Table.Name)
	fix := "Rename one of them."
	switch near := otherwise(second, b); {
	case settings.HeaderKey(first.Header) == settings.HeaderKey(second.Header):
	case isMoney(second.Field.Cell):
		// Which of two amounts counts only the owner knows: nothing is proposed.
		fix += fmt.Sprintf(" Or say in settings.toml, under [%s], what the other one is: %s.",
			section, r.eitherMoney(s, at, b, first, second))
	case near == "" && r.unreadMoney(s, second) != 0:
		fix += fmt.Sprintf(" The %s in %q is in no figure until then.", money.Cents(r.unreadMoney(s, second)).Grouped(),
			second.Header)
	default:
		if line, ok := r.proposeColumn(b.Table.Name, second.Header, cmp.Or(near, settings.NoTable), at); ok {
			fix += fmt.Sprintf(" Or say in settings.toml, under [%s], what the other one is: %s.", section, line)
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

// fillers are words that say nothing about what a column is.
var fillers = []string{"a", "the", "my", "our", "i", "we", "it", "of", "was", "is", "total", "tot", "all", "this",
	"each", "and"}

// headerWords are the words of a header that say what it is.
func headerWords(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "#", " no ")), func(c rune) bool {
		return c != '\'' && values.Compact(string(c)) == ""
	})
	return slices.DeleteFunc(words, func(w string) bool { return slices.Contains(fillers, w) })
}

// nearLeast is how many letters a header needs to be misspelt: of shorter ones
// any is near to any.
const nearLeast = 4

// nearestField is the column not there yet that a header was most likely meant
// for: one whose name has the same words, fillers apart and in any order, else
// the one spelled nearest; empty where none is near enough to be meant.
func nearestField(header string, b *Block) string {
	if len([]rune(values.Compact(header))) < nearLeast {
		return ""
	}
	words := headerWords(header)
	slices.Sort(words)
	fields := map[string]string{}
	var names []string
	for i := range b.Table.Fields {
		f := &b.Table.Fields[i]
		if _, taken := b.Columns[f.Name]; taken {
			continue
		}
		for _, name := range append([]string{strings.ReplaceAll(f.Name, "_", " "), f.Title}, f.OtherNames...) {
			of := headerWords(name)
			slices.Sort(of)
			if len(of) > 0 && slices.Equal(of, words) {
				return f.Name
			}
			if low := strings.ToLower(name); fields[low] == "" {
				fields[low] = f.Name
				names = append(names, low)
			}
		}
	}
	return fields[fault.Nearest(header, names)]
}

// unknownHeader notes a column that is not read. One that looks like a known
// one is proposed as that; it could move the money in it.
func (r *Reader) unknownHeader(s *sheets.Sheet, at fault.Place, b *Block, c Column) {
	t, text := b.Table, c.Header
	if b.count == c.Index+1 {
		return // told beside its price
	}
	p := fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at, Found: text,
		Why:         fmt.Sprintf("%s has no column of that name, so it is not read.", t.Title),
		AsksNothing: true, Fix: fmt.Sprintf("It may stay if it is your own. If it is one of the columns of %s, "+
			"rename it, or "+
			"map it in [%s] of settings.toml.", t.Title, settings.ColumnsSection(t.Name))}
	if why, fix := r.unreadWhy(s, b, c); why != "" {
		p.Why, p.Fix, p.MoneyCents, p.AsksNothing = why, fix, r.unreadMoney(s, c), false
	} else if near := r.nearestFor(s, c, b); near != "" && !b.proposed[near] {
		b.proposed[near] = true
		if isMoney(t.Field(near).Cell) {
			p.MoneyCents = r.sumOf(s, c.Index)
		}
		line, _ := r.proposeColumn(t.Name, text, near, at) // nearestFor has none that was rejected
		p.AsksNothing = false
		p.Fix = fmt.Sprintf("It looks like %s. If it is, rename it, or put %s under [%s] of settings.toml.", near, line,
			settings.ColumnsSection(t.Name))
	} else if lines := r.eitherPlace(s, at, b, c); lines != "" {
		p.AsksNothing = false
		p.Fix = fmt.Sprintf("If it says where pieces came from or were sold, put one of these under [%s] of "+
			"settings.toml: %s.",
			settings.ColumnsSection(t.Name), lines)
	} else if cents := r.unreadMoney(s, c); cents != 0 {
		p = r.moneyUnread(at, b, c, cents)
	} else if cents := r.sumOf(s, c.Index); cents != 0 && hasWord(text, derivedWords) && t.Field("net") != nil {
		p.Why = fmt.Sprintf("%s has no column of that name, so it is not read. It holds %s, worked out from other columns "+
			"most likely.", t.Title, money.Cents(cents).Grouped())
		p.Fix = "It may stay."
		if r.tellColumn(t.Name, text, "net", at) {
			p.Fix += fmt.Sprintf(" If it is what reached you after the fees, put %s = \"net\" under [%s] of "+
				"settings.toml.", settings.TomlText(text), settings.ColumnsSection(t.Name))
		}
	}
	r.problems.Add(p)
}

// eitherPlace are the lines for a column of places, which may be where a piece
// came from or where it was sold; empty for others.
func (r *Reader) eitherPlace(s *sheets.Sheet, at fault.Place, b *Block, c Column) string {
	var lines []string
	for _, name := range []string{"from", "channel"} {
		f := b.Table.Field(name)
		if _, taken := b.Columns[name]; f == nil || taken || !hasWord(c.Header, []string{"where", "place"}) ||
			!r.couldHold(s, c, b, f) {
			continue
		}
		if r.tellColumn(b.Table.Name, c.Header, name, at) {
			lines = append(lines, columnLine(c.Header, name))
		}
	}
	return strings.Join(lines, " or ")
}

// missingColumns tells each needed column that is not there; without any
// known column the row is no header at all.
func (r *Reader) missingColumns(s *sheets.Sheet, at fault.Place, b *Block) {
	t := b.Table
	if b.Broken && len(b.Columns) == 0 {
		return
	}
	if len(b.Columns) == 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeNoHeader, Place: at,
			Found: sheets.Shortened(strings.Join(b.headers, ", ")),
			Why:   fmt.Sprintf("This is the first row, and it names none of the columns of %s.", t.Title),
			Fix: fmt.Sprintf("Put the column names into the first row: %s are needed. Or map your own names for "+
				"them in [%s] of settings.toml, as in \"My name\" = %s. Its columns are: %s.",
				strings.Join(NeededColumns(t), ", "), settings.ColumnsSection(t.Name), settings.TomlText(NeededColumns(t)[0]),
				strings.Join(fieldNames(t), ", "))})
		b.Broken = true
		return
	}
	for _, name := range NeededColumns(t) {
		if _, there := b.Columns[name]; !there && !t.Field(name).ColumnMayBeMissing {
			f := t.Field(name)
			r.problems.Add(fault.Problem{Code: fault.CodeColumnMissing, Place: at,
				Why: fmt.Sprintf("The column %s (%s) is missing, and %s cannot be read without it.", name,
					strings.TrimSuffix(fault.LowerFirst(f.Description), "."), t.Title),
				Fix: r.missingFix(s, at, b, f)})
			b.Faulty, b.Missing[name] = true, true
		}
	}
}

// fieldNames are the names of a table's columns, in their order.
func fieldNames(t *templates.Table) []string {
	var out []string
	for _, f := range t.Fields {
		out = append(out, f.Name)
	}
	return out
}

// missingFix says how a missing column can be had: by adding it, or by naming
// the column that is it, of those that are there and not read.
func (r *Reader) missingFix(s *sheets.Sheet, at fault.Place, b *Block, f *templates.Field) string {
	add := fmt.Sprintf("Add a column %s.", f.Name)
	if len(f.Constraints.Enum) > 0 {
		add = fmt.Sprintf("Add a column %s, with one of these words in each line: %s.", f.Name,
			strings.Join(f.Constraints.Enum, ", "))
	}
	section := settings.ColumnsSection(b.Table.Name)
	var could []string
	for _, c := range b.unknown {
		if near := r.nearestFor(s, c, b); near == f.Name || near == "" && r.couldHold(s, c, b, f) {
			could = append(could, c.Header)
		}
	}
	if taken := r.takenCould(s, b, f); len(could) == 0 || f.Constraints.Unique && len(taken) > 0 {
		could = taken
	}
	if _, there := b.Columns["pieces"]; len(could) > 1 && f.Name == "hours" && !there {
		return fmt.Sprintf("Type a row for each day and piece, with the columns %s, pieces and hours, if these "+
			"columns are a piece each: %s. If one of them is the hours, name it hours.", NeededColumns(b.Table)[0],
			strings.Join(could, ", "))
	}
	switch {
	case len(could) == 0:
		return add
	case len(could) == 1 && f.Cell != templates.Text:
		b.proposed[could[0]] = true
		line, _ := r.proposeColumn(b.Table.Name, could[0], f.Name, at) // none of them was rejected
		return add + fmt.Sprintf(" Or, if %q is it, put %s under [%s] of settings.toml.", could[0], line, section)
	}
	for _, header := range could {
		r.tellColumn(b.Table.Name, header, f.Name, at)
	}
	return add + fmt.Sprintf(" Or, if %s is it, say so under [%s] of settings.toml, as in %s = %s.",
		quotedList(could), section, settings.TomlText(could[0]), settings.TomlText(f.Name))
}

// quotedList is `"A" or "B"`.
func quotedList(headers []string) string {
	quoted := make([]string, len(headers))
	for i, header := range headers {
		quoted[i] = fmt.Sprintf("%q", header)
	}
	return strings.Join(quoted, " or ")
}

// takenCould are the columns read as remarks that could be a needed column of
// words: `What is it` where the kind or the piece is missing.
func (r *Reader) takenCould(s *sheets.Sheet, b *Block, f *templates.Field) (could []string) {
	if f.Cell != templates.Text && f.Name != "piece" {
		return nil
	}
	for _, c := range b.inOrder() {
		if !b.proposed[c.Header] && c.Field.Cell == templates.Text && !c.Field.Constraints.Required &&
			c.Field.Name == "description" &&
			r.couldHold(s, Column{Index: c.Index, Header: c.Header, table: b.Table.Name}, b, f) {
			could = append(could, c.Header)
		}
	}
	return could
}

// meaningLeast is how many filled cells a column needs for all of them to say
// what it is; of fewer, one may be a slip.
const meaningLeast = 3

// otherMeanings tells a column whose name says one thing and whose cells all
// say another: `Sold` is read as the day, `Sold at` as the place, and either holds
// prices. It is told once instead of for each cell.
func (r *Reader) otherMeanings(s *sheets.Sheet, at fault.Place, b *Block) {
	for _, c := range b.inOrder() {
		holds := map[templates.Cell]string{templates.Date: "days", templates.ChannelRef: "words"}[c.Field.Cell]
		if holds == "" || r.saidInSettings(b, c) && holds == "words" {
			continue
		}
		cells := samples(s, c.Index)
		counted := holds == "days" && !slices.ContainsFunc(cells, func(x sample) bool {
			_, is := values.CountedDay(x.cell)
			return !is
		})
		if len(cells) < meaningLeast || counted || slices.ContainsFunc(cells, func(x sample) bool {
			day := r.readsAs(templates.Date, x.cell)
			if holds == "days" {
				return day || x.cell.IsText() && values.LooksLikeDate(x.cell.Text)
			}
			return !day && !r.readsAs(templates.Money, x.cell)
		}) {
			continue
		}
		b.Other[c.Field.Name] = true
		b.unreadMoney[c.Index] = r.mistakenMoney(s, c) != 0
		r.problems.Add(fault.Problem{Code: fault.CodeColumnMeaning, Place: at.At(c.Header),
			Found: sheets.Shortened(cells[0].cell.Text),
			Why: fmt.Sprintf("This column is read as %s of %s, which holds %s, but none of its %d filled %s is one; "+
				"this is the first.",
				c.Field.Name, b.Table.Title, holds, len(cells), fault.Plural(len(cells), "cell", "cells")),
			Fix: r.meantOtherwise(s, at.At(c.Header), b, c, r.betterField(s, c, b), fmt.Sprintf("Type %s into it.", holds))})
	}
}

// meantBy are the columns that a column's name is also used for.
var meantBy = map[string][]string{"sold_on": {"sold_price", "price", "channel"}, "got_on": {"price", "from",
	"sold_price"}, "bought_on": {"cost", "from"}, "listed_on": {"asking", "channel"},
	"channel": {"sold_price", "price", "sold_on"}, "from": {"price", "cost", "got_on", "bought_on"},
	"price": {"got_on", "sold_on"}, "sold_price": {"sold_on", "channel"}, "cost": {"bought_on", "from"}}

// betterField is the column not there yet that a column's cells read as; empty
// where there is no such column.
func (r *Reader) betterField(s *sheets.Sheet, c Column, b *Block) string {
	for _, name := range meantBy[c.Field.Name] {
		f := b.Table.Field(name)
		if _, taken := b.Columns[name]; f != nil && !taken && r.couldHold(s, Column{Index: c.Index, Header: c.Header,
			table: b.Table.Name}, b, f) {
			return name
		}
	}
	return ""
}
