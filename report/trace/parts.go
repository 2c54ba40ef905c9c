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

// mostElsewhere is how many pieces that are not in the file a total of an
// earlier month names; of more there is one row.
const mostElsewhere = 12

// part is what one piece had of a shared total in a month, or what all pieces
// that are not in the file had.
type part struct {
	month  calendar.Month
	piece  string
	pieces int // of those not in the file, how many; 0: it is one piece
	lines  []ledger.SharedLine
}

// The columns of shared totals.
var shareColumns = []page.Column{{Head: "Piece", Weight: 1}, {Head: "Its part", Kind: page.KindNumber},
	{Head: "Amount", Kind: page.KindMoney}}

// shares are all parts of a shared total: a row for each piece, month by month of
// what was done where that was in several.
func (o *opener) shares(s *ledger.Shared) page.Table {
	t := page.Table{Caption: words.SharedTitle(s), Columns: shareColumns}
	var sum money.Cents
	t.Rows, sum = o.shareRows(s)
	t.Rows = append(t.Rows, page.Row{Style: page.GrandTotal, Cells: []page.Cell{page.Text("Together"),
		page.Number(money.AtMost(s.Weight(), 4)), page.FullMoney(int64(sum))}})
	return t
}

func (o *opener) shareRows(s *ledger.Shared) (rows []page.Row, sum money.Cents) {
	all := o.partsOf(s)
	for i, x := range all {
		if all[0].month != all[len(all)-1].month && (i == 0 || x.month != all[i-1].month) {
			rows = append(rows, page.Styled(page.Quiet, page.Text(x.month.Name())))
		}
		var amount money.Cents
		for _, l := range x.lines {
			amount += l.Cents
		}
		rows = append(rows, page.Line(x.name(), page.Number(x.weights()), cells.Money(amount)))
		sum += amount
	}
	return rows, sum
}

// sharedBook names a month's shared totals.
type sharedBook struct{ month calendar.Month }

// sharedBook is the totals of an earlier month that are asked for, each with its
// parts, and in words where it came from.
func (o *opener) sharedBook(m calendar.Month) page.Detail {
	t := page.Table{Columns: shareColumns}
	list := o.earlier[m]
	slices.SortStableFunc(list, func(a, b report.Whole) int {
		return cmp.Compare(wholeTitle(a.Shared), wholeTitle(b.Shared))
	})
	for _, s := range list {
		row := page.Row{Style: page.Subtotal, Of: s, Note: o.cameFrom(s.Shared), Cells: []page.Cell{
			page.Text(wholeTitle(s.Shared) + ", " + words.SharedBy(s.Shared)), page.Number(money.AtMost(s.Weight(), 4)),
			page.FullMoney(int64(s.Total))}}
		rows, _ := o.shareRows(s.Shared)
		t.Rows = append(append(t.Rows, row), rows...)
	}
	return page.Detail{Of: sharedBook{m}, Title: "What was shared in " + m.Name(), Blocks: []page.Block{t}}
}

// cameFrom says what a shared total was taken from, with its records.
func (o *opener) cameFrom(s *ledger.Shared) string {
	if len(s.Drawn) == 0 {
		return "Record: " + words.AllSources(s.Source) + "."
	}
	var out []string
	for _, d := range s.Drawn {
		out = append(out, o.stock.drawnWords(s, d)+" = "+d.Cents.Grouped()+" ("+words.Sources([]fault.Place{d.At})+")")
	}
	return "Taken, oldest first: " + strings.Join(out, "; ") + "."
}

// partsOf are the parts of a total, by month, in the order that pieces first
// come. Pieces that are not in the file, where a month before the period has
// more than mostElsewhere, are one at the month's end.
func (o *opener) partsOf(s *ledger.Shared) []part {
	elsewhere := map[calendar.Month]map[string]bool{}
	for _, l := range s.Lines {
		if l.Piece != "" && l.Month < o.in.Month.From && !o.here[l.Piece] {
			if elsewhere[l.Month] == nil {
				elsewhere[l.Month] = map[string]bool{}
			}
			elsewhere[l.Month][l.Piece] = true
		}
	}
	type key struct {
		month calendar.Month
		piece string
		more  bool
	}
	var out []part
	at := map[key]int{}
	for _, l := range s.Lines {
		k, pieces := key{l.Month, l.Piece, false}, 0
		if others := elsewhere[l.Month]; len(others) > mostElsewhere && others[l.Piece] {
			k, pieces = key{l.Month, "", true}, len(others)
		}
		i, known := at[k]
		if !known {
			i = len(out)
			at[k] = i
			out = append(out, part{month: k.month, piece: k.piece, pieces: pieces})
		}
		out[i].lines = append(out[i].lines, l)
	}
	slices.SortStableFunc(out, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.month, b.month), cmp.Compare(a.pieces, b.pieces))
	})
	return out
}

// name is whose part it is.
func (x part) name() page.Cell {
	switch {
	case x.pieces > 0:
		return page.Text(fmt.Sprintf("%d other pieces, in that month's report", x.pieces))
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
