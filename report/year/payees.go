package year

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// payees is who was paid for services, rent and the like, against the year's
// limit.
func payees(in *report.YearInput) []page.Block {
	if len(in.Tax.Payees) == 0 {
		return nil
	}
	limit, source := in.Law.Payees.Limit(in.Tax.Year)
	t := page.Table{Columns: []page.Column{{Head: "Who", Weight: 1}, {Head: "Payments", Kind: page.KindNumber},
		{Head: "Paid", Kind: page.KindMoney}, {Head: "At or above the limit"}, {Head: "Records", Small: true, Weight: 1}}}
	kind, records := "", trailOf(in)
	var sum money.Cents
	for _, p := range in.Tax.Payees {
		if p.Kind.What != kind {
			kind = p.Kind.What
			t.Rows = append(t.Rows, page.Styled(page.Group, page.Text(words.Capital(kind)+", "+p.Kind.Form)))
		}
		name, over := p.Name, ""
		if name == "" {
			name = "no payee named"
		}
		if p.Over {
			over = "yes"
		}
		t.Rows = append(t.Rows, page.Line(page.Text(name), cells.Count(p.Payments),
			cells.Money(p.Cents).Opens(records.of("Paid to "+name+", "+p.Kind.What, p.Cents, p.Rows...)), page.Text(over),
			page.Text(words.Sources(p.Rows))))
		sum += p.Cents
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All of these"), page.Empty(), cells.Money(sum)))
	t.Note = payeeGroups(in)
	if limit != nil {
		t.Note += fmt.Sprintf(" The year's limit for one payee and form is %s (%s). %s", in.Spoken(units(limit)), source,
			in.Law.Payees.Words)
	}
	return []page.Block{t}
}

// payeeGroups says which expense groups the list takes, and which of the
// year's it does not.
func payeeGroups(in *report.YearInput) string {
	var takes, not, listed []string
	for _, k := range in.Law.Payees.Kinds {
		of := slices.Clone(k.Groups)
		listed = append(listed, of...)
		if k.OutsideWork {
			of = append(of, "outside work on pieces")
		}
		takes = append(takes, k.What+": "+words.List(of))
	}
	for _, group := range slices.Sorted(maps.Keys(in.Tax.Figures.Statement.Expenses)) {
		if in.Tax.Figures.Statement.Expenses[group] != 0 && !slices.Contains(listed, group) {
			not = append(not, group)
		}
	}
	not = append(not, "channels' and card fees", "delivery to buyers", "pickup of pieces")
	return "Listed are, by expense group, " + strings.Join(takes, "; ") + ". Not listed: " + words.List(not) +
		". Was anyone among those paid for services, as for selling on commission, delivering or hauling?"
}

// homeUse is what the records hold for use of the home, both ways as far as
// they go, and what is missing for the regular one.
func homeUse(in *report.YearInput) []page.Block {
	h, law := in.Tax.Home, in.Law.Home
	if h == nil {
		return nil
	}
	facts := page.Facts{Columns: 1}
	add := func(label, value string) { facts.Items = append(facts.Items, page.Fact{Label: label, Value: value}) }
	feet := func(text string) string { return text + " square feet" }
	add("the shop", feet(money.AtMost(h.Shop, 2)))
	if h.Whole != nil {
		add("the home", feet(words.Thousands(money.AtMost(h.Whole, 2))))
	}
	simplified := fmt.Sprintf("%s × %s = %s", feet(money.AtMost(h.Counted, 2)), in.Spoken(units(law.Rate)),
		in.Spoken(h.Before))
	if h.Simplified < h.Before {
		simplified += ", within the profit before it " + in.Spoken(h.Simplified)
	}
	add("simplified method, for line "+h.Line, simplified)
	switch {
	case h.Separate:
		add("regular method", "the building's own costs, which are not recorded here")
	case h.Share != nil:
		add("regular method", money.Fixed(h.Share, 2)+" % of what the home costs")
	default:
		add("regular method", "the home's square feet are not given (home_area in settings.toml)")
	}
	add("asked for the regular method", strings.Join(law.Ask, "; "))
	if h.Utilities != 0 {
		add("utilities, on line "+h.UtilitiesLine, in.Spoken(h.Utilities)+" among the shop's expenses")
	}
	text := law.Simplified + " " + law.Regular
	if h.Separate {
		text += " " + law.Separate
	} else if h.Utilities != 0 {
		text += " Of the utilities: " + law.Utilities
	}
	return []page.Block{page.KeepTogether{Blocks: []page.Block{facts, page.Paragraph{Style: page.Note, Text: text}}}}
}

// noReceipt is the costs without a receipt.
func noReceipt(in *report.YearInput) []page.Block {
	if len(in.Tax.NoReceipt) == 0 {
		if text := smallCosts(in); text != "" {
			return []page.Block{page.Paragraph{Text: "None above " + in.Spoken(in.Settings().ReceiptsOver) + "." + text}}
		}
		return nil
	}
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	records := trailOf(in)
	for _, p := range in.Tax.NoReceipt {
		t.Rows = append(t.Rows, page.Line(page.Date(in.Day(p.On)), page.Text(p.Table+": "+p.What),
			cells.Money(p.Cents).Opens(records.of(p.Table+": "+p.What, p.Cents, p.At)),
			page.Text(p.At.Short())))
	}
	t.Note = "Costs above " + in.Spoken(in.Settings().ReceiptsOver) + "." + smallCosts(in) +
		" Every money record of the year with its receipt is in year.xlsx, on the sheet Receipts."
	return []page.Block{t}
}

// smallCosts is how many smaller costs name no receipt, with their sum; blank:
// none.
func smallCosts(in *report.YearInput) string {
	x := in.Tax.SmallCosts
	if x.Count == 0 {
		return ""
	}
	return fmt.Sprintf(" Smaller ones are not listed: %s without a receipt, %s together.",
		words.Plural(x.Count, "cost", "costs"), in.Spoken(x.Cents))
}

// yearTies are the year's reconciliations, a row each; their terms are in the
// workbook.
func yearTies(in *report.YearInput) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "What", Weight: 2}, {Head: "Reached", Kind: page.KindMoney},
		{Head: "Against", Kind: page.KindMoney}, {Head: "Difference", Kind: page.KindMoney}, {Head: "Against what",
			Weight: 2}}}
	for _, tie := range in.Tax.Ties {
		against := words.Against(tie)
		t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(tie.Name)),
			page.FullMoney(int64(tie.Reached)).Opens(tieOf(tie)),
			page.FullMoney(int64(tie.Against)).Opens(inWords(words.Capital(tie.Name)+": against", words.Capital(against)+".",
				tie.Against)), page.FullMoney(int64(tie.Difference)), page.Text(against)))
	}
	t.Note = "Each is one total reached by two ways. The difference is 0.00, or something is wrong with the " +
		"program and its " +
		"makers want to know. The terms are in year.xlsx, on the sheet Reconciliations."
	return []page.Block{t}
}

// tieNamed is the year's reconciliation of that name; nil where it has none.
func tieNamed(y *taxyear.Year, name string) *figures.Tie {
	for i := range y.Ties {
		if y.Ties[i].Name == name {
			return &y.Ties[i]
		}
	}
	return nil
}

// bridges go from the statement's gross and net profit, which December's 'year
// so far' has, to the form's.
func bridges(in *report.YearInput) []page.Block {
	var out []page.Block
	for _, tie := range []*figures.Tie{in.Tax.Bridge, tieNamed(in.Tax, taxyear.TieLines)} {
		if tie == nil {
			continue
		}
		t := page.Table{Span: 5, Whole: true, NoHead: true, Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
		for i, x := range tie.Terms {
			if x.Cents != 0 || i == 0 {
				t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(x.Label)),
					page.FullMoney(int64(x.Cents)).Opens(stepOf(in, x, i))))
			}
		}
		t.Rows = append(t.Rows, page.Styled(page.Total, page.Text(words.Capital(words.Against(*tie))),
			page.FullMoney(int64(tie.Against))))
		out = append(out, t)
	}
	if len(out) == 0 {
		return nil
	}
	return append([]page.Block{page.Heading{Text: toTheForm, Level: 1}, page.Paragraph{
		Text: "The statement is that of the months together, which December's pages have as 'year so far'."}}, out...)
}

// toTheForm heads what leads from the months' statement to the form.
const toTheForm = "From the statement to the form"

// stepOf is the nth step from the statement to the form: the profit of the
// months together, then what the form counts otherwise.
func stepOf(in *report.YearInput, x figures.Term, n int) page.Ref {
	f := in.Tax.Figures
	of := report.Sum{Of: figures.OfStatement, From: f.From, To: f.To}
	switch {
	case n == 0 && x.Cents == f.Statement.GrossProfit:
		of.ID = figures.LineGrossProfit
		return of
	case n == 0 && x.Cents == f.Statement.NetProfit:
		of.ID = figures.LineNetProfit
		return of
	}
	return inWords(words.Capital(x.Label), "A step from the statement to the form; its records are those of "+
		"the form's lines.",
		x.Cents)
}

// units is an amount in units as cents.
func units(x *big.Rat) money.Cents { return money.Round(new(big.Rat).Mul(x, big.NewRat(100, 1))) }
