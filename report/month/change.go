package month

import (
	"cmp"
	"fmt"
	"maps"
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

// change is one line of what changed: by how much, and through what.
type change struct {
	figures.Leaf
	line  string
	total money.Cents
	named map[string]money.Cents
	group string // of expenses
}

// changeOf is a line's two months, with the sign they have in net profit.
func changeOf(in *report.Input, c change) *report.Worked {
	amount := func(f figures.Figures) (string, money.Cents, page.Ref) {
		of := ofStatement(f, c.ID)
		cents := f.Statement.Amount(of.ID)
		if c.ByGroup {
			of.Subject, cents = c.group, f.Statement.Expenses[c.group]
		}
		return f.To.Name(), money.Cents(c.Leaf.Sign) * cents, of
	}
	return report.SumOf(c.line + ": what it adds to net profit against " + in.Before.To.Name()).
		Plus(amount(in.Month)).Less(amount(*in.Before))
}

// changes are the lines of net profit that moved between two months, the
// largest first.
func changes(in *report.Input, before, now calendar.Month) []change {
	leaves := figures.Leaves(figures.OfStatement, figures.LineNetProfit)
	lines := map[changeKey]*change{}
	for i := range in.Postings {
		p := &in.Postings[i]
		if p.Month != before && p.Month != now {
			continue
		}
		for _, leaf := range leaves {
			c := leaf.Adds(p)
			if p.Month == before {
				c = -c
			}
			if c == 0 {
				continue
			}
			key := changeKey{id: leaf.ID}
			if leaf.ByGroup {
				key.group = p.Group
			}
			if lines[key] == nil {
				lines[key] = &change{Leaf: leaf, line: key.name(leaf.Line), group: key.group, named: map[string]money.Cents{}}
			}
			lines[key].total += c
			lines[key].named[changeName(in, *p)] += c
		}
	}
	var out []change
	for _, x := range lines {
		if x.total != 0 {
			out = append(out, *x)
		}
	}
	slices.SortFunc(out, func(a, b change) int {
		return cmp.Or(money.LargestFirst(a.total, b.total), cmp.Compare(a.line, b.line))
	})
	return out
}

// changeKey is a line of the statement, one of expenses by its group.
type changeKey struct {
	id    figures.ID
	group string
}

func (k changeKey) name(l *figures.Line) string {
	if l.ByGroup {
		return words.GroupLabel(k.group)
	}
	return words.Capital(words.Named(figures.OfStatement, k.id))
}

// changeName is what a posting is named by beside others of its line: its
// piece, its supply, else its words.
func changeName(in *report.Input, p ledger.Posting) string {
	switch {
	case p.Piece != "":
		if x := in.Find(p.Piece); x != nil {
			return p.Piece + ", " + x.Record.Kind
		}
		return p.Piece
	case p.Supply != "":
		return p.Supply
	case p.Reason == ledger.ReasonTrip:
		return "the shop"
	}
	return cmp.Or(words.How(p), words.Reason(p.Reason))
}

// changeTold is how many names are given of a line, and changeLines how many
// lines; the rest is one sum.
const (
	changeTold  = 3
	changeLines = 5
)

// changed is what changed against the month before, and through which pieces,
// supplies and records.
func changed(in *report.Input) []page.Block {
	if in.Before == nil {
		return nil
	}
	t := page.Table{Caption: "What changed against " + in.Before.To.Name(), Whole: true,
		Columns: page.Heads{}.Text("Line").Money("Adds to net profit").Wide(1, "Through")}
	all := changes(in, in.Before.To, in.Month.To)
	shown := len(all)
	if shown > changeLines {
		shown = changeLines - 1
	}
	for _, c := range all[:shown] {
		t.Add(page.Text(c.line), cells.Money(c.total).Opens(changeOf(in, c)), page.Text(through(in, c)))
	}
	if shown < len(all) {
		others := report.SumOf("Other lines")
		for _, c := range all[shown:] {
			others.Plus(c.line, c.total, changeOf(in, c))
		}
		t.Add(page.Text(words.Plural(len(all)-shown, "other line", "other lines")), cells.Money(others.Total()).Opens(others))
	}
	t.AddSum(page.GrandTotal, words.NetProfit, "Adds to net profit").Cells[1].Full = true
	t.Note = "Brackets take away from net profit: less received, or more paid. Each name's amount is this month's less " +
		"the month before's."
	return []page.Block{t}
}

// through names what moved a line most, the rest in one sum, so that they add up.
func through(in *report.Input, c change) string {
	names := slices.Sorted(maps.Keys(c.named))
	names = slices.DeleteFunc(names, func(n string) bool { return c.named[n] == 0 })
	slices.SortStableFunc(names, func(a, b string) int { return money.LargestFirst(c.named[a], c.named[b]) })
	var text []string
	shown := min(changeTold, len(names))
	if len(names) == shown+1 {
		shown++ // one more is as short by its name
	}
	for _, n := range names[:shown] {
		text = append(text, n+"\u00a0"+page.Amount(int64(c.named[n]), "", true))
	}
	var rest money.Cents
	for _, n := range names[shown:] {
		rest += c.named[n]
	}
	if n := len(names) - shown; n > 0 {
		text = append(text, fmt.Sprintf("%d\u00a0others\u00a0%s", n, page.Amount(int64(rest), "", true)))
	}
	return strings.Join(text, "; ")
}
