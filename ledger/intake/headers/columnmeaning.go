package headers

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// channelLeast is how many letters a name needs to be a slip for one of the
// names of a channel, which are everyday words.
const channelLeast = 6

// nameAllows says that nothing in a header speaks against its column being a field.
func (r *Reader) nameAllows(c Column, b *Block, f *templates.Field) bool {
	if b.sheet.IsHiddenColumn(c.Index) {
		return false
	}
	hours := f.Cell == templates.HoursOfAll || f.Cell == templates.HoursOfDay
	switch {
	case columns.IsMoney(f.Cell):
		taxed := slices.ContainsFunc(b.headers, func(h string) bool { return columns.HasWord(h, columns.TaxWords) })
		isTax := strings.Contains(f.Name, "tax")
		return !columns.HasWord(c.Header, columns.EachWords) && !columns.HasWord(c.Header, columns.DerivedWords) &&
			!columns.InMinutes(c.Header) && !columns.CountsThings(c.Header) &&
			!(f.Name == "net" && columns.HasWord(c.Header, columns.AheadWords)) &&
			columns.HasWord(c.Header, columns.TaxWords) == isTax && (isTax || !taxed ||
			!columns.HasWord(c.Header, columns.GrossWords))
	case f.Cell == templates.Coverage || f.Name == "coverage":
		return !columns.PerHeader(c.Header) && !columns.HasWord(c.Header, columns.MoneyWords)
	case hours:
		return !columns.InMinutes(c.Header) && !columns.HasWord(c.Header, columns.MoneyWords)
	case slices.Contains([]templates.Cell{templates.Date, templates.Text, templates.Choice, templates.ChannelRef,
		templates.SupplyRef, templates.YesNo}, f.Cell):
		return true // what money is not read as
	}
	return !columns.HasWord(c.Header, columns.MoneyWords) && !columns.HasWord(c.Header, columns.DerivedWords)
}

// yearAlone is a year of four digits.
var yearAlone = regexp.MustCompile(`^(1[5-9]|20)\d\d$`)

// allRead says that all filled cells of a column read as what a field holds, or
// that none is filled.
func (r *Reader) allRead(s *sheets.Sheet, c Column, f *templates.Field) bool {
	cells := columns.Samples(s, c.Index)
	return len(cells) == 0 ||
		!slices.ContainsFunc(cells, func(x columns.Sample) bool { return !r.readsField(c, f, x.Cell) })
}

// mostRead says that more than half of a column's filled cells read as what a field
// holds: the others are slips, which are asked about cell by cell.
func (r *Reader) mostRead(s *sheets.Sheet, c Column, f *templates.Field) bool {
	cells, read, days := columns.Samples(s, c.Index), 0, 0
	for _, x := range cells {
		switch {
		case r.readsField(c, f, x.Cell):
			read++
		case f.Cell == templates.Date && values.MayBeDay(x.Cell):
			days++
		}
	}
	if read > 0 {
		read += days // beside 1.3. also 5.4 is one
	}
	return 2*read > len(cells)
}

// readsField is readsAs for every kind of cell.
func (r *Reader) readsField(c Column, f *templates.Field, x sheets.Cell) bool {
	styles := []measure.Style{{Currency: r.settings.Currency}, {DecimalComma: true, Currency: r.settings.Currency}}
	either := func(read func(measure.Style) bool) bool { return slices.ContainsFunc(styles, read) }
	switch f.Cell {
	case templates.Choice:
		return values.Choice(x.Text, f.Constraints.Enum) != "" || r.set.Meant(c.table+"."+f.Name, x.Text) != ""
	case templates.Container, templates.Amount:
		return either(func(style measure.Style) bool {
			a, refusal := measure.ReadAmount(x.Text, style)
			return refusal == nil && (f.Cell == templates.Amount || !a.Bare)
		})
	case templates.Length:
		return either(func(style measure.Style) bool {
			_, refusal := measure.ReadLength(x.Text, style, r.settings.Metric())
			return refusal == nil
		})
	case templates.YesNo:
		return slices.Contains([]string{"yes", "no", "y", "n", "true", "false", "1", "0"}, values.Fold(x.Text))
	case templates.Year:
		return yearAlone.MatchString(x.Text)
	case templates.Percent:
		x.Text = strings.TrimSpace(strings.TrimSuffix(x.Text, "%"))
		return columns.ReadsAs(templates.Number, x, r.settings)
	case templates.SetName, templates.LotRef, templates.ScheduleRef:
		return columns.ReadsAs(templates.Name, x, r.settings)
	case templates.Number:
		if columns.ReadsAs(templates.Number, x, r.settings) {
			return true
		}
		return either(func(style measure.Style) bool {
			_, refusal := measure.ReadArea(x.Text, style, r.settings.Metric())
			return refusal == nil && f.Name == "area"
		})
	}
	return columns.ReadsAs(f.Cell, x, r.settings)
}

// couldHold says that most filled cells of a column read as what a field holds,
// that there are some, and that its name does not speak against it.
func (r *Reader) couldHold(c Column, b *Block, f *templates.Field) bool {
	return !r.lines.RejectsColumn(b.Table.Name, c.Header, f.Name) && len(columns.Samples(b.sheet, c.Index)) > 0 &&
		r.mostRead(b.sheet, c, f) && r.nameAllows(c, b, f) && r.namesApart(b.sheet, c, f)
}

// namesApart says of a column that is to hold the names of a table that they
// differ, and that it is not for something else by its own name.
func (r *Reader) namesApart(s *sheets.Sheet, c Column, f *templates.Field) bool {
	if f.Name != "piece" && f.Name != "kind" {
		return true
	}
	if columns.HasWord(c.Header, []string{"where", "place", "when", "who", "client", "customer", "buyer", "note", "notes",
		"comments", "remarks"}) ||
		r.unreadMoney(s, c) != 0 {
		return false
	}
	seen := map[string]bool{}
	return !f.Constraints.Unique || !slices.ContainsFunc(columns.Samples(s, c.Index), func(x columns.Sample) bool {
		again := seen[values.Fold(x.Cell.Text)]
		seen[values.Fold(x.Cell.Text)] = true
		return again
	})
}

// nearestFor is nearestField where neither the name nor the cells speak against it.
func (r *Reader) nearestFor(c Column, b *Block) string {
	near := nearestField(c.Header, b)
	if near == "" || b.Table.Field(near).Cell == templates.ChannelRef && len(values.Compact(c.Header)) < channelLeast ||
		r.lines.RejectsColumn(b.Table.Name, c.Header, near) || !r.nameAllows(c, b, b.Table.Field(near)) ||
		!r.allRead(b.sheet, c, b.Table.Field(near)) {
		return ""
	}
	return near
}

// feeWords are words of headers of what a channel keeps.
var feeWords = []string{"fee", "fees", "commission", "cut", "share", "consignment"}

// percentWords are words of headers of percentages.
var percentWords = []string{"rate", "percent", "percentage", "pct"}

// otherCurrencies are the codes in a column of currencies that are not the books' own,
// each once, in the order of the rows.
func (r *Reader) otherCurrencies(b *Block, c Column) (codes []string) {
	if !columns.HasWord(c.Header, []string{"currency"}) {
		return nil
	}
	for _, x := range columns.Samples(b.sheet, c.Index) {
		code := strings.ToUpper(x.Cell.Text)
		if len(code) == 3 && code != r.settings.Currency && !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}

// unreadWhy tells columns whose names say that their figures count something
// else than the table does; empty for others.
func (r *Reader) unreadWhy(b *Block, c Column) (why, fix string) {
	t := b.Table
	minutes := t.Field("hours") != nil && columns.InMinutes(c.Header)
	switch {
	case minutes:
		return fmt.Sprintf("%s counts hours and this column minutes, so it is not read.", t.Title),
			"Add a column hours, with min after each number, such as 15 min, or the hours, such as 0.25."
	case len(r.otherCurrencies(b, c)) > 0:
		return fmt.Sprintf("This column names %s, and the books count in %s. It is not read, and nothing is converted.",
				strings.Join(r.otherCurrencies(b, c), ", "), r.settings.Currency),
			fmt.Sprintf("Type what each of these lines came to in %s.", r.settings.Currency)
	case t.Field("fee") != nil && columns.HasWord(c.Header, feeWords) &&
		(strings.Contains(c.Header, "%") || columns.HasWord(c.Header, percentWords)):
		fix = "Add a column fee with the amounts, or give the terms of the channel in Channels, under fee_percent."
		if _, there := b.Columns["fee"]; there {
			return "", ""
		}
		return fmt.Sprintf("%s has fees as amounts, and this column holds percents, so it is not read, and no fee is taken "+
			"from these sales by it.", t.Title), fix
	case t.Field("coverage") != nil && columns.PerHeader(c.Header):
		_, per, _ := columns.HeaderPer(c.Header)
		fix = "Add a column coverage with what one whole container does."
		if x, ok := r.firstCoverage(b, c); ok {
			fix = fmt.Sprintf("Add a column coverage with what one whole container does; %s.", x)
		}
		return fmt.Sprintf("Coverage is what one whole container does, and this column says what one %s does, so "+
			"it is not read.", per.Name), fix
	case r.unreadMoney(b.sheet, c) != 0 && columns.HasWord(c.Header, columns.EachWords):
		return fmt.Sprintf("This column says the price of one, and %s counts what the whole line came to, so it is not read.",
				t.Title),
			"Add a column with what each line came to, or let the spreadsheet work it out."
	case r.unreadMoney(b.sheet, c) != 0 && columns.HasWord(c.Header, columns.GrossWords) && slices.ContainsFunc(b.headers,
		func(h string) bool { return columns.HasWord(h, columns.TaxWords) }):
		return "This column has the tax in it most likely, which stands in a column of its own, so it is not read.",
			fmt.Sprintf("If the amounts before tax stand nowhere, add a column for them. If it is only worked out, %s.",
				b.put(c.Header, settings.NoTable))
	}
	return "", ""
}

// firstCoverage works a figure for each unit out for the first row that can be.
func (r *Reader) firstCoverage(b *Block, c Column) (string, bool) {
	holds, there := b.Columns["container"]
	area, per, _ := columns.HeaderPer(c.Header)
	if !there {
		return "", false
	}
	for _, l := range b.sheet.Lines[1:] {
		if max(c.Index, holds.Index) >= len(l.Cells) {
			continue
		}
		style := measure.Style{DecimalComma: r.settings.DecimalComma && !b.sheet.InBook}
		container, refusal := measure.ReadAmount(l.Cells[holds.Index], style)
		if refusal != nil {
			continue
		}
		figure := strings.TrimSpace(l.Cells[c.Index])
		if does, _, ok := measure.CoveragePer(figure+area+"/"+per.Name, style, r.settings.Metric(), container); ok {
			return fmt.Sprintf("for %s and %s in row %d that is %s", strings.TrimSpace(l.Cells[holds.Index]), figure, l.Number,
				values.Written(does, r.settings)), true
		}
	}
	return "", false
}

// unreadMoney is what an unknown column holds in money: where its name or its
// cells say that it is money, and it is not worked out from other columns.
func (r *Reader) unreadMoney(s *sheets.Sheet, c Column) int64 {
	if columns.HasWord(c.Header, columns.DerivedWords) || columns.InMinutes(c.Header) || strings.Contains(c.Header, "%") {
		return 0
	}
	if !r.mostRead(s, c, &templates.Field{Cell: templates.Money}) ||
		!columns.LooksMoney(s, c.Header, c.Index, s.Lines[1:], r.settings) {
		return 0
	}
	return columns.SumOf(s, c.Index, r.settings)
}

// fetchedWords say that something was fetched.
var fetchedWords = []string{"fetching", "fetched", "fetch", "collection", "collecting", "transport", "haul", "hauling",
	"van", "pickup", "pickups"}

// belongs says where the money of an unread column has its place.
func belongs(header string) string {
	for _, b := range []struct {
		words []string
		where string
	}{
		{[]string{"materials", "material", "supplies", "supply", "paint", "stain", "finish"}, "What was bought for the shelf belongs in Supplies and Purchases, what one piece alone had in Parts."},
		{[]string{"parts", "hardware"}, "What one piece alone had belongs in Parts."},
		{fetchedWords, "What fetching a piece cost is pickup of Pieces."},
		{[]string{"gas", "fuel"}, "Drives belong in Trips, by their distance."},
		{[]string{"delivery", "shipping", "postage"}, "What the buyer paid for it is delivery_charged, what it cost the shop delivery_cost."},
		{[]string{"booth", "rent"}, "Rent belongs in Expenses."},
		{columns.AheadWords, "What was paid ahead belongs in Sales, in a row of its own with its day and part payment under type; the row of the sale then has the balance as its price."},
		{[]string{"discount", "discounts"}, "The price is what was agreed, after the discount."},
		{[]string{"refund", "refunds", "refunded"}, "What went back to the buyer belongs in Sales, in a row of its own with its day and refund under type."},
	} {
		if columns.HasWord(header, b.words) {
			return b.where
		}
	}
	return ""
}

// moneyUnread is the note of such a column.
func (r *Reader) moneyUnread(b *Block, c Column, cents int64) fault.Problem {
	t, section := b.Table, settings.ColumnsSection(b.Table.Name)
	fix := fmt.Sprintf("If it counts, rename it for its column of %s, map it in [%s] of settings.toml, or enter it in "+
		"its own table.", t.Title, section)
	if where := belongs(c.Header); where != "" {
		fix = where
	}
	return fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: b.at(c.Header), Found: c.Header,
		MoneyCents: cents,
		Why: fmt.Sprintf("%s has no column of that name, so it is not read, and the %s in it is in no figure.", t.Title,
			money.Cents(cents).Grouped()),
		Fix: fix + fmt.Sprintf(" If it is worked out from other columns, put %s under [%s].",
			settings.NameLine(c.Header, settings.NoTable), section)}
}
