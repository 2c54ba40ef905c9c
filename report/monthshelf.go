package report

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// shelf is each supply with what was there, came, went and is left, and its
// own coverage against the stated one.
func (in *Input) shelf() []page.Block {
	if len(in.Month.Shelf) == 0 {
		return []page.Block{page.Paragraph{Text: "No supply has been on the shelf yet."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Supply", Weight: 1}, {Head: "Opening", Kind: page.KindMoney}, {Head: "Bought", Kind: page.KindMoney},
		{Head: "Used", Kind: page.KindMoney}, {Head: "Lost", Kind: page.KindMoney}, {Head: "Closing", Kind: page.KindMoney},
		{Head: "Left", Kind: page.KindNumber}, {Head: "Own coverage", Kind: page.KindNumber}, {Head: "Stated", Kind: page.KindNumber}, {Head: "How known"}}}
	var opening, bought, used, lost, closing money.Cents
	for _, l := range in.Month.Shelf {
		stated := number(l.Supply.Coverage, 1)
		if l.Supply.UseAll {
			stated = page.Number("all")
		}
		name := l.Supply.Name
		if l.Supply.Container != "" {
			name += ", " + l.Supply.Container
		}
		row := page.Line(page.Text(name), cash(l.Opening), cash(l.Bought), cash(l.Used), cash(l.Lost), cash(l.Closing),
			number(l.Left, 2), number(l.Own, 1), stated, page.Text(shelfBasis[l.Basis]))
		if c := in.shelfCautions(l.Supply); len(c) > 0 {
			row.Note = "take care: " + strings.Join(c, "; ")
		}
		t.Rows = append(t.Rows, row)
		opening, bought, used, lost, closing = opening+l.Opening, bought+l.Bought, used+l.Used, lost+l.Lost, closing+l.Closing
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("The whole shelf"), cash(opening), cash(bought), cash(used), cash(lost), cash(closing)))
	t.Note = "Left is in containers. Coverage is what one container does, in " + in.settings().AreaUnit() +
		" coated, hours or pieces as the supply is shared; own is from the shop's counts. How known is how the month's use was drawn."
	out := []page.Block{t}
	if words := in.counting(); words != "" {
		out = append(out, page.Paragraph{Text: words})
	}
	return append(append(out, in.coverages()...), in.estimating()...)
}

// shelfBasis is basisWords in the width of a column.
var shelfBasis = map[ledger.Basis]string{ledger.Counted: "counted", ledger.Measured: "measured", ledger.FromOwn: "own",
	ledger.Stated: "stated", ledger.Starting: "starting", ledger.UsedUp: "all", ledger.NoBasis: page.Dash}

// counting says how much the month's counts moved.
func (in *Input) counting() string {
	var up, down money.Cents
	supplies := map[string]bool{}
	for _, p := range in.inMonth() {
		if p.Reason != ledger.ReasonRecount {
			continue
		}
		supplies[p.Supply] = true
		if p.Cents > 0 {
			up += p.Cents
		} else {
			down -= p.Cents
		}
	}
	if len(supplies) == 0 {
		return "The month's counts changed nothing of what earlier months' uses cost."
	}
	var words []string
	if up != 0 {
		words = append(words, "put "+in.spoken(up)+" more on pieces for what was used in earlier months")
	}
	if down != 0 {
		words = append(words, "took "+in.spoken(down)+" off pieces for what was used in earlier months")
	}
	return fmt.Sprintf("Counting %s %s.", plural(len(supplies), "supply", "supplies"), listed(words))
}

// inMonth are the period's postings.
func (in *Input) inMonth() []ledger.Posting {
	var out []ledger.Posting
	for _, p := range in.Postings {
		if p.Month >= in.Month.From && p.Month <= in.Month.To {
			out = append(out, p)
		}
	}
	return out
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
func (in *Input) spreadMatrix() matrix {
	m := matrix{cents: map[[2]string]money.Cents{}}
	for _, p := range in.inMonth() {
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
func (in *Input) spread() []page.Block {
	m := in.spreadMatrix()
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
		"All supplies %s: the total used on the shelf's page. Each share's arithmetic is on its piece's sheet.", in.spoken(all))})
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
		cells := []page.Cell{page.Text(piece)}
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
				cells = append(cells, cash(c))
				none = none && c == 0
			}
		}
		// A piece that none of these went on is not listed with them.
		if !none {
			row := page.Line(cells...)
			if !told[piece] {
				row.Anchor, told[piece] = spreadRow(piece), true
			}
			t.Rows = append(t.Rows, row)
		}
	}
	total := page.Styled(page.GrandTotal, page.Text("All pieces"))
	for _, c := range sums[1:] {
		total.Cells = append(total.Cells, cash(c))
	}
	t.Rows = append(t.Rows, total)
	return t
}
