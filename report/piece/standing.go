package piece

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// ratios are how the piece did for its cost and its time, small under the two
// answers that they are of.
func ratios(in *report.Input, p figures.Piece) (profit, perHour []page.SubFigure) {
	percentage := func(label string, x *big.Rat) page.SubFigure {
		return page.SubFigure{Label: label, Figure: page.Number(words.Percent(x))}
	}
	profit = []page.SubFigure{{Label: "after its share of overhead", Figure: cells.Optional(p.ProfitAfterOverhead)},
		percentage("margin", p.Margin), percentage("return on cost", p.ReturnOnCost)}
	if target := in.Settings().TargetHourly; target > 0 {
		perHour = append(perHour, page.SubFigure{Label: "wanted an hour", Figure: cells.Money(target)})
	}
	if p.DaysHeld != nil {
		perHour = append(perHour, page.SubFigure{Label: "held", Figure: page.Number(words.Plural(*p.DaysHeld, "day", "days"))}, percentage("return a year", yearlyReturn(p)))
	}
	return profit, perHour
}

// What a return a year needs to mean anything: a piece had for a day for a
// dollar returns thousands of percent.
const (
	fewestDays = 30
	leastCost  = money.Cents(500)
)

// yearlyReturn is the piece's return a year; nil where it was held too short
// or cost too little for one.
func yearlyReturn(p figures.Piece) *big.Rat {
	if p.DaysHeld == nil || *p.DaysHeld < fewestDays || p.BookCost < leastCost {
		return nil
	}
	return p.ReturnAYear
}

// standing is where the piece stands among all sold of its kind: every one of
// them as a point, and the ranks in words.
func standing(in *report.Input, p figures.Piece) []page.Block {
	if p.Status != "sold" || p.Profit == nil {
		return nil
	}
	kin := ofKind(in, p)
	if len(kin) > 1 {
		return []page.Block{kindDots(in, p, kin)}
	}
	return []page.Block{page.Paragraph{Style: page.Note, Text: amongKind(in, p, kin)}}
}

// ofKind are all pieces of the piece's kind sold up to the period's end, it
// among them.
func ofKind(in *report.Input, p figures.Piece) []figures.Piece {
	var out []figures.Piece
	for _, q := range in.All {
		if q.Status == "sold" && q.Profit != nil && strings.EqualFold(q.Record.Kind, p.Record.Kind) && q.SoldOn.InMonth() <= in.Month.To {
			out = append(out, q)
		}
	}
	return out
}

// kindDots shows the profit per hour of every piece of the kind whose hours
// are known, or where this one's are not, the profit.
func kindDots(in *report.Input, p figures.Piece, kin []figures.Piece) page.Block {
	value := func(q figures.Piece) *money.Cents { return q.ProfitPerHour }
	d := page.Dots{Caption: "Among its kind", Of: "Kind", Points: "Profit per hour", Rings: true, Note: amongKind(in, p, kin)}
	if p.ProfitPerHour == nil {
		value = func(q figures.Piece) *money.Cents { return q.Profit }
		d.Points = "Profit"
	} else if target := in.Settings().TargetHourly; target > 0 {
		d.Target = page.Level{At: float64(target), Label: "wanted " + in.Spoken(target)}
	}
	row := page.DotRow{Label: p.Record.Kind}
	var all []money.Cents
	for _, q := range kin {
		v := value(q)
		if v == nil {
			continue
		}
		all = append(all, *v)
		if q.Record.ID == p.Record.ID {
			row.Own = append(row.Own, int64(*v))
			continue
		}
		row.Points = append(row.Points, int64(*v))
	}
	middle, _ := money.Median(all)
	row.Median = page.FullMoney(int64(middle))
	d.Rows = []page.DotRow{row}
	return d
}

// amongKind places the piece among all sold of its kind up to the period's end.
func amongKind(in *report.Input, p figures.Piece, kin []figures.Piece) string {
	var profits, rates []money.Cents
	betterProfit, betterRate := 0, 0
	for _, q := range kin {
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
	middle, _ := money.Median(profits)
	text := fmt.Sprintf("Of %d of kind %s sold so far: profit %s (median %s, from %s to %s)", len(profits), p.Record.Kind,
		place(betterProfit+1), in.Spoken(middle), in.Spoken(slices.Min(profits)), in.Spoken(slices.Max(profits)))
	if p.ProfitPerHour != nil && len(rates) > 1 {
		middle, _ := money.Median(rates)
		text += fmt.Sprintf("; per hour %s of %d (median %s)", place(betterRate+1), len(rates), in.Spoken(middle))
	}
	return text + "."
}

// place is a rank in words.
func place(n int) string {
	if n == 1 {
		return "the best"
	}
	return words.Ordinal(n)
}
