package piece

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// standing is where the piece stands among all sold of its kind, after shop
// costs: in a sentence, and each of them as a point.
func standing(in *report.Input, p figures.Piece) []page.Block {
	same := in.SoldOfKind(p.Record.Kind)
	text := amongKind(in, p, same)
	if len(text) == 0 {
		return nil
	}
	said := page.Says(page.Body, text)
	if len(same.Pieces) < 2 {
		return []page.Block{said}
	}
	return []page.Block{page.Columns{LeftSpan: 2, Left: []page.Block{said}, Right: []page.Block{kindStrip(in, p, same)}}}
}

// compared is the figure a piece is compared by: an hour after shop costs, or
// where its own hours are not written down the profit after shop costs; with
// what it is made of.
func compared(in *report.Input, p figures.Piece, same *report.SoldOfKind) (name string, own money.Cents, of page.Ref,
	all *report.Spread) {
	if p.ProfitPerHourAfterOverhead != nil {
		return "the hour after shop costs", *p.ProfitPerHourAfterOverhead, report.RateAfter(p), same.ByHour()
	}
	return "profit after shop costs", *p.ProfitAfterOverhead, in.LineOfPiece(p.Record.ID, figures.LineAfterOverhead),
		same.ByProfit()
}

// mostPoints is how many pieces of a kind are each a point of their own. Of more
// those that would stand on each other are one point: a shop with thousands
// of one kind would else draw all of them on the sheet of each.
const mostPoints = 150

// kindStrip shows the pieces of the kind on one scale, this one marked.
func kindStrip(in *report.Input, p figures.Piece, same *report.SoldOfKind) page.Block {
	_, own, _, all := compared(in, p, same)
	out := page.Strip{Own: page.Point{At: int64(own), Label: "this one " + in.Spoken(own)},
		Median: page.Point{At: int64(all.Median), Label: "median"}}
	if len(all.Sorted) > mostPoints {
		for _, c := range all.Thinned(mostPoints) {
			out.Points = append(out.Points, int64(c))
		}
	} else {
		for i, q := range all.By {
			if q.Record.ID != p.Record.ID {
				out.Points = append(out.Points, int64(all.Sorted[i]))
			}
		}
	}
	if target := in.Settings().TargetHourly; target > 0 && p.ProfitPerHourAfterOverhead != nil {
		out.Target = page.Point{At: int64(target), Label: "wanted " + in.Spoken(target)}
	}
	return out
}

// amongKind places the piece among all sold of its kind up to the period's end;
// blank for one that is not sold.
func amongKind(in *report.Input, p figures.Piece, same *report.SoldOfKind) page.Sentence {
	if p.Status != "sold" || p.Profit == nil {
		return nil
	}
	name, own, ref, all := compared(in, p, same)
	if len(all.Sorted) < 2 {
		return page.Sentence{page.Text("The only " + p.Record.Kind + " sold so far, so there is nothing of its kind to " +
			"compare it with.")}
	}
	last := len(all.Sorted) - 1
	among := func(what string, c money.Cents, nth ...int) page.Cell {
		// Pieces of months before have their sheets in those months' own files.
		w := report.InWords(words.Capital(name)+", "+what+" of kind "+p.Record.Kind,
			"Worked out on its own sheet, in the report of the month it was sold.", c)
		for _, i := range slices.Compact(nth) {
			x := report.TermOfPiece(*all.By[i], all.Sorted[i], nil)
			x.Label, x.Source = fmt.Sprintf("Number %d of %d from the lowest: %s", i+1, last+1, x.Label),
				[]fault.Place{all.By[i].Record.At}
			w.Terms = append(w.Terms, x)
		}
		return in.Said(c, w)
	}
	text := page.Sentence{page.Text(fmt.Sprintf("Of the %d of kind %s sold since %s it is %s by %s: ", last+1,
		p.Record.Kind, all.First.Name(), words.Ordinal(all.Above(own)+1), name))}
	return append(text, page.Say("%s (median %s, range %s to %s).", in.Said(own, ref),
		among("median", all.Median, last/2, (last+1)/2), among("lowest", all.Sorted[0], 0),
		among("highest", all.Sorted[last], last))...)
}
