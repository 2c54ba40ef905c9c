package report

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// standing is how the piece did in ratios and where it stands among all sold
// of its kind.
func (in *Input) standing(p figures.Piece) []page.Block {
	if p.Profit == nil {
		return nil
	}
	days := page.Dash
	if p.DaysHeld != nil {
		days = plural(*p.DaysHeld, "day", "days")
	}
	facts := page.Facts{Columns: 1, Items: []page.Fact{
		{Label: "Margin", Value: percent(p.Margin)},
		{Label: "Return on cost", Value: percent(p.ReturnOnCost)},
		{Label: "Return a year", Value: percent(p.ReturnAYear)},
		{Label: "Held", Value: days},
	}}
	out := []page.Block{facts}
	if p.Status == "sold" {
		out = append(out, page.Paragraph{Style: page.Note, Text: in.amongKind(p)})
	}
	return out
}

// amongKind places the piece among all sold of its kind up to the period's end.
func (in *Input) amongKind(p figures.Piece) string {
	var profits, rates []money.Cents
	betterProfit, betterRate := 0, 0
	for _, q := range in.All {
		if q.Status != "sold" || q.Profit == nil || !strings.EqualFold(q.Record.Kind, p.Record.Kind) || q.SoldOn.InMonth() > in.Month.To {
			continue
		}
		profits = append(profits, *q.Profit)
		if *q.Profit > *p.Profit {
			betterProfit++
		}
		if q.ProfitPerHour != nil {
			rates = append(rates, *q.ProfitPerHour)
			if p.ProfitPerHour != nil && *q.ProfitPerHour > *p.ProfitPerHour {
				betterRate++
			}
		}
	}
	if len(profits) < 2 {
		return "The only " + p.Record.Kind + " sold so far, so there is nothing of its kind to hold it against."
	}
	middle, _ := median(profits)
	words := fmt.Sprintf("Among %d of kind %s sold so far: profit %s (median %s, from %s to %s)", len(profits), p.Record.Kind,
		place(betterProfit+1), in.spoken(middle), in.spoken(slices.Min(profits)), in.spoken(slices.Max(profits)))
	if p.ProfitPerHour != nil && len(rates) > 1 {
		middle, _ := median(rates)
		words += fmt.Sprintf("; per hour %s of %d (median %s)", place(betterRate+1), len(rates), in.spoken(middle))
	}
	return words + "."
}

// place is a rank in words.
func place(n int) string {
	if n == 1 {
		return "the best"
	}
	return ordinal(n)
}
