package rows

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// seeCurrency remembers the first cell of each currency that amounts name.
func (r *Reader) seeCurrency(row *Row, name string) {
	cell := row.Cell(name)
	is := measure.CurrencyIn(cell.Currency() + " " + cell.Text)
	if is == "" || cell.Text == "" {
		return
	}
	p := fault.Problem{Place: row.Place(name), Found: sheets.Shortened(row.Raw(name))}
	if first, there := r.currencies[is]; !there || p.Place.Compare(first.Place) < 0 {
		r.currencies[is] = p
	}
}

// NoteCurrency notes amounts that name one other currency throughout where
// settings.toml names none, and those that name another beside the books' own.
func (r *Reader) NoteCurrency() {
	if len(r.currencies) > 1 {
		r.noteMixed()
		return
	}
	if r.given["currency"] || len(r.currencies) != 1 {
		return
	}
	for is, p := range r.currencies {
		if is == "$" || is == r.settings.Currency {
			return
		}
		p.Code, p.Note = fault.CodeCurrencyOther, true
		p.Why = fmt.Sprintf("Amounts here name %s, and the books count in %s while settings.toml names no currency. Nothing "+
			"is converted.", is, r.settings.Currency)
		p.Fix = fmt.Sprintf("If they are %s, put currency = %q at the top of settings.toml.", r.settings.Currency,
			r.settings.Currency)
		if line := fmt.Sprintf("currency = %q", is); r.lines.Propose("", line, p.Place) {
			p.Fix = fmt.Sprintf("If all amounts are %s, put %s at the top of settings.toml; if not, put currency = %q there.",
				is, line, r.settings.Currency)
		}
		r.problems.Add(p)
	}
}

// noteMixed notes each currency but the books' own, at its first amount.
func (r *Reader) noteMixed() {
	own := r.settings.Currency
	for is, p := range r.currencies {
		if is == own || is == "$" && !slices.Contains([]string{"EUR", "GBP", "INR", "JPY"}, own) {
			continue
		}
		p.Code, p.Note = fault.CodeCurrencyOther, true
		p.Why = fmt.Sprintf("This amount names %s, and others another currency. The books count in %s, and nothing is "+
			"converted, so the number counts as it stands.", is, own)
		p.Fix = fmt.Sprintf("Type what it and others like it came to in %s.", own)
		r.problems.Add(p)
	}
}
