package piece

import (
	"cmp"
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// supplyRow is all that a piece was charged for one supply.
type supplyRow struct {
	name  string
	cents money.Cents
	parts []supplyPart
	basis []ledger.Basis // how its shares are known now, that of the most cost first
}

// supplyPart is the piece's part of one shared total, as it stands: a month's,
// or that of a span of months shared again.
type supplyPart struct {
	of     *ledger.Shared
	weight *big.Rat
	cents  money.Cents
}

// supplyRows are a piece's supplies, the largest cost first.
func supplyRows(in *report.Input, p figures.Piece, mine []*ledger.Posting) []supplyRow {
	mine = slices.DeleteFunc(slices.Clone(mine), func(x *ledger.Posting) bool {
		l, _ := lineOf(x)
		return l != figures.LineSupplies
	})
	var out []supplyRow
	for _, of := range report.GroupsOf(mine, func(x *ledger.Posting) string { return x.Supply }) {
		r := supplyRow{name: of[0].Supply, basis: basesOf(p, of[0].Supply)}
		for _, x := range of {
			r.cents += x.Cents
			r.take(*x)
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b supplyRow) int {
		return cmp.Or(money.LargestFirst(a.cents, b.cents), strings.Compare(a.name, b.name))
	})
	return out
}

// take adds a posting's parts. Those of months that a later count or purchase
// shares again take the place of what they were before.
func (r *supplyRow) take(x ledger.Posting) {
	if x.Of == nil {
		return
	}
	first, last := x.Of.Span()
	r.parts = slices.DeleteFunc(r.parts, func(q supplyPart) bool { return q.of.Month >= first && q.of.Month < last })
	for _, call := range x.Of.Calls() {
		part := supplyPart{of: call, weight: new(big.Rat)}
		for _, l := range call.LinesOf(x.Piece) {
			part.weight.Add(part.weight, l.Weight)
			part.cents += l.Cents
		}
		if part.weight.Sign() != 0 && !slices.ContainsFunc(r.parts, func(q supplyPart) bool { return q.of == call }) {
			r.parts = append(r.parts, part)
		}
	}
}

// basesOf are the ways a supply's shares are known, that of the most cost first.
func basesOf(p figures.Piece, supply string) []ledger.Basis {
	sums := map[ledger.Basis]money.Cents{}
	var out []ledger.Basis
	for _, s := range p.Shares {
		if s.Supply == supply {
			if !slices.Contains(out, s.Basis) {
				out = append(out, s.Basis)
			}
			sums[s.Basis] += s.Cost
		}
	}
	slices.SortStableFunc(out, func(a, b ledger.Basis) int { return money.LargestFirst(sums[a], sums[b]) })
	return out
}

// known is how the row's shares are known.
func (r supplyRow) known() string {
	var out []string
	for _, b := range r.basis {
		out = append(out, words.Basis[b])
	}
	return strings.Join(out, ", ")
}

// sum is the row's part of all, all, and the cost shared; false where its
// parts do not give its cost, are in different units, or where several give
// another amount each by itself than a calculator gives for them together.
func (r supplyRow) sum() (part, all *big.Rat, cost money.Cents, ok bool) {
	part, all = new(big.Rat), new(big.Rat)
	var cents money.Cents
	for _, q := range r.parts {
		if q.of.By != r.parts[0].of.By || q.of.Unit != r.parts[0].of.Unit {
			return nil, nil, 0, false
		}
		part.Add(part, q.weight)
		all.Add(all, q.of.Weight())
		cost += q.of.Total
		cents += q.cents
	}
	if len(r.parts) == 0 || cents != r.cents {
		return nil, nil, 0, false
	}
	if len(r.parts) > 1 {
		together := new(big.Rat).Mul(new(big.Rat).Quo(part, all), cost.Rat())
		if money.Round(together) != cents {
			return nil, nil, 0, false
		}
	}
	return part, all, cost, true
}

// leftover is the cent that a row of one total has beside what a calculator
// gives from what is printed; none for a row of several, whose totals are each
// shared by itself.
func (r supplyRow) leftover() money.Cents {
	part, all, _, ok := r.sum()
	if !ok || len(r.parts) != 1 {
		return 0
	}
	return r.cents - words.ShareGives(part, all, r.parts[0].of)
}

// wholes are the totals of a row of several shares, each of which opens.
func (r supplyRow) wholes(piece string) *report.Worked {
	out := report.SumOf(piece + ": " + r.name + ", what was shared")
	for _, q := range r.parts {
		out.Plus(words.Months(q.of.Span()), q.of.Total, report.Whole{Shared: q.of})
	}
	return out
}

// row is the supply as printed.
func (r supplyRow) row(of report.Sum) page.Row {
	of.Supply = r.name
	charged := cells.Money(r.cents).Opens(of)
	part, all, cost, ok := r.sum()
	if !ok {
		return page.Line(page.Text(r.name), page.Empty(), page.Empty(), page.Text("each month by itself"), page.Empty(),
			charged, page.Text(r.known()))
	}
	shared := r.parts[0].of
	unit := words.ShareUnit(shared)
	whole := page.Number(cost.Grouped())
	if len(r.parts) == 1 {
		whole.Of = report.Whole{Shared: shared}
	} else {
		unit += fmt.Sprintf(", %d shares", len(r.parts))
		whole.Of = r.wholes(of.Subject)
	}
	return page.Line(page.Text(r.name), page.Number(words.ShareWeight(part, shared)),
		page.Number(words.ShareWeight(all, shared)), page.Text(words.Unbroken(unit)), whole, charged,
		page.Text(words.Unbroken(r.known())))
}

// supplyTable is the piece's supplies, one row each, its months merged.
func supplyTable(in *report.Input, p figures.Piece, rows []supplyRow) []page.Block {
	if len(rows) == 0 {
		return []page.Block{page.Heading{Text: "Supplies", Level: 1}, page.Paragraph{Text: "No supply has been " +
			"charged to it."}}
	}
	t := supplyHead(p)
	for _, r := range rows {
		t.Rows = append(t.Rows, r.row(in.LineOfPiece(p.Record.ID, figures.LineSupplies)))
	}
	t.Rows = append(t.Rows, supplyTotal(in, p))
	t.Note = supplyNote(p, rows)
	return []page.Block{t}
}

func supplyHead(p figures.Piece) page.Table {
	return page.Table{Caption: "Supplies" + sureness(p), Columns: page.Heads{}.Wide(1, "Supply").
		Number("Its part", "÷ all").Text("").Number("× cost").Money("= its cost").Text("How known")}
}

func supplyTotal(in *report.Input, p figures.Piece) page.Row {
	label := "All supplies"
	if p.SuppliesStaying != 0 {
		label += ", " + p.SuppliesStaying.Grouped() + " of it staying on the piece"
	}
	return page.Styled(page.Total, page.Text(label), page.Empty(), page.Empty(), page.Empty(), page.Empty(),
		cells.Money(p.Supplies).Opens(in.LineOfPiece(p.Record.ID, figures.LineSupplies)))
}

// supplyNote tells what a calculator would not give: the leftover cents, and
// that totals of several months are shared one by one; and what is only usual.
func supplyNote(p figures.Piece, rows []supplyRow) string {
	var text []string
	byCent := map[money.Cents][]string{}
	several := false
	for _, r := range rows {
		if cent := r.leftover(); cent != 0 {
			byCent[cent] = append(byCent[cent], r.name)
		}
		several = several || len(r.parts) > 1
	}
	var cents []string
	for _, cent := range slices.Backward(slices.Sorted(maps.Keys(byCent))) {
		cents = append(cents, words.Signed(cent)+" "+strings.Join(byCent[cent], "; "))
	}
	if len(cents) > 0 {
		text = append(text, "So that the shares add up: "+strings.Join(cents, ", ")+".")
	}
	if slices.ContainsFunc(rows, func(r supplyRow) bool { return slices.Contains(r.basis, ledger.Starting) }) {
		text = append(text, words.Capital(words.Basis[ledger.Starting])+": "+words.BasisMeans[ledger.Starting]+".")
	}
	if several {
		text = append(text, "A row of several shares is their sum; the command piecebook why "+p.Record.ID+
			" supplies prints each.")
	}
	return strings.Join(text, " ")
}

// sureness says after the caption how sure the supplies are, as they stand now:
// whole percents of their cost that add up to 100.
func sureness(p figures.Piece) string {
	names := []string{"counted", "measured", "own coverage", "bought again", "stated", "usual for its group", "used up"}
	sums := make([]money.Cents, len(names))
	for _, s := range p.Shares {
		if at := slices.Index(words.BySureness, s.Basis); at >= 0 { // else nothing was drawn
			sums[at] += s.Cost
		}
	}
	weights := make([]*big.Rat, len(sums))
	var all money.Cents
	for i, c := range sums {
		if c < 0 {
			return "" // more was taken back than charged: no parts of a whole
		}
		weights[i] = c.Rat()
		all += c
	}
	if all == 0 {
		return ""
	}
	var text []string
	for i, part := range money.Share(100, weights) {
		if sums[i] != 0 {
			text = append(text, fmt.Sprintf("%d %% %s", part.Cents, names[i]))
		}
	}
	return ", by cost " + strings.Join(text, ", ")
}
