package headers

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// soldTicked is the column of Pieces that holds ticks.
const soldTicked = "sold_ticked"

// isTicks says that a column holds ticks and nothing else: each cell is one, or
// says that there is none. A lone 1 or 0 is a number.
func (r *Reader) isTicks(s *sheets.Sheet, index int) bool {
	cells, marks := columns.Samples(s, index), 0
	for _, x := range cells {
		if _, is := values.Ticked(x.Cell.Text); !is {
			return false
		}
		if strings.Trim(x.Cell.Text, "01") != "" {
			marks++
		}
	}
	return marks > 0
}

// takesTicks says that a column of Pieces by its name is when or for how much a
// piece was sold, and by its cells a column of ticks.
func (r *Reader) takesTicks(b *Block, f *templates.Field, i int) bool {
	if b.Table.Name != "pieces" || f != nil && f.Name == soldTicked {
		return false
	}
	sold := f != nil && (f.Name == "sold_on" || f.Name == "sold_price") ||
		f == nil && columns.HasWord(b.headers[i], []string{"sold"})
	return sold && r.isTicks(b.sheet, i)
}

// askTicks asks, once a sheet, what a ticked piece sold for, where the sale does
// not stand beside the tick.
func (r *Reader) askTicks(b *Block) {
	for _, c := range b.ticks {
		first, why := r.tickAlone(b, c)
		none := settings.NameLine(c.Header, settings.NoTable)
		if first == "" {
			r.problems.Add(fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: b.at(c.Header), Found: c.Header,
				Why:         "This column holds ticks, and the day and price of each sale stand beside them, so it is not read.",
				AsksNothing: true, Fix: fmt.Sprintf("It may stay; %s under [%s] of settings.toml has it skipped without a note.",
					none, settings.ColumnsSection(b.Table.Name))})
			continue
		}
		p := fault.Problem{Code: fault.CodeTicksAsked, Place: b.at(c.Header), Found: sheets.Shortened(first),
			Why: fmt.Sprintf("This column holds ticks, and %s, so what a ticked piece sold for is not clear.", why)}
		// Ticked rows are refused, and nothing more is said of their sales.
		c.Field = b.Table.Field(soldTicked)
		b.Columns[soldTicked], b.Other[soldTicked] = c, true
		_, dated := b.Columns["sold_on"]
		_, priced := b.Columns["sold_price"]
		onlyDay := priced && !dated
		if asking, there := b.Columns["asking"]; there && !onlyDay && r.propose(b, c.Header, soldTicked) {
			p.Fix = fmt.Sprintf("Is %s the price once it is ticked? Then %s. If not, type what each sold for in a column "+
				"sold price, and put %s there.", asking.Header, b.put(c.Header, soldTicked), none)
		} else if priced {
			p.Fix = fmt.Sprintf("Type the day each was sold in a column Sold on, and %s.", b.put(c.Header, settings.NoTable))
		} else {
			p.Fix = fmt.Sprintf("Type the day and the price of each sale in columns Sold on and Sold price, and %s.",
				b.put(c.Header, settings.NoTable))
			if r.tell(b, c.Header, soldTicked) {
				p.Fix += fmt.Sprintf(" If a column holds the asking price, name it asking and put %s there.",
					settings.NameLine(c.Header, soldTicked))
			}
		}
		r.problems.Add(p)
	}
}

// tickAlone is the first tick without the day and price of the sale beside it,
// and what is not there.
func (r *Reader) tickAlone(b *Block, c Column) (first, why string) {
	on, dated := b.Columns["sold_on"]
	price, priced := b.Columns["sold_price"]
	missing := "there is no column with the price of the sale"
	switch {
	case priced && !dated:
		missing = "there is no column with the day of the sale"
	case priced:
		missing = "the sale does not stand beside each of them"
	}
	for l := range columns.Rows(b.sheet) {
		yes, _ := values.Ticked(l.Text(c.Index))
		if yes && (!dated || !priced || l.Text(on.Index) == "" || l.Text(price.Index) == "") {
			return l.Text(c.Index), missing
		}
	}
	return "", ""
}
