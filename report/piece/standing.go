package piece

import (
	"fmt"
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// standing is where the piece stands among all sold of its kind, after shop
// costs: in a sentence, and each of them as a point.
func standing(in *report.Input, p figures.Piece) []page.Block {
	kin := in.SoldOfKind(p.Record.Kind)
	text := amongKind(in, p, kin)
	if text == "" {
		return nil
	}
	if len(kin) < 2 {
		return []page.Block{page.Paragraph{Text: text}}
	}
	return []page.Block{page.Columns{LeftSpan: 2, Left: []page.Block{page.Paragraph{Text: text}},
		Right: []page.Block{kindStrip(in, p, kin)}}}
}

// compared is the figure a piece is compared by: an hour after shop costs, or
// where its own hours are not written down the profit after shop costs.
func compared(p figures.Piece) (name string, of func(figures.Piece) *money.Cents) {
	if p.ProfitPerHourAfterOverhead != nil {
		return "the hour after shop costs", func(q figures.Piece) *money.Cents { return q.ProfitPerHourAfterOverhead }
	}
	return "profit after shop costs", func(q figures.Piece) *money.Cents { return q.ProfitAfterOverhead }
}

// kindStrip shows every piece of the kind on one scale, this one marked.
func kindStrip(in *report.Input, p figures.Piece, kin []*figures.Piece) page.Block {
	_, of := compared(p)
	var out page.Strip
	var all []money.Cents
	for _, q := range kin {
		v := of(*q)
		if v == nil {
			continue
		}
		all = append(all, *v)
		if q.Record.ID == p.Record.ID {
			out.Own = page.Point{At: int64(*v), Label: "this one " + in.Spoken(*v)}
			continue
		}
		out.Points = append(out.Points, int64(*v))
	}
	middle, _ := money.Median(all)
	out.Median = page.Point{At: int64(middle), Label: "median"}
	if target := in.Settings().TargetHourly; target > 0 && p.ProfitPerHourAfterOverhead != nil {
		out.Target = page.Point{At: int64(target), Label: "wanted " + in.Spoken(target)}
	}
	return out
}

// amongKind places the piece among all sold of its kind up to the period's end;
// blank for one that is not sold.
func amongKind(in *report.Input, p figures.Piece, kin []*figures.Piece) string {
	if p.Status != "sold" || p.Profit == nil {
		return ""
	}
	name, of := compared(p)
	var all []money.Cents
	better, first := 0, p.SoldOn.InMonth()
	for _, q := range kin {
		if v := of(*q); v != nil {
			all, first = append(all, *v), min(first, q.SoldOn.InMonth())
			if *v > *of(p) {
				better++
			}
		}
	}
	if len(all) < 2 {
		return "The only " + p.Record.Kind + " sold so far, so there is nothing of its kind to compare it with."
	}
	middle, _ := money.Median(all)
	return fmt.Sprintf("Of the %d of kind %s sold since %s it is %s by %s: %s (median %s, range %s to %s).", len(all),
		p.Record.Kind, first.Name(), words.Ordinal(better+1), name, in.Spoken(*of(p)), in.Spoken(middle),
		in.Spoken(slices.Min(all)),
		in.Spoken(slices.Max(all)))
}
