package report

import (
	"slices"

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
	// for the year before, by changed records; none: it does not, or none was.
	Opening []taxyear.Missing
	// RateSources says on whose word a built-in mileage rate rests, by its day.
	RateSources map[string]string
}

// Missing is what the owner can still find, the opening's difference first.
func (in *YearInput) Missing() []taxyear.Missing {
	return slices.Concat(in.Opening, in.Tax.Missing)
}
