package report

import (
	"piecebook/ledger/taxyear"
	"piecebook/templates"
)

// YearInput is what a tax year's documents are composed from. Month of Input
// holds the year's figures.
type YearInput struct {
	Input
	Tax *taxyear.Year
	Law *templates.Tax
	// Opening says how the year's opening differs from the closing handed out
	// for the year before; blank: it does not, or none was.
	Opening string
	// RateSources says on whose word a built-in mileage rate rests, by its day.
	RateSources map[string]string
}

// Missing is what the owner can still find, the opening's difference first.
func (in *YearInput) Missing() []taxyear.Missing {
	var out []taxyear.Missing
	if in.Opening != "" {
		out = append(out, taxyear.Missing{Words: in.Opening, Section: taxyear.SecCost})
	}
	return append(out, in.Tax.Missing...)
}
