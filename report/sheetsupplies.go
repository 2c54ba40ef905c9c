package report

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
	"piecebook/report/page"
)

// supplyTable is every supply share with its arithmetic, by what stays on the
// piece and what is used up, and how sure they are.
func (in *Input) supplyTable(p figures.Piece, mine []ledger.Posting) []page.Block {
	t := page.Table{Caption: "Supplies", Columns: []page.Column{
		{Head: "Supply", Weight: 2}, {Head: "Month"},
		{Head: "Coated, " + unbroken(in.settings().AreaUnit()), Kind: page.KindNumber}, {Head: "Cost", Kind: page.KindMoney},
		{Head: "How known"}, {Head: "Record", Small: true, Weight: 1}}}
	stays := in.staying()
	work := workRows{}
	var sum money.Cents
	groups := 0
	for _, staying := range []bool{true, false} {
		rows, part := in.shareRows(p, mine, work, func(supply string) bool { return stays[supply] == staying })
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
		t.Rows = append(t.Rows, page.Styled(page.Subtotal, page.Text(name), page.Empty(), page.Empty(), cash(part)))
	}
	if groups == 0 {
		return []page.Block{page.Heading{Text: "Supplies", Level: 1}, page.Paragraph{Text: "No supply has been charged to it."}}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All supplies"), page.Empty(), page.Empty(), cash(sum)))
	t.Note = in.coatedNote() + work.words()
	return []page.Block{t, page.Paragraph{Text: surety(p)}}
}

func (in *Input) coatedNote() string {
	return "Coated area is the month's, area times coats. A supply shared by hours or by pieces has none; one shared by bench time shows the area coated with all supplies."
}

// staying says of each supply whether it stays on the piece.
func (in *Input) staying() map[string]bool {
	out := map[string]bool{}
	for _, s := range in.Books.Supplies {
		out[s.Name] = s.Stays
	}
	return out
}

// shareRows are the shares of the supplies asked for, by supply and month.
func (in *Input) shareRows(p figures.Piece, mine []ledger.Posting, work workRows, asked func(string) bool) ([]page.Row, money.Cents) {
	var shares []ledger.Posting
	for _, x := range mine {
		if l, _ := lineOf(x); l == suppliesLine && asked(x.Supply) {
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
	for i, x := range shares {
		coated := number(x.Coated, 2)
		if i > 0 && shares[i-1].Supply == x.Supply && shares[i-1].Month == x.Month {
			coated = page.Empty() // it is the month's, and told already
		}
		known := nowKnown(p, x)
		if x.Why == ledger.WhyRecount {
			coated, known = page.Empty(), "count correction"
		}
		row := page.Line(page.Text(x.Supply), page.Text(x.Month.String()), coated, cash(x.Cents), page.Text(known), page.Text(work.brief(x.Month, allSources(x.Source))))
		row.Note = strings.TrimLeft(strings.TrimPrefix(x.Arithmetic, x.Supply), ",: ")
		rows = append(rows, row)
		sum += x.Cents
	}
	return rows, sum
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
	return "its work of " + m.String()
}

// words tells the rows behind each month's work.
func (w workRows) words() string {
	var b strings.Builder
	for _, m := range slices.Sorted(maps.Keys(w)) {
		fmt.Fprintf(&b, " Its work of %s: %s.", m, w[m])
	}
	return b.String()
}

// basisWords says how sure a share is.
var basisWords = map[ledger.Basis]string{
	ledger.Counted: "counted", ledger.Measured: "measured", ledger.FromOwn: "own coverage", ledger.Stated: "stated coverage",
	ledger.Starting: "starting figure", ledger.UsedUp: "taken as used up", ledger.NoBasis: "nothing drawn"}

// nowKnown is how a share was known, and whether a later count has since
// closed its span.
func nowKnown(p figures.Piece, x ledger.Posting) string {
	known := basisWords[x.Basis]
	if x.Basis == ledger.Counted {
		return known
	}
	if now, ok := basisNow(p, x.Supply, x.Month); ok && now == ledger.Counted {
		return known + ", since counted"
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
	names := []string{"counted", "measured", "estimated", "taken as used up"}
	sums := make([]money.Cents, len(names))
	for _, s := range p.Shares {
		switch s.Basis {
		case ledger.Counted:
			sums[0] += s.Cost
		case ledger.Measured:
			sums[1] += s.Cost
		case ledger.UsedUp:
			sums[3] += s.Cost
		default:
			sums[2] += s.Cost
		}
	}
	weights := make([]*big.Rat, len(sums))
	var all money.Cents
	for i, c := range sums {
		if c < 0 {
			return "How sure they are cannot be told in parts: a count took back more than was charged."
		}
		weights[i] = c.Rat()
		all += c
	}
	if all == 0 {
		return "The shares come to nothing, so there is nothing to be sure of."
	}
	var words []string
	for i, part := range money.Share(100, weights) {
		if sums[i] != 0 {
			words = append(words, fmt.Sprintf("%d %% %s", part.Cents, names[i]))
		}
	}
	return "How sure the supplies are, by cost: " + strings.Join(words, ", ") + "."
}
