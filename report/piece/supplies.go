package piece

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// supplyTable is every supply share with its arithmetic, by what stays on the
// piece and what is used up.
func supplyTable(in *report.Input, p figures.Piece, mine []ledger.Posting) []page.Block {
	t := page.Table{Caption: "Supplies, share by share", Columns: []page.Column{
		{Head: "Supply", Weight: 1}, {Head: "Month", Small: true}, {Head: "Its part of all", Small: true},
		{Head: words.Unbroken("Share %"), Kind: page.KindNumber}, {Head: words.Unbroken("Of cost"), Kind: page.KindNumber}, {Head: "Cost", Kind: page.KindMoney},
		{Head: "How known", Small: true}, {Head: "Record", Small: true}}}
	stays := staying(in)
	work := workRows{}
	var sum money.Cents
	groups := 0
	total := func(style page.RowStyle, name string, c money.Cents) page.Row {
		return page.Styled(style, page.Text(name), page.Empty(), page.Empty(), page.Empty(), page.Empty(), cells.Money(c))
	}
	for _, staying := range []bool{true, false} {
		rows, part := shareRows(in, p, mine, work, func(supply string) bool { return stays[supply] == staying })
		if len(rows) == 0 {
			continue
		}
		name := "Used up in the work"
		if staying {
			name = "Stays on the piece"
		}
		groups++
		sum += part
		t.Rows = append(t.Rows, page.Styled(page.Group, page.Text(name)))
		t.Rows = append(t.Rows, rows...)
		t.Rows = append(t.Rows, total(page.Subtotal, name, part))
	}
	if groups == 0 {
		return []page.Block{page.Heading{Text: "Supplies", Level: 1}, page.Paragraph{Text: "No supply has been charged to it."}}
	}
	t.Rows = append(t.Rows, total(page.GrandTotal, "All supplies", sum))
	t.Note = shareNote(in, t, slices.ContainsFunc(mine, byBench)) + work.words()
	return []page.Block{t}
}

// byBench says that a posting is a share by the area coated with all supplies.
func byBench(p ledger.Posting) bool {
	return p.How.Method == ledger.UsedSupply && p.How.Weight != nil && p.Of.Draw.By == ledger.ByBench
}

// shareNote says how a row is read, with one of its own rows as the example.
func shareNote(in *report.Input, t page.Table, bench bool) string {
	out := "Its part of all, as a percentage of the cost to be shared, is its cost. Area counts once a coat"
	if bench {
		out += "; bench is the " + in.Settings().AreaUnit() + " coated with all supplies"
	}
	out += "."
	for _, r := range t.Rows {
		if r.Style == page.Normal && len(r.Cells) > 5 && r.Cells[3].Text != "" && r.Cells[3].Text != "100.00" && r.Note == "" {
			return fmt.Sprintf("%s So for %s: %s, or %s %% of %s, is %s.", out, r.Cells[0].Text, r.Cells[2].Text, r.Cells[3].Text, r.Cells[4].Text, r.Cells[5].String(""))
		}
	}
	return out
}

// staying says of each supply whether it stays on the piece.
func staying(in *report.Input) map[string]bool {
	out := map[string]bool{}
	for _, s := range in.Books.Supplies {
		out[s.Name] = s.Stays
	}
	return out
}

// shareRows are the shares of the supplies asked for, by supply and month.
func shareRows(in *report.Input, p figures.Piece, mine []ledger.Posting, work workRows, asked func(string) bool) ([]page.Row, money.Cents) {
	var shares []ledger.Posting
	for _, x := range mine {
		if l, _ := words.LineOf(x); l == words.SuppliesLine && asked(x.Supply) {
			shares = append(shares, x)
		}
	}
	slices.SortStableFunc(shares, func(a, b ledger.Posting) int {
		if c := strings.Compare(a.Supply, b.Supply); c != 0 {
			return c
		}
		return int(a.Month - b.Month)
	})
	var rows []page.Row
	var sum money.Cents
	for _, x := range shares {
		rows = append(rows, shareRow(in, p, x, work))
		sum += x.Cents
	}
	return rows, sum
}

// shareRow is one share. A correction from a count has its words beneath.
func shareRow(in *report.Input, p figures.Piece, x ledger.Posting, work workRows) page.Row {
	known, from := nowKnown(p, x), work.brief(x.Month, words.AllSources(x.Source))
	parts, ok := words.SupplyShare(x)
	if x.Reason == ledger.ReasonRecount || x.Reason == ledger.ReasonBoughtAgain {
		known, ok = string(x.Reason), false
	}
	if !ok {
		row := page.Line(page.Text(x.Supply), page.Text(words.ShortMonth(x.Month)), page.Empty(), page.Empty(), page.Empty(), cells.Money(x.Cents), page.Text(known), page.Text(from))
		row.Note = words.WithoutSupply(x)
		return row
	}
	row := page.Line(page.Text(x.Supply), page.Text(parts.Span), page.Text(parts.Part), page.Number(parts.Percent), page.Number(parts.Of), cells.Money(x.Cents), page.Text(known), page.Text(from))
	row.Note = parts.Rest
	return row
}

// workRows are the rows of all the piece's work in a month, on which each of
// its shares by bench, hours or pieces rests: told once, not at every line.
type workRows map[calendar.Month]string

// brief is the sources of a share: themselves, or where they are the month's
// work, those words.
func (w workRows) brief(m calendar.Month, from string) string {
	const few = 32
	if len([]rune(from)) <= few {
		return from
	}
	if was, ok := w[m]; ok && was != from {
		return from
	}
	w[m] = from
	return "work of " + words.ShortMonth(m)
}

// words tells the rows behind each month's work.
func (w workRows) words() string {
	var b strings.Builder
	for _, m := range slices.Sorted(maps.Keys(w)) {
		fmt.Fprintf(&b, " Work of %s: %s.", words.ShortMonth(m), w[m])
	}
	return b.String()
}

// nowKnown is how a share was known, and whether a later count has since closed
// its span, or buying again had it estimated afresh.
func nowKnown(p figures.Piece, x ledger.Posting) string {
	known := words.Basis[x.Basis]
	if x.Basis == ledger.Counted {
		return known
	}
	switch now, _ := basisNow(p, x.Supply, x.Month); {
	case now == ledger.Counted:
		return "counted since"
	case now == ledger.FromBuying && x.Basis != now && x.Basis != ledger.Measured:
		return "bought since"
	}
	return known
}

func basisNow(p figures.Piece, supply string, month calendar.Month) (ledger.Basis, bool) {
	for _, s := range p.Shares {
		if s.Supply == supply && s.Month == month {
			return s.Basis, true
		}
	}
	return "", false
}

// surety says in one line how sure the supplies are, as they stand now: whole
// percents of their cost that add up to 100.
func surety(p figures.Piece) string {
	names := []string{"counted", "measured", "estimated from own coverage", "estimated from buying again", "estimated from stated or starting coverage", "taken as used up"}
	place := map[ledger.Basis]int{ledger.Counted: 0, ledger.Measured: 1, ledger.FromOwn: 2, ledger.FromBuying: 3, ledger.UsedUp: 5}
	sums := make([]money.Cents, len(names))
	for _, s := range p.Shares {
		at, known := place[s.Basis]
		if !known {
			at = 4
		}
		sums[at] += s.Cost
	}
	weights := make([]*big.Rat, len(sums))
	var all money.Cents
	for i, c := range sums {
		if c < 0 {
			return "How sure they are cannot be told in parts: a count, or buying again, took back more than was charged."
		}
		weights[i] = c.Rat()
		all += c
	}
	if all == 0 {
		return "The shares come to nothing, so there is nothing to be sure of."
	}
	var text []string
	for i, part := range money.Share(100, weights) {
		if sums[i] != 0 {
			text = append(text, fmt.Sprintf("%d %% %s", part.Cents, names[i]))
		}
	}
	return "How sure the supplies are, by cost: " + strings.Join(text, ", ") + "."
}
