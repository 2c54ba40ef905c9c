package report

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/opened"
	"piecebook/ledger/taxyear"
	"piecebook/report/words"
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

// Missing is what the owner can still find, the opening's difference first, then the
// receipts that are in no line.
func (in *YearInput) Missing() []taxyear.Missing {
	var receipts []taxyear.Missing
	for _, n := range in.Notes {
		if n.Code == fault.CodeSlipUnplaced {
			receipts = append(receipts, taxyear.Missing{Cents: money.Cents(n.MoneyCents),
				Note: taxyear.Note{Says: taxyear.InWords, Of: []any{words.ReceiptsNotPlaced(n.Place)}}})
		}
	}
	return slices.Concat(in.Opening, receipts, in.Tax.Missing)
}

// YearOf is what the documents of a year, whose December is the books' last
// month, are composed from by the tables of one country, but for where its
// photos are and its time. It fails as taxyear.For does.
func YearOf(b *opened.Books, tax *templates.Tax) (YearInput, error) {
	rates := b.Set.RatesFor(b.Read.Books.Settings.Currency)
	y, err := taxyear.For(b.Ledger, b.Month.Year(), tax, rates.AtOnceCents)
	if err != nil {
		return YearInput{}, err
	}
	base, err := Of(b)
	if err != nil {
		return YearInput{}, err
	}
	base.Month, base.Period = y.Figures, fmt.Sprint(y.Year)
	base.Notes = figures.OfPeriod(b.NotesSince(y.Figures.From), y.Figures.From, y.Figures.To)
	base.Corrections = b.Corrections(y.Figures.From, y.Figures.To)
	in := YearInput{Input: base, Tax: y, Law: tax, RateSources: map[string]string{}}
	for _, r := range rates.Mileage {
		in.RateSources[r.From] = r.Source
	}
	return in, nil
}
