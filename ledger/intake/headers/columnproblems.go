package headers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// fillers are words that say nothing about what a column is.
var fillers = []string{"a", "the", "my", "our", "i", "we", "it", "of", "was", "is", "total", "tot", "all", "this",
	"each", "and", "actually"}

// headerWords are the words of a header that say what it is.
func headerWords(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(text, "#", " no ")), func(c rune) bool {
		return c != '\'' && values.Compact(string(c)) == ""
	})
	return slices.DeleteFunc(words, func(w string) bool { return slices.Contains(fillers, w) })
}

// mayBe are the columns that a header may be whose name people give to several: they
// are proposed, the first that is not there yet.
var mayBe = map[string][]string{"howmuch": {"cost"}, "item": {"what"}, "name": {"piece"},
	"project": {"piece"}, "revenue": {"sold_price"}, "for": {"sold_price"}, "when": {"got_on", "sold_on"}}

// nearLeast is how many letters a header needs to be misspelt: of shorter ones
// any is near to any.
const nearLeast = 4

// nearestField is the column not there yet that a header was most likely meant
// for: one whose name has the same words, fillers apart and in any order, else
// the one spelled nearest; empty where none is near enough to be meant.
func nearestField(header string, b *Block) string {
	for _, name := range mayBe[settings.HeaderKey(header)] {
		if _, taken := b.Columns[name]; !taken && b.Table.Field(name) != nil {
			return name
		}
	}
	if len([]rune(values.Compact(header))) < nearLeast {
		return ""
	}
	words := headerWords(header)
	if _, taken := b.Columns["fee"]; !taken && b.Table.Field("fee") != nil && len(words) > 1 &&
		slices.Contains([]string{"fee", "fees"}, words[len(words)-1]) && !slices.ContainsFunc(words, paysByCard) {
		return "fee" // named for the channel that keeps it
	}
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

// paysByCard says that a word of a header is of a payment, and of no channel.
func paysByCard(word string) bool {
	return slices.Contains([]string{"card", "credit", "cc", "payment", "processing", "paypal", "delivery", "shipping",
		"listing"}, word)
}

// unknownHeader notes a column that is not read. One that looks like a known
// one is proposed as that; it could move the money in it.
func (r *Reader) unknownHeader(b *Block, c Column) {
	t, text := b.Table, c.Header
	if b.count == c.Index+1 {
		return // reported beside its price
	}
	p := fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: b.at(c.Header), Found: text,
		Why:         fmt.Sprintf("%s has no column of that name, so it is not read.", t.Title),
		AsksNothing: true, Fix: fmt.Sprintf("It may stay if it is your own. If it is one of the columns of %s, "+
			"rename it, or map it in [%s] of settings.toml.", t.Title, settings.ColumnsSection(t.Name))}
	if why, fix := r.unreadWhy(b, c); why != "" {
		p.Why, p.Fix, p.MoneyCents, p.AsksNothing = why, fix, r.unreadMoney(b.sheet, c), false
	} else if near := r.nearestFor(c, b); near != "" && !b.proposed[near] {
		b.proposed[near] = true
		if columns.IsMoney(t.Field(near).Cell) {
			p.MoneyCents = columns.SumOf(b.sheet, c.Index, r.settings)
		}
		r.propose(b, text, near) // nearestFor has none that was rejected
		p.AsksNothing = false
		p.Fix = fmt.Sprintf("It looks like %s. If it is, rename it, or %s.", near, b.put(text, near))
	} else if lines := r.eitherPlace(b, c); lines != "" {
		p.AsksNothing = false
		p.Fix = fmt.Sprintf("If it says where pieces came from or were sold, %s: %s.",
			settings.Put(settings.ColumnsSection(t.Name), "one of these"), lines)
	} else if cents := r.unreadMoney(b.sheet, c); cents != 0 {
		p = r.moneyUnread(b, c, cents)
	} else if cents := columns.SumOf(b.sheet, c.Index, r.settings); cents != 0 &&
		columns.HasWord(text, columns.DerivedWords) && t.Field("net") != nil {
		p.Why = fmt.Sprintf("%s has no column of that name, so it is not read. It holds %s, worked out from other columns "+
			"most likely.", t.Title, money.Cents(cents).Grouped())
		p.Fix = "It may stay."
		if columns.HasWord(text, columns.LeftWords) && r.tell(b, text, "net") {
			p.Fix += fmt.Sprintf(" If it is what reached you after the fees, %s.", b.put(text, "net"))
		}
	}
	r.problems.Add(p)
}

// eitherPlace are the lines for a column of places, which may be where a piece
// came from or where it was sold; empty for others.
func (r *Reader) eitherPlace(b *Block, c Column) string {
	var lines []string
	for _, name := range []string{"from", "channel"} {
		f := b.Table.Field(name)
		if _, taken := b.Columns[name]; f == nil || taken || !columns.HasWord(c.Header, []string{"where", "place"}) ||
			!r.couldHold(c, b, f) {
			continue
		}
		if r.tell(b, c.Header, name) {
			lines = append(lines, settings.NameLine(c.Header, name))
		}
	}
	return strings.Join(lines, " or ")
}

// missingColumns tells each needed column that is not there; without any
// known column the row is no header at all.
func (r *Reader) missingColumns(b *Block) {
	t := b.Table
	if b.Broken && len(b.Columns) == 0 {
		return
	}
	if len(b.Columns) == 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeNoHeader, Place: b.at(""),
			Found: sheets.Shortened(strings.Join(b.headers, ", ")),
			Why:   fmt.Sprintf("This is the first row, and it names none of the columns of %s.", t.Title),
			Fix:   r.noHeaderFix(b)})
		b.Broken = true
		return
	}
	for _, name := range columns.Needed(t) {
		if _, there := b.Columns[name]; !there && !t.Field(name).ColumnMayBeMissing && !r.kindInNames(t, name) {
			f := t.Field(name)
			r.problems.Add(fault.Problem{Code: fault.CodeColumnMissing, Place: b.at(""),
				Why: fmt.Sprintf("The column %s (%s) is missing, and %s cannot be read without it.", b.heading(f),
					strings.TrimSuffix(fault.LowerFirst(f.Description), "."), t.Title),
				Fix: r.missingFix(b, f)})
			b.Faulty, b.Missing[name] = true, true
		}
	}
}

// heading is a column's name as the sheet would have it: Worked on, where its other
// columns are headed as in the starter workbook, else worked_on.
func (b *Block) heading(f *templates.Field) string {
	for _, c := range b.Columns {
		if c.Field != nil && c.Field.Title != c.Field.Name && strings.TrimRight(c.Header, " (*)") == c.Field.Title {
			return f.Title
		}
	}
	return f.Name
}

// noHeaderFix says what to do with a sheet that has none of its table's columns: read
// it as the table that its own fit, else name them, with one that can be it.
func (r *Reader) noHeaderFix(b *Block) string {
	t := b.Table
	if better, _ := r.tables.Fitting(b.sheet); better != nil && better != t {
		line := settings.NameLine(b.sheet.Known, better.Name)
		if r.lines.Tell("sheets", line, b.sheet.Place()) {
			return fmt.Sprintf("It looks like %s. If it is, %s, or rename it.", better.Title, settings.Put("sheets", line))
		}
	}
	example := ""
	for i, header := range b.headers {
		f := t.Field(columns.Needed(t)[0])
		if c := (Column{Index: i, Header: header, table: t.Name}); example == "" &&
			sheets.Filled(b.headers) > 1 && r.couldHold(c, b, f) {
			example = ", as in " + settings.NameLine(header, f.Name)
		}
	}
	return fmt.Sprintf("Put the column names into the first row: %s are needed. Or map your own names for "+
		"them in [%s] of settings.toml, a line each%s. Its columns are, those of a first book first: %s.",
		strings.Join(columns.Needed(t), ", "),
		settings.ColumnsSection(t.Name), example, strings.Join(fieldNames(t), ", "))
}

// fieldNames are the names of a table's columns, those of a first pack first.
func fieldNames(t *templates.Table) []string {
	out := slices.Clone(t.FirstPack)
	for _, f := range t.Fields {
		if !f.NotInStarter && !slices.Contains(out, f.Name) {
			out = append(out, f.Name)
		}
	}
	return out
}

// missingFix says how a missing column can be had: by adding it, or by naming
// the column that is it, of those that are there and not read.
func (r *Reader) missingFix(b *Block, f *templates.Field) string {
	add := fmt.Sprintf("Add a column %s.", b.heading(f))
	if len(f.Constraints.Enum) > 0 {
		add = fmt.Sprintf("Add a column %s, with one of these words in each line: %s.", b.heading(f),
			strings.Join(f.Constraints.Enum, ", ")) + r.byWords(b, f)
	}
	var could []string
	for _, c := range b.unknown {
		if near := r.nearestFor(c, b); near == f.Name || near == "" && r.couldHold(c, b, f) {
			could = append(could, c.Header)
		}
	}
	if taken := r.takenCould(b, f); len(could) == 0 || f.Constraints.Unique && len(taken) > 0 {
		could = taken
	}
	saysMoney := func(header string) bool { return columns.HasWord(header, columns.MoneyWords) }
	if len(could) > 1 && (f.Name == "hours" || columns.IsMoney(f.Cell)) && !slices.ContainsFunc(could, saysMoney) {
		return r.gridFix(b, f, could)
	}
	if line := r.kindLine(b, f); line != "" {
		add += line
	}
	switch {
	case len(could) == 0:
		return add
	case len(could) == 1 && f.Cell != templates.Text:
		b.proposed[could[0]] = true
		r.propose(b, could[0], f.Name) // none of them was rejected
		return add + fmt.Sprintf(" Or, if %q is it, %s.", could[0], b.put(could[0], f.Name))
	}
	for _, header := range could {
		r.tell(b, header, f.Name)
	}
	return add + fmt.Sprintf(" Or, if %s is it, say so under [%s] of settings.toml, as in %s.",
		quotedList(could), settings.ColumnsSection(b.Table.Name), settings.NameLine(could[0], f.Name))
}

// byWords says which of a missing column's words the lines speak of in what they were
// for, the first line of each; empty where none does.
func (r *Reader) byWords(b *Block, f *templates.Field) string {
	what, there := b.Columns["what"]
	if !there {
		return ""
	}
	var said []string
	seen := map[string]bool{}
	for _, x := range columns.Samples(b.sheet, what.Index) {
		word := receipts.GroupOf(x.Cell.Text, func(phrase string) string {
			return cmp.Or(values.Choice(phrase, f.Constraints.Enum), r.set.Meant(b.Table.Name+"."+f.Name, phrase))
		})
		if word != "" && !seen[word] {
			seen[word] = true
			said = append(said, fmt.Sprintf("%s for %s (row %d)", word, fault.Quoted(sheets.Shortened(x.Cell.Text)), x.Row))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return fmt.Sprintf(" By the words under %s it is most likely %s.", what.Header, strings.Join(said, ", "))
}

// FixMissing is what to type where a column that a table can do without is missing, and
// its rows need it: a new column, or the line for one that is there and could be it.
func (r *Reader) FixMissing(b *Block, field string) string {
	return r.missingFix(b, b.Table.Field(field))
}

// gridFix is a fix for a sheet with a column for each piece, month or way of
// paying in place of one with what they hold: none of them alone is it.
func (r *Reader) gridFix(b *Block, f *templates.Field, could []string) string {
	for _, c := range b.unknown {
		if slices.Contains(could, c.Header) {
			b.unreadMoney[c.Index] = columns.IsMoney(f.Cell)
		}
	}
	needed := columns.Needed(b.Table)
	if f.Name == "hours" {
		needed = append(needed, "pieces")
	}
	return fmt.Sprintf("These columns could be it, and together they may be a grid: %s. If so, type a row "+
		"for each filled "+
		"cell, with the columns %s. If one of them is it, name it %s.", strings.Join(could, ", "),
		strings.Join(needed, ", "), f.Name)
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
func (r *Reader) takenCould(b *Block, f *templates.Field) (could []string) {
	if f.Cell != templates.Text && f.Name != "piece" {
		return nil
	}
	for _, c := range b.inOrder() {
		if !b.proposed[c.Header] && c.Field.Cell == templates.Text && !c.Field.Constraints.Required &&
			c.Field.Name == "description" &&
			r.couldHold(Column{Index: c.Index, Header: c.Header, table: b.Table.Name}, b, f) {
			could = append(could, c.Header)
		}
	}
	return could
}
