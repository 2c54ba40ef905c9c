package month

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// profitAccounts are the accounts that net profit is made of: what leaves one
// adds to it, what comes to one takes away.
var profitAccounts = []ledger.Account{ledger.Receipts, ledger.CostOfSales, ledger.SellingCosts, ledger.Trips,
	ledger.Expenses,
	ledger.EquipmentCost, ledger.ShelfLosses, ledger.Lost, ledger.Other}

// toProfit is what a posting adds to net profit through an account.
func toProfit(p ledger.Posting, a ledger.Account) money.Cents {
	var sum money.Cents
	if p.From == a {
		sum += p.Cents
	}
	if p.To == a {
		sum -= p.Cents
	}
	return sum
}

// change is one line of what changed: by how much, and through what.
type change struct {
	line    string
	account ledger.Account
	total   money.Cents
	named   map[string]money.Cents
}

// changes are the lines of net profit that moved between two months, the
// largest first.
func changes(in *report.Input, before, now calendar.Month) []change {
	lines := map[string]*change{}
	for _, p := range in.Postings {
		if p.Month != before && p.Month != now {
			continue
		}
		for _, a := range profitAccounts {
			c := toProfit(p, a)
			if p.Month == before {
				c = -c
			}
			if c == 0 {
				continue
			}
			name := changeLine(p, a)
			if lines[name] == nil {
				lines[name] = &change{line: name, account: a, named: map[string]money.Cents{}}
			}
			lines[name].total += c
			lines[name].named[changeName(in, p)] += c
		}
	}
	var out []change
	for _, name := range slices.Sorted(maps.Keys(lines)) {
		if lines[name].total != 0 {
			out = append(out, *lines[name])
		}
	}
	slices.SortStableFunc(out, func(a, b change) int { return money.LargestFirst(a.total, b.total) })
	return out
}

// changeLine is the statement's line that an account's posting counts in.
func changeLine(p ledger.Posting, a ledger.Account) string {
	switch a {
	case ledger.Receipts:
		return "Receipts"
	case ledger.CostOfSales:
		return "Cost of pieces sold"
	case ledger.EquipmentCost:
		return "Equipment written off at once"
	case ledger.Lost:
		return "Pieces lost"
	case ledger.Expenses:
		return words.Capital(cmp.Or(p.Group, string(a)))
	}
	return words.Capital(string(a))
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

// changeTold is how many names are told of a line, and changeLines how many
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
		Columns: []page.Column{{Head: "Line"}, {Head: "Adds to net profit", Kind: page.KindMoney},
			{Head: "Through", Weight: 1}}}
	all := changes(in, in.Before.To, in.Month.To)
	told := len(all)
	if told > changeLines {
		told = changeLines - 1
	}
	var sum, rest money.Cents
	for i, c := range all {
		sum += c.total
		if i >= told {
			rest += c.total
			continue
		}
		t.Rows = append(t.Rows, page.Line(page.Text(c.line), cells.Money(c.total), page.Text(through(in, c))))
	}
	if told < len(all) {
		t.Rows = append(t.Rows, page.Line(page.Text(words.Plural(len(all)-told, "other line", "other lines")),
			cells.Money(rest)))
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("Net profit"), page.FullMoney(int64(sum))))
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
	told := min(changeTold, len(names))
	if len(names) == told+1 {
		told++ // one more is as short by its name
	}
	for _, n := range names[:told] {
		text = append(text, n+"\u00a0"+page.Amount(int64(c.named[n]), "", true))
	}
	var rest money.Cents
	for _, n := range names[told:] {
		rest += c.named[n]
	}
	if n := len(names) - told; n > 0 {
		text = append(text, fmt.Sprintf("%d others\u00a0%s", n, page.Amount(int64(rest), "", true)))
	}
	return strings.Join(text, "; ")
}
