package accountant

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func totalColumns() []wb.Column {
	return heads{}.number(0, "Total no.").month(0, "Month").text(0, "Why").wrapped(34, "What").text(0, "Supply").
		money(0, "Total shared").text(0, "Weights are").number(0, "All weights").
		money(0, "All shares", "Difference").summed().text(0, "Record")
}

func shareColumns() []wb.Column {
	return heads{}.number(0, "Total no.").month(0, "Month").text(34, "Supply or what").number(0, "Piece no.").
		text(0, "Piece").month(0, "Work of").number(0, "Weight", "Unrounded share").money(0, "Share").
		number(10, "A cent or more off").summed().money(0, "Posted besides", "Posted", "Difference").summed()
}

func correctionColumns() []wb.Column {
	return heads{}.number(0, "Totals from no.", "To no.").month(0, "Month", "Since").text(0, "By").number(0, "Supply no.").
		text(0, "Supply").number(0, "Piece no.").text(0, "Piece").
		money(0, "Recalculated", "Charged before", "Correction", "Posted", "Difference").summed()
}

// fillShares writes every total that was shared, and beneath each other its
// shares: weight ÷ all weights × total, and the cents it got. The cents are
// the floor of the exact share, or the cent above, so that they add up.
func (b *book) fillShares() {
	t, s := b.totals, b.shares
	t.Landscape, t.Filter, t.Long, t.Freeze = true, true, true, 1
	t.Note("One row for each amount that several pieces share: a supply drawn from the shelf, a lot, a part, a " +
		"fee, the month's shop costs.")
	t.Note("What a supply's use cost comes off the oldest purchases on the shelf first. The shares add up to the total, " +
		"so the difference is 0.00.")
	s.Landscape, s.Filter, s.Long, s.Freeze = true, true, true, 5
	s.Note("Unrounded share = weight ÷ all weights × total shared. The share is whole cents, the leftover ones going to " +
		"the largest remainders, so it is under a cent away.")
	s.Note("'Posted' is the amount of its posting; 'posted besides' is what else is in it: the own price, tax and " +
		"pickup of a piece of a lot.")
	s.Note("Work of an earlier month in a span shared again is posted as a correction, on the sheet Corrections; " +
		"a share of 0.00 is not posted.")
	b.shareRow, b.totalRow = map[*ledger.Shared][]int{}, map[*ledger.Shared]int{}
	for i, call := range b.calls {
		posts := byLine(call, b.parts[call])
		first := s.NextRow()
		at := t.NextRow()
		b.totalRow[call] = at
		for j, l := range call.Lines {
			b.shareRow[call] = append(b.shareRow[call], b.share(call, i+1, at, l, posts[j]))
		}
		last := s.LastRow()
		var got money.Cents
		for _, l := range call.Lines {
			got += l.Cents
		}
		weights, shares := "0", "0"
		if len(call.Lines) > 0 {
			weights = "SUM(" + s.Range("Weight", first, last) + ")"
			shares = "SUM(" + s.Range("Share", first, last) + ")"
		}
		t.Row(wb.Normal, wb.Whole(i+1), monthCell(call.Month), wb.Text(words.Reason(call.Reason)),
			wb.Text(words.Total(call)), wb.Text(call.Supply), amount(call.Total), wb.Text(words.SharedBy(call)),
			wb.Number(call.Weight(), 4).By(weights), amount(got).By(shares),
			apart(call.Total-got, t.Here("Total shared", at)+"-"+t.Here("All shares", at)), wb.Text(words.Sources(call.Source)))
	}
}

// share is one line of a shared total, which stands in the row total of its
// sheet; post is its posting, nil where it was none.
func (b *book) share(call *ledger.Shared, number, total int, l ledger.SharedLine, post *posting) int {
	s := b.shares
	row := s.NextRow()
	exact, far := b.exactShare(call, l)
	unrounded := fmt.Sprintf("%s/%s*%s", s.Here("Weight", row), b.totals.Cell("All weights", total),
		b.totals.Cell("Total shared", total))
	what := call.Supply
	if what == "" {
		what = words.Total(call)
	}
	piece := l.Piece
	if piece == "" {
		piece = "(no piece)"
	}
	off := fmt.Sprintf("IF(ABS(%s-%s)<0.01,0,1)", s.Here("Share", row), s.Here("Unrounded share", row))
	b.cells = append(b.cells[:0], wb.Whole(number), monthCell(call.Month), wb.Text(what), no(b.pieceNo[l.Piece]),
		wb.Text(piece), monthCell(l.Month), wb.Number(l.Weight, 4), exact.By(unrounded), amount(l.Cents),
		flagged(far).By(off))
	if post != nil {
		besides := wb.Cell{}
		if l.Apart != 0 {
			besides = amount(l.Apart)
		}
		b.cells = append(b.cells, besides, amount(post.Cents).By(b.postings.Cell("Amount", post.row)),
			apart(l.Cents+l.Apart-post.Cents, s.Here("Share", row)+"+"+s.Here("Posted besides", row)+"-"+s.Here("Posted", row)))
	}
	return s.Row(wb.Normal, b.cells...)
}

// exactShare is a line's share before it was rounded, and whether the cents are
// one or more away from it. Of a large ledger there are a million shares: they are
// worked out on whole numbers, not as fractions in lowest terms.
func (b *book) exactShare(call *ledger.Shared, l ledger.SharedLine) (exact wb.Cell, far bool) {
	all, one := call.Weight(), &b.terms
	cents := one.cents.SetInt64(int64(call.Total))
	num := one.num.Mul(l.Weight.Num(), all.Denom())
	num.Mul(num, cents)
	denom := one.denom.Mul(l.Weight.Denom(), all.Num())
	off := cents.Mul(cents.SetInt64(int64(l.Cents)), denom)
	far = off.Sub(off, num).CmpAbs(denom) >= 0
	return wb.ExactRatio(num, denom.Mul(denom, hundred)), far
}

var hundred = big.NewInt(100)

// byLine are the postings of a shared total's lines; nil where a line was
// posted as none: a share of 0.00, or of earlier work in a span shared again.
func byLine(call *ledger.Shared, parts []posting) []*posting {
	out := make([]*posting, len(call.Lines))
	for i := range parts {
		if line := parts[i].Line; line >= 0 {
			out[line] = &parts[i]
		}
	}
	return out
}

// fillCorrections writes what each count, and each supply bought again, moved on
// a piece for earlier months' uses: their shares now, less what was charged
// for them.
func (b *book) fillCorrections() {
	s := b.corrections
	s.Landscape, s.Filter, s.Long = true, true, true
	s.Note("A count shares again the whole span since the last count; a supply bought again may have the months since " +
		"estimated again. For each piece: what its uses of the span's earlier months come to now, less what was " +
		"charged for them.")
	number := map[*ledger.Shared]int{}
	for i, call := range b.calls {
		number[call] = i + 1
	}
	var of *ledger.Shared
	var fresh map[string]money.Cents // by piece
	for _, p := range b.corrected {
		if p.Of != of {
			of, fresh = p.Of, p.Of.Earlier()
		}
		// The totals of a span stand beneath each other, one or one a month.
		var from, to int
		if calls := of.Calls(); len(calls) > 0 {
			from, to = number[calls[0]], number[calls[len(calls)-1]]
		}
		b.correction(p, from, to, fresh[p.Piece])
	}
}

// correction writes one; its span's shared totals have the numbers from..to.
func (b *book) correction(p posting, from, to int, fresh money.Cents) {
	s, of := b.corrections, p.Of
	row := s.NextRow()
	here := func(head string) string { return s.Here(head, row) }
	var before money.Cents
	for _, x := range b.charged[[2]string{p.Supply, p.Piece}] {
		if x.Month >= of.Opened && x.Month < of.Month {
			before += x.Cents
		}
	}
	recalculated := sumIfs(b.shares, "Share", "Total no.", `">="&`+here("Totals from no."), "Total no.",
		`"<="&`+here("To no."), "Piece no.", here("Piece no."), "Work of", `"<"&`+here("Month"))
	var charged []string
	for _, reason := range []ledger.Reason{ledger.ReasonSupply, ledger.ReasonBoughtAgain} {
		charged = append(charged, b.sumIfs("Amount", "Supply no.", here("Supply no."), "Piece no.", here("Piece no."), "Why",
			strconv.Quote(string(reason)), "Month", `">="&`+here("Since"), "Month", `"<"&`+here("Month")))
	}
	s.Row(wb.Normal, wb.Whole(from), wb.Whole(to), monthCell(of.Month), monthCell(of.Opened),
		wb.Text(words.Reason(p.Reason)), no(b.supplyNo[p.Supply]), wb.Text(p.Supply), no(b.pieceNo[p.Piece]),
		wb.Text(p.Piece), amount(fresh).By(recalculated), amount(before).By(strings.Join(charged, "+")),
		amount(fresh-before).By(here("Recalculated")+"-"+here("Charged before")),
		amount(p.Cents).By(b.postings.Cell("Amount", p.row)),
		apart(fresh-before-p.Cents, here("Correction")+"-"+here("Posted")))
}
