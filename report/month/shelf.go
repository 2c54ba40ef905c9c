package month

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// shelf is each supply with what was there, came, went and is left, and its
// own coverage against the stated one.
func shelf(in *report.Input) []page.Block {
	if len(in.Month.Shelf) == 0 {
		return []page.Block{page.Paragraph{Text: "No supply has been on the shelf yet."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Supply", Weight: 1}, {Head: "Opening", Kind: page.KindMoney}, {Head: "Bought", Kind: page.KindMoney},
		{Head: "Used", Kind: page.KindMoney}, {Head: "Lost", Kind: page.KindMoney}, {Head: "Closing", Kind: page.KindMoney},
		{Head: "Left", Kind: page.KindNumber}, {Head: "Own coverage", Kind: page.KindNumber}, {Head: "Stated", Kind: page.KindNumber}, {Head: "How known"}}}
	var opening, bought, used, lost, closing money.Cents
	again := false
	for _, l := range in.Month.Shelf {
		stated := cells.Number(l.Supply.Coverage, 1)
		if l.Supply.UseAll {
			stated = page.Number("all")
		}
		name := l.Supply.Name
		if l.Supply.Container != "" {
			name += ", " + l.Supply.Container
		}
		known := words.ShelfBasis[l.Basis]
		if l.Basis == ledger.FromBuying && l.Again != nil {
			known += ", " + money.Fixed(l.Again, 1)
			again = true
		}
		row := page.Line(page.Text(name), cells.Money(l.Opening), cells.Money(l.Bought), cells.Money(l.Used), cells.Money(l.Lost), cells.Money(l.Closing),
			cells.Number(l.Left, 2), cells.Number(l.Own, 1), stated, page.Text(known))
		if c := shelfCautions(in, l.Supply); len(c) > 0 {
			row.Note = "take care: " + strings.Join(c, "; ")
		}
		t.Rows = append(t.Rows, row)
		opening, bought, used, lost, closing = opening+l.Opening, bought+l.Bought, used+l.Used, lost+l.Lost, closing+l.Closing
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("The whole shelf"), cells.Money(opening), cells.Money(bought), cells.Money(used), cells.Money(lost), cells.Money(closing)))
	t.Note = "Left is in containers. Coverage is what one container does, in " + in.Settings().AreaUnit() +
		" coated, hours or pieces as the supply is shared; own is from the shop's counts. How known is how the month's use was drawn."
	if again {
		t.Note += " Bought, with its coverage, is from what was used before it was bought again."
	}
	out := []page.Block{t}
	out = append(out, page.Paragraph{Text: movedBy(in, ledger.ReasonRecount)})
	if text := movedBy(in, ledger.ReasonBoughtAgain); text != "" {
		out = append(out, page.Paragraph{Text: text})
	}
	return append(append(out, coverages(in)...), estimating(in)...)
}

// movedBy says how much the month's counts, or supplies bought again, moved of
// what earlier months' uses cost; empty where nothing was bought again.
func movedBy(in *report.Input, by ledger.Reason) string {
	var up, down money.Cents
	supplies := map[string]bool{}
	for _, p := range in.InMonth() {
		if p.Reason != by {
			continue
		}
		supplies[p.Supply] = true
		if p.Cents > 0 {
			up += p.Cents
		} else {
			down -= p.Cents
		}
	}
	doing := map[ledger.Reason]string{ledger.ReasonRecount: "Counting", ledger.ReasonBoughtAgain: "Buying again"}[by]
	switch {
	case len(supplies) == 0 && by == ledger.ReasonRecount:
		return "The month's counts changed nothing of what earlier months' uses cost."
	case len(supplies) == 0:
		return ""
	}
	var text []string
	if up != 0 {
		text = append(text, "put "+in.Spoken(up)+" more on pieces for what was used in earlier months")
	}
	if down != 0 {
		text = append(text, "took "+in.Spoken(down)+" off pieces for what was used in earlier months")
	}
	return fmt.Sprintf("%s %s %s.", doing, words.Plural(len(supplies), "supply", "supplies"), words.List(text))
}

// spreadColumns is how many supplies stand beside each other in the spread at most.
const spreadColumns = 6

// spreadRow names the row of a piece in the spread.
func spreadRow(piece string) string { return "spread-" + piece }

// matrix is what each supply put into each piece in the period.
type matrix struct {
	pieces   []string
	supplies []string
	cents    map[[2]string]money.Cents // by piece and supply
}

// spreadMatrix sums the period's supply shares by piece and supply.
func spreadMatrix(in *report.Input) matrix {
	m := matrix{cents: map[[2]string]money.Cents{}}
	for _, p := range in.InMonth() {
		if p.To == ledger.Pieces && p.Supply != "" {
			m.cents[[2]string{p.Piece, p.Supply}] += p.Cents
			m.pieces = append(m.pieces, p.Piece)
			m.supplies = append(m.supplies, p.Supply)
		}
	}
	slices.Sort(m.pieces)
	slices.Sort(m.supplies)
	m.pieces, m.supplies = slices.Compact(m.pieces), slices.Compact(m.supplies)
	return m
}

// row sums a piece's shares of the given supplies.
func (m matrix) row(piece string, supplies []string) money.Cents {
	var sum money.Cents
	for _, s := range supplies {
		sum += m.cents[[2]string{piece, s}]
	}
	return sum
}

// column sums a supply's shares.
func (m matrix) column(supply string) money.Cents {
	var sum money.Cents
	for _, p := range m.pieces {
		sum += m.cents[[2]string{p, supply}]
	}
	return sum
}

// spread is supplies by piece, in groups of columns that a page holds. Every
// group has its totals, and the last the totals of all, so that rows and
// columns both tie.
func spread(in *report.Input) []page.Block {
	m := spreadMatrix(in)
	if len(m.supplies) == 0 {
		return []page.Block{page.Paragraph{Text: "No supply was put on a piece in " + in.Month.To.Name() + "."}}
	}
	// As many to each group as to the others, not six and a last one alone.
	n := (len(m.supplies) + spreadColumns - 1) / spreadColumns
	each := (len(m.supplies) + n - 1) / n
	groups := slices.Collect(slices.Chunk(m.supplies, each))
	var out []page.Block
	told := map[string]bool{} // pieces with a row: the first is where links lead
	for i, supplies := range groups {
		caption := ""
		if len(groups) > 1 {
			caption = fmt.Sprintf("Supplies %d to %d of %d: %s to %s", i*each+1, i*each+len(supplies), len(m.supplies), supplies[0], supplies[len(supplies)-1])
		}
		out = append(out, m.table(caption, supplies, i == len(groups)-1, len(groups) > 1, told))
	}
	var all money.Cents
	for _, s := range m.supplies {
		all += m.column(s)
	}
	return append(out, page.Paragraph{Style: page.Note, Link: shelfAnchor, Text: fmt.Sprintf(
		"All supplies %s: the total used on the shelf's page. Each share's arithmetic is on its piece's sheet.", in.Spoken(all))})
}

// table is one group of supplies; the last one ends with all supplies.
func (m matrix) table(caption string, supplies []string, last, several bool, told map[string]bool) page.Table {
	t := page.Table{Caption: caption, Whole: true, Columns: []page.Column{{Head: "Piece", Weight: 1}}}
	t.Columns = append(t.Columns, page.Cols(page.KindMoney, supplies...)...)
	if several {
		t.Columns = append(t.Columns, page.Column{Head: "These", Kind: page.KindMoney})
	}
	if last {
		t.Columns = append(t.Columns, page.Column{Head: "All supplies", Kind: page.KindMoney})
	}
	sums := make([]money.Cents, len(t.Columns))
	for _, piece := range m.pieces {
		listed := []page.Cell{page.Text(piece)}
		amounts := []money.Cents{0}
		for _, s := range supplies {
			amounts = append(amounts, m.cents[[2]string{piece, s}])
		}
		if several {
			amounts = append(amounts, m.row(piece, supplies))
		}
		if last {
			amounts = append(amounts, m.row(piece, m.supplies))
		}
		none := true
		for i, c := range amounts {
			sums[i] += c
			if i > 0 {
				listed = append(listed, cells.Money(c))
				none = none && c == 0
			}
		}
		// A piece that none of these went on is not listed with them.
		if !none {
			row := page.Line(listed...)
			if !told[piece] {
				row.Anchor, told[piece] = spreadRow(piece), true
			}
			t.Rows = append(t.Rows, row)
		}
	}
	total := page.Styled(page.GrandTotal, page.Text("All pieces"))
	for _, c := range sums[1:] {
		total.Cells = append(total.Cells, cells.Money(c))
	}
	t.Rows = append(t.Rows, total)
	return t
}

// shelfCaution is a caution's name, with what it depends on where neither the
// supply's name nor the owner says so.
func shelfCaution(c templates.Caution, s *ledger.Supply) string {
	if c.If == "" || strings.EqualFold(c.Name, s.Caution) || c.When.Part(s.Name) {
		return c.Name
	}
	return c.Name + " " + c.If
}

// shelfCautions are the names of the cautions a supply calls for on any piece.
func shelfCautions(in *report.Input, s *ledger.Supply) []string {
	var out []string
	for _, c := range in.Cautions.List {
		if c.When.MadeBefore == 0 && report.SupplyCalls(c, s) {
			out = append(out, shelfCaution(c, s))
		}
	}
	if s.Caution != "" && !in.Shipped(s.Caution) {
		out = append(out, s.Caution)
	}
	return out
}
