package figuresjson

import (
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
)

// taxLineOut is one line of the year's form.
type taxLineOut struct {
	Line   string      `json:"line"`
	Label  string      `json:"label"`
	Amount money.Cents `json:"amount"`
}

// mileageOut is the year's distance and what it comes to at the rates,
// without tolls.
type mileageOut struct {
	Miles  string      `json:"miles"`
	Amount money.Cents `json:"amount"`
}

// yearOut is what a year adds to figures.json.
type yearOut struct {
	figuresOut
	Depreciation money.Cents  `json:"depreciation"`
	TaxLines     []taxLineOut `json:"tax_lines"`
	Mileage      mileageOut   `json:"mileage"`
}

// Year is a year's figures.json: a month's keys, spanning the year, and
// depreciation, tax_lines and mileage. Every line that the books can feed is
// there, 0.00 too, in the form's order. Miles are as recorded (kilometres in
// a metric shop), to four decimals at most.
func Year(y *taxyear.Year) ([]byte, error) {
	f := y.Figures
	f.TieOut = y.Ties
	out := yearOut{figuresOut: figuresOf(f), Depreciation: y.Depreciation, TaxLines: []taxLineOut{},
		Mileage: mileageOut{Miles: money.AtMost(y.Mileage.Miles, 4), Amount: y.Mileage.Amount}}
	for _, l := range y.Lines {
		out.TaxLines = append(out.TaxLines, taxLineOut{l.Line, l.Label, l.Cents})
	}
	return encoded(out)
}
