package year

import (
	"cmp"
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/money"
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
	t := page.Table{Columns: page.Heads{}.Wide(1, "Who").Number("Payments").Money("Paid").Text("At or above the limit").
		With(page.Column{Head: "Records", Small: true, Weight: 1})}
	kind, records := "", trailOf(in)
	for _, p := range in.Tax.Payees {
		if p.Kind.What != kind {
			kind = p.Kind.What
			t.AddStyled(page.Group, page.Text(words.Capital(kind)+", "+p.Kind.Form))
		}
		name, over := cmp.Or(p.Name, "no payee named"), ""
		if p.Over {
			over = "yes"
		}
		t.Add(page.Text(name), cells.Count(p.Payments),
			cells.Money(p.Cents).Opens(records.of("Paid to "+name+", "+p.Kind.What, p.Cents, p.Rows...)), page.Text(over),
			page.Text(words.Sources(p.Rows)))
	}
	t.AddSum(page.GrandTotal, "All of these", "Paid")
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
		if text := smallCosts(in); len(text) > 0 {
			return []page.Block{page.Says(page.Body, page.Say("None above "+in.Spoken(in.Settings().ReceiptsOver)+
				".").And(text))}
		}
		return nil
	}
	t := page.Table{Columns: page.Heads{}.Date("Date").Wide(1, "What").Money("Amount").Small("Record")}
	records := trailOf(in)
	for _, p := range in.Tax.NoReceipt {
		t.Add(page.Date(in.Day(p.On)), page.Text(p.Table+": "+p.What),
			cells.Money(p.Cents).Opens(records.of(p.Table+": "+p.What, p.Cents, p.At)), page.Text(p.At.Short()))
	}
	t.NoteFigures = page.Say("Costs above " + in.Spoken(in.Settings().ReceiptsOver) + ".").And(smallCosts(in)).
		And(page.Say("Every money record of the year with its receipt is in year.xlsx, on the sheet Receipts."))
	t.Note = t.NoteFigures.String()
	return []page.Block{t}
}

// smallCosts is how many smaller costs name no receipt, with their sum; blank:
// none.
func smallCosts(in *report.YearInput) page.Sentence {
	x := in.Tax.SmallCosts
	if x.Count == 0 {
		return nil
	}
	of := report.SumOf("Smaller costs without a receipt")
	for _, p := range x.Papers {
		of.Recorded(in.Day(p.On)+", "+p.What, p.Cents, p.At)
	}
	return page.Say("Smaller ones are not listed: "+words.Plural(x.Count, "cost", "costs")+
		" without a receipt, %s together.", in.Said(x.Cents, of))
}

// units is an amount in units as cents.
func units(x *big.Rat) money.Cents { return money.Round(new(big.Rat).Mul(x, big.NewRat(100, 1))) }
