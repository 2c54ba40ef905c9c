package trace

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// mostElsewhere is how many pieces that are not in the file are named where
// room is short; of more there is one row.
const mostElsewhere = 12

// part is what one piece had of a shared total, or what all pieces that are not
// in the file had.
type part struct {
	piece  string
	pieces int // of those not in the file, how many; 0: it is one piece
	lines  []ledger.SharedLine
}

// sharedTable is parts of totals: a row for each piece, a column for each total,
// and before it one for what it was shared by.
type sharedTable struct {
	page.Table
	rows []part
	by   []string // what the last total was shared by, and its parts
}

// tables are all parts of totals, those of several totals that the same pieces
// have together. Where room is short, the pieces that are not in the file are one.
func (o *opener) tables(list []*ledger.Shared, short bool) []page.Block {
	parts := map[*ledger.Shared][]part{}
	for _, s := range list {
		parts[s] = o.partsOf(s, short)
	}
	list = slices.SortedStableFunc(slices.Values(list), func(a, b *ledger.Shared) int {
		return cmp.Or(cmp.Compare(len(parts[b]), len(parts[a])), cmp.Compare(words.SharedBy(a), words.SharedBy(b)),
			cmp.Compare(wholeTitle(a), wholeTitle(b)))
	})
	var out []*sharedTable
	for _, s := range list {
		at := slices.IndexFunc(out, func(t *sharedTable) bool { return t.fits(parts[s]) })
		if at < 0 {
			at = len(out)
			out = append(out, o.newSharedTable(s, parts[s]))
		}
		out[at].add(s, parts[s])
	}
	var blocks []page.Block
	for _, t := range out {
		blocks = append(blocks, t.Table)
	}
	return blocks
}

// mostColumns is how many columns a table of parts has at most.
const mostColumns = 12

// fits says that the parts stand among a table's rows without leaving most of
// their column blank.
func (t *sharedTable) fits(parts []part) bool {
	return len(t.Columns)+2 <= mostColumns && 3*len(parts) >= len(t.rows) &&
		!slices.ContainsFunc(parts, func(x part) bool { return t.row(x) < 0 })
}

// row is the row of a part; below zero where there is none.
func (t *sharedTable) row(x part) int {
	at, found := slices.BinarySearchFunc(t.rows, x, comparePart)
	if !found {
		return -1
	}
	return at
}

// comparePart orders pieces by name, after them those that are not in the file.
func comparePart(a, b part) int {
	return cmp.Or(cmp.Compare(a.pieces, b.pieces), strings.Compare(a.piece, b.piece))
}

func (o *opener) newSharedTable(s *ledger.Shared, parts []part) *sharedTable {
	t := &sharedTable{rows: parts, Table: page.Table{Columns: page.Heads{}.Wide(1, "Piece")}}
	for _, x := range parts {
		t.Add(x.name(s))
	}
	t.AddStyled(page.GrandTotal, page.Text("Together"))
	return t
}

// add adds a total's column, and before it that of what it was shared by where
// the total before it was shared by something else.
func (t *sharedTable) add(s *ledger.Shared, parts []part) {
	weights, amounts := make([]page.Cell, len(t.Rows)), make([]page.Cell, len(t.Rows))
	by := []string{words.SharedBy(s)}
	var sum money.Cents
	for _, x := range parts {
		row, weight, cents := t.row(x), x.weights(), x.cents()
		weights[row], amounts[row] = page.Number(weight), cells.Money(cents)
		by, sum = append(by, x.piece, weight), sum+cents
	}
	last := len(t.Rows) - 1
	weights[last], amounts[last] = page.Number(money.AtMost(s.Weight(), 4)), page.FullMoney(int64(sum))
	if !slices.Equal(by, t.by) {
		t.column(page.Column{Head: words.Capital(by[0]), Kind: page.KindNumber}, weights)
	}
	t.by = by
	t.column(page.Column{Head: titleInMonth(s), Kind: page.KindMoney, Of: report.Whole{Shared: s}}, amounts)
}

func (t *sharedTable) column(c page.Column, cells []page.Cell) {
	t.Columns = append(t.Columns, c)
	for i := range t.Rows {
		t.Rows[i].Cells = append(t.Rows[i].Cells, cells[i])
	}
}

func (x part) cents() (sum money.Cents) {
	for _, l := range x.lines {
		sum += l.Cents
	}
	return sum
}

// sharedBook names a month's shared totals.
type sharedBook struct{ month calendar.Month }

// sharedBook is the totals of an earlier month that are asked for, each with its
// parts and with what it was taken from.
func (o *opener) sharedBook(m calendar.Month) page.Detail {
	list := o.earlier[m]
	slices.SortStableFunc(list, func(a, b *ledger.Shared) int { return cmp.Compare(wholeTitle(a), wholeTitle(b)) })
	from := page.Table{Caption: "Where it came from", Columns: []page.Column{whatColumn, {Head: "Taken, oldest first",
		Weight: 3}}}
	for _, s := range list {
		if text := o.cameFrom(s); text != "" {
			from.Add(page.Text(titleInMonth(s)), page.Text(text))
		}
	}
	d := page.Detail{Of: sharedBook{m}, Title: "What was shared in " + m.Name()}
	d.Blocks, d.Short = o.tables(list, false), o.tables(list, true)
	if len(from.Rows) > 0 {
		d.Blocks, d.Short = append(d.Blocks, from), append(d.Short, from)
	}
	return d
}

// cameFrom says what a total was taken from, with its records; blank of shop costs, which
// are that month's expenses.
func (o *opener) cameFrom(s *ledger.Shared) string {
	if len(s.Drawn) == 0 {
		return words.AllSources(s.Source)
	}
	var out []string
	for _, d := range s.Drawn {
		out = append(out, o.stock.drawnWords(s, d)+" = "+d.Cents.Grouped()+" ("+words.Sources([]fault.Place{d.At})+")")
	}
	return strings.Join(out, "; ")
}

// partsOf are the parts of a total, piece by piece. Where room is short, pieces
// that are not in the file are one where there are many.
func (o *opener) partsOf(s *ledger.Shared, short bool) []part {
	byPiece, elsewhere := map[string]*part{}, part{}
	for _, l := range s.Lines {
		x := byPiece[l.Piece]
		if x == nil {
			x = &part{piece: l.Piece}
			byPiece[l.Piece] = x
			if l.Piece != "" && !o.here[l.Piece] {
				elsewhere.pieces++
			}
		}
		x.lines = append(x.lines, l)
	}
	var out []part
	for _, x := range byPiece {
		if short && elsewhere.pieces > mostElsewhere && x.piece != "" && !o.here[x.piece] {
			elsewhere.lines = append(elsewhere.lines, x.lines...)
		} else {
			out = append(out, *x)
		}
	}
	if len(elsewhere.lines) > 0 {
		out = append(out, elsewhere)
	}
	slices.SortFunc(out, comparePart)
	return out
}

// name is whose part it is.
func (x part) name(s *ledger.Shared) page.Cell {
	switch {
	case x.pieces > 0:
		return page.Text(fmt.Sprintf("%d other pieces, in the report of %s", x.pieces, s.Month.Name()))
	case x.piece == "":
		return page.Text("no piece")
	}
	return page.TextTo(x.piece, report.SheetAnchor(x.piece))
}

// weights are what a part was shared by, use by use: 2 × 14.21 + 7.4; of many
// pieces their sum.
func (x part) weights() string {
	sum := new(big.Rat)
	var out []string
	for i := 0; i < len(x.lines); {
		w, n := x.lines[i].Weight, 0
		for ; i < len(x.lines) && sameWeight(x.lines[i].Weight, w); i++ {
			n++
		}
		switch {
		case w == nil:
			continue
		case n > 1:
			out = append(out, fmt.Sprintf("%d × %s", n, money.AtMost(w, 4)))
		default:
			out = append(out, money.AtMost(w, 4))
		}
		sum.Add(sum, new(big.Rat).Mul(w, big.NewRat(int64(n), 1)))
	}
	if x.pieces > 0 && len(out) > 0 {
		return money.AtMost(sum, 4)
	}
	return strings.Join(out, " + ")
}

func sameWeight(a, b *big.Rat) bool { return a == b || a != nil && b != nil && a.Cmp(b) == 0 }
